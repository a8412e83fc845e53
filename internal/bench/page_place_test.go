package bench

import (
	"strings"
	"testing"
)

func TestPlacePart(t *testing.T) {
	b := New()
	const loom = "loomwright: 1\nparts:\n  coil: {is: pickup/single-coil}\n  jack: {is: jack/mono}\njoins:\n  - coil.coil.start  -- jack.tip\n  - coil.coil.finish -- jack.sleeve\n"
	text := loom
	for _, c := range []struct {
		use  string
		at   *[3]float64
		want string
	}{
		{"jack", &[3]float64{120.3, 40, 1}, "place:\n  jack: [120.5, 40, 1]\n"},
		{"coil", &[3]float64{-10, 0, 5}, "coil: [-10, 0, 1]"},
		{"jack", &[3]float64{90, 40, -1}, "jack: [90, 40, 3]"},
		{"jack", nil, "place:\n  coil: [-10, 0, 1]\n"},
	} {
		var err error
		text, err = b.PlacePart("a", text, c.use, c.at)
		if err != nil || !strings.Contains(text, c.want) {
			t.Errorf("%s: %v, want %s\n%s", c.use, err, c.want, text)
		}
		if c := b.Check("a", text); len(c.Rows) != 1 {
			t.Errorf("not proved: %v\n%s", c.Findings, text)
		}
	}
	text, err := b.PlacePart("a", text, "coil", nil)
	if err != nil || text != loom {
		t.Errorf("taken away again (%v):\n%s", err, text)
	}
}

// TestMovedPartStaysConnected moves a part between two sketches: the sketch has
// it there, and as many wires as one that is drawn anew.
func TestMovedPartStaysConnected(t *testing.T) {
	b := New()
	loom := Starts()[0]
	d := NewDesk(b)
	text, err := b.Join(loom.Name, loom.Text, "volume.wiper", "jack.tip")
	if err != nil {
		t.Fatal(err)
	}
	before, err := d.Sketch(Ask{Name: loom.Name, Text: text})
	if err != nil || len(before.Places["jack"]) != 3 {
		t.Fatal(err, before.Places)
	}
	at := [3]float64{before.Places["jack"][0] + 30, before.Places["jack"][1] - 20, before.Places["jack"][2]}
	moved, err := b.PlacePart(loom.Name, text, "jack", &at)
	if err != nil {
		t.Fatal(err)
	}
	after, err := d.Sketch(Ask{Name: loom.Name, Text: moved})
	if err != nil {
		t.Fatal(err)
	}
	for part, was := range before.Places {
		is := after.Places[part]
		if part != "jack" && (was[0] != is[0] || was[1] != is[1]) {
			t.Errorf("%s moved too: from %v to %v", part, was, is)
		}
	}
	fresh, err := NewDesk(b).Sketch(Ask{Name: loom.Name, Text: moved})
	const wire = `data-run="0"`
	if err != nil || strings.Count(after.SVG, wire) != strings.Count(fresh.SVG, wire) || !strings.Contains(after.SVG, wire) {
		t.Errorf("the wire is not drawn as it is anew (%v)", err)
	}
}
