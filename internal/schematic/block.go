package schematic

// onPath marks the symbols on a simple path from one vertex to another in the
// graph whose vertices are nets and symbols: those in the block (biconnected
// component) of the edge between the two. Tarjan's algorithm ("Depth-first
// search and linear graph algorithms", SIAM J. Comput. 1, 1972), by edges.
type blocks struct {
	to     [][]int // per vertex: edges
	a, b   []int   // per edge: vertices
	number []int
	low    []int
	stack  []int
	count  int
	marked []bool // per edge: in the block of the wanted edge
	want   int
}

// blockEdges marks the edges in the block of the last edge.
func blockEdges(vertices int, a, b []int) []bool {
	s := &blocks{to: make([][]int, vertices), a: a, b: b, number: make([]int, vertices), low: make([]int, vertices),
		marked: make([]bool, len(a)), want: len(a) - 1}
	for e := range a {
		s.to[a[e]] = append(s.to[a[e]], e)
		s.to[b[e]] = append(s.to[b[e]], e)
	}
	s.visit(a[s.want], -1)
	return s.marked
}

func (s *blocks) visit(v, from int) {
	s.count++
	s.number[v], s.low[v] = s.count, s.count
	for _, e := range s.to[v] {
		w := s.a[e] + s.b[e] - v
		switch {
		case e == from || w == v:
		case s.number[w] == 0:
			at := len(s.stack)
			s.stack = append(s.stack, e)
			s.visit(w, e)
			s.low[v] = min(s.low[v], s.low[w])
			if s.low[w] >= s.number[v] {
				s.pop(at)
			}
		case s.number[w] < s.number[v]:
			s.stack = append(s.stack, e)
			s.low[v] = min(s.low[v], s.number[w])
		}
	}
}

// pop takes a finished block off the stack, and keeps it if it is the one.
func (s *blocks) pop(at int) {
	block := s.stack[at:]
	s.stack = s.stack[:at]
	for _, e := range block {
		if e == s.want {
			for _, f := range block {
				s.marked[f] = true
			}
			return
		}
	}
}

// onPath marks the symbols on simple paths from the coils to hot; ground is no
// way.
func (n *netlist) onPath() []bool {
	source := n.nets.Count + len(n.symbols)
	var a, b []int
	for i, s := range n.symbols {
		v := n.nets.Count + i
		if s.kind == coilSymbol {
			a, b = append(a, source), append(b, v)
		}
		for _, p := range s.pins {
			if p.net != n.ground {
				a, b = append(a, v), append(b, p.net)
			}
		}
	}
	return n.symbolsInBlock(source+1, append(a, source), append(b, n.hot))
}

// inCircuit marks the symbols on simple paths from hot to ground.
func (n *netlist) inCircuit() []bool {
	var a, b []int
	for i, s := range n.symbols {
		if s.kind == jackSymbol {
			continue
		}
		for _, p := range s.pins {
			a, b = append(a, n.nets.Count+i), append(b, p.net)
		}
	}
	return n.symbolsInBlock(n.nets.Count+len(n.symbols), append(a, n.hot), append(b, n.ground))
}

func (n *netlist) symbolsInBlock(vertices int, a, b []int) []bool {
	out := make([]bool, len(n.symbols))
	if a[len(a)-1] == b[len(b)-1] {
		return out
	}
	for e, in := range blockEdges(vertices, a, b) {
		for _, v := range []int{a[e], b[e]} {
			if s := v - n.nets.Count; in && s >= 0 && s < len(out) {
				out[s] = true
			}
		}
	}
	return out
}
