package sat_test

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"

	. "loomwright/internal/sat"

	"pgregory.net/rapid"
)

// session runs the solver under test next to the list of all clauses, from which
// brute force and fresh solvers answer the same questions.
type session struct {
	t       *rapid.T
	r       *rand.Rand
	s       *Solver
	proof   *bytes.Buffer
	vars    int
	clauses [][]Lit
	count   *sessionCount
}

// sessionCount tells whether the sessions were worth their time.
type sessionCount struct{ sat, unsat, cores, conflicts, unknown int }

const sessionVars = 10

func newSession(t *rapid.T, count *sessionCount) *session {
	x := &session{t: t, r: newRand(rapid.Uint64().Draw(t, "seed")), proof: &bytes.Buffer{}, count: count}
	x.s = New(Options{Proof: x.proof})
	for x.vars < 7 {
		x.addVar(t)
	}
	for range 18 {
		x.addClause(t)
	}
	return x
}

// lit draws a literal, now and then a constant.
func (x *session) lit() Lit {
	if x.r.IntN(25) == 0 {
		return Bool(x.r.IntN(2) == 0)
	}
	return randomLit(x.r, x.vars)
}

func (x *session) lits(most int) []Lit {
	out := make([]Lit, x.r.IntN(most+1))
	for i := range out {
		out[i] = x.lit()
	}
	return out
}

func (x *session) addVar(*rapid.T) {
	if x.vars < sessionVars {
		x.vars++
		x.s.NewVar()
	}
}

func (x *session) addClause(*rapid.T) {
	c := []Lit{x.lit(), x.lit(), x.lit()}
	if x.r.IntN(4) == 0 {
		c = x.lits(5)
	}
	if len(c) < 2 && x.r.IntN(4) > 0 {
		return // few of these: they end the session soon
	}
	x.clauses = append(x.clauses, c)
	x.s.AddClause(c...)
}

func (x *session) possible(assumed []Lit) bool {
	return bruteSat(x.vars, withUnits(x.clauses, assumed))
}

func (x *session) solve(*rapid.T) {
	assumed := x.lits(5)
	got := x.s.Solve(assumed...)
	fresh := x.s.CNF(assumed...).Solver(Options{}).Solve()
	if want := x.possible(assumed); (got == Sat) != want || got == Unknown || fresh != got {
		x.t.Fatalf("got %v, a fresh solver %v, brute force says sat = %v", got, fresh, want)
	}
	if got == Sat {
		x.count.sat++
		x.checkModel(withUnits(x.clauses, assumed))
		return
	}
	core := x.s.Core()
	x.count.unsat++
	x.count.cores += min(1, len(core))
	if x.possible(core) {
		x.t.Fatalf("the core %v of %v can hold", core, assumed)
	}
	for _, l := range core {
		if !slices.Contains(assumed, l) {
			x.t.Fatalf("the core %v is not part of %v", core, assumed)
		}
	}
	if slices.Contains(core, False) {
		return // nothing to prove
	}
	if err := newDratChecker(x.s.CNF(core...)).check(x.proof.String() + "0\n"); err != nil {
		x.t.Fatal(err)
	}
}

func (x *session) checkModel(clauses [][]Lit) {
	bits := 0
	for v := 1; v <= x.vars; v++ {
		if x.s.Value(Lit(2 * v)) {
			bits |= 1 << (v - 1)
		}
	}
	if !satisfies(clauses, bits) {
		x.t.Fatalf("the model %b is none of %v", bits, clauses)
	}
}

func (x *session) minimalCore(*rapid.T) {
	assumed := x.lits(6)
	core, status, minimal := x.s.MinimalCore(assumed...)
	if x.possible(assumed) != (status == Sat) || status == Unsat && !minimal {
		x.t.Fatalf("got %v, minimal %v", status, minimal)
	}
	if status != Unsat {
		return
	}
	if !slices.Equal(core, x.s.Core()) || x.possible(core) {
		x.t.Fatalf("the core %v can hold, or differs from %v", core, x.s.Core())
	}
	for i := range core {
		if !x.possible(slices.Delete(slices.Clone(core), i, i+1)) {
			x.t.Fatalf("%v can be spared in the core %v", core[i], core)
		}
	}
}

// starved solves with almost no budget, which may end in Unknown but not in a
// wrong answer, and leaves the solver fit for use.
func (x *session) starved(*rapid.T) {
	x.s.MaxConflicts = 1
	defer func() { x.s.MaxConflicts = 0 }()
	assumed := x.lits(2)
	got := x.s.Solve(assumed...)
	if got == Unknown {
		x.count.unknown++
	} else if x.possible(assumed) != (got == Sat) {
		x.t.Fatalf("got %v", got)
	}
}

func (x *session) fixed(*rapid.T) {
	l := x.lit()
	switch x.s.Fixed(l) {
	case True:
		if x.possible([]Lit{l.Not()}) {
			x.t.Fatalf("%v is not forced", l)
		}
	case False:
		if x.possible([]Lit{l}) {
			x.t.Fatalf("%v is not impossible", l)
		}
	}
}

// Any order of new variables, clauses and solves gives the answers of a fresh
// solver and of brute force, and one running proof covers all refutations.
func TestIncrementalUse(t *testing.T) {
	count := sessionCount{}
	rapid.Check(t, func(t *rapid.T) {
		x := newSession(t, &count)
		t.Repeat(map[string]func(*rapid.T){
			"var":     x.addVar,
			"clause":  x.addClause,
			"solve":   x.solve,
			"core":    x.minimalCore,
			"starved": x.starved,
			"fixed":   x.fixed,
			"prefer":  func(*rapid.T) { x.s.Prefer(x.lit()) },
		})
		count.conflicts += int(x.s.Stats().Conflicts)
	})
	t.Logf("%+v", count)
	if min(count.sat, count.unsat, count.cores, count.conflicts) < 20 || count.unknown == 0 {
		t.Errorf("the sessions were too easy: %+v", count)
	}
}

// Clauses that arrive in batches, with other assumptions each time, on problems
// that take reductions, restarts and both modes.
func TestGrowingProblemsAgreeWithFreshSolvers(t *testing.T) {
	verdicts := map[Status]int{}
	var conflicts, forgotten int64
	for seed := range uint64(4) {
		r := newRand(seed)
		all := threeSat(r, 150, 4.4)
		s := CNF{Vars: all.Vars}.Solver(Options{})
		for i, c := range all.Clauses {
			s.AddClause(c...)
			if i < 480 || i%15 > 0 {
				continue
			}
			assumed := []Lit{randomLit(r, all.Vars), randomLit(r, all.Vars), randomLit(r, all.Vars)}
			got := s.Solve(assumed...)
			if fresh := s.CNF(assumed...).Solver(Options{}).Solve(); fresh != got {
				t.Fatalf("seed %d, %d clauses: got %v, a fresh solver %v", seed, i, got, fresh)
			}
			if got == Sat {
				checkModel(t, s, withUnits(all.Clauses[:i+1], assumed))
			}
			verdicts[got]++
		}
		conflicts += s.Stats().Conflicts
		forgotten += s.Stats().Forgotten
	}
	if verdicts[Sat] < 5 || verdicts[Unsat] < 5 || forgotten == 0 {
		t.Errorf("too easy: %v, %d conflicts, %d clauses forgotten", verdicts, conflicts, forgotten)
	}
}

// The way synthesis lowers a bound: unit for what is proved, assumption for what
// is tried, on clauses large enough for reductions and restarts in between.
func TestLoweringABoundAgreesWithFreshSolvers(t *testing.T) {
	for seed := range uint64(6) {
		e := randomWiring(newRand(seed), 3, 3, 3).encode(Options{})
		best := len(e.cost) - 1
		for best > 0 && e.s.Solve(e.cost[best-1].Not()) == Sat {
			best = e.wireCount()
			e.s.AddClause(e.cost[best].Not())
		}
		fresh := randomWiring(newRand(seed), 3, 3, 3).encode(Options{})
		if got := fresh.s.Solve(fresh.cost[best-1].Not()); got != Unsat {
			t.Errorf("seed %d: fewer than %d wires: %v", seed, best, got)
		}
		if got := fresh.s.Solve(fresh.cost[best].Not()); got != Sat {
			t.Errorf("seed %d: %d wires: %v", seed, best, got)
		}
	}
}
