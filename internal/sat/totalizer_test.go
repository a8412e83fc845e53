package sat_test

import (
	"math/bits"
	"testing"

	. "loomwright/internal/sat"
)

// assignment returns the literals that give the variables the bits of a number.
func assignment(vars []Lit, number int) []Lit {
	out := make([]Lit, len(vars))
	for i, v := range vars {
		out[i] = v ^ Lit(1-number>>i&1)
	}
	return out
}

// countInputs returns n literals that count, among them now and then a constant or
// a negation, and how many of them are true under an assignment.
func countInputs(s *Solver, n int, seed uint64) (vars, inputs []Lit, count func(number int) int) {
	r := newRand(seed)
	vars = s.NewVars(n)
	flips, constants := 0, 0
	for i, v := range vars {
		if r.IntN(3) == 0 {
			v, flips = v.Not(), flips|1<<i
		}
		inputs = append(inputs, v)
	}
	for range r.IntN(3) {
		truth := r.IntN(2)
		constants += truth
		inputs = append(inputs, Bool(truth == 1))
	}
	r.Shuffle(len(inputs), func(i, j int) { inputs[i], inputs[j] = inputs[j], inputs[i] })
	return vars, inputs, func(number int) int { return bits.OnesCount(uint(number^flips)) + constants }
}

// For every assignment the true outputs are possible, and the direction's part of
// them is forced.
func TestTotalizerCounts(t *testing.T) {
	for n := range 7 {
		for _, dir := range []Direction{Up, Down, Both} {
			s := New(Options{})
			vars, inputs, count := countInputs(s, n, uint64(n))
			half := len(inputs) / 2
			for name, out := range map[string][]Lit{
				"whole": Totalizer(s, dir, inputs...),
				"merged": Merge(s, dir, Totalizer(s, dir, inputs[:half]...),
					Totalizer(s, dir, inputs[half:]...)),
			} {
				if len(out) != len(inputs) {
					t.Fatalf("%s: %d outputs for %d inputs", name, len(out), len(inputs))
				}
				for number := range 1 << n {
					checkCount(t, s, dir, assignment(vars, number), out, count(number))
				}
			}
		}
	}
}

func checkCount(t *testing.T, s *Solver, dir Direction, inputs, out []Lit, count int) {
	t.Helper()
	for k, o := range out {
		canBeTrue := s.Solve(append(inputs, o)...) == Sat
		canBeFalse := s.Solve(append(inputs, o.Not())...) == Sat
		more := count > k
		if more && !canBeTrue || !more && !canBeFalse {
			t.Fatalf("direction %d, count %d: output %d cannot be right", dir, count, k)
		}
		if more && canBeFalse && dir&Up != 0 || !more && canBeTrue && dir&Down != 0 {
			t.Fatalf("direction %d, count %d: output %d can be wrong", dir, count, k)
		}
	}
}

func TestAtMostAndAtLeast(t *testing.T) {
	for n := range 7 {
		for k := -1; k <= n+2; k++ {
			atMost, atLeast := New(Options{}), New(Options{})
			varsM, inputs, count := countInputs(atMost, n, uint64(31*n+k+1))
			AtMost(atMost, k, inputs...)
			varsL, inputs, _ := countInputs(atLeast, n, uint64(31*n+k+1))
			AtLeast(atLeast, k, inputs...)
			for number := range 1 << n {
				if got := atMost.Solve(assignment(varsM, number)...) == Sat; got != (count(number) <= k) {
					t.Fatalf("at most %d of %d, %d are true: %v", k, n, count(number), got)
				}
				if got := atLeast.Solve(assignment(varsL, number)...) == Sat; got != (count(number) >= k) {
					t.Fatalf("at least %d of %d, %d are true: %v", k, n, count(number), got)
				}
			}
		}
	}
}

// Unit propagation alone carries a bound to the inputs: with k of them true the
// others are false without any search.
func TestCountsPropagate(t *testing.T) {
	s := New(Options{})
	in := s.NewVars(20)
	AtMost(s, 5, in...)
	for _, l := range in[3:8] {
		s.AddClause(l)
	}
	for i, l := range in {
		if want := Bool(i >= 3 && i < 8); s.Fixed(l) != want {
			t.Errorf("input %d: %v, want %v", i, s.Fixed(l), want)
		}
	}
}
