package route

// Negotiation, in the manner of PathFinder: all wires take their best way, then
// those that conflict do it again and again at a growing price.
const (
	rounds      = 16
	quickRounds = 7
	growth      = 1.7
	historyStep = 0.4 * unit
)

func (r *router) negotiate(most int) {
	order := r.order()
	pressure := r.prices.first * unit
	if r.free() == 1 {
		most, pressure = 1, hard // nobody to negotiate with
	}
	for round := range most {
		r.pressure = int32(min(pressure, 40*hard))
		r.first = round == 0
		again := 0
		for _, w := range order {
			s := &r.state[w]
			if round > 0 && s.routed && !r.conflicted(w) || r.wires[w].Fix != nil && s.routed {
				continue
			}
			again++
			r.redo(w)
		}
		if again == 0 || r.effort < 0 {
			break
		}
		r.remember()
		pressure *= growth
	}
	r.first = false
	r.restoreLost()
	r.pressure = hard
	clear(r.history)
}

// restoreLost gives wires that lost their path when the effort ran out one
// again.
func (r *router) restoreLost() {
	for _, w := range r.order() {
		if !r.state[w].routed {
			r.first = true
			r.lay(w, noLimit)
			r.first = false
		}
	}
}

// redo routes a wire anew, and after it those that end on it.
func (r *router) redo(w int) {
	for _, d := range r.on[w] {
		r.lift(d)
	}
	r.lift(w)
	r.lay(w, noLimit)
	for _, d := range r.on[w] {
		r.lay(d, noLimit)
	}
}

// remember raises the price of edges that two wires want.
func (r *router) remember() {
	for e := range r.use {
		if r.use[e] > 0 && r.crowd[e] > r.use[e] || r.use[e] > 1 {
			r.history[e] += historyStep
		}
	}
}

// conflicted reports whether a wire shares an edge or a node, or runs too near.
func (r *router) conflicted(w int) bool { return r.conflicts(w) > 0 }

// conflicts counts where a wire is in another's way.
func (r *router) conflicts(w int) (n int) {
	s := &r.state[w]
	if !s.routed || len(s.nodes) == 0 {
		return 0
	}
	r.without(w, func() { n = r.inTheWay(s) })
	return n
}

// inTheWay counts where a path that is off the grid meets those that are on it.
func (r *router) inTheWay(s *wireState) (n int) {
	last := len(s.nodes) - 1
	for k := 0; k < last; k++ {
		d := r.heading(s.nodes[k], s.nodes[k+1])
		_, e, _, _ := r.grid.step(s.nodes[k], d)
		n += b2i(r.crowd[e] > 0)
		if k == 0 {
			continue
		}
		in, at := r.heading(s.nodes[k-1], s.nodes[k]), s.nodes[k]
		if in != d {
			n += b2i(r.through[0][at]+r.through[1][at]+r.stops[at] > 0)
		} else {
			n += b2i(r.stops[at] > 0)
		}
	}
	for _, p := range []*port{&s.a, &s.b} {
		for _, e := range p.near {
			n += b2i(r.use[e] > 0)
		}
		n += b2i(p.alone && r.stops[p.node] > 0)
	}
	return n
}
