package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// placeNames keeps the names of parts where the plan has them, and moves those
// that a wire runs over to a free place around the part, if there is one.
func (d *Drawing) placeNames() {
	for i := range d.Plan.Parts {
		d.names = append(d.names, d.Plan.Parts[i].Name)
	}
	for i := range d.names {
		if len(d.names[i]) == 0 || d.nameFree(i, d.names[i]) {
			continue
		}
		for _, at := range d.nameSpots(i) {
			if moved := movedLines(d.names[i], at); d.nameFree(i, moved) && !d.onPart(moved) {
				d.names[i] = moved
				break
			}
		}
	}
}

// nameBox is the place of all lines of a name.
func nameBox(lines []place.Line) scene.Rect {
	var r scene.Rect
	for _, n := range lines {
		r = r.Union(n.Box())
	}
	return r
}

func movedLines(lines []place.Line, to scene.Point) []place.Line {
	by := to.Sub(nameBox(lines).Center())
	out := make([]place.Line, len(lines))
	for k, n := range lines {
		n.At, n.Dark = n.At.Add(by), false
		out[k] = n
	}
	return out
}

// nameSpots lists places around a part, near ones first.
func (d *Drawing) nameSpots(i int) []scene.Point {
	b := d.Plan.Parts[i].Box
	n := nameBox(d.names[i])
	w, h, c := n.Width()/2, n.Height()/2, b.Center()
	var out []scene.Point
	for gap := 1.4; gap < 9; gap += 1.2 {
		for _, side := range []float64{0, -1, 1} {
			x, y := side*b.Width()/2, side*b.Height()/2
			out = append(out, scene.Pt(c.X+x, b.Min.Y-h-gap), scene.Pt(c.X+x, b.Max.Y+h+gap),
				scene.Pt(b.Max.X+w+gap, c.Y+y), scene.Pt(b.Min.X-w-gap, c.Y+y))
		}
	}
	return out
}

// nameFree reports whether a name lies under no wire, joint, mark or other name.
func (d *Drawing) nameFree(i int, lines []place.Line) bool {
	for _, n := range lines {
		box := n.Box()
		for k := range d.Wires {
			if covered(&d.Wires[k], box.Grow(0.1)) > 0 {
				return false
			}
		}
		for k, other := range d.names {
			if k != i && nameBox(other).Grow(0.5).Overlaps(box) {
				return false
			}
		}
		for _, j := range d.joints {
			if around(j.At, 1.4).Overlaps(box) {
				return false
			}
		}
		for k := range d.Marks {
			if d.Marks[k].Box().Overlaps(box) {
				return false
			}
		}
	}
	return d.Plan.Box.Contains(nameBox(lines))
}

// onPart reports whether a name would lie on a part.
func (d *Drawing) onPart(lines []place.Line) bool {
	box := nameBox(lines)
	for i := range d.Plan.Parts {
		if d.Plan.Parts[i].Box.Grow(0.6).Overlaps(box) {
			return true
		}
	}
	return false
}
