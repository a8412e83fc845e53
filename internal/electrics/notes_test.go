package electrics

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

func notesOf(t *testing.T, g *wiring.Graph) map[string]Note {
	t.Helper()
	m := modelOf(t, g, Options{})
	full := setting.FullUp(g)
	ss := settingsOf(g)
	out := map[string]Note{}
	for _, n := range m.Notes(ss, m.Table(ss, full, 0), full) {
		out[n.Code] = n
	}
	return out
}

// A quarter of the ohms is about half the volts, −6 dB and not −12; and the note
// has the loom's own numbers.
func TestNoteOhmsAreNotOutput(t *testing.T) {
	n := notesOf(t, loomFile(t, "pull"))["ohms-not-output"]
	for _, want := range []string{"1.99 kΩ with volume pulled", "about a quarter of the 7.88 kΩ", "6.2 dB weaker", "about half the voltage"} {
		if !strings.Contains(n.Text, want) {
			t.Errorf("%q does not say %q", n.Text, want)
		}
	}
}

func TestNoteParallelIsNotSplit(t *testing.T) {
	g := loomFile(t, "pull")
	n := notesOf(t, g)["parallel-not-split"]
	for _, want := range []string{"volume pulled", "hum where parallel cancels", "instead of 5.1 kHz"} {
		if !strings.Contains(n.Text, want) {
			t.Errorf("%q does not say %q", n.Text, want)
		}
	}
	if n, ok := notesOf(t, loomFile(t, "five-way"))["parallel-not-split"]; ok {
		t.Errorf("three single coils: %+v", n)
	}
}

// The corner 1/(2πRC) of 250 k and 22 n is 29 Hz; at the jack nothing happens
// there.
func TestNoteToneCorner(t *testing.T) {
	g := loomFile(t, "five-way")
	n := notesOf(t, g)["tone-corner"]
	corner := 1 / (2 * math.Pi * 250e3 * 22e-9)
	if !strings.Contains(n.Text, fmt.Sprintf("%.0f Hz", corner)) {
		t.Errorf("%q does not say %.1f Hz", n.Text, corner)
	}
	c := modelOf(t, g, Options{}).Curve(setting.Nth(g, 0).At, setting.FullUp(g))
	for i, hz := range c.Hz {
		if hz < 4*corner && math.Abs(c.DB[i]-c.DB[0]) > 0.5 {
			t.Errorf("%.2f dB at %.0f Hz: the corner is heard after all", c.DB[i]-c.DB[0], hz)
		}
	}
}

func TestNoteHotterIsNotLouder(t *testing.T) {
	g := loomFile(t, "two-twins")
	n := notesOf(t, g)["hotter-not-louder"]
	if !strings.Contains(n.Text, "8.26 kΩ") || !strings.Contains(n.Text, "dB weaker") {
		t.Errorf("%+v", n)
	}
}

// A coil shorted beside a sounding one it is coupled to differs from the same
// coil left open: the two looms, wired so, against the split that either shows.
func TestSplitShortOrOpen(t *testing.T) {
	short, open := loomFile(t, "split-short"), loomFile(t, "split-floating")
	full := setting.FullUp(short)
	m := modelOf(t, short, Options{})
	splits := m.Splits(settingsOf(short), full)
	if len(splits) != 1 || splits[0].Coil != "bridge.south" {
		t.Fatalf("%+v", splits)
	}
	a := m.Table(settingsOf(short), full, -1)[0]
	b := modelOf(t, open, Options{}).Table(settingsOf(open), full, -1)[0]
	if d := b.Level - a.Level; math.Abs(d-splits[0].Louder) > 1e-9 || d < 0.3 {
		t.Errorf("wired both ways %.3f dB, the split says %.3f dB", d, splits[0].Louder)
	}
	if math.Abs(b.Peak.DB-splits[0].Open.DB) > 1e-6 || b.Peak.DB < a.Peak.DB+0.5 {
		t.Errorf("peaks %.2f and %.2f dB, the split says %.2f dB", a.Peak.DB, b.Peak.DB, splits[0].Open.DB)
	}
	short.Couplings[0].K = 0
	if s := modelOf(t, short, Options{}).Splits(settingsOf(short), full); s != nil {
		t.Errorf("coils without coupling: %+v", s)
	}
}
