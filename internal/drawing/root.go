package drawing

import (
	"slices"

	"loomwright/internal/scene"
)

// rootReach is how much of a component's lead next to its end is drawn with the
// wire, which rounds the bend there, mm.
const rootReach = 2.2

// rootOf is where the lead of a strand leaves its component; nil for wires that
// are no component's lead.
func (d *Drawing) rootOf(strand int) *scene.Point {
	if strand < 0 {
		return nil
	}
	s := &d.Plan.Strands[strand]
	if s.Lead < 0 || s.Core >= 0 || d.Plan.Spots[s.Lead].InFan || d.Plan.Spots[s.Lead].Part < 0 {
		return nil
	}
	tip := &d.Plan.Spots[s.Lead]
	for _, h := range d.Plan.Parts[tip.Part].Shapes {
		if h.Kind != "line" || len(h.Points) < 2 {
			continue
		}
		for _, end := range [][]scene.Point{h.Points, reversed(h.Points)} {
			if end[0].Dist(tip.At) < 1e-6 {
				at := end[0].Add(end[1].Sub(end[0]).Unit().Mul(min(rootReach, end[0].Dist(end[1])/2)))
				return &at
			}
		}
	}
	return nil
}

// fromRoot is the outline of a component's lead, from its body; a lead that goes
// back beside the body leaves it in one curve.
func (w *Wire) fromRoot() scene.Outline {
	out, on := w.Points[0].Sub(*w.Root).Unit(), w.Points[1].Sub(w.Points[0]).Unit()
	if len(w.Points) < 3 || out.X*on.X+out.Y*on.Y > -0.01 {
		return scene.Polyline(cornerRadius, append([]scene.Point{*w.Root}, w.Points...)...)
	}
	rest := scene.Polyline(cornerRadius, w.Points[1:]...)
	ahead := w.Points[2].Sub(w.Points[1]).Unit()
	reach := w.Points[1].Dist(*w.Root) * 0.7
	full := scene.Outline{}.Move(w.Root.X, w.Root.Y).Cubic(w.Root.Add(out.Mul(rootReach*1.2)), w.Points[1].Sub(ahead.Mul(reach)), w.Points[1])
	return append(full, rest[1:]...)
}

func reversed(points []scene.Point) []scene.Point {
	out := slices.Clone(points)
	slices.Reverse(out)
	return out
}

// untilRoots is a component's lead as far as no wire draws it.
func (d *Drawing) untilRoots(points []scene.Point) []scene.Point {
	out := slices.Clone(points)
	for i := range d.Wires {
		w := &d.Wires[i]
		if w.Root == nil {
			continue
		}
		switch w.Points[0] {
		case points[0]:
			out[0] = *w.Root
		case points[len(points)-1]:
			out[len(out)-1] = *w.Root
		}
	}
	return out
}
