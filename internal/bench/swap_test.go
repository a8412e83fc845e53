package bench

import (
	"bytes"
	"fmt"
	"strings"
	"sync"
	"testing"

	"loomwright/examples"
	"loomwright/internal/swap"
)

func exampleData(t testing.TB, name string) string {
	t.Helper()
	data, err := examples.Files.ReadFile(name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A switch with other contacts has its wiring searched anew; the new loom, read
// from its text alone, sounds as the old one did, and its knobs act as before.
func TestSwapSearches(t *testing.T) {
	b := New()
	for _, c := range []struct{ loom, use, is string }{
		{"three-single-coils-5way", "lever", "switch/lever-4p5t"},
		{"two-twin-coils-phase", "toggle", "switch/lever-3way-2pole"},
	} {
		data := exampleData(t, c.loom)
		r := b.Swap("x.yaml", data, swap.Request{Changes: []swap.Change{{Use: c.use, Is: c.is}}})
		if r.Verdict != swap.Searched || len(r.Said) == 0 || len(r.Differences) > 0 {
			t.Errorf("%s: %q, %v %v, differences %v", c.loom, r.Verdict, r.Why, r.Said, r.Differences)
		}
		before, after := b.Check("x.yaml", data), b.Check("x.yaml", r.Text)
		if len(before.Rows) == 0 || len(before.Rows) != len(after.Rows) {
			t.Fatalf("%s: %d settings, were %d", c.loom, len(after.Rows), len(before.Rows))
		}
		for i := range before.Rows {
			was, is := before.Rows[i].Sound, after.Rows[i].Sound
			if w := was.Canon().String(); w != is.Canon().String() && w != is.Reverse().Canon().String() {
				t.Errorf("%s, %s: %s, was %s", c.loom, after.Rows[i].Name, is, was)
			}
		}
	}
}

// What cannot be had from the new part is said, with a switch that would do.
func TestSwapCannot(t *testing.T) {
	r := New().Swap("x.yaml", exampleData(t, "two-twin-coils-phase"), swap.Request{Changes: []swap.Change{{Use: "toggle", Is: "switch/lever-3way"}}})
	if r.Verdict != swap.Search || r.Text != "" || !strings.Contains(strings.Join(r.Said, "\n"), "would do") {
		t.Errorf("%q %v", r.Verdict, r.Said)
	}
}

// A table of customers: each row its loom and sheet, or why not; the same in
// any order, on any number of cores.
func TestSheetRows(t *testing.T) {
	b, data := New(), exampleData(t, "twin-coil-split")
	rows, list := SwapTable("customers.csv", "name,for,bridge.code,tone.is,volume.track\n"+
		"as-it-is,Curlew,,,\n"+
		"mini,<b>Dunlin</b> & **sons** \u202e🐦,,pot/mini,250k audio\n"+
		"two-leads,Knot,curlew,,\n"+
		"unknown,Godwit,knot,,\n"+
		"no-such-pot,Stint,,pot/giant,\n")
	if len(list) > 0 {
		t.Fatal(list)
	}
	o := SheetOptions{Base: "https://bench.example/"}
	made := make([]MadeRow, len(rows))
	var wait sync.WaitGroup
	for i := range rows {
		wait.Go(func() { made[i] = b.SheetRow("split.yaml", data, rows[i], o) })
	}
	wait.Wait()
	for i, why := range []string{"", "", "no lead on the new bridge", "loomwright leads --make 'twin coil, four leads' --leads turquoise", `tone.is "pot/giant"`} {
		m := &made[i]
		if (m.PDF == nil) != (why != "") || !strings.Contains(strings.Join(m.Why, "\n"), why) {
			t.Errorf("%s: %d bytes, %q", rows[i].Name, len(m.PDF), m.Why)
		}
	}
	if !strings.Contains(made[1].Loom, "is: pot/mini") {
		t.Errorf("the loom is\n%s", made[1].Loom)
	}
	if again := b.SheetRow("split.yaml", data, rows[0], o); !bytes.Equal(again.PDF, made[0].PDF) {
		t.Error("the same row gives another sheet when it is made alone")
	}
}

func ExampleLeadsCommand() {
	command, code := LeadsCommand(swap.Unknown{Use: "neck", Leads: []string{"brown", "grey; rm"}, Coils: 2, Bare: "bare"}, "my shelf")
	fmt.Println(code)
	fmt.Println(command)
	// Output:
	// neck-told
	// loomwright leads --make 'twin coil, two leads' --leads 'brown,grey; rm' --bare bare --name neck-told -o 'my shelf/codes/neck-told.yaml'
}
