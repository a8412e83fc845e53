package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// label is where a lug's name stands.
type label struct {
	at   scene.Point
	dark bool // on dark ground
}

func (l label) box(s *place.Spot) scene.Rect {
	w := scene.TextWidth(s.Label, labelSize, scene.Regular)
	return scene.Box(l.at.X-w/2, l.at.Y-labelSize/2, w, labelSize)
}

// placeLabels puts the names of lugs where no wire, joint or other word is: at
// the place that the plan kept for them, or else around the lug. A name that
// finds no room is left out; its lug has it as title.
func (d *Drawing) placeLabels() {
	d.labels = map[int]label{}
	for t := range d.Plan.Spots {
		s := &d.Plan.Spots[t]
		if s.Words != (scene.Point{}) && d.labelFree(t, label{at: s.Words}) {
			d.labels[t] = label{s.Words, s.Dark}
		}
	}
	for t := range d.Plan.Spots {
		s := &d.Plan.Spots[t]
		if _, done := d.labels[t]; done || s.Part < 0 || s.Label == "" || s.InFan || s.InCase {
			continue
		}
		for _, at := range d.labelSpots(s) {
			if l := (label{at, d.darkAt(s.Part, at)}); d.labelFree(t, l) {
				d.labels[t] = l
				break
			}
		}
	}
}

// labelSpots lists places around a lug, inward ones first.
func (d *Drawing) labelSpots(s *place.Spot) []scene.Point {
	w := scene.TextWidth(s.Label, labelSize, scene.Regular)
	inward := s.Far.Sub(s.At).Unit()
	if inward == (scene.Point{}) {
		inward = d.Plan.Parts[s.Part].At.Sub(s.At).Unit()
	}
	var out []scene.Point
	for _, more := range []float64{0, 0.7, 1.6} {
		for _, turn := range []float64{45, -45, 90, -90, 0, 135, -135} {
			dir := scene.Toward(inward.Heading() + turn)
			reach := 1.6 + more
			out = append(out, s.At.Add(scene.Pt(dir.X*reach+sign(dir.X)*w/2, dir.Y*reach+sign(dir.Y)*labelSize/2)))
		}
	}
	return out
}

// sign is −1, 0 or 1, and 0 for what is nearly 0.
func sign(x float64) float64 {
	switch {
	case x > 0.2:
		return 1
	case x < -0.2:
		return -1
	}
	return 0
}

// labelFree reports whether a label stands on one ground and on nothing else,
// and nearer to its own lug than to any other.
func (d *Drawing) labelFree(t int, l label) bool {
	s := &d.Plan.Spots[t]
	box := l.box(s)
	for i := range d.Wires {
		if covered(&d.Wires[i], box.Grow(0.1)) > 0 {
			return false
		}
	}
	for o, other := range d.labels {
		if o != t && apart(other.box(&d.Plan.Spots[o])).Overlaps(box) {
			return false
		}
	}
	for _, lines := range d.names {
		for _, n := range lines {
			if n.Box().Grow(0.3).Overlaps(box) {
				return false
			}
		}
	}
	for _, m := range d.Marks {
		if m.Box().Overlaps(box) {
			return false
		}
	}
	return d.oneGround(s.Part, box) && d.clearOfLugs(t, box)
}

// apart is a label with the room that keeps it from running into the next.
func apart(b scene.Rect) scene.Rect {
	return scene.Rect{Min: b.Min.Sub(scene.Pt(1.8, 0.5)), Max: b.Max.Add(scene.Pt(1.8, 0.5))}
}

// clearOfLugs keeps a label off lugs, and nearest to its own.
func (d *Drawing) clearOfLugs(t int, box scene.Rect) bool {
	own := d.Plan.Spots[t].At.Dist(box.Center())
	for _, j := range d.joints {
		if around(j.At, 1.45).Overlaps(box) {
			return false
		}
	}
	for o := range d.Plan.Spots {
		s := &d.Plan.Spots[o]
		if s.Part < 0 || s.InFan || s.InCase {
			continue
		}
		if around(s.At, 1.3).Overlaps(box) || s.HasPin && around(s.Pin, 1.1).Overlaps(box) {
			return false
		}
		if o != t && s.Part == d.Plan.Spots[t].Part && min(s.At.Dist(box.Center()), segmentGap(s, box)) < own-0.2 {
			return false
		}
	}
	return true
}

// segmentGap is how far a label's middle is from a lug's stem.
func segmentGap(s *place.Spot, box scene.Rect) float64 {
	return pointSegment(box.Center(), s.At, s.Far)
}

// oneGround reports whether a box lies on one shape of a part alone, or wholly
// beside the part.
func (d *Drawing) oneGround(part int, box scene.Rect) bool {
	ground := -2
	for _, c := range box.Corners() {
		on := -1
		for k, s := range d.Plan.Parts[part].Shapes {
			if s.IsBody() && s.Holds(c, 0.15) {
				on = k
			}
		}
		if ground != -2 && on != ground {
			return false
		}
		ground = on
	}
	for _, s := range d.Plan.Parts[part].Shapes {
		if (s.Stem || s.Kind == "line") && s.Box.Grow(0.25).Overlaps(box) {
			return false
		}
	}
	return true
}

func (d *Drawing) darkAt(part int, at scene.Point) bool {
	dark := false
	for _, s := range d.Plan.Parts[part].Shapes {
		if s.IsBody() && s.Holds(at, 0) {
			dark = s.Fill == "dark"
		}
	}
	return dark
}
