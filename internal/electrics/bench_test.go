package electrics

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"loomwright/internal/oracle"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// The same in a browser's core, under node:
//
//	GOOS=js GOARCH=wasm go test -exec="$(go env GOROOT)/lib/wasm/go_js_wasm_exec" -run '^$' -bench 'Response|Table|Ohms' ./internal/electrics

// merged takes the end resistances of pots away, so that a wiper at its end is
// one net with it: about 8 unknowns in the loom of two twin coils.
func merged(g *wiring.Graph) *wiring.Graph {
	for i := range g.Tracks {
		g.Tracks[i].End = 0
	}
	return g
}

// sweepOf is everything that a response needs anew when a switch or knob moves:
// merge, plan, and the solution of 400 points for all coils.
func sweepOf(m *Model, at []int, turn setting.Turn, r *runner) int {
	c := m.circuit(at, turn, nil)
	r.fit(c)
	s := m.ac.grid.sweep
	for b := s.first; b < s.end; b++ {
		r.block(c, m.ac.tables, m.ac.grid.hz, b)
	}
	return c.plan.Nodes()
}

func benchSweep(b *testing.B, g *wiring.Graph, with int, turn func(setting.Turn) setting.Turn) {
	m := modelOf(b, g, Options{})
	m.ac.prepare()
	at, knobs := setting.Nth(g, with).At, turn(setting.FullUp(g))
	r := &runner{}
	nodes := 0
	for b.Loop() {
		nodes = sweepOf(m, at, knobs, r)
	}
	b.ReportMetric(float64(nodes), "unknowns")
	b.ReportMetric(float64(len(g.Coils)), "EMFs")
}

func asIs(t setting.Turn) setting.Turn { return t }

// half puts every knob in mid-turn.
func half(t setting.Turn) setting.Turn {
	out := slices.Clone(t)
	for i := range out {
		out[i] = 0.5
	}
	return out
}

func BenchmarkResponseMerged(b *testing.B)  { benchSweep(b, merged(loomFile(b, "two-twins")), 1, asIs) }
func BenchmarkResponseEnds(b *testing.B)    { benchSweep(b, loomFile(b, "two-twins"), 1, asIs) }
func BenchmarkResponseLargest(b *testing.B) { benchSweep(b, loomFile(b, "largest"), 1, half) }

// BenchmarkCurve is what a face asks for: the same with dB, coils and peak.
func BenchmarkCurve(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	at, full := setting.Nth(g, 1).At, setting.FullUp(g)
	for b.Loop() {
		m.Curve(at, full)
	}
}

// BenchmarkTable is every figure of every setting with every knob moved a notch.
func benchTable(b *testing.B, name string) {
	g := loomFile(b, name)
	m := modelOf(b, g, Options{})
	ss := settingsOf(g)
	notch := 0.0
	for b.Loop() {
		turn := setting.FullUp(g)
		notch = 0.5 - notch
		for i := range turn {
			turn[i] = 0.4 + notch/10
		}
		m.Table(ss, turn, 0)
	}
	b.ReportMetric(float64(len(ss)), "settings")
}

func BenchmarkTable(b *testing.B)        { benchTable(b, "two-twins") }
func BenchmarkTableLargest(b *testing.B) { benchTable(b, "largest") }

// BenchmarkModel is what a changed value costs: filling in and tabulating.
func BenchmarkModel(b *testing.B) {
	g := loomFile(b, "two-twins")
	for b.Loop() {
		modelOf(b, g, Options{}).ac.prepare()
	}
}

func BenchmarkBand(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	at, full := setting.Nth(g, 1).At, setting.FullUp(g)
	for b.Loop() {
		m.Band(at, full)
	}
}

// BenchmarkAllOhms is every pair of terminals in 12 settings, with bounds.
func BenchmarkAllOhms(b *testing.B) {
	g := loomFile(b, "two-twins")
	m := modelOf(b, g, Options{})
	full, ss := setting.FullUp(g), settingsOf(g)
	for b.Loop() {
		for _, s := range ss {
			d := m.DC(s.At, full)
			for a := range g.Terms {
				for c := range a {
					d.Interval(a, c)
				}
			}
		}
	}
	b.ReportMetric(float64(len(ss)*len(g.Terms)*(len(g.Terms)-1)/2), "readings")
}

var analysisTime = regexp.MustCompile(`AC analysis time = ([0-9.]+)`)

// ngspiceSweep is ngspice's own analysis time for 400 points of one EMF, as it
// reports it for many sweeps in one run: no start, no parsing, no output.
func ngspiceSweep(b *testing.B, deck string) time.Duration {
	const sweeps = 40
	script := ".control\nrepeat " + strconv.Itoa(sweeps) + "\nac dec 133 20 20k\ndestroy all\nend\nrusage all\n.endc\n.end\n"
	file := filepath.Join(b.TempDir(), "deck.cir")
	if err := os.WriteFile(file, []byte(strings.Replace(deck, ".ac dec 133 20 20k\n.end\n", script, 1)), 0o600); err != nil {
		b.Fatal(err)
	}
	said, err := exec.Command(oracle.Need(b, "ngspice"), "-b", file).CombinedOutput()
	found := analysisTime.FindSubmatch(said)
	if found == nil {
		b.Fatalf("ngspice told no analysis time (%v)\n%s", err, tail(said))
	}
	seconds, err := strconv.ParseFloat(string(found[1]), 64)
	if err != nil {
		b.Fatal(err)
	}
	return time.Duration(seconds / sweeps * float64(time.Second))
}

// benchAgainst takes both in turn, so that load falls on both, and reports the
// ratio of the medians: ngspice for one EMF against ours for all.
func benchAgainst(b *testing.B, g *wiring.Graph, with int, turn func(setting.Turn) setting.Turn) {
	m := modelOf(b, g, Options{})
	m.ac.prepare()
	at, knobs := setting.Nth(g, with).At, turn(setting.FullUp(g))
	d := &decker{}
	d.ac(g, at, knobs, 0)
	deck := d.acDeck("a loom", "dec 133 20 20k")
	r := &runner{}
	var ours, theirs []time.Duration
	for b.Loop() {
		theirs = append(theirs, ngspiceSweep(b, deck))
		start := time.Now()
		for range 40 {
			sweepOf(m, at, knobs, r)
		}
		ours = append(ours, time.Since(start)/40)
	}
	slices.Sort(ours)
	slices.Sort(theirs)
	o, s := ours[len(ours)/2], theirs[len(theirs)/2]
	b.ReportMetric(float64(o.Nanoseconds())/1e3, "ours-µs")
	b.ReportMetric(float64(s.Nanoseconds())/1e3, "ngspice-µs/EMF")
	b.ReportMetric(float64(s)/float64(o), "ratio-1EMF")
	b.ReportMetric(float64(s)/float64(o)*float64(len(g.Coils)), "ratio-allEMFs")
}

func BenchmarkAgainstNgspiceMerged(b *testing.B) {
	benchAgainst(b, merged(loomFile(b, "two-twins")), 1, asIs)
}

func BenchmarkAgainstNgspiceLargest(b *testing.B) {
	benchAgainst(b, loomFile(b, "largest"), 1, half)
}
