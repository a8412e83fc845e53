package meter

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/oracle"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

var printed = regexp.MustCompile(`(?m)^v\(.* = ([0-9.e+-]+)\s*$`)

// Faulted circuits written by hand, node by node, from the wiring and the words
// of the fault, solved by ngspice's operating point: the graph that the fault
// makes gives the same ohms within 1e-9, and what the reading is said to show
// holds them.
func TestFaultedCircuitsAgainstNgspice(t *testing.T) {
	program := oracle.Need(t, "ngspice")
	files, err := filepath.Glob("testdata/decks/*.cir")
	if err != nil || len(files) < 15 {
		t.Fatalf("%d decks, at least 15 are wanted: %v", len(files), err)
	}
	worst := 0.0
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".cir"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command(program, "-b", file).CombinedOutput()
			m := printed.FindSubmatch(out)
			if err != nil || m == nil {
				t.Fatalf("%v\n%s", err, out)
			}
			want, err := strconv.ParseFloat(string(m[1]), 64)
			if err != nil {
				t.Fatal(err)
			}
			worst = max(worst, faultedOhms(t, string(text), want))
		})
	}
	t.Logf("%d decks, at most %.1e off", len(files), worst)
}

// noted reads "* key: value" of a deck.
func noted(deck, key string) string {
	for _, l := range strings.Split(deck, "\n") {
		if v, ok := strings.CutPrefix(l, "* "+key+":"); ok {
			return strings.TrimSpace(v)
		}
	}
	return ""
}

// faultedOhms compares a deck's reading and returns how far off it is.
func faultedOhms(t *testing.T, deck string, want float64) float64 {
	t.Helper()
	g := bench(t, noted(deck, "loom"))
	faulted := named(t, g, noted(deck, "fault"))
	m, list := electrics.New(faulted, electrics.Options{})
	if m == nil {
		t.Fatal(list)
	}
	key := "ohms " + strings.Replace(noted(deck, "ohms"), " ", " to ", 1) + "; " + noted(deck, "with")
	if k := noted(deck, "knobs"); k != "" {
		key += "; " + strings.Replace(k, " ", "=", 1)
	}
	a, err := Parse(g, key)
	if err != nil {
		t.Fatal(err)
	}
	found, err := setting.Match(g, noted(deck, "with"))
	if err != nil || len(found) != 1 {
		t.Fatalf("%d settings: %v", len(found), err)
	}
	got, lo, hi := m.DC(a.At, a.Turn).Interval(a.A, a.B)
	off := math.Abs(got/want - 1)
	if off > 1e-9 || lo > want || hi < want {
		t.Errorf("%.12g Ω in %g to %g, by hand %.12g Ω", got, lo, hi, want)
	}
	c, ok := NewCircuit(faulted, Options{})
	if s := c.Shown(&a); !ok || s.Lo > want || s.Hi < want {
		t.Errorf("shown are %g to %g Ω, by hand %g Ω", s.Lo, s.Hi, want)
	}
	return off
}

// named is a graph with the fault that the list calls so.
func named(t *testing.T, g *wiring.Graph, words string) *wiring.Graph {
	t.Helper()
	for _, f := range fault.List(g) {
		if f.Words == words {
			return fault.Apply(g, f)
		}
	}
	t.Fatalf("no fault is called %q", words)
	return nil
}
