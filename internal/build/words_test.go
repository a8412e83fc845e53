package build_test

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/build"
	"loomwright/internal/wiring"
)

func classOf(g *wiring.Graph, term int) string {
	if u := g.Terms[term].Use; u >= 0 {
		return g.Loom.Uses[u].Part.Class
	}
	return ""
}

// Where the iron goes, the step says what is good and what to mind.
func TestCautionsWhereTheyBelong(t *testing.T) {
	eachRandom(t, func(t *testing.T, g *wiring.Graph, p build.Plan) {
		for _, s := range p.Steps {
			heats, onCase := false, false
			for _, e := range s.Ends {
				heats = heats || e.Work.Heats()
				onCase = onCase || e.Work == build.Case
				if e.Work == build.Again && !strings.Contains(s.Do, "heated again") {
					t.Errorf("step %d does not say that it heats %s again: %s", s.Number, g.Terms[e.Term].Name, s.Do)
				}
			}
			if heats != (s.Good != "") {
				t.Errorf("step %d: heats %v, and says of a good joint %q", s.Number, heats, s.Good)
			}
			about := strings.Join(s.Notes, " ")
			capacitor := slices.ContainsFunc([]int{g.Runs[s.Run].A, g.Runs[s.Run].B}, func(t int) bool { return classOf(g, t) == "capacitor" })
			if capacitor && heats != strings.Contains(about, "something cold") {
				t.Errorf("step %d heats a capacitor's lead %v, and says %q", s.Number, heats, about)
			}
			if onCase != strings.Contains(about, "Scuff") {
				t.Errorf("step %d solders a case %v, and says %q", s.Number, onCase, about)
			}
		}
	})
}

// Colours of the drawing are in the words; those of the loom file stand.
func TestColoured(t *testing.T) {
	g := read(t, shelf(), `
loomwright: 1
parts:
  a: {is: pot/standard}
  b: {is: pot/standard}
  jack: {is: jack/mono}
joins:
  - a.cw -- b.cw
  - a.wiper -- b.wiper: blue
  - a.ccw -- a.case: bare
`)
	p := build.Order(g).Coloured(g, func(int) string { return "violet" })
	var got []string
	for _, s := range p.Steps {
		word, _, _ := strings.Cut(s.Do, " ")
		got = append(got, word)
	}
	if want := []string{"Bare", "Blue", "Violet"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// Parts of one kind and value stand on one line; every part is counted once.
func TestParts(t *testing.T) {
	g := read(t, shelf(), `
loomwright: 1
parts:
  neck: {is: pickup/single-coil, ohms: 6k}
  bridge: {is: pickup/single-coil, ohms: 7k}
  volume: {is: pot/standard, track: 250k audio}
  tone: {is: pot/standard, track: 250k audio}
  blend: {is: pot/standard, track: 250k linear}
  jack: {is: jack/mono}
`)
	want := []string{"1 6 kΩ", "1 7 kΩ", "2 250 kΩ audio", "1 250 kΩ linear", "1 "}
	var got []string
	for _, l := range build.Parts(g) {
		got = append(got, string(rune('0'+l.Count))+" "+l.Value)
		if len(l.Names) != l.Count {
			t.Errorf("%d parts are called %v", l.Count, l.Names)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestPlaceNamesItsView(t *testing.T) {
	g := read(t, shelf(), "loomwright: 1\nparts:\n  volume: {is: pot/standard}\n  jack: {is: jack/mono}\n")
	at, _ := g.Find("volume.cw")
	if got := build.Place(g, at); got != "left lug, met at full clockwise turn (back, lugs down)" {
		t.Error(got)
	}
}
