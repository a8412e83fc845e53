package wiring_test

import (
	"slices"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
	"loomwright/library"
)

func read(t *testing.T, text string) *loom.Loom {
	t.Helper()
	l, list := loom.Read(diag.NewText("loom.yaml", "loomwright: 1\n"+text), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
	if l == nil {
		t.Fatal(list)
	}
	return l
}

func build(t *testing.T, text string) *wiring.Graph {
	t.Helper()
	g, list := wiring.Build(read(t, text))
	if list.HasErrors() {
		t.Fatal(list)
	}
	return g
}

const curlew = `parts:
  bridge: {is: pickup/twin-coil, leads: {orange: north.start, pink: unknown, blue: unknown, braid: [south.start, shield]}}
  volume: {is: pot/push-pull-pads, track: 500k audio}
  jack:   {is: jack/mono}
joins:
  - bridge.orange, volume.pull.a -- volume.cw
  - volume.wiper -- jack.tip: screened, braid volume.case -- jack.sleeve
  - bridge.braid -- volume.case
`

func names(g *wiring.Graph, terms ...int) []string {
	var out []string
	for _, t := range terms {
		out = append(out, g.Terms[t].Name)
	}
	return out
}

// TestLeads: a lead gives its terminal a second name, a tied one ties, an
// unknown one is a terminal of its own and may be what is left.
func TestLeads(t *testing.T) {
	g := build(t, curlew)
	for name, want := range map[string]string{"bridge.orange": "bridge.orange", "bridge.north.start": "bridge.orange",
		"bridge.braid": "bridge.braid", "bridge.south.start": "bridge.braid", "bridge.pink": "bridge.pink", "volume.pull.a": "volume.pull.a"} {
		at, ok := g.Find(name)
		if !ok || g.Terms[at].Name != want {
			t.Errorf("%s is found as %q (%v), want %q", name, g.Terms[at].Name, ok, want)
		}
	}
	if _, ok := g.Find("bridge.nothing"); ok {
		t.Error("a terminal that is not there is found")
	}
	if len(g.Unknown) != 2 {
		t.Fatalf("%d unknown leads", len(g.Unknown))
	}
	for i, lead := range []string{"bridge.pink", "bridge.blue"} {
		u := g.Unknown[i]
		if got := names(g, u.Term)[0]; got != lead || !slices.Equal(names(g, u.May...), []string{"bridge.north.finish", "bridge.south.finish"}) {
			t.Errorf("%s may be %v", got, names(g, u.May...))
		}
	}
	readings, all := wiring.Readings(g)
	if len(readings) != 2 || !all {
		t.Errorf("readings %v, all %v", readings, all)
	}
	joined := g.With(readings[0])
	if len(joined.Links) != len(g.Links)+2 || len(joined.Without(readings[0]).Links) != len(g.Links) {
		t.Errorf("With and Without do not undo each other")
	}
}

func TestRunsAndBraids(t *testing.T) {
	g := build(t, curlew)
	var runs []string
	for _, r := range g.Runs {
		runs = append(runs, g.Terms[r.A].Name+" -- "+g.Terms[r.B].Name)
	}
	want := []string{"bridge.orange -- volume.cw", "volume.pull.a -- volume.cw", "volume.wiper -- jack.tip", "bridge.braid -- volume.case"}
	if !slices.Equal(runs, want) {
		t.Errorf("runs %q, want %q", runs, want)
	}
	braid := g.Runs[2].Braid
	if braid < 0 || g.Terms[braid].Kind != "braid" || !slices.Contains(g.Grounds, braid) || g.Runs[0].Braid != -1 {
		t.Errorf("braid %d of %+v", braid, g.Runs[2])
	}
	soldered := 0
	for _, l := range g.Links {
		if l.A == braid && l.Run == 2 {
			soldered++
		}
	}
	if soldered != 2 {
		t.Errorf("the braid is soldered at %d ends", soldered)
	}
}

// TestHalfBuilt: runs that are not soldered keep their place and join nothing.
func TestHalfBuilt(t *testing.T) {
	l := read(t, curlew)
	whole, _ := wiring.Build(l)
	half, _ := wiring.Half(l, func(run int) bool { return run == 1 })
	if len(half.Runs) != len(whole.Runs) || len(half.Terms) != len(whole.Terms) {
		t.Errorf("%d runs of %d, %d terminals of %d", len(half.Runs), len(whole.Runs), len(half.Terms), len(whole.Terms))
	}
	for _, link := range half.Links {
		if link.Run >= 0 && link.Run != 1 {
			t.Errorf("run %d is not soldered and joins", link.Run)
		}
	}
	if n := len(whole.Links) - len(half.Links); n != 5 { // three runs and two ends of a braid
		t.Errorf("%d links fewer", n)
	}
}

// TestPotEndsSwapped: in a left-handed loom with pot ends swapped a pot does at
// 10 what it did at 0: ends, taper, table and the half of a blend change over.
func TestPotEndsSwapped(t *testing.T) {
	const parts = `parts:
  volume: {is: pot/no-load, track: 500k audio}
  blend:  {is: pot/blend, track: 500k linear}
  jack:   {is: jack/mono}
joins: []
`
	right, left := build(t, parts), build(t, "hand: left with pot ends swapped\n"+parts)
	for i, r := range right.Tracks {
		l := left.Tracks[i]
		if l.CW != r.CCW || l.CCW != r.CW || l.Wiper != r.Wiper || l.Cut != 0 || r.Cut != 1 {
			t.Errorf("track %d: %+v, swapped %+v", i, r, l)
		}
	}
	if l := left.Tracks[0].Value.Taper; l != units.ReverseAudio || right.Tracks[0].Value.Taper != units.Audio {
		t.Errorf("audio turned over is %s", l)
	}
	for i, want := range []part.Law{part.WholeTurn, part.SecondHalf, part.FirstHalf} {
		if left.Tracks[i].Law != want {
			t.Errorf("track %d works over half %v, want %v", i, left.Tracks[i].Law, want)
		}
	}
}

func TestOutputs(t *testing.T) {
	g, list := wiring.Build(read(t, "parts:\n  neck: {is: pickup/single-coil}\n"))
	if g.Hot != -1 || len(list) != 1 || list[0].Code != "output-missing" {
		t.Errorf("hot %d, %v", g.Hot, list)
	}
	g, list = wiring.Build(read(t, "parts:\n  a: {is: jack/mono}\n  b: {is: output/tails}\n"))
	if len(list) != 1 || list[0].Code != "output-twice" || g.Terms[g.Hot].Name != "a.tip" {
		t.Errorf("hot %s, %v", g.Terms[g.Hot].Name, list)
	}
}

// TestTooManyReadings: what cannot be tried is not told.
func TestTooManyReadings(t *testing.T) {
	g := &wiring.Graph{Terms: make([]wiring.Term, 12)}
	for i := range 5 {
		g.Unknown = append(g.Unknown, wiring.Unknown{Term: i, May: []int{5, 6, 7, 8, 9}})
	}
	if readings, all := wiring.Readings(g); all || len(readings) != 1 || len(readings[0]) != 5 {
		t.Errorf("%d readings of 120, all %v", len(readings), all)
	}
	g.Unknown = []wiring.Unknown{{Term: 0, May: []int{5}}, {Term: 1, May: []int{5}}, {Term: 2}}
	if readings, all := wiring.Readings(g); !all || len(readings) != 1 || len(readings[0]) != 1 {
		t.Errorf("more leads than ends: %v, all %v", readings, all)
	}
}
