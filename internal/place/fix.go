package place

import (
	"fmt"
	"math"

	"loomwright/internal/diag"
	"loomwright/internal/scene"
)

// fix gives the parts that the loom file places their places.
func (l *layout) fix() diag.List {
	var list diag.List
	for i := range l.items {
		it := &l.items[i]
		if it.use < 0 {
			continue
		}
		use := &l.g.Loom.Uses[it.use]
		at, ok := l.g.Loom.Place[use.Name]
		if !ok {
			continue
		}
		it.fixed, it.at = true, scene.Pt(at[0], at[1])
		turns := math.Round(at[2])
		if turns != at[2] {
			list.Add(diag.Diagnostic{Code: "place-turn", Severity: diag.Warning, Span: use.Span,
				Message: fmt.Sprintf("%s is placed with %g quarter turns: %g are drawn", use.Name, at[2], turns)})
		}
		it.turn = int(turns) & 3
	}
	return list
}

// overlaps reports parts that the loom file places over one another.
func (l *layout) overlaps() diag.List {
	var list diag.List
	for i := range l.items {
		for k := range l.items[:i] {
			a, b := &l.items[i], &l.items[k]
			if !a.fixed || !b.fixed || !a.box().Overlaps(b.box()) {
				continue
			}
			list.Add(diag.Diagnostic{Code: "place-overlap", Severity: diag.Warning, Span: l.g.Loom.Uses[a.use].Span,
				Message: fmt.Sprintf("%s is placed over %s", a.name, b.name)})
		}
	}
	return list
}

// separate moves parts that rules put on top of parts that the file places.
func (l *layout) separate() {
	for i := range l.items {
		it := &l.items[i]
		if it.fixed || l.free(i) {
			continue
		}
		from := it.at
		for ring := 1; ring < 60 && !l.free(i); ring++ {
			for k := 0; k < 8*ring && !l.free(i); k++ {
				angle := 2 * math.Pi * float64(k) / float64(8*ring)
				r := step * float64(ring)
				it.at = from.Add(scene.Pt(math.Round(r*math.Cos(angle)), math.Round(r*math.Sin(angle))))
			}
		}
	}
}
