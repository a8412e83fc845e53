package sat_test

import (
	"fmt"
	"math/rand/v2"

	. "loomwright/internal/sat"
)

// instance is a named problem with assumptions.
type instance struct {
	name    string
	cnf     CNF
	assumed []Lit
}

// threeSat draws clauses of three different variables. Around 4.26 clauses a
// variable half of the draws have a model (Crawford and Auton, 1996).
func threeSat(r *rand.Rand, vars int, ratio float64) CNF {
	f := CNF{Vars: vars}
	for range int(ratio * float64(vars)) {
		p := r.Perm(vars)
		var c []Lit
		for _, v := range p[:3] {
			c = append(c, Lit(2*(v+1)+r.IntN(2)))
		}
		f.Clauses = append(f.Clauses, c)
	}
	return f
}

// pigeonhole puts pigeons into holes, one each: impossible when they outnumber
// the holes (Cook).
func pigeonhole(pigeons, holes int) CNF {
	in := func(p, h int) Lit { return Lit(2 * (p*holes + h + 1)) }
	f := CNF{Vars: pigeons * holes}
	for p := range pigeons {
		var some []Lit
		for h := range holes {
			some = append(some, in(p, h))
			for q := range p {
				f.Clauses = append(f.Clauses, []Lit{in(p, h).Not(), in(q, h).Not()})
			}
		}
		f.Clauses = append(f.Clauses, some)
	}
	return f
}

// parity gives every vertex of a random graph, a ring with chords, the parity of
// its edges: impossible when the parities add up to odd (Tseitin, 1968).
func parity(r *rand.Rand, vertices int, odd bool) CNF {
	ends := make([][]Lit, vertices)
	edges := 0
	join := func(a, b int) {
		edges++
		ends[a], ends[b] = append(ends[a], Lit(2*edges)), append(ends[b], Lit(2*edges))
	}
	for v := range vertices {
		join(v, (v+1)%vertices)
	}
	for range vertices / 2 {
		a := r.IntN(vertices)
		join(a, (a+1+r.IntN(vertices-1))%vertices)
	}
	f := CNF{Vars: edges}
	for v, lits := range ends {
		f.Clauses = append(f.Clauses, parityClauses(lits, odd && v == 0)...)
	}
	return f
}

// parityClauses forbids each assignment of the wrong parity.
func parityClauses(lits []Lit, odd bool) [][]Lit {
	var out [][]Lit
	for bits := range 1 << len(lits) {
		var c []Lit
		sum := false
		for i, l := range lits {
			set := bits>>i&1 == 1
			sum = sum != set
			if set {
				l = l.Not()
			}
			c = append(c, l)
		}
		if sum != odd {
			out = append(out, c)
		}
	}
	return out
}

// colouring gives the vertices of a random graph colours.
func colouring(r *rand.Rand, vertices, edges, colours int) CNF {
	is := func(v, c int) Lit { return Lit(2 * (v*colours + c + 1)) }
	f := CNF{Vars: vertices * colours}
	for v := range vertices {
		var some []Lit
		for c := range colours {
			some = append(some, is(v, c))
		}
		f.Clauses = append(f.Clauses, some)
	}
	for range edges {
		a := r.IntN(vertices)
		b := (a + 1 + r.IntN(vertices-1)) % vertices
		for c := range colours {
			f.Clauses = append(f.Clauses, []Lit{is(a, c).Not(), is(b, c).Not()})
		}
	}
	return f
}

// partition splits points into classes by an equivalence of pairs, with random
// demands on single pairs and a bound on the number of points that are not the
// first of their class.
func partition(r *rand.Rand, points, demands int) CNF {
	s := New(Options{})
	g := NewGates(s)
	e := &wiringCNF{s: s, g: g, wiring: wiring{coils: (points - 2) / 2}}
	e.nets()
	for range demands {
		var c []Lit
		for range 1 + r.IntN(3) {
			p := r.Perm(e.terminals())
			c = append(c, e.same[p[0]][p[1]]^Lit(r.IntN(2)))
		}
		s.AddClause(c...)
	}
	var follow []Lit
	for t := range e.terminals() {
		follow = append(follow, g.Or(e.same[t][:t]...))
	}
	low := r.IntN(points)
	AtLeast(s, low, follow...)
	AtMost(s, low+r.IntN(2), follow...)
	return s.CNF()
}

// randomSound draws one coil, two in series or in parallel, or two pairs.
func randomSound(r *rand.Rand, coils int) sound {
	p := r.Perm(coils)
	switch kind := r.IntN(6); {
	case kind == 0 || coils < 2:
		return coil(p[0])
	case kind <= 2:
		return series(coil(p[0]), coil(p[1]))
	case kind <= 4 || coils < 4:
		return parallel(coil(p[0]), coil(p[1]))
	}
	return parallel(series(coil(p[0]), coil(p[1])), series(coil(p[2]), coil(p[3])))
}

func randomWiring(r *rand.Rand, coils, poles, settings int) wiring {
	w := wiring{coils: coils, poles: poles}
	for range settings {
		w.sounds = append(w.sounds, randomSound(r, coils))
	}
	return w
}

// instances returns problems of every family, small enough to solve at once.
func instances() []instance {
	var out []instance
	add := func(f CNF, name string, args ...any) {
		out = append(out, instance{name: fmt.Sprintf(name, args...), cnf: f})
	}
	for seed := range 100 {
		r := newRand(uint64(seed))
		add(threeSat(r, 30+seed, 3.9+0.7*r.Float64()), "three-sat-%d", seed)
	}
	for p := 2; p <= 8; p++ {
		add(pigeonhole(p, p-1), "pigeonhole-%d-%d", p, p-1)
		add(pigeonhole(p, p), "pigeonhole-%d-%d", p, p)
	}
	for seed := range 40 {
		r := newRand(uint64(seed))
		add(parity(r, 5+seed/2, seed%2 == 0), "parity-%d", seed)
		add(colouring(r, 20+seed, 48+9*seed/4, 3), "colouring-%d", seed)
		add(partition(r, 8+seed%7, 10+seed/2), "partition-%d", seed)
	}
	for seed := range 90 {
		out = append(out, boundedWiring(newRand(uint64(seed)), seed))
	}
	return out
}

// boundedWiring is a wiring problem with an assumed bound on its wires.
func boundedWiring(r *rand.Rand, seed int) instance {
	shape := [...][3]int{{1, 1, 2}, {2, 1, 3}, {2, 2, 2}, {2, 2, 3}, {3, 2, 2}, {3, 2, 3}}[seed%6]
	e := randomWiring(r, shape[0], shape[1], shape[2]).encode(Options{})
	bound := e.cost[2*shape[0]+r.IntN(4)].Not()
	return instance{fmt.Sprintf("wiring-%d", seed), e.s.CNF(), []Lit{bound}}
}
