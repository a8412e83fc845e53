package route

import "loomwright/internal/scene"

// search finds the cheapest path of one wire among those that are laid.
type search struct {
	r      *router
	wire   int
	bound  bound
	starts []port
	goals  []port
}

// found is a search's answer.
type found struct {
	nodes []int32
	a, b  port
	cost  int32
}

// visit is what a search knows of a state, a node and the heading in which it
// was reached.
type visit struct {
	best, run, from int32 // cost, length since the last bend, state before
	epoch           int32 // the search that this is of
	done            bool
}

// find routes a wire; it gives up above a limit of cost. The wire itself must
// be off the grid.
func (r *router) find(w int, limit int32) (found, bool) {
	s := search{r: r, wire: w}
	wire := &r.wires[w]
	s.starts, s.goals = r.ports(w, &wire.A, false), r.ports(w, &wire.B, true)
	if len(s.starts) == 0 || len(s.goals) == 0 {
		return found{}, false
	}
	r.ease(w, -1)
	r.state[w].reach = [2]scene.Rect{r.reach(s.starts), r.reach(s.goals)}
	s.aim(window)
	out, ok := s.run(limit)
	if !ok && limit == noLimit {
		s.aim(noLimit)
		out, ok = s.run(limit)
	}
	for _, p := range s.goals {
		r.goal[stateOf(p.node, p.dir.Back())] = 0
	}
	r.ease(w, 1)
	return out, ok
}

// reach is where crossings are near an end: about its ports.
func (r *router) reach(ports []port) scene.Rect {
	at := r.grid.at(ports[0].node)
	box := scene.Rect{Min: at, Max: at}
	for _, p := range ports[1:] {
		at = r.grid.at(p.node)
		box.Min = scene.Pt(min(box.Min.X, at.X), min(box.Min.Y, at.Y))
		box.Max = scene.Pt(max(box.Max.X, at.X), max(box.Max.Y, at.Y))
	}
	return box.Grow(tailLength - 1)
}

func stateOf(n int32, d Dir) int32 { return n*4 + int32(d) }

// window is how far around its ends a wire looks for its way first, mm.
const window = 48

// aim marks the goals and prepares the bound of what is left.
func (s *search) aim(margin float64) {
	r := s.r
	r.epoch++
	r.queue.clear()
	for k, p := range s.goals {
		at := stateOf(p.node, p.dir.Back())
		if old := r.goal[at]; old == 0 || s.goals[old-1].cost > p.cost {
			r.goal[at] = int32(k + 1)
		}
	}
	s.bound = r.bound
	s.bound.aim(&r.grid, s.goals)
	s.bound.within(&r.grid, r.state[s.wire].reach[0].Union(r.state[s.wire].reach[1]).Grow(margin))
}

func (s *search) run(limit int32) (found, bool) {
	r := s.r
	for k := range s.starts {
		s.start(k, limit)
	}
	for r.queue.len() > 0 {
		f, st := r.queue.pop()
		if st < 0 {
			return s.trace(-st-1, f), true
		}
		v := &r.visits[st]
		if v.done {
			continue // it came out before, cheaper
		}
		v.done = true
		if r.looked++; !r.first {
			if r.effort--; r.effort < 0 {
				break
			}
		}
		if k := r.goal[st]; k > 0 {
			if f := v.best + s.endCost(&s.goals[k-1]) + lastPiece(v.run); f <= limit {
				r.queue.push(f, -st-1)
			}
		}
		s.expand(st, limit)
	}
	return found{}, false
}

// start leaves a port: the first edge is straight.
func (s *search) start(k int, limit int32) {
	p := &s.starts[k]
	next, e, length, ok := s.r.grid.step(p.node, p.dir)
	if !ok {
		return
	}
	g := s.endCost(p) + s.r.edgeCost(e, length)
	s.reachState(next, p.dir, g, length, int32(-k-1), limit)
}

// endCost is what it costs to end or start at a port.
func (s *search) endCost(p *port) int32 {
	cost := p.cost
	if p.alone && s.r.stops[p.node] > 0 {
		cost += s.r.pressure * nodeLength
	}
	if p.from != nil {
		n := int32(0)
		for _, e := range p.near {
			n += int32(s.r.use[e])
		}
		n += int32(s.r.stops[p.node] + s.r.through[0][p.node] + s.r.through[1][p.node])
		cost += n * s.r.pressure * nodeLength
	}
	return cost
}

func (s *search) expand(st, limit int32) {
	r := s.r
	n, d := st/4, Dir(st%4)
	g, run := r.visits[st].best, r.visits[st].run
	r.memory.looked.add(r.grid.col[n], r.grid.row[n])
	for nd := range Dir(4) {
		if nd == d.Back() {
			continue
		}
		next, e, length, ok := r.grid.step(n, nd)
		if !ok {
			continue
		}
		cost := g + r.edgeCost(e, length)
		if cost > limit {
			continue
		}
		cost += r.nodeCost(s.wire, n, d, nd, run)
		if nd == d {
			length += run
		}
		s.reachState(next, nd, cost, length, st, limit)
	}
}

// reachState puts a state into the queue if it was never reached so cheaply and
// may lead to a goal below the limit.
func (s *search) reachState(n int32, d Dir, g, run, from, limit int32) {
	r := s.r
	v := &r.visits[stateOf(n, d)]
	if v.epoch == r.epoch && v.best <= g {
		return
	}
	h := s.bound.of(&r.grid, n, d)
	if h == outside || g+h > limit {
		return
	}
	*v = visit{best: g, run: run, from: from, epoch: r.epoch}
	r.queue.push(g+h, stateOf(n, d))
}

// trace walks back from a goal.
func (s *search) trace(st, cost int32) found {
	r := s.r
	out := found{cost: cost, b: s.goals[r.goal[st]-1]}
	count := 2
	for at := st; r.visits[at].from >= 0; at = r.visits[at].from {
		count++
	}
	out.nodes = make([]int32, count)
	for i := count - 1; i > 0; i-- {
		out.nodes[i] = st / 4
		st = r.visits[st].from
	}
	out.a = s.starts[-st-1]
	out.nodes[0] = out.a.node
	return out
}
