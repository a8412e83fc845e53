package place

import (
	"cmp"
	"strings"

	"loomwright/internal/scene"
)

// panels draws what the controls are mounted in: one cavity around pots and
// switches. Outlines by rule, not of any guitar.
func (l *layout) panels() []Panel {
	var r scene.Rect
	n := 0
	for i := range l.items {
		if it := &l.items[i]; it.role == rolePot || it.role == roleSwitch {
			r = r.Union(it.box())
			n++
		}
	}
	if n == 0 {
		return nil
	}
	for i := range l.items {
		if it := &l.items[i]; it.role == roleSmall && r.Grow(8).Overlaps(it.box()) {
			r = r.Union(it.box())
		}
	}
	return []Panel{{Box: r.Grow(panelRoom), Round: 12, Label: l.panelWords()}}
}

// panelWords is what the controls sit in: the metal that they touch, if any.
func (l *layout) panelWords() string {
	words := "control cavity"
	for i := range l.items {
		if it := &l.items[i]; it.role == roleGroundwork {
			use := &l.g.Loom.Uses[it.use]
			words = cmp.Or(use.Called, use.Name) + ", touched by " + strings.Join(l.touching(it.use), ", ")
		}
	}
	return words
}

// touching lists the parts that touch a plate.
func (l *layout) touching(plate int) []string {
	var out []string
	for _, r := range l.g.Runs {
		a, b := l.g.Terms[r.A].Use, l.g.Terms[r.B].Use
		switch {
		case a == plate && b >= 0:
			out = append(out, spaced(l.g.Loom.Uses[b].Name))
		case b == plate && a >= 0:
			out = append(out, spaced(l.g.Loom.Uses[a].Name))
		}
	}
	return out
}

// panelRoom is between the controls and the cavity's wall, mm.
const panelRoom = 10
