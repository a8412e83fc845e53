package sat_test

import (
	"math/rand/v2"
	"testing"

	. "loomwright/internal/sat"
)

// holds reports whether an assignment, bit v-1 for variable v, satisfies a clause.
func holds(clause []Lit, bits int) bool {
	for _, l := range clause {
		if l == True || l > False && bits>>(l.Var()-1)&1 == 1 != l.Negative() {
			return true
		}
	}
	return false
}

// bruteSat tries all assignments.
func bruteSat(vars int, clauses [][]Lit) bool {
	for bits := range 1 << vars {
		if satisfies(clauses, bits) {
			return true
		}
	}
	return false
}

func satisfies(clauses [][]Lit, bits int) bool {
	for _, c := range clauses {
		if !holds(c, bits) {
			return false
		}
	}
	return true
}

// checkModel fails unless the latest model satisfies all the clauses.
func checkModel(t testing.TB, s *Solver, clauses [][]Lit) {
	t.Helper()
	for _, c := range clauses {
		ok := false
		for _, l := range c {
			ok = ok || s.Value(l)
		}
		if !ok {
			t.Fatalf("the model leaves %v false", c)
		}
	}
}

// units returns the literals as clauses after the others.
func withUnits(clauses [][]Lit, lits []Lit) [][]Lit {
	out := append([][]Lit(nil), clauses...)
	for _, l := range lits {
		out = append(out, []Lit{l})
	}
	return out
}

func randomLit(r *rand.Rand, vars int) Lit {
	return Lit(2*(1+r.IntN(vars)) + r.IntN(2))
}

func randomClauses(r *rand.Rand, vars, n, width int) [][]Lit {
	out := make([][]Lit, n)
	for i := range out {
		for range 1 + r.IntN(width) {
			out[i] = append(out[i], randomLit(r, vars))
		}
	}
	return out
}

func newRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

func TestSolveAgreesWithBruteForce(t *testing.T) {
	verdicts := map[Status]int{}
	for seed := range uint64(1500) {
		r := newRand(seed)
		vars := 3 + r.IntN(10)
		clauses := randomClauses(r, vars, int(float64(vars)*(1+4*r.Float64())), 4)
		s := CNF{Vars: vars, Clauses: clauses}.Solver(Options{Seed: seed})
		got := s.Solve()
		if want := bruteSat(vars, clauses); (got == Sat) != want || got == Unknown {
			t.Fatalf("seed %d: got %v, brute force says sat = %v", seed, got, want)
		}
		if got == Sat {
			checkModel(t, s, clauses)
		}
		verdicts[got]++
	}
	if verdicts[Sat] < 300 || verdicts[Unsat] < 300 {
		t.Errorf("lopsided sample: %v", verdicts)
	}
}
