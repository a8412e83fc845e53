package sat_test

import (
	"fmt"
	"os/exec"
	"testing"
	"time"

	"loomwright/internal/oracle"

	. "loomwright/internal/sat"
)

// benchmarks are refutations of wiring problems with one wire less than needed
// (14, 17, 19 and 17, see TestOptimumAgreesWithCadical), a model of one, and
// problems of other kinds.
func benchmarks() []instance {
	var out []instance
	for _, b := range []struct {
		name  string
		wires int
	}{{"easy", 13}, {"medium", 16}, {"medium", 17}, {"hard", 18}, {"six", 16}} {
		e := wiringProblems()[b.name].encode(Options{})
		name := fmt.Sprintf("wiring-%s-%d", b.name, b.wires)
		out = append(out, instance{name, e.s.CNF(e.cost[b.wires].Not()), nil})
	}
	return append(out,
		instance{"three-sat-200", threeSat(newRand(1), 200, 4.5), nil},
		instance{"pigeonhole-9-8", pigeonhole(9, 8), nil},
		instance{"parity-30", parity(newRand(3), 30, true), nil},
		instance{"partition-24", partition(newRand(2), 24, 60), nil},
	)
}

func BenchmarkSolve(b *testing.B) {
	for _, in := range benchmarks() {
		b.Run(in.name, func(b *testing.B) {
			var conflicts, propagations int64
			for b.Loop() {
				s := in.cnf.Solver(Options{})
				s.Solve()
				conflicts += s.Stats().Conflicts
				propagations += s.Stats().Propagations
			}
			b.ReportMetric(float64(conflicts)/float64(b.N), "conflicts/op")
			b.ReportMetric(float64(propagations)/b.Elapsed().Seconds()/1e6, "Mprops/s")
		})
	}
}

// BenchmarkAgainstCadical runs both solvers in turn on the same clauses. The ratio
// is the time of this one over that of CaDiCaL, which includes starting it and
// reading the file; below 1 this one is faster.
func BenchmarkAgainstCadical(b *testing.B) {
	cadical := oracle.Need(b, "cadical")
	for _, in := range benchmarks() {
		b.Run(in.name, func(b *testing.B) {
			path := oracle.Written(b, in.cnf.WriteDIMACS)
			var ours, theirs time.Duration
			for b.Loop() {
				begin := time.Now()
				in.cnf.Solver(Options{}).Solve()
				ours += time.Since(begin)
				begin = time.Now()
				_ = exec.Command(cadical, "-q", path).Run() // the verdict is its exit code
				theirs += time.Since(begin)
			}
			b.ReportMetric(ours.Seconds()/theirs.Seconds(), "ratio")
			b.ReportMetric(theirs.Seconds()*1e3/float64(b.N), "cadical-ms/op")
			b.ReportMetric(ours.Seconds()*1e3/float64(b.N), "own-ms/op")
		})
	}
}

// BenchmarkOptimum lowers the number of wires to the proved optimum in one
// incremental run, as synthesis does.
func BenchmarkOptimum(b *testing.B) {
	for _, name := range []string{"easy", "medium", "hard", "six"} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				b.ReportMetric(float64(wiringProblems()[name].encode(Options{}).optimum()), "wires")
			}
		})
	}
}
