package drawing

import (
	"encoding/json"
	"slices"
	"testing"

	"loomwright/internal/scene"
)

// edits add one join to a loom of the examples.
var edits = map[string]string{
	"b-two-twin-coils":     "  - neck-tone.ccw -- bridge-tone.ccw\n",
	"c-three-single-coils": "  - tone-1.ccw -- lever.b.1\n",
	"a-one-twin-coil":      "  - volume.ccw -- jack.sleeve\n",
}

// TestWarmInsert: with the earlier drawing given, one more join moves no other
// wire and no part.
func TestWarmInsert(t *testing.T) {
	files := exampleFiles(t)
	for name, join := range edits {
		text := files[name]
		before := drawn(t, graphOf(t, name, text), Options{})
		at := indexAfter(text, "joins:\n")
		edited := text[:at] + join + text[at:]
		after := drawn(t, graphOf(t, name, edited), Options{Previous: through(t, before.Save())})
		if len(after.Wires) != len(before.Wires)+1 {
			t.Errorf("%s: %d wires, then %d", name, len(before.Wires), len(after.Wires))
		}
		for i := range before.Wires {
			w := &before.Wires[i]
			if !slices.ContainsFunc(after.Wires, func(v Wire) bool { return v.A == w.A && v.B == w.B && samePoints(v.Points, w.Points) }) {
				t.Errorf("%s: the wire from %s to %s has moved", name, w.A, w.B)
			}
		}
		for i := range before.Plan.Parts {
			p, q := &before.Plan.Parts[i], &after.Plan.Parts[i]
			if p.At.Dist(q.At) > 1e-9 || p.Turn != q.Turn {
				t.Errorf("%s: part %d has moved", name, i)
			}
		}
		for _, f := range Lint(after) {
			if f.Rule == "missing" || f.Rule == "end" {
				t.Errorf("%s: %s: %s", name, f.Rule, f.Says)
			}
		}
	}
}

func indexAfter(text, mark string) int {
	for i := range text {
		if len(text)-i >= len(mark) && text[i:i+len(mark)] == mark {
			return i + len(mark)
		}
	}
	return len(text)
}

// through sends a saved drawing through its file form.
func through(t *testing.T, s *Saved) *Saved {
	t.Helper()
	data, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	out := &Saved{}
	if err := json.Unmarshal(data, out); err != nil {
		t.Fatal(err)
	}
	return out
}

func samePoints(a, b []scene.Point) bool {
	return slices.EqualFunc(a, b, func(p, q scene.Point) bool { return p.Dist(q) < 1e-2 })
}
