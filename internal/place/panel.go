package place

import "loomwright/internal/scene"

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
	return []Panel{{Box: r.Grow(panelRoom), Round: 12, Label: "control cavity"}}
}

// panelRoom is between the controls and the cavity's wall, mm.
const panelRoom = 10
