package synthesis

import (
	"loomwright/internal/sat"
)

// applySymmetry orders what can be exchanged in a switch. Both orders are those
// of the solution that comes last when its poles are written one after the
// other (used, common, throws, each against the ports), so they hold together.
// Condition: the poles have equal tables and none of their lugs is joined
// already or reserved.
func (e *encoding) applySymmetry(s *selector) {
	for i := 1; i < len(s.poles); i++ {
		p, q := &s.poles[i-1], &s.poles[i]
		if !e.exchangeable(p, q) {
			continue
		}
		if e.rules.poles {
			e.inOrder(sat.True, e.poleRow(p), e.poleRow(q))
		}
		if e.rules.columns {
			joined := e.same[p.common][q.common]
			for k := range p.throws {
				e.inOrder(joined, e.row(p.throws[k]), e.row(q.throws[k]))
			}
		}
	}
}

func (e *encoding) exchangeable(p, q *pole) bool {
	if !p.regular || !q.regular || p.table != q.table {
		return false
	}
	for _, r := range []*pole{p, q} {
		for _, x := range append([]int{r.common}, r.throws...) {
			if n := &e.p.nodes[x]; !e.p.movable(x) || n.sealed {
				return false
			}
		}
	}
	return true
}

func (e *encoding) poleRow(p *pole) []sat.Lit {
	out := append([]sat.Lit{e.used[p.common]}, e.row(p.common)...)
	for _, t := range p.throws {
		out = append(out, e.row(t)...)
	}
	return out
}

// row is a node against the ports.
func (e *encoding) row(x int) []sat.Lit {
	return e.same[x][:e.ports():e.ports()]
}

// inOrder demands, under a condition, that row a be no less than row b.
func (e *encoding) inOrder(when sat.Lit, a, b []sat.Lit) {
	equal := when
	for i := range a {
		e.s.AddClause(equal.Not(), a[i], b[i].Not())
		if i < len(a)-1 {
			equal = e.g.And(equal, e.g.Equal(a[i], b[i]))
		}
	}
}

// applyTurns orders the two leads of a coil that every wish lets lie either way
// round: turning it makes another solution of the same puzzle. The order is by
// the same rows as that of the poles. Condition: both leads are nodes of their own
// with one terminal, and no other coil shares them.
func (e *encoding) applyTurns() {
	for i, x := range e.p.elements {
		if !e.p.turnable(i) {
			continue
		}
		var a, b []sat.Lit
		for k := range e.p.switches {
			for _, p := range e.p.switches[k].poles {
				for _, y := range append([]int{max(p.common, 0)}, p.throws...) {
					a, b = append(a, e.same[y][x.a]), append(b, e.same[y][x.b])
				}
			}
		}
		for y := range e.ports() {
			if y != x.a && y != x.b {
				a, b = append(a, e.same[y][x.a]), append(b, e.same[y][x.b])
			}
		}
		e.inOrder(sat.True, a, b)
	}
}

// turnable reports whether exchanging a coil's leads changes no demand.
func (p *puzzle) turnable(i int) bool {
	x := &p.elements[i]
	for k, y := range p.elements {
		if k != i && (y.a == x.a || y.a == x.b || y.b == x.a || y.b == x.b) {
			return false
		}
	}
	if x.a == x.b || min(x.a, x.b) <= ground || !p.nodes[x.a].alone || !p.nodes[x.b].alone || len(p.ports) > 0 {
		return false
	}
	for _, w := range p.wishes {
		if contains(w.tree.elements(), i) && (w.humOf || !w.free && !x.either) {
			return false
		}
	}
	return true
}
