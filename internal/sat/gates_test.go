package sat_test

import (
	"math/rand/v2"
	"testing"

	. "loomwright/internal/sat"
)

// circuit is a random tree of gates with its truth table: bit a of the table is
// the value under assignment a.
type circuit struct {
	out   Lit
	table uint16
}

func randomCircuit(r *rand.Rand, g *Gates, inputs []circuit, depth int) circuit {
	if depth == 0 || r.IntN(6) == 0 {
		x := inputs[r.IntN(len(inputs))]
		if r.IntN(2) == 0 {
			return circuit{x.out.Not(), ^x.table}
		}
		return x
	}
	a := randomCircuit(r, g, inputs, depth-1)
	b := randomCircuit(r, g, inputs, depth-1)
	c := randomCircuit(r, g, inputs, depth-1)
	switch r.IntN(5) {
	case 0:
		return circuit{g.And(a.out, b.out, c.out), a.table & b.table & c.table}
	case 1:
		return circuit{g.Or(a.out, b.out, c.out), a.table | b.table | c.table}
	case 2:
		return circuit{g.Xor(a.out, b.out), a.table ^ b.table}
	case 3:
		return circuit{g.Equal(a.out, b.out), ^(a.table ^ b.table)}
	}
	return circuit{g.OrAnd(a.out, b.out, c.out), a.table | b.table&c.table}
}

// Every gate has the truth table of its function, also with constants, repeated
// and negated inputs, and leaves no assignment out.
func TestGatesMatchTruthTables(t *testing.T) {
	for seed := range uint64(200) {
		r := newRand(seed)
		s := New(Options{})
		g := NewGates(s)
		vars := s.NewVars(4)
		inputs := []circuit{{True, 0xffff}, {vars[0], 0xaaaa}, {vars[1], 0xcccc}, {vars[2], 0xf0f0}, {vars[3], 0xff00}}
		c := randomCircuit(r, g, inputs, 3)
		for bits := range 16 {
			var assumed []Lit
			for i, v := range vars {
				assumed = append(assumed, v^Lit(1-bits>>i&1))
			}
			if got := s.Solve(assumed...); got != Sat {
				t.Fatalf("seed %d: the gates forbid %04b", seed, bits)
			}
			if got, want := s.Value(c.out), c.table>>bits&1 == 1; got != want {
				t.Fatalf("seed %d: %04b gives %v, want %v", seed, bits, got, want)
			}
		}
	}
}

func TestEqualGatesAreShared(t *testing.T) {
	s := New(Options{})
	g := NewGates(s)
	v := s.NewVars(3)
	a, b, c := v[0], v[1], v[2]
	pairs := map[string][2]Lit{
		"and, order":           {g.And(a, b, c), g.And(c, a, b)},
		"and, repetition":      {g.And(a, b), g.And(b, a, a, True)},
		"or by De Morgan":      {g.Or(a, b), g.And(a.Not(), b.Not()).Not()},
		"xor, order":           {g.Xor(a, b), g.Xor(b, a)},
		"xor, two negations":   {g.Xor(a, b), g.Xor(a.Not(), b.Not())},
		"xor, one negation":    {g.Xor(a, b).Not(), g.Xor(a, b.Not())},
		"or-and, order":        {g.OrAnd(a, b, c), g.OrAnd(a, c, b)},
		"or-and of a constant": {g.OrAnd(False, b, c), g.And(b, c)},
		"or-and, absorbed":     {g.OrAnd(a, a, c), a},
		"xor with a constant":  {g.Xor(a, True), a.Not()},
		"contradiction":        {g.And(a, a.Not()), False},
		"nothing":              {g.Or(), False},
	}
	for name, p := range pairs {
		if p[0] != p[1] {
			t.Errorf("%s: %v and %v", name, p[0], p[1])
		}
	}
	before := s.NumVars()
	g.And(a, b, c)
	g.Xor(a.Not(), b)
	if s.NumVars() != before {
		t.Error("a known gate was built again")
	}
}
