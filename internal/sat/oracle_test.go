package sat_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"loomwright/internal/oracle"

	. "loomwright/internal/sat"
)

// outside runs an independent solver on the clauses. Both understand DIMACS and
// say 10 for sat, 20 for unsat, as the SAT competitions ask.
func outside(t testing.TB, program string, f CNF) Status {
	t.Helper()
	path := filepath.Join(t.TempDir(), "problem.cnf")
	writeCNF(t, path, f)
	args := map[string][]string{"cadical": {"-q"}, "minisat": {"-verb=0"}}[program]
	err := exec.Command(program, append(args, path)...).Run()
	var exit *exec.ExitError
	if !errors.As(err, &exit) {
		t.Fatalf("%s: %v", program, err)
	}
	switch exit.ExitCode() {
	case 10:
		return Sat
	case 20:
		return Unsat
	}
	t.Fatalf("%s: exit code %d", program, exit.ExitCode())
	return Unknown
}

func writeCNF(t testing.TB, path string, f CNF) {
	t.Helper()
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if err := f.WriteDIMACS(file); err != nil {
		t.Fatal(err)
	}
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
