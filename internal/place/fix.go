package place

import (
	"fmt"
	"math"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/scene"
	"loomwright/internal/wiring"
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

// keep gives parts the places that they had in an earlier drawing; what the
// loom file says goes before.
func (l *layout) keep(places map[string][3]float64) {
	for i := range l.items {
		it := &l.items[i]
		name := l.nameOf(i)
		if at, ok := places[name]; ok && !it.fixed {
			it.fixed, it.kept = true, true
			it.at, it.turn = scene.Pt(at[0], at[1]), int(math.Round(at[2]))&3
		}
	}
}

// nameOf is a part's name, or that of a splice by the leads in it.
func (l *layout) nameOf(i int) string {
	it := &l.items[i]
	if it.use >= 0 {
		return l.g.Loom.Uses[it.use].Name
	}
	return SpliceName(l.g, l.splices[it.splice])
}

// SpliceName tells a splice by its leads.
func SpliceName(g *wiring.Graph, s Splice) string {
	names := make([]string, len(s.Leads))
	for i, t := range s.Leads {
		names[i] = g.Terms[t].Name
	}
	return "splice of " + strings.Join(names, " and ")
}

// overlaps reports parts that the loom file places over one another.
func (l *layout) overlaps() diag.List {
	var list diag.List
	for i := range l.items {
		for k := range l.items[:i] {
			a, b := &l.items[i], &l.items[k]
			if !a.fixed || !b.fixed || a.kept && b.kept || !a.box().Overlaps(b.box()) {
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
		if it.fixed || it.role == roleGroundwork || l.free(i) {
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
