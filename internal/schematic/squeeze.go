package schematic

// squeeze takes out the rows and columns of the grid that only carry wires
// straight across, and returns the wires on the smaller grid.
func (r *router) squeeze(l *layout, lost []int) (*router, []int) {
	busyX, busyY := make([]bool, r.w), make([]bool, r.h)
	for i := range min(room, r.w, r.h) {
		busyX[i], busyY[i] = true, true
	}
	for node := range r.blocked {
		p := r.at(node)
		if r.blocked[node] || r.pinNet[node] >= 0 || r.bends(node) {
			busyX[p.x], busyY[p.y] = true, true
		}
		if r.edges[1][node] >= 0 {
			busyX[p.x] = true
		}
		if r.edges[0][node] >= 0 {
			busyY[p.y] = true
		}
	}
	newX, newY := kept(busyX), kept(busyY)
	for _, s := range l.symbols {
		s.squeeze(newX, newY)
	}
	out := newRouter(l)
	for node := range r.blocked {
		p := r.at(node)
		to := out.node(gp{newX[p.x], newY[p.y]})
		if net := r.edges[0][node]; net >= 0 && newX[p.x+1] > newX[p.x] {
			out.edges[0][to] = net
		}
		if net := r.edges[1][node]; net >= 0 && newY[p.y+1] > newY[p.y] {
			out.edges[1][to] = net
		}
	}
	for i, node := range lost {
		p := r.at(node)
		lost[i] = out.node(gp{newX[p.x], newY[p.y]})
	}
	return out, lost
}

// squeeze moves a symbol to the smaller grid. Its own rows and columns are all
// kept.
func (s *symbol) squeeze(newX, newY []int) {
	lo, _ := s.box()
	s.origin = s.origin.add(gp{newX[lo.x] - lo.x, newY[lo.y] - lo.y})
}

// bends reports whether a wire turns or ends at a node.
func (r *router) bends(node int) bool {
	for h := range 2 {
		if r.netAt(node, h) != r.netAt(node, h+2) {
			return true
		}
	}
	return false
}

// kept numbers the lines of a grid anew: of neighbouring idle ones none stays.
func kept(busy []bool) []int {
	out := make([]int, len(busy))
	n := 0
	for i, b := range busy {
		out[i] = n
		if b {
			n++
		}
	}
	return out
}
