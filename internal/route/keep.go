package route

import (
	"math"

	"loomwright/internal/scene"
)

// keepFixed lays the wires that keep an earlier path.
func (r *router) keepFixed() {
	for w := range r.wires {
		if r.wires[w].Fix == nil {
			continue
		}
		if r.fix(w) {
			r.put(w, 1)
			continue
		}
		r.wires[w].Fix = nil
	}
}

// fix turns a kept path into nodes; false when it does not lie on the grid or
// does not end where the wire does.
func (r *router) fix(w int) bool {
	s, points := &r.state[w], r.wires[w].Fix
	s.a, s.b = port{slot: -1}, port{slot: -1}
	s.a.joint, s.b.joint = r.wires[w].A.Kind == InZone, r.wires[w].B.Kind == InZone
	from, to := 0, len(points)-1
	if to < 1 {
		return false
	}
	if slanted(points[0], points[1]) {
		s.a.from, from = &points[0], 1
	}
	if slanted(points[to-1], points[to]) && to > 1 {
		s.b.from, to = &points[to], to-1
	}
	nodes, ok := r.walk(points[from : to+1])
	if !ok {
		return false
	}
	s.nodes, s.routed = nodes, true
	s.a.node, s.b.node = nodes[0], nodes[len(nodes)-1]
	r.fixSlants(s)
	return r.fixSlot(w)
}

func (r *router) fixSlants(s *wireState) {
	for _, p := range []*port{&s.a, &s.b} {
		if p.from == nil {
			continue
		}
		if n, ok := r.grid.find(*p.from); ok {
			p.near = r.nearSegment(*p.from, r.grid.at(p.node), n)
		}
		p.cost = int32((slantCost + r.grid.at(p.node).Dist(*p.from)) * unit)
	}
}

// fixSlot gives a fan's lead the slot that its path starts in, and the lead
// that had it the other's.
func (r *router) fixSlot(w int) bool {
	if r.wires[w].A.Kind != InFan {
		return true
	}
	fan := r.wires[w].A.Index
	for i, at := range r.board.Fans[fan].Slots {
		if at.Dist(r.wires[w].Fix[0]) > 1e-3 {
			continue
		}
		for v := range r.wires {
			if v != w && r.wires[v].A.Kind == InFan && r.wires[v].A.Index == fan && r.state[v].slot == i {
				r.state[v].slot = r.state[w].slot
			}
		}
		r.state[w].slot = i
		return true
	}
	return false
}

// walk is the nodes along upright corners; false when one is off the grid.
func (r *router) walk(points []scene.Point) ([]int32, bool) {
	n, ok := r.grid.find(points[0])
	if !ok {
		return nil, false
	}
	nodes := []int32{n}
	for _, p := range points[1:] {
		end, ok := r.grid.find(p)
		if !ok || slanted(r.grid.at(n), p) {
			return nil, false
		}
		d := toward(r.grid.at(n), p)
		for n != end {
			if n, _, _, ok = r.grid.step(n, d); !ok {
				return nil, false
			}
			nodes = append(nodes, n)
		}
	}
	return nodes, len(nodes) > 1
}

func slanted(a, b scene.Point) bool {
	return math.Abs(a.X-b.X) > 2e-3 && math.Abs(a.Y-b.Y) > 2e-3
}

func toward(a, b scene.Point) Dir {
	switch {
	case b.X > a.X+2e-3:
		return Right
	case b.X < a.X-2e-3:
		return Left
	case b.Y > a.Y:
		return Down
	}
	return Up
}
