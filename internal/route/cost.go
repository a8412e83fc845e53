package route

import "loomwright/internal/scene"

// costOf is what a wire costs among those that are laid; it must be off the
// grid itself. It charges as find does.
func (r *router) costOf(w int) int32 {
	s, wire := &r.state[w], &r.wires[w]
	if !s.routed {
		return unrouted
	}
	if len(s.nodes) < 2 {
		return 0
	}
	r.ease(w, -1)
	defer r.ease(w, 1)
	look := search{r: r, wire: w}
	cost := look.endCost(&s.a) + look.endCost(&s.b) + r.jointCost(w, &wire.A, &s.a) + r.jointCost(w, &wire.B, &s.b)
	run := int32(0)
	for k := 0; k+1 < len(s.nodes); k++ {
		d := r.heading(s.nodes[k], s.nodes[k+1])
		_, e, length, _ := r.grid.step(s.nodes[k], d)
		cost += r.edgeCost(e, length)
		if k > 0 {
			in := r.heading(s.nodes[k-1], s.nodes[k])
			cost += r.nodeCost(w, s.nodes[k], in, d, run)
			if in != d {
				run = 0
			}
		}
		run += length
	}
	return cost + lastPiece(run)
}

// jointCost is what a joint costs beyond its port's price: the price found at
// the time the wire was laid may be out of date.
func (r *router) jointCost(w int, e *End, p *port) int32 {
	if e.Kind != InZone {
		return 0
	}
	for _, q := range r.openJoints(w, e) {
		if q.node == p.node && q.dir == p.dir {
			return q.cost - p.cost
		}
	}
	return 0
}

// without takes a wire and those that end on it off the grid while do runs: a
// braid that parts from its cable is not in its way.
func (r *router) without(w int, do func()) {
	for _, v := range append(r.on[w], w) {
		r.put(v, -1)
	}
	do()
	for _, v := range append(r.on[w], w) {
		r.put(v, 1)
	}
}

// total is what all wires cost together, in mm: what two share is counted once.
func (r *router) total() float64 {
	for w := range r.wires {
		r.put(w, -1)
	}
	sum := int64(0)
	for w := range r.wires {
		sum += int64(r.costOf(w))
		r.put(w, 1)
	}
	return float64(sum) / unit
}

// result reads the paths off the grid.
func (r *router) result() Result {
	out := Result{Paths: make([]Path, len(r.wires)), Cost: r.total()}
	for w := range r.wires {
		s := &r.state[w]
		p := Path{Slot: -1, Routed: s.routed}
		if r.wires[w].A.Kind == InFan {
			p.Slot = s.slot
		}
		if s.routed {
			p.Points = r.points(s)
			p.Conflict = r.conflicted(w)
		}
		if p.Conflict {
			out.Conflicts++
		}
		out.Paths[w] = p
	}
	r.eachThrough(func(_ int, n int32, d Dir) {
		if d == Right || d == Left {
			out.Crossings += int(r.through[1][n])
		}
	})
	return out
}

// points is a path as its corners, with the slants at its ends.
func (r *router) points(s *wireState) []scene.Point {
	var out []scene.Point
	if s.a.from != nil {
		out = append(out, *s.a.from)
	}
	last := len(s.nodes) - 1
	for k, n := range s.nodes {
		if k == 0 || k == last || r.heading(s.nodes[k-1], n) != r.heading(n, s.nodes[k+1]) {
			out = append(out, r.grid.at(n))
		}
	}
	if s.b.from != nil {
		out = append(out, *s.b.from)
	}
	return out
}
