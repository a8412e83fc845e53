package route

import "math"

// tapPorts are the places on a routed wire, near one of its ends, at which a
// braid or the other wire of a pair parts from it.
func (r *router) tapPorts(e *End) []port {
	w := &r.state[e.Index]
	nodes := w.nodes
	var out []port
	for pass := 0; pass < 2 && len(out) == 0; pass++ {
		lo, hi := tapFrom, tapTo
		if pass == 1 {
			lo, hi = 1.5, math.Inf(1) // a short cable: anywhere
		}
		dist := 0.0
		for k := 1; k+1 < len(nodes); k++ {
			i := k
			if e.Far {
				i = len(nodes) - 1 - k
			}
			before, here, after := nodes[i-1], nodes[i], nodes[i+1]
			dist += r.grid.at(here).Dist(r.grid.at(nodes[i+1-2*b2i(!e.Far)]))
			d := r.heading(before, here)
			if dist < lo || dist > hi || d != r.heading(here, after) {
				continue
			}
			for _, side := range []Dir{(d + 1) % 4, (d + 3) % 4} {
				out = append(out, port{node: here, dir: side, cost: int32(math.Abs(dist-8) * unit / 2), slot: -1})
			}
		}
	}
	return out
}
