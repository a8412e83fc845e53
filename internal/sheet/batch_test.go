package sheet

import (
	"bytes"
	"strings"
	"sync"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/swap"
)

// A table of customers: each row its loom and sheet, or why not; the same in
// any order, on any number of cores.
func TestMakeRows(t *testing.T) {
	text := diag.NewText("phase.yaml", string(mustRead(t, "twin-coil-split")))
	rows, list := swap.ReadTable(diag.NewText("customers.csv", "name,for,bridge.code,tone.is,volume.track\n"+
		"as-it-is,Curlew,,,\n"+
		"mini,Dunlin,,pot/mini,250k audio\n"+
		"two-leads,Knot,curlew,,\n"+
		"no-such-pot,Stint,,pot/giant,\n"))
	if len(list) > 0 {
		t.Fatal(list)
	}
	made := make([]Made, len(rows))
	var wait sync.WaitGroup
	for i := range rows {
		wait.Go(func() { made[i] = Make(text, shelf(), rows[i], "https://bench.example/", Print{}) })
	}
	wait.Wait()
	for i, want := range []swap.Verdict{swap.Same, swap.Same, swap.Search, swap.Refused} {
		m := &made[i]
		if m.Swap.Verdict != want || m.Failed() != (i >= 2) || m.Failed() && len(m.Why) == 0 {
			t.Errorf("%s: %q, failed %v: %v", m.Name, m.Swap.Verdict, m.Failed(), m.Why)
		}
	}
	if !strings.Contains(made[1].Swap.Text, "is: pot/mini") {
		t.Errorf("the loom is\n%s", made[1].Swap.Text)
	}
	again := Make(text, shelf(), rows[0], "https://bench.example/", Print{})
	if !bytes.Equal(again.PDF, made[0].PDF) {
		t.Error("the same row gives another sheet when it is made alone")
	}
}
