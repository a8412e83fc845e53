package sat_test

import (
	"bytes"
	"fmt"
	"testing"

	. "loomwright/internal/sat"

	"github.com/google/go-cmp/cmp"
)

func TestLiterals(t *testing.T) {
	for _, n := range []int{1, -1, 7, -123456} {
		l := FromSigned(n)
		if l.Signed() != n || l.Not().Signed() != -n || l.Negative() != (n < 0) || l.Var() != max(n, -n) {
			t.Errorf("%d became %v", n, l)
		}
		if l.Positive().Signed() != l.Var() {
			t.Errorf("the variable of %v is %v", l, l.Positive())
		}
	}
	if True.Not() != False || Bool(true) != True || Bool(false) != False || True.String() != "true" {
		t.Error("the constants are off")
	}
}

func TestConstantsFoldAway(t *testing.T) {
	s := New(Options{})
	a, b := s.NewVar(), s.NewVar()
	s.AddClause(False, a.Not())
	s.AddClause(True, a)
	s.AddClause(a, b, False)
	if s.Solve() != Sat || s.Value(a) || !s.Value(b) || !s.Value(True) || s.Value(False) {
		t.Error("wrong model")
	}
	if s.Fixed(a) != False || s.Fixed(b) != True || s.Fixed(True) != True {
		t.Error("both variables are forced")
	}
	if got := s.Solve(True, False); got != Unsat {
		t.Errorf("assuming false: %v", got)
	}
	if diff := cmp.Diff([]Lit{False}, s.Core()); diff != "" {
		t.Error(diff)
	}
	s.AddClause(False)
	if got := s.Solve(True); got != Unsat || len(s.Core()) != 0 {
		t.Errorf("with the empty clause: %v, core %v", got, s.Core())
	}
	if !s.Value(b) {
		t.Error("the latest model was lost")
	}
}

func TestCoreOfContradictoryAssumptions(t *testing.T) {
	s := New(Options{})
	a, b, c := s.NewVar(), s.NewVar(), s.NewVar()
	s.AddClause(a.Not(), b)
	if got := s.Solve(c, b.Not(), a, c); got != Unsat {
		t.Fatal(got)
	}
	if diff := cmp.Diff([]Lit{b.Not(), a}, s.Core()); diff != "" {
		t.Error(diff)
	}
	if s.Solve(c, c.Not()) != Unsat || len(s.Core()) != 2 {
		t.Errorf("core %v", s.Core())
	}
	if s.Solve(c, a) != Sat || len(s.Core()) != 0 || !s.Value(b) {
		t.Error("the solver did not recover")
	}
}

// A larger core: pigeons that are assumed to be at home, of which one more than
// there are holes suffice.
func TestMinimalCoreOfPigeons(t *testing.T) {
	const pigeons, holes = 9, 4
	f := pigeonhole(pigeons, holes)
	s := New(Options{})
	s.NewVars(f.Vars)
	home := s.NewVars(pigeons)
	next := 0
	for _, c := range f.Clauses {
		if len(c) == holes {
			c = append(c, home[next].Not())
			next++
		}
		s.AddClause(c...)
	}
	core, status, minimal := s.MinimalCore(home...)
	if status != Unsat || !minimal || len(core) != holes+1 {
		t.Fatalf("%v, minimal %v, core %v", status, minimal, core)
	}
	for i := range core {
		rest := append(append([]Lit{}, core[:i]...), core[i+1:]...)
		if got := s.Solve(rest...); got != Sat {
			t.Errorf("without %v: %v", core[i], got)
		}
	}
	s.MaxConflicts = 1
	if core, status, minimal = s.MinimalCore(home...); status == Unsat && minimal && len(core) != holes+1 {
		t.Errorf("starved: %v called minimal", core)
	}
}

func TestBudgetIsExact(t *testing.T) {
	s := pigeonhole(9, 8).Solver(Options{})
	s.MaxConflicts = 500
	for round := range int64(3) {
		if got := s.Solve(); got != Unknown {
			t.Fatal(got)
		}
		if got := s.Stats().Conflicts; got != 500*(round+1) {
			t.Errorf("round %d: %d conflicts", round, got)
		}
	}
	s.MaxConflicts = 0
	if got := s.Solve(); got != Unsat {
		t.Errorf("taken up again: %v", got)
	}
}

func TestStopAndProgress(t *testing.T) {
	s := pigeonhole(9, 8).Solver(Options{})
	s.PollEvery = 100
	var seen []int64
	s.Progress = func(st Stats) { seen = append(seen, st.Conflicts) }
	s.Stop = func() bool { return len(seen) == 3 }
	if got := s.Solve(); got != Unknown {
		t.Error(got)
	}
	if diff := cmp.Diff([]int64{100, 200, 300}, seen); diff != "" {
		t.Error(diff)
	}
	s.Stop = nil
	if got := s.Solve(); got != Unsat {
		t.Errorf("taken up again: %v", got)
	}
}

// Same calls, same bytes: statistics, models, cores and proofs. Another seed takes
// another way.
func TestSameCallsSameBytes(t *testing.T) {
	run := func(seed uint64) string {
		var out bytes.Buffer
		for _, f := range []CNF{pigeonhole(9, 8), threeSat(newRand(8), 180, 4.2)} {
			s := f.Solver(Options{Proof: &out, Seed: seed})
			status := s.Solve(FromSigned(1), FromSigned(-9))
			fmt.Fprintln(&out, status, s.Core(), s.Stats())
			for v := range f.Vars {
				fmt.Fprint(&out, s.Value(FromSigned(v+1)))
			}
			if s.Stats().Conflicts < 1500 {
				t.Fatalf("too easy: %+v", s.Stats())
			}
		}
		return out.String()
	}
	first := run(0)
	if run(0) != first {
		t.Error("two runs differ")
	}
	if run(1) == first {
		t.Error("the seed does nothing")
	}
}

func TestPreferIsTriedFirst(t *testing.T) {
	s := New(Options{})
	v := s.NewVars(40)
	for i, l := range v {
		s.Prefer(l ^ Lit(i&1))
	}
	s.AddClause(v...)
	if s.Solve() != Sat {
		t.Fatal("unsat")
	}
	for i, l := range v {
		if s.Value(l) != (i&1 == 0) {
			t.Errorf("variable %d is %v", i, s.Value(l))
		}
	}
}
