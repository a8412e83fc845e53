package drawing

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/wiring"
	"loomwright/library"
)

// TestOneMoreJoinMovesLittle takes single joins out of some examples, draws
// what is left, and adds each join again with that drawing given: of the wires
// that were there, nearly all stay where they were, and seldom is there no lane
// left for the new one.
func TestOneMoreJoinMovesLittle(t *testing.T) {
	files := exampleFiles(t)
	there, moved, stuck := 0, 0, 0
	for _, name := range []string{"a-one-twin-coil", "bass-two-volumes-tone", "two-single-coils-3way", "two-twin-coils-tone-at-input"} {
		for _, less := range withoutOne(files[name], 2) {
			before := drawn(t, less, Options{})
			after := drawn(t, graphOf(t, name, files[name]), Options{Previous: before.Save()})
			n, gone := stays(before, after)
			there, moved = there+n, moved+len(gone)
			for _, w := range gone {
				t.Logf("%s: the wire from %s to %s has moved", name, w.A, w.B)
			}
			for i := range after.Wires {
				if w := &after.Wires[i]; !w.Clean {
					stuck++
					t.Logf("%s: %s has no lane to itself", name, after.wireTitle(w))
				}
			}
		}
	}
	t.Logf("%d of %d wires moved", moved, there)
	if there < 80 || moved*50 > there || stuck > 1 {
		t.Errorf("%d of %d wires moved, %d have no lane to themselves", moved, there, stuck)
	}
}

// stays counts the wires of a drawing that a later one has too, and lists those
// that lie elsewhere in it.
func stays(before, after *Drawing) (n int, gone []*Wire) {
	for i := range before.Wires {
		w := &before.Wires[i]
		same := func(v Wire) bool { return v.A == w.A && v.B == w.B }
		if w.stub || !slices.ContainsFunc(after.Wires, same) {
			continue
		}
		n++
		if !slices.ContainsFunc(after.Wires, func(v Wire) bool { return same(v) && samePoints(v.Points, w.Points) }) {
			gone = append(gone, w)
		}
	}
	return n, gone
}

// withoutOne are up to n looms that lack one plain join of a loom each.
func withoutOne(text string, n int) []*wiring.Graph {
	var out []*wiring.Graph
	lines := strings.SplitAfter(text, "\n")
	first := slices.Index(lines, "joins:\n")
	for i := len(lines) - 1; i > first && len(out) < n; i-- {
		if line := lines[i]; !strings.HasPrefix(line, "  - ") || !strings.Contains(line, " -- ") || strings.Contains(line, ",") {
			continue
		}
		l, _ := loom.Read(diag.NewText("less", strings.Join(slices.Delete(slices.Clone(lines), i, i+1), "")), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
		if l == nil {
			continue
		}
		if g, list := wiring.Build(l); !list.HasErrors() {
			out = append(out, g)
		}
	}
	return out
}
