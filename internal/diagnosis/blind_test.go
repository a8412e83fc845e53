package diagnosis_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diagnosis"
	"loomwright/internal/fault"
	"loomwright/internal/meter"
)

// hidden picks a fault of a table's list by a number, weighed by the priors, and
// the bench that has it.
func hidden(table *meter.Table, seed uint64) (fault.Fault, *bench) {
	random := rand.New(rand.NewPCG(seed, 4711))
	sum := 0.0
	for i := range table.Cases {
		sum += table.Cases[i].Prior()
	}
	at := sum * random.Float64()
	for i := range table.Cases {
		for _, f := range table.Cases[i].Faults {
			if at -= f.Prior; at < 0 {
				return f, newBench(table.Graph, seed, f)
			}
		}
	}
	return fault.Fault{}, newBench(table.Graph, seed)
}

// Ten blind runs: the player knows the questions alone, and answers from the
// bench. The hidden fault is the one found, or among those left.
func TestBlindRuns(t *testing.T) {
	for run := range uint64(10) {
		name := []string{oneTwin, twoTwins}[run%2]
		table := tableOf(t, name, meter.Options{})
		f, b := hidden(table, 100+run)
		s, r := played(t, table, b)
		var lines []string
		for _, a := range s.Answers {
			lines = append(lines, fmt.Sprintf("  %s: %s", a.Ask, a.Said))
		}
		t.Logf("run %d, %s\n%s\n  the tool: %s\n  the fault: %s", run+1, name, strings.Join(lines, "\n"), r.Says, f.Words)
		if !slices.ContainsFunc(r.Suspects, func(x diagnosis.Suspect) bool { return slices.Contains(x.Faults, f.Words) }) {
			t.Errorf("run %d: %s is not found", run+1, f.Words)
		}
	}
}
