package drawing

import (
	"cmp"
	"slices"

	"loomwright/internal/scene"
)

// findCrossings lists where lanes cross: the wire that is soldered later lies on
// top. Wires are in the order of their steps.
func (d *Drawing) findCrossings() {
	for i := range d.Wires {
		for k := range d.Wires[:i] {
			for _, at := range meetings(&d.Wires[i], &d.Wires[k]) {
				d.Crossings = append(d.Crossings, Crossing{at, i, k})
			}
		}
	}
	slices.SortStableFunc(d.Crossings, func(a, b Crossing) int { return cmp.Compare(a.Over, b.Over) })
}

// meetings are the places where the lanes of two wires cross.
func meetings(a, b *Wire) []scene.Point {
	var out []scene.Point
	for i := 1; i < len(a.Points); i++ {
		for k := 1; k < len(b.Points); k++ {
			if at, ok := crossAt(a.Points[i-1], a.Points[i], b.Points[k-1], b.Points[k]); ok {
				out = append(out, at)
			}
		}
	}
	return out
}

// crossAt is where two segments cross inside both.
func crossAt(a, b, c, e scene.Point) (scene.Point, bool) {
	r, s := b.Sub(a), e.Sub(c)
	den := r.X*s.Y - r.Y*s.X
	if den == 0 {
		return scene.Point{}, false
	}
	q := c.Sub(a)
	t, u := (q.X*s.Y-q.Y*s.X)/den, (q.X*r.Y-q.Y*r.X)/den
	const eps = 1e-6
	if t <= eps || t >= 1-eps || u <= eps || u >= 1-eps {
		return scene.Point{}, false
	}
	return a.Lerp(b, t), true
}
