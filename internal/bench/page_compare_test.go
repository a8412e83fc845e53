package bench

import (
	"math"
	"strings"
	"testing"
)

// TestCompareWithItself finds no difference.
func TestCompareWithItself(t *testing.T) {
	d := NewDesk(New())
	const name = "two-twin-coils-phase.yaml"
	text := exampleText(t, name)
	first := d.Open(name, text).Rows[0].Name
	c, err := d.Compare(Ask{Name: name, Text: text, With: first, Other: &Reference{Name: name, Text: text}})
	if err != nil || len(c.Lines) != 6 || c.Curve == nil || c.Note != "" {
		t.Fatalf("%v %+v", err, c)
	}
	for _, l := range c.Lines {
		words := strings.Join(l.Says, "; ")
		if l.Row.Level != 0 || strings.Contains(words, "there") || l.Row.Output == "sounding" && !strings.Contains(words, "about as loud; as bright") {
			t.Errorf("%s differs from itself: %+v %s", l.Other, l.Row.Level, words)
		}
	}
}

// TestCompareSettings holds two settings of one loom against each other: the
// figures are those of the table of levels, which is worked out apart.
func TestCompareSettings(t *testing.T) {
	b := New()
	d := NewDesk(b)
	const name = "twin-coil-split.yaml"
	text := exampleText(t, name)
	rows := d.Open(name, text).Rows
	if len(rows) < 2 {
		t.Fatal(len(rows))
	}
	c, err := d.Compare(Ask{Name: name, Text: text, With: rows[0].Name, Other: &Reference{Name: name, Text: text, With: rows[1].Name}})
	if err != nil || c.Lines[0].Other != rows[1].Name || c.Curve.Setting != rows[1].Name {
		t.Fatalf("%v %+v", err, c.Lines[0])
	}
	want := d.page.Figures[1].Level - d.page.Figures[0].Level
	if got := c.Lines[0].Row.Level; math.Abs(got-want) > 0.05 {
		t.Errorf("%s is %+.2f dB over %s, the table says %+.2f", rows[1].Name, got, rows[0].Name, want)
	}
	words := strings.Join(c.Lines[0].Says, "; ")
	if !strings.Contains(words, "louder") || !strings.Contains(words, "here ") || !strings.Contains(words, "hum: ") {
		t.Errorf("in words: %s", words)
	}
}

// TestCompareOtherLoom finds the settings that answer by what is heard, says
// where none does, and that pickups differ.
func TestCompareOtherLoom(t *testing.T) {
	d := NewDesk(New())
	const mine, theirs = "twin-coil-split.yaml", "two-twin-coils-phase.yaml"
	c, err := d.Compare(Ask{Name: mine, Text: exampleText(t, mine), Other: &Reference{Name: theirs, Text: exampleText(t, theirs)}})
	if err != nil || c.Note == "" || c.Title == "" {
		t.Fatalf("%v %+v", err, c)
	}
	if _, err := d.Compare(Ask{Name: mine, Text: exampleText(t, mine), Other: &Reference{Text: "nonsense: ["}}); err == nil || !strings.Contains(err.Error(), "the other loom") {
		t.Errorf("nonsense was compared with: %v", err)
	}
	if _, err := d.Compare(Ask{Name: mine, Text: exampleText(t, mine)}); err == nil {
		t.Error("nothing was compared with")
	}
}

// TestShelve reads a part of the user's own, which the library does not have.
func TestShelve(t *testing.T) {
	d := NewDesk(New())
	raw := d.bench.Library.Text("pot/standard")
	const loom = "loomwright: 1\nparts:\n  coil: {is: pickup/single-coil}\n  volume: {is: pot/godwit}\n  jack: {is: jack/mono}\njoins:\n  - coil.coil.start -- volume.cw\n"
	if p := d.Open("a", loom); p.Graph != nil {
		t.Fatal("pot/godwit is in the library")
	}
	d.Shelve(map[string]string{"pot/godwit.yaml": raw.Data, "../evil.yaml": "x"})
	if p := d.Open("a", loom); p.Graph == nil {
		t.Errorf("the shelf is not read: %v", p.Findings)
	}
	parts, _ := d.bench.Parts()
	found := false
	for _, p := range parts {
		found = found || p.ID == "pot/godwit"
	}
	if !found {
		t.Error("the list of parts does not have it")
	}
	d.Shelve(nil)
	if p := d.Open("a", loom); p.Graph != nil {
		t.Error("the shelf is still there")
	}
}

// TestCircuit draws the circuit of a loom and of one setting of it.
func TestCircuit(t *testing.T) {
	b := New()
	text := exampleText(t, "twin-coil-split.yaml")
	row := b.Check("a", text).Rows[0].Name
	whole, err := b.Circuit(Ask{Text: text, With: row, Kind: InlineSVG})
	if err != nil || !strings.HasPrefix(whole.SVG, "<svg") || len(whole.Notes) == 0 {
		t.Fatalf("%v %.80s %v", err, whole.SVG, whole.Notes)
	}
	one, err := b.Circuit(Ask{Text: text, With: row, Kind: InlineSVG, Only: true})
	if err != nil || one.SVG == whole.SVG || !strings.Contains(one.SVG, row) {
		t.Errorf("%v %.80s", err, one.SVG)
	}
	if _, err := b.Circuit(Ask{Text: text, With: "moon"}); err == nil {
		t.Error("a setting of the moon was drawn")
	}
}
