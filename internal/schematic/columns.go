package schematic

import "slices"

// columns gives every symbol a column: coils on the left, then what the sound
// goes through, the jack on the right; what only loads stands right of where it
// is joined.
func (n *netlist) columns() {
	path := n.onPath()
	hops := n.hops(path)
	deepest := 1
	for i, s := range n.symbols {
		if path[i] && s.kind != coilSymbol && s.kind != jackSymbol {
			deepest = max(deepest, hops[i])
		}
	}
	for i, s := range n.symbols {
		switch {
		case s.kind == coilSymbol:
			s.column = 0
		case s.kind == jackSymbol:
			s.column = deepest + 1
		case path[i]:
			s.column = deepest + 1 - hops[i]
		default:
			s.column = -1
		}
	}
	n.loads(deepest)
	n.closeColumns()
}

// hops counts the symbols of the path from hot to each, itself included.
func (n *netlist) hops(path []bool) []int {
	out := make([]int, len(n.symbols))
	reached := []int{n.hot}
	seen := map[int]bool{n.hot: true}
	for d := 1; len(reached) > 0; d++ {
		var next []int
		for i, s := range n.symbols {
			if out[i] > 0 || !path[i] || s.kind == coilSymbol || !s.touches(reached) {
				continue
			}
			out[i] = d
			for _, p := range s.pins {
				if p.net != n.ground && !seen[p.net] {
					next = append(next, p.net)
				}
			}
		}
		for _, net := range next {
			seen[net] = true
		}
		reached = next
	}
	return out
}

func (s *symbol) touches(nets []int) bool {
	return slices.ContainsFunc(s.pins, func(p pin) bool { return slices.Contains(nets, p.net) })
}

// loads places what is not on the path, from where it is joined outward.
func (n *netlist) loads(deepest int) {
	for {
		placed := false
		for _, s := range n.symbols {
			if s.column >= 0 {
				continue
			}
			if at := n.neighbour(s); at >= 0 {
				s.column = -2 - at // placed in this round
				placed = true
			}
		}
		for _, s := range n.symbols {
			if s.column < -1 {
				s.column = -2 - s.column
			}
		}
		if !placed {
			break
		}
	}
	for _, s := range n.symbols {
		if s.column < 0 {
			s.column = deepest
		}
	}
}

// neighbour is the column for a load beside what it shares a net with; −1:
// nothing of that is placed yet. A load stands in the column of a path's symbol
// and right of another load.
func (n *netlist) neighbour(s *symbol) int {
	at := -1
	for _, o := range n.symbols {
		if o.column < 0 || o.kind == jackSymbol {
			continue
		}
		shared := slices.ContainsFunc(o.pins, func(p pin) bool {
			return p.net != n.ground && s.touches([]int{p.net})
		})
		if shared {
			at = max(at, max(o.column, 1))
		}
	}
	if at >= 0 && s.kind == potSymbol {
		at++
	}
	return at
}

// closeColumns renumbers columns so that none is empty.
func (n *netlist) closeColumns() {
	var used []int
	for _, s := range n.symbols {
		if !slices.Contains(used, s.column) {
			used = append(used, s.column)
		}
	}
	slices.Sort(used)
	for _, s := range n.symbols {
		s.column = slices.Index(used, s.column)
	}
}
