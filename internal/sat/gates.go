package sat

// Gates builds logic out of clauses: each gate returns a literal that is true
// exactly when its function is. Constants fold, and the same function of the
// same literals gives the same literal again (structural hashing).
type Gates struct {
	s    *Solver
	memo map[string]Lit
	key  []byte
}

// NewGates returns a builder that adds to the solver.
func NewGates(s *Solver) *Gates { return &Gates{s: s, memo: map[string]Lit{}} }

// Or returns a literal for "at least one is true".
func (g *Gates) Or(lits ...Lit) Lit {
	in, trivial := normalise(lits)
	switch {
	case trivial:
		return True
	case len(in) == 0:
		return False
	case len(in) == 1:
		return in[0]
	}
	return g.gate('|', in, func(out Lit) {
		for _, l := range in {
			g.s.AddClause(l.Not(), out)
		}
		g.s.AddClause(append([]Lit{out.Not()}, in...)...)
	})
}

// And returns a literal for "all are true".
func (g *Gates) And(lits ...Lit) Lit { return g.Or(negated(lits)...).Not() }

// Xor returns a literal for "they differ".
func (g *Gates) Xor(a, b Lit) Lit {
	flip := (a ^ b) & 1 // an even number of negations cancels
	a, b = a.Positive(), b.Positive()
	if a > b {
		a, b = b, a
	}
	if a == b {
		return False ^ flip
	}
	if a == True {
		return b ^ 1 ^ flip
	}
	return flip ^ g.gate('^', []Lit{a, b}, func(out Lit) {
		g.s.AddClause(out.Not(), a, b)
		g.s.AddClause(out.Not(), a.Not(), b.Not())
		g.s.AddClause(out, a.Not(), b)
		g.s.AddClause(out, a, b.Not())
	})
}

// Equal returns a literal for "they are the same".
func (g *Gates) Equal(a, b Lit) Lit { return g.Xor(a, b).Not() }

// OrAnd returns a literal for "a, or both b and c", in four clauses.
func (g *Gates) OrAnd(a, b, c Lit) Lit {
	if b > c {
		b, c = c, b
	}
	switch {
	case a == b || a == c:
		return a
	case a <= False || b <= False || b == c || b == c.Not():
		return g.Or(a, g.And(b, c))
	case a == b.Not():
		return g.Or(a, c)
	case a == c.Not():
		return g.Or(a, b)
	}
	return g.gate('&', []Lit{a, b, c}, func(out Lit) {
		g.s.AddClause(out, a.Not())
		g.s.AddClause(out, b.Not(), c.Not())
		g.s.AddClause(out.Not(), a, b)
		g.s.AddClause(out.Not(), a, c)
	})
}

// gate returns the literal of a known gate, or makes and defines a new one.
func (g *Gates) gate(kind byte, in []Lit, define func(out Lit)) Lit {
	g.key = append(g.key[:0], kind)
	for _, l := range in {
		g.key = append(g.key, byte(l), byte(l>>8), byte(l>>16), byte(l>>24))
	}
	if out, ok := g.memo[string(g.key)]; ok {
		return out
	}
	out := g.s.NewVar()
	g.memo[string(g.key)] = out
	define(out)
	return out
}
