package synthesis

import (
	"loomwright/internal/sat"
)

// mostWays is how many ways to make a sound are listed one by one. A sound that
// has more, six coils in series say, is encoded by its structure instead.
const mostWays = 400

// listed reports whether a wish's ways are listed. Whether hum cancels with free
// phase is decided way by way, so such a wish is.
func (p *puzzle) listed(w *wish) bool {
	return w.humOf || w.never || !p.byShape && p.countWays(w) <= mostWays
}

// countWays is how many ways demandOf would list, at most.
func (p *puzzle) countWays(w *wish) int {
	n := p.waysOf(w.tree, w.free)
	if !w.free {
		n *= 2
	}
	return n
}

// waysOf counts the ways of a sound in one common polarity, up to a limit that
// does not overflow.
func (p *puzzle) waysOf(t *tree, free bool) int {
	if t.leaf() {
		if free || p.elements[t.element].either {
			return 2
		}
		return 1
	}
	n := 1
	for i, k := range t.kids {
		n *= p.waysOf(k, free)
		if t.series {
			n *= i + 1
		}
		n = min(n, 1<<40)
	}
	return n
}

// structure encodes that nodes are joined as a sound asks: every node has a
// class, hot, ground or a junction of the sound's; the parts of a series choose
// their places; nodes are one net exactly when they have one class.
type structure struct {
	e     *encoding
	w     *wish
	fresh int                     // classes given out
	class map[int]map[int]sat.Lit // node → class → it has it
	guard sat.Lit
}

// end is one end of a part of a sound: class → it is there.
type end map[int]sat.Lit

// structured demands a sound by its structure, and returns how many classes its
// nodes have.
func (e *encoding) structured(r relation, w *wish, nodes []int, guard sat.Lit) int {
	s := &structure{e: e, w: w, fresh: 2, class: map[int]map[int]sat.Lit{}, guard: guard}
	for _, x := range nodes {
		s.class[x] = map[int]sat.Lit{}
	}
	top, bottom := end{0: sat.True}, end{1: sat.True}
	s.put(hot, top)
	s.put(ground, bottom)
	for _, l := range e.p.loads {
		if _, in := s.class[l.node]; in && l.node > ground {
			s.put(l.node, top)
		}
	}
	s.lay(w.tree, top, bottom)
	s.relate(r, nodes)
	return s.fresh
}

// put demands that a node have the class of an end.
func (s *structure) put(x int, at end) {
	for c := range s.fresh {
		if l, ok := at[c]; ok {
			s.e.s.AddClause(s.guard.Not(), l.Not(), s.of(x, c))
		}
	}
}

// of is the literal for "node x has class c".
func (s *structure) of(x, c int) sat.Lit {
	if l, ok := s.class[x][c]; ok {
		return l
	}
	l := s.e.s.NewVar()
	s.class[x][c] = l
	return l
}

// lay puts a sound between two ends.
func (s *structure) lay(t *tree, top, bottom end) {
	m := maker{p: s.e.p, wish: s.w}
	for _, q := range s.e.p.ports {
		if m.isWhole(t, q) {
			s.put(q.in, top)
		}
	}
	switch {
	case t.leaf():
		s.leaf(t, top, bottom)
	case t.series:
		s.series(t.kids, top, bottom)
	default:
		for _, k := range t.kids {
			s.lay(k, top, bottom)
		}
	}
}

// leaf puts an element's ends where the sound's are, one way round or the other.
func (s *structure) leaf(t *tree, top, bottom end) {
	x := &s.e.p.elements[t.element]
	up := s.e.flip // the start is on top
	switch {
	case s.w.free || x.either:
		up = s.e.s.NewVar()
	case t.sign*x.sign < 0:
		up = up.Not()
	}
	for _, way := range []struct {
		when sat.Lit
		a, b int
	}{{up, x.a, x.b}, {up.Not(), x.b, x.a}} {
		outer := s.guard
		s.guard = s.e.g.And(outer, way.when)
		s.put(way.a, top)
		s.put(way.b, bottom)
		s.guard = outer
	}
}

// series gives each part one of as many places; between two places lies a
// junction of its own class.
func (s *structure) series(kids []*tree, top, bottom end) {
	n, first := len(kids), s.fresh
	s.fresh += n - 1
	place := make([][]sat.Lit, n) // kid → place → it is there
	for i := range kids {
		place[i] = s.e.s.NewVars(n)
		s.e.s.AddClause(place[i]...)
	}
	for k := range n {
		for i := range kids {
			for j := range i {
				s.e.s.AddClause(place[i][k].Not(), place[j][k].Not())
				s.e.s.AddClause(place[k][i].Not(), place[k][j].Not())
			}
		}
	}
	for i, kid := range kids {
		from, to := end{}, end{}
		for k, there := range place[i] {
			if k == 0 {
				s.pass(from, top, there)
			} else {
				from[first+k-1] = there
			}
			if k == n-1 {
				s.pass(to, bottom, there)
			} else {
				to[first+k] = there
			}
		}
		s.lay(kid, from, to)
	}
}

// pass adds the classes of an end under a condition.
func (s *structure) pass(to, from end, when sat.Lit) {
	for c := range s.fresh {
		if l, ok := from[c]; ok {
			to[c] = s.e.g.And(when, l)
		}
	}
}

// relate makes nodes of one class one net, and nodes of two classes two.
func (s *structure) relate(r relation, nodes []int) {
	for i, x := range nodes {
		for c := range s.fresh {
			lx := s.of(x, c)
			for d := range c {
				s.e.s.AddClause(s.guard.Not(), lx.Not(), s.of(x, d).Not())
			}
			for _, y := range nodes[:i] {
				ly := s.of(y, c)
				s.e.s.AddClause(s.guard.Not(), lx.Not(), ly.Not(), r[x][y])
				s.e.s.AddClause(s.guard.Not(), lx.Not(), r[x][y].Not(), ly)
				s.e.s.AddClause(s.guard.Not(), ly.Not(), r[x][y].Not(), lx)
			}
		}
	}
}
