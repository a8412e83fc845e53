package diagnosis_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"loomwright/internal/diagnosis"
	"loomwright/internal/fault"
	"loomwright/internal/meter"
)

// doubles is what diagnoses of two faults at once came to.
type doubles struct {
	trials, masked           int
	contradicted, verified   int // flagged by a contradiction; by verification
	flagged, oneOfTwo, wrong int
	verifying, lines         int // diagnoses that came to a verification, readings of it
}

func (d *doubles) String() string {
	n := float64(d.trials)
	return fmt.Sprintf("%d pairs (%d more are the same circuit as a single fault): flagged %.1f %% (%.1f %% while asking, %.1f %% on verification), silently one of the two %.1f %%, silently wrong %.1f %%; a verification has %.1f readings",
		d.trials, d.masked, 100*float64(d.flagged)/n, 100*float64(d.contradicted)/n, 100*float64(d.verified)/n, 100*float64(d.oneOfTwo)/n, 100*float64(d.wrong)/n,
		float64(d.lines)/float64(max(1, d.verifying)))
}

// double diagnoses two faults at once, then verifies the proposal.
func (d *doubles) double(t testing.TB, table *meter.Table, lists map[int]*meter.Proof, pair [2]int, seed uint64) {
	t.Helper()
	first, second := table.Cases[pair[0]].Faults[0], table.Cases[pair[1]].Faults[0]
	b := newBench(table.Graph, seed, first, second)
	var state diagnosis.State
	belief := diagnosis.NewBelief(table)
	for at := belief.First(); at >= 0; at = belief.Next() {
		a := table.Asks[at]
		said := b.take(a)
		state = state.With(diagnosis.Answer{Ask: a.Key(table.Graph), Said: said})
		if err := belief.See(a, said); err != nil {
			t.Fatal(err)
		}
	}
	d.trials++
	left := belief.Left()
	if len(left) == 0 {
		d.contradicted++
		d.flagged++
		return
	}
	r, err := diagnosis.Judge(table, state)
	if err != nil {
		t.Fatal(err)
	}
	top := diagnosis.CaseOf(&r.Suspects[0])
	if lists[top] == nil {
		lists[top] = diagnosis.Verification(table, &r.Suspects[0])
	}
	d.verifying++
	d.lines += len(lists[top].Lines)
	for _, l := range lists[top].Lines {
		a, err := meter.Parse(table.Graph, l.Key)
		if err != nil {
			t.Fatal(err)
		}
		if err := belief.See(a, b.take(a)); err != nil {
			t.Fatal(err)
		}
	}
	left = belief.Left()
	switch {
	case alike(table, first, second, top):
		d.trials--
		d.masked++
	case !slices.Contains(left, top):
		d.verified++
		d.flagged++
	case slices.Contains(left, pair[0]) || slices.Contains(left, pair[1]):
		d.oneOfTwo++
	default:
		d.wrong++
		t.Logf("silently wrong: %s and %s taken for %v", first.Words, second.Words, r.Suspects[0].Faults)
	}
}

// alike reports whether two faults together show what a single case shows at
// every reading that is no listening: the second is hidden by the first.
func alike(table *meter.Table, first, second fault.Fault, c int) bool {
	both, ok := meter.NewCircuit(fault.ApplyAll(table.Graph, first, second), table.Options)
	if !ok {
		return false
	}
	for i := range table.Asks {
		if a := &table.Asks[i]; a.Kind != meter.Darkens && both.Shown(a) != table.Column(i).Shown(c) {
			return false
		}
	}
	return true
}

func doublesOf(t testing.TB, name string, trials int, seed uint64) doubles {
	t.Helper()
	table := tableOf(t, name, meter.Options{})
	random := rand.New(rand.NewPCG(seed, 5))
	lists := map[int]*meter.Proof{}
	var d doubles
	for d.trials < trials {
		pair := [2]int{1 + random.IntN(len(table.Cases)-1), 1 + random.IntN(len(table.Cases)-1)}
		if pair[0] == pair[1] {
			continue
		}
		d.double(t, table, lists, pair, random.Uint64())
	}
	return d
}

func TestDoublesAreFlagged(t *testing.T) {
	for name, n := range map[string]int{oneTwin: 150, twoTwins: 4} {
		d := doublesOf(t, name, n, 9)
		t.Logf("%s: %s", name, &d)
	}
}
