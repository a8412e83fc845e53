package synthesis

import (
	"os/exec"
	"testing"

	"loomwright/internal/oracle"
	"loomwright/internal/sat"
)

// oracleInstances is how many sets of clauses the outside solvers decide.
var oracleInstances = 320

// TestOutsideSolversAgree has cadical and minisat, in turn, decide clauses as the
// search writes them: all wishes with as many joins as were found, which must be
// possible, and with one fewer, which must not; or all wishes, where they were
// refuted.
func TestOutsideSolversAgree(t *testing.T) {
	programs := []string{"cadical", "minisat"}
	for _, program := range programs {
		oracle.Need(t, program)
	}
	decided, refuted := 0, 0
	for seed := uint64(5000); decided < oracleInstances; seed++ {
		text := newDice(seed).loom()
		tk, _ := newTask(read(t, "random", text), Options{Schemes: []Scheme{{Name: "none"}}})
		if tk == nil {
			continue
		}
		pl := tk.whole()
		p, _ := tk.build(&pl.specs[0])
		e := encode(p, allRules().settle(p), sat.Options{})
		out := e.minimise(&effort{left: 20000}, nil)
		if out.status == sat.Unknown || out.status == sat.Sat && out.bound < out.joins {
			continue
		}
		fresh := encode(p, allRules().settle(p), sat.Options{})
		ask := func(want bool, demands ...sat.Lit) {
			cnf := fresh.s.CNF(append(fresh.everything(), demands...)...)
			if got := oracle.Satisfiable(t, programs[decided%2], cnf.WriteDIMACS); got != want {
				t.Fatalf("seed %d: %s says %v, want %v\n%s", seed, programs[decided%2], got, want, text)
			}
			decided++
			if !want {
				refuted++
			}
		}
		if out.status == sat.Unsat {
			ask(false)
			continue
		}
		ask(true, fresh.more(out.joins).Not())
		ask(false, fresh.more(out.joins-1).Not())
	}
	t.Logf("%d sets of clauses decided, %d of them refuted", decided, refuted)
}

// BenchmarkAgainstCadical refutes "fewer joins" from scratch, and has cadical
// refute the same clauses: processor time of both, and the ratio.
func BenchmarkAgainstCadical(b *testing.B) {
	program := oracle.Need(b, "cadical")
	for _, c := range possible {
		b.Run(c.name, func(b *testing.B) {
			p := wholePuzzle(b, c.text)
			out := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: 1 << 40}, nil)
			e := encode(p, allRules().settle(p), sat.Options{})
			cnf := e.s.CNF(append(e.everything(), e.more(out.joins-1).Not())...)
			file := oracle.Written(b, cnf.WriteDIMACS)
			var own, outside float64
			for b.Loop() {
				before := cpuTime()
				if cnf.Solver(sat.Options{}).Solve() != sat.Unsat {
					b.Fatal("not refuted")
				}
				own += float64(cpuTime() - before)
				cmd := exec.Command(program, "-q", file)
				_ = cmd.Run() // 20 is its exit code for unsatisfiable
				outside += float64(cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime())
			}
			b.ReportMetric(own/float64(b.N)/1e6, "own-cpu-ms")
			b.ReportMetric(outside/float64(b.N)/1e6, "cadical-cpu-ms")
			b.ReportMetric(own/outside, "ratio")
		})
	}
}
