package drawing

import (
	"cmp"
	"slices"

	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// label is where a lug's name stands.
type label struct {
	place.Label
	leader *scene.Point // it stands apart, with a line to here
}

// placeLabels puts the names of lugs where no wire, joint or other word is: at
// the place that the plan kept for them, or else around the lug. A soldered lug
// that has no room beside it gets its name a little apart, with a line to it; a
// free one goes without, its title has it.
func (d *Drawing) placeLabels() {
	d.labels = map[int]label{}
	joined := map[int]bool{}
	for _, j := range d.joints {
		joined[j.Term] = true
	}
	for _, soldered := range []bool{true, false} {
		var terms []int
		for t := range d.Plan.Spots {
			if s := &d.Plan.Spots[t]; s.Part >= 0 && s.Label != "" && joined[t] == soldered {
				terms = append(terms, t)
			}
		}
		d.keepLabels(terms)
		d.besideLabels(terms, soldered)
	}
}

// keepLabels takes the places of the plan that are still free.
func (d *Drawing) keepLabels(terms []int) {
	for _, t := range terms {
		if w := d.Plan.Spots[t].Words; len(w.Lines) > 0 && d.labelFree(t, w.Box()) && d.Plan.Nearest(t, w.Box()) {
			d.labels[t] = label{Label: w}
		}
	}
}

// besideLabels finds places for the other names, those with the fewest first.
func (d *Drawing) besideLabels(terms []int, leaders bool) {
	type wish struct {
		term int
		free []place.Label
	}
	var wishes []wish
	for _, t := range terms {
		if _, done := d.labels[t]; !done {
			wishes = append(wishes, wish{t, d.freeLabels(t)})
		}
	}
	slices.SortStableFunc(wishes, func(a, b wish) int { return cmp.Compare(len(a.free), len(b.free)) })
	for _, w := range wishes {
		if !d.takeLabel(w.term, w.free) && leaders {
			d.farLabel(w.term)
		}
	}
}

// freeLabels are the places beside a lug that are free now.
func (d *Drawing) freeLabels(t int) []place.Label {
	var out []place.Label
	for _, w := range d.Plan.Spots[t].Labels() {
		if d.labelFree(t, w.Box()) && d.Plan.Nearest(t, w.Box()) {
			out = append(out, w)
		}
	}
	return out
}

func (d *Drawing) takeLabel(t int, free []place.Label) bool {
	for _, w := range free {
		if d.labelFree(t, w.Box()) {
			w.Dark = d.darkAt(d.Plan.Spots[t].Part, w.At)
			d.labels[t] = label{Label: w}
			return true
		}
	}
	return false
}

// How far from its lug a name may stand, mm, and what its line costs.
const (
	leaderFrom  = 3.6
	leaderTo    = 15.0
	leaderStep  = 0.8
	leaderTurn  = 15.0 // degrees
	overWire    = 4.0
	leaderStart = 0.9 // from the middle of the lug
)

// farLabel puts a name a little apart, with a line to its lug that runs over no
// other lug and few wires.
func (d *Drawing) farLabel(t int) {
	s := &d.Plan.Spots[t]
	w := place.Label{Lines: []string{s.Label}}
	best, cost := label{}, 1e9
	for r := leaderFrom; r < leaderTo && r < cost; r += leaderStep {
		for a := 0.0; a < 360; a += leaderTurn {
			w.At = s.At.Add(scene.Toward(a).Mul(r))
			from := s.At.Add(scene.Toward(a).Mul(leaderStart))
			l := label{w, &from}
			box := w.Box()
			w.At = w.At.Add(scene.Pt(sign(w.At.X-s.At.X)*box.Width()/2, 0))
			l.At = w.At
			if c := r + d.leaderOver(t, &l); c < cost && d.labelFree(t, l.Box()) {
				best, cost = l, c
			}
		}
	}
	if cost < 1e9 {
		best.Dark = d.darkAt(s.Part, best.At)
		d.labels[t] = best
	}
}

// leaderOver is what a leader runs over: wires, and never lugs or words.
func (d *Drawing) leaderOver(t int, l *label) float64 {
	a, b := *l.leader, l.leaderEnd()
	cost := 0.0
	for o := range d.Plan.Spots {
		s := &d.Plan.Spots[o]
		if o != t && s.Part >= 0 && !s.InFan && !s.InCase && segmentDistance(a, b, s.At, s.Far) < 1.7 {
			return 1e9
		}
	}
	for o, other := range d.labels {
		if o != t && cutsBox(a, b, other.Box().Grow(0.2)) {
			return 1e9
		}
	}
	for i := range d.Wires {
		w := &d.Wires[i]
		for k := 1; k < len(w.Points); k++ {
			if segmentDistance(a, b, w.Points[k-1], w.Points[k]) < halfWire {
				cost += overWire
			}
		}
	}
	return cost
}

// leaderEnd is where a label's line meets it.
func (l *label) leaderEnd() scene.Point {
	b := l.Box().Grow(0.25)
	return scene.Pt(min(max(l.leader.X, b.Min.X), b.Max.X), min(max(l.leader.Y, b.Min.Y), b.Max.Y))
}

// sign is −1, 0 or 1, and 0 for what is nearly 0.
func sign(x float64) float64 {
	switch {
	case x > 0.6:
		return 1
	case x < -0.6:
		return -1
	}
	return 0
}

// labelFree reports whether a label stands on one ground and on nothing else.
func (d *Drawing) labelFree(t int, box scene.Rect) bool {
	for i := range d.Wires {
		if covered(&d.Wires[i], box.Grow(0.1)) > 0 {
			return false
		}
	}
	for o, other := range d.labels {
		if o != t && (apart(other.Box()).Overlaps(box) || other.leader != nil && cutsBox(*other.leader, other.leaderEnd(), box)) {
			return false
		}
	}
	for _, lines := range d.names {
		for _, n := range lines {
			if n.Box().Grow(0.8).Overlaps(box) {
				return false
			}
		}
	}
	for k := range d.Marks {
		if d.Marks[k].Box().Overlaps(box) {
			return false
		}
	}
	return d.oneGround(d.Plan.Spots[t].Part, box) && d.clearOfLugs(box)
}

// apart is a label with the room that keeps it from running into the next.
func apart(b scene.Rect) scene.Rect {
	return scene.Rect{Min: b.Min.Sub(scene.Pt(0.8, 0.4)), Max: b.Max.Add(scene.Pt(0.8, 0.4))}
}

// clearOfLugs keeps a label off lugs and joints.
func (d *Drawing) clearOfLugs(box scene.Rect) bool {
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
	}
	return true
}

// oneGround reports whether a box lies on one shape of a part alone, or wholly
// beside all parts.
func (d *Drawing) oneGround(part int, box scene.Rect) bool {
	ground := -2
	shapes := d.Plan.Parts[part].Shapes
	for _, c := range box.Corners() {
		on := -1
		for k, s := range shapes {
			if s.IsBody() && s.Holds(c, 0.1) {
				on = k
			}
		}
		if ground != -2 && on != ground {
			return false
		}
		ground = on
	}
	for _, s := range shapes {
		if (s.Stem || s.Kind == "line" || s.Fill == "hole") && s.Box.Grow(0.2).Overlaps(box) {
			return false
		}
	}
	for k := range d.Plan.Parts {
		if k != part && d.Plan.Parts[k].Box.Grow(0.3).Overlaps(box) {
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
