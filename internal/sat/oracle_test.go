package sat_test

import (
	"testing"

	"loomwright/internal/oracle"

	. "loomwright/internal/sat"
)

// outside is the verdict of an independent solver.
func outside(t testing.TB, program string, f CNF) Status {
	t.Helper()
	if oracle.Satisfiable(t, program, f.WriteDIMACS) {
		return Sat
	}
	return Unsat
}

// The verdicts on more than 300 problems of six families are those of CaDiCaL
// and MiniSat; models and cores are checked.
func TestVerdictsAgreeWithCadicalAndMinisat(t *testing.T) {
	for _, program := range []string{"cadical", "minisat"} {
		t.Run(program, func(t *testing.T) {
			oracle.Need(t, program)
			verdicts := map[Status]int{}
			all := instances()
			for _, in := range all {
				verdicts[agree(t, program, in)]++
			}
			if len(all) < 300 || verdicts[Sat] < 100 || verdicts[Unsat] < 100 {
				t.Errorf("lopsided sample: %v", verdicts)
			}
			t.Logf("%d instances agree: %v", len(all), verdicts)
		})
	}
}

func agree(t *testing.T, program string, in instance) Status {
	t.Helper()
	s := in.cnf.Solver(Options{})
	got := s.Solve(in.assumed...)
	if want := outside(t, program, s.CNF(in.assumed...)); got != want {
		t.Fatalf("%s: got %v, %s says %v", in.name, got, program, want)
	}
	if got == Sat {
		checkModel(t, s, withUnits(in.cnf.Clauses, in.assumed))
	} else if again := s.CNF(s.Core()...).Solver(Options{}).Solve(); again != Unsat {
		t.Fatalf("%s: with the core %v alone: %v", in.name, s.Core(), again)
	}
	return got
}
