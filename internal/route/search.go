package route

import "loomwright/internal/scene"

// search finds the cheapest path of one wire among those that are laid.
type search struct {
	r      *router
	wire   int
	hx, hy []int32 // distance of each line to the goals
	gx, gy [2]int  // lines of the goals' box
	starts []port
	goals  []port
	heap   heap
}

// found is a search's answer.
type found struct {
	nodes []int32
	a, b  port
	cost  int32
}

// find routes a wire; it gives up above a limit of cost. The wire itself must
// be off the grid.
func (r *router) find(w int, limit int32) (found, bool) {
	s := search{r: r, wire: w, heap: r.heap[:0]}
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
		s.heap = s.heap[:0]
		s.aim(noLimit)
		out, ok = s.run(limit)
	}
	for _, p := range s.goals {
		r.goal[stateOf(p.node, p.dir.Back())] = 0
	}
	r.ease(w, 1)
	r.heap = s.heap
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

// outside marks lines beyond the window.
const outside = -1

// aim marks the goals and fills the heuristic's tables.
func (s *search) aim(margin float64) {
	r, g := s.r, &s.r.grid
	r.epoch++
	i, j := g.ij(s.goals[0].node)
	s.gx, s.gy = [2]int{i, i}, [2]int{j, j}
	for k, p := range s.goals {
		i, j := g.ij(p.node)
		s.gx = [2]int{min(s.gx[0], i), max(s.gx[1], i)}
		s.gy = [2]int{min(s.gy[0], j), max(s.gy[1], j)}
		at := stateOf(p.node, p.dir.Back())
		if old := r.goal[at]; old == 0 || s.goals[old-1].cost > p.cost {
			r.goal[at] = int32(k + 1)
		}
	}
	s.hx, s.hy = distances(g.xs, s.gx, r.hx), distances(g.ys, s.gy, r.hy)
	box := r.state[s.wire].reach[0].Union(r.state[s.wire].reach[1]).Grow(margin)
	narrowTo(s.hx, g.xs, box.Min.X, box.Max.X)
	narrowTo(s.hy, g.ys, box.Min.Y, box.Max.Y)
}

func narrowTo(h []int32, lines []float64, lo, hi float64) {
	for i, v := range lines {
		if v < lo || v > hi {
			h[i] = outside
		}
	}
}

func distances(lines []float64, goal [2]int, out []int32) []int32 {
	for i, v := range lines {
		out[i] = int32(max(lines[goal[0]]-v, v-lines[goal[1]], 0) * unit)
	}
	return out
}

// ahead is a lower bound of what is left: distance, and bends that no path
// avoids. It is outside beyond the window.
func (s *search) ahead(n int32, d Dir) int32 {
	i, j := s.r.grid.ij(n)
	hx, hy := s.hx[i], s.hy[j]
	if hx < 0 || hy < 0 {
		return outside
	}
	h := hx + hy
	if d.upright() {
		hy, i = hx, j
	}
	away := false
	switch d {
	case Right:
		away = i > s.gx[1]
	case Left:
		away = i < s.gx[0]
	case Down:
		away = i > s.gy[1]
	case Up:
		away = i < s.gy[0]
	}
	switch {
	case away:
		h += 2 * bendCost * unit
	case hy > 0:
		h += bendCost * unit
	}
	return h
}

func (s *search) run(limit int32) (found, bool) {
	r := s.r
	for k := range s.starts {
		s.start(k)
	}
	for s.heap.len() > 0 {
		f, st := s.heap.pop()
		if f > limit {
			break
		}
		if st < 0 {
			return s.trace(-st-1, f), true
		}
		n, d := st/4, Dir(st%4)
		g := r.best[st]
		if f > g+s.ahead(n, d) {
			continue // an older, dearer entry
		}
		if r.looked++; !r.first {
			if r.effort--; r.effort < 0 {
				break
			}
		}
		if k := r.goal[st]; k > 0 {
			s.heap.push(g+s.endCost(&s.goals[k-1])+lastPiece(r.run[st]), -st-1)
		}
		s.expand(n, d, g, limit)
	}
	return found{}, false
}

// start leaves a port: the first edge is straight.
func (s *search) start(k int) {
	p := &s.starts[k]
	next, e, length, ok := s.r.grid.step(p.node, p.dir)
	if !ok {
		return
	}
	g := s.endCost(p) + s.r.edgeCost(e, length)
	s.reachState(next, p.dir, g, length, int32(-k-1))
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

func (s *search) expand(n int32, d Dir, g, limit int32) {
	r := s.r
	r.memory.looked.add(r.grid.col[n], r.grid.row[n])
	for nd := range Dir(4) {
		if nd == d.Back() {
			continue
		}
		next, e, length, ok := r.grid.step(n, nd)
		if !ok {
			continue
		}
		run := r.run[stateOf(n, d)]
		cost := g + r.edgeCost(e, length) + r.nodeCost(s.wire, n, d, nd, run)
		if cost > limit {
			continue
		}
		run += length
		if nd != d {
			run = length
		}
		s.reachState(next, nd, cost, run, stateOf(n, d))
	}
}

func (s *search) reachState(n int32, d Dir, g, run, from int32) {
	r, st := s.r, stateOf(n, d)
	if r.seen[st] == r.epoch && r.best[st] <= g {
		return
	}
	h := s.ahead(n, d)
	if h == outside {
		return
	}
	r.seen[st], r.best[st], r.run[st], r.from[st] = r.epoch, g, run, from
	s.heap.push(g+h, st)
}

// trace walks back from a goal.
func (s *search) trace(st, cost int32) found {
	r := s.r
	out := found{cost: cost, b: s.goals[r.goal[st]-1]}
	var back []int32
	for {
		back = append(back, st/4)
		from := r.from[st]
		if from < 0 {
			out.a = s.starts[-from-1]
			back = append(back, out.a.node)
			break
		}
		st = from
	}
	for i := len(back) - 1; i >= 0; i-- {
		out.nodes = append(out.nodes, back[i])
	}
	return out
}
