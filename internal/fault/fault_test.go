package fault

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
	"loomwright/library"
)

var update = flag.Bool("update", false, "write the committed lists of faults anew")

func parse(t testing.TB, name, data string) *wiring.Graph {
	t.Helper()
	l, list := loom.Read(diag.NewText(name, data), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
	if l == nil {
		t.Fatalf("%s: %v", name, list)
	}
	g, more := wiring.Build(l)
	if more.HasErrors() {
		t.Fatalf("%s: %v", name, more)
	}
	return g
}

func bench(t testing.TB, name string) *wiring.Graph {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return parse(t, name, string(data))
}

var benches = []string{"one-twin", "two-twins"}

// The committed lists: every single fault of the two benches, those that are the
// same circuit together, those that change nothing with the reason.
func TestCommittedLists(t *testing.T) {
	for _, name := range benches {
		g := bench(t, name)
		cases, harmless := Cases(g, List(g))
		var b bytes.Buffer
		faults := 0
		for _, c := range cases[1:] {
			for i, f := range c.Faults {
				mark := "-"
				if i > 0 {
					mark = "  ="
				}
				fmt.Fprintf(&b, "%s %s: %s\n", mark, f.Kind, f.Words)
				faults++
			}
		}
		for _, h := range harmless {
			fmt.Fprintf(&b, "harmless %s: %s: %s\n", h.Kind, h.Words, h.Why)
		}
		t.Logf("%s: %d faults make %d circuits, %d more change nothing", name, faults, len(cases)-1, len(harmless))
		file := "testdata/" + name + ".faults"
		if *update {
			if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(b.Bytes(), want) {
			t.Errorf("%s differs from what is listed now (-update writes it)", file)
		}
	}
}

// Each kind of fault comes up on the two benches, and has a prior and a remedy.
func TestEveryKindComesUp(t *testing.T) {
	seen := map[Kind]bool{}
	for _, name := range benches {
		g := bench(t, name)
		for _, f := range List(g) {
			seen[f.Kind] = true
			if f.Prior <= 0 || f.Remedy(g) == "" || f.Words == "" {
				t.Errorf("%+v: prior %g, remedy %q", f, f.Prior, f.Remedy(g))
			}
			if terms, runs := f.Places(g); len(terms)+len(runs) == 0 && f.Kind != SwitchUpside {
				t.Errorf("%s: has no place", f.Words)
			}
		}
	}
	for k := range Priors() {
		if !seen[k] {
			t.Errorf("no fault of the kind %q", k)
		}
		if do[k] == nil {
			t.Errorf("the kind %q cannot be applied", k)
		}
	}
}

// Applying a fault leaves the healthy graph as it was.
func TestApplyChangesNothingElse(t *testing.T) {
	g, same := bench(t, "two-twins"), bench(t, "two-twins")
	for _, f := range List(g) {
		Apply(g, f)
		if !reflect.DeepEqual(plain(g), plain(same)) {
			t.Fatalf("%s changed the graph that it was applied to", f.Words)
		}
	}
}

// plain is a graph without its source text.
func plain(g *wiring.Graph) wiring.Graph {
	out := *g
	out.Loom = nil
	return out
}

// answers are what electrics, which knows nothing of this package's comparison
// of circuits, computes of a graph: ohms between all terminals, and the level at
// the jack, in every setting with the knobs at 10, 5 and 0.
func answers(t *testing.T, g *wiring.Graph, terms []int) [][]float64 {
	t.Helper()
	m, list := electrics.New(g, electrics.Options{Points: 8})
	if m == nil {
		t.Fatal(list)
	}
	var out [][]float64
	for s := range setting.All(g) {
		for _, mark := range []float64{1, 0.5, 0} {
			turn := setting.FullUp(g)
			for i := range turn {
				turn[i] = mark
			}
			dc := m.DC(s.At, turn)
			var row []float64
			for i, a := range terms {
				for _, b := range terms[:i] {
					ohms, lo, hi := dc.Interval(a, b)
					row = append(row, ohms, lo, hi)
				}
			}
			r := m.Table([]setting.Setting{s}, turn, -1)[0]
			out = append(out, append(row, r.Level, r.Low, r.Brightness))
		}
	}
	return out
}

func alike(a, b [][]float64) bool {
	for i := range a {
		for k := range a[i] {
			x, y := a[i][k], b[i][k]
			if x != y && !(math.Abs(x-y) <= 1e-9*max(1, math.Abs(x), math.Abs(y))) {
				return false
			}
		}
	}
	return true
}

// Faults that are one case give the same ohms between all terminals and the same
// sound; harmless ones the same sound, and the same ohms at the jack.
func TestSameCircuitsAreTheSame(t *testing.T) {
	g := bench(t, "one-twin")
	var all []int
	for i := range g.Terms {
		if g.Terms[i].Use >= 0 {
			all = append(all, i)
		}
	}
	cases, harmless := Cases(g, List(g))
	apart := 0
	whole := answers(t, g, all)
	for _, c := range cases[1:] {
		first := answers(t, c.Graph, all)
		if !alike(first, whole) {
			apart++
		}
		for _, f := range c.Faults[1:] {
			if !alike(first, answers(t, Apply(g, f), all)) {
				t.Errorf("%s and %s are called the same", c.Faults[0].Words, f.Words)
			}
		}
	}
	jack := []int{g.Hot, g.Ground}
	atJack := answers(t, g, jack)
	for _, h := range harmless {
		if !alike(atJack, answers(t, Apply(g, h.Fault), jack)) {
			t.Errorf("%s is called harmless: %s", h.Words, h.Why)
		}
	}
	if apart < len(cases)*9/10 {
		t.Errorf("only %d of %d cases change ohms or sound", apart, len(cases)-1)
	}
}

// Faults of the larger bench that are called harmless, by the same means.
func TestHarmlessOfTheLargerBench(t *testing.T) {
	g := bench(t, "two-twins")
	jack := []int{g.Hot, g.Ground}
	want := answers(t, g, jack)
	_, harmless := Cases(g, List(g))
	for _, h := range harmless {
		if !alike(want, answers(t, Apply(g, h.Fault), jack)) {
			t.Errorf("%s is called harmless: %s", h.Words, h.Why)
		}
	}
}

// Neighbours by hand, from the part file of the push-pull with pads: its pads
// stand 5 mm apart below, pins of the slide 4.8 mm across and 5.5 mm along.
func TestNeighboursByHand(t *testing.T) {
	g := bench(t, "one-twin")
	var got []string
	for _, p := range Neighbours(g) {
		got = append(got, strings.TrimPrefix(g.Terms[p[0]].Name, "volume.")+" "+strings.TrimPrefix(g.Terms[p[1]].Name, "volume."))
	}
	want := []string{
		"cw wiper", "wiper ccw",
		"pull.a pull.a.pushed", "pull.a pull.a.pulled", "pull.b pull.b.pushed", "pull.b pull.b.pulled",
		"pull.a pull.b", "pull.a.pushed pull.b.pushed", "pull.a.pulled pull.b.pulled",
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("neighbours\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Every fault of every example can be applied and computed.
func TestFaultsOfAllExamples(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 15 {
		t.Fatalf("%d examples: %v", len(names), err)
	}
	faults := 0
	for _, name := range names {
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		g := parse(t, name, string(data))
		s := setting.Nth(g, 0)
		for _, f := range List(g) {
			faults++
			m, list := electrics.New(Apply(g, f), electrics.Options{})
			if m == nil {
				t.Fatalf("%s: %s: %v", name, f.Words, list)
			}
			if ohms, lo, hi := m.DC(s.At, setting.FullUp(g)).Interval(g.Hot, g.Ground); math.IsNaN(ohms) || lo > hi {
				t.Errorf("%s: %s: %g in %g to %g", name, f.Words, ohms, lo, hi)
			}
		}
	}
	t.Logf("%d faults of %d looms", faults, len(names))
}
