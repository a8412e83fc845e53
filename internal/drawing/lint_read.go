package drawing

import (
	"loomwright/internal/scene"
)

// crossings: not beside an end, a bend or another crossing.
func (l *linter) crossings() {
	for k, c := range l.d.Crossings {
		for _, i := range []int{c.Over, c.Under} {
			w := &l.d.Wires[i]
			for m, p := range w.Points {
				if p.Dist(c.At) > leastCrossing-0.01 {
					continue
				}
				what := "a bend"
				if m == 0 || m == len(w.Points)-1 {
					what = "an end"
				}
				l.add("crossing", c.At, "%s and %s cross %.2f mm from %s", l.name(c.Over), l.name(c.Under), p.Dist(c.At), what)
			}
		}
		for _, o := range l.d.Crossings[:k] {
			if o.At.Dist(c.At) < leastCrossing-0.01 {
				l.add("crossing", c.At, "two crossings are %.2f mm apart", o.At.Dist(c.At))
			}
		}
	}
}

// pieces: no stub between two bends that is too short to see, no small jog.
func (l *linter) pieces() {
	for i := range l.d.Wires {
		w := &l.d.Wires[i]
		for m := 2; m+1 < len(w.Points); m++ {
			a, b, c, e := w.Points[m-2], w.Points[m-1], w.Points[m], w.Points[m+1]
			length := b.Dist(c)
			in, out := b.Sub(a).Unit(), e.Sub(c).Unit()
			switch {
			case length < leastPiece:
				l.add("piece", b, "%s has a piece of %.2f mm", l.name(i), length)
			case in.X*out.X+in.Y*out.Y > 0.9 && length < leastJog:
				l.add("jog", b, "%s has a jog of %.2f mm", l.name(i), length)
			}
		}
	}
}

// tags: on every wire, and over nothing else.
func (l *linter) tags() {
	have := map[int]int{}
	for k := range l.d.Tags {
		t := &l.d.Tags[k]
		have[t.Wire]++
		if at := t.Box(); t.Text == "" && t.Step == "" || at.Empty() {
			l.add("tag", t.At, "%s has a tag without words", l.name(t.Wire))
		}
		l.tag(k)
	}
	for i := range l.d.Wires {
		if have[i] == 0 {
			l.add("tag", l.d.Wires[i].Points[0], "%s has no tag", l.name(i))
		}
	}
}

func (l *linter) tag(k int) {
	t := &l.d.Tags[k]
	box := t.Box()
	for i := range l.d.Wires {
		if i != t.Wire && covered(&l.d.Wires[i], box) > 0 {
			l.add("tag", t.At, "the tag of %s lies on %s", l.name(t.Wire), l.name(i))
		}
	}
	for m := range l.d.Tags[:k] {
		if l.d.Tags[m].Box().Overlaps(box) {
			l.add("tag", t.At, "the tags of %s and %s overlap", l.name(t.Wire), l.name(l.d.Tags[m].Wire))
		}
	}
	for _, c := range l.d.Crossings {
		if around(c.At, 0.9).Overlaps(box) {
			l.add("tag", t.At, "the tag of %s hides a crossing", l.name(t.Wire))
		}
	}
	for _, j := range l.d.joints {
		if around(j.At, 0.9).Overlaps(box) {
			l.add("tag", t.At, "the tag of %s hides a joint", l.name(t.Wire))
		}
	}
	if l.d.wordsUnder(box.Grow(-0.3)) > 0 {
		l.add("tag", t.At, "the tag of %s hides words or a lug", l.name(t.Wire))
	}
}

// words: no name and no label under a wire or on another.
func (l *linter) words() {
	boxes, names := l.d.wordBoxes()
	for k, b := range boxes {
		for i := range l.d.Wires {
			if covered(&l.d.Wires[i], b.Grow(-0.25)) > 0 {
				l.add("words", b.Center(), "%s lies on the words %q", l.name(i), names[k])
			}
		}
		for m, o := range boxes[:k] {
			if o.Grow(-0.2).Overlaps(b) {
				l.add("words", b.Center(), "the words %q and %q overlap", names[k], names[m])
			}
		}
	}
}

// wordBoxes are the places of all names and labels.
func (d *Drawing) wordBoxes() ([]scene.Rect, []string) {
	var boxes []scene.Rect
	var names []string
	for _, lines := range d.names {
		for _, n := range lines {
			boxes, names = append(boxes, n.Box()), append(names, n.Text)
		}
	}
	for t := range d.Plan.Spots {
		if w, ok := d.labels[t]; ok {
			boxes, names = append(boxes, w.Box()), append(names, d.Plan.Spots[t].Label)
		}
	}
	return boxes, names
}

// page: nothing stands beyond the edge.
func (l *linter) page() {
	box := l.d.Box.Grow(0.01)
	for i := range l.d.Wires {
		if b := l.d.Wires[i].Outline.Bounds(); !box.Contains(b) {
			l.add("page", b.Center(), "%s leaves the page", l.name(i))
		}
	}
	for k := range l.d.Tags {
		if !box.Contains(l.d.Tags[k].Box()) {
			l.add("page", l.d.Tags[k].At, "a tag of %s leaves the page", l.name(l.d.Tags[k].Wire))
		}
	}
	for i := range l.d.Plan.Parts {
		if !box.Contains(l.d.Plan.Parts[i].Box) {
			l.add("page", l.d.Plan.Parts[i].At, "%s leaves the page", l.d.partName(&l.d.Plan.Parts[i]))
		}
	}
}

// order: at a crossing the wire of the later step is on top.
func (l *linter) order() {
	for _, c := range l.d.Crossings {
		if l.d.Wires[c.Over].Step < l.d.Wires[c.Under].Step {
			l.add("order", c.At, "%s is over %s", l.name(c.Over), l.name(c.Under))
		}
	}
}

// Least differences of wires that run side by side: in CIE 1976 units, for
// common and for colour-blind eyes.
const (
	sideBySide = 4.0 // mm
	leastAlong = 8.0 // mm
	leastGrey  = 12.0
)

// looks: wires that run side by side differ in grey, or in their threads.
func (l *linter) looks() {
	for i := range l.d.Wires {
		for k := range l.d.Wires[:i] {
			a, b := &l.d.Wires[i], &l.d.Wires[k]
			if a.Run == b.Run || a.Look.Kind != Insulated || b.Look.Kind != Insulated || !alike(a.Look, b.Look) || a.Look.Colour == b.Look.Colour {
				continue
			}
			if along(a, b) > leastAlong {
				l.add("look", a.Points[0], "%s and %s run side by side and look alike in grey", l.name(i), l.name(k))
			}
		}
	}
}

// alike reports whether two looks cannot be told apart in grey.
func alike(a, b Look) bool {
	ga, gb := scene.Grey(inks[a.Colour.Base]), scene.Grey(inks[b.Colour.Base])
	if scene.Difference(ga, gb) >= leastGrey {
		return false
	}
	ta, tb := threads[a.Colour.Base], threads[b.Colour.Base]
	if len(ta) != len(tb) {
		return false
	}
	for k := range ta {
		if ta[k] != tb[k] {
			return false
		}
	}
	return true
}

// along is how far two lanes run side by side, mm.
func along(a, b *Wire) float64 {
	sum := 0.0
	for m := 1; m < len(a.Points); m++ {
		for n := 1; n < len(b.Points); n++ {
			p, q := segmentBox(a.Points[m-1], a.Points[m]), segmentBox(b.Points[n-1], b.Points[n])
			if transverse(a.Points[m-1], a.Points[m], b.Points[n-1], b.Points[n]) || !p.Grow(sideBySide).Overlaps(q.Grow(0.01)) {
				continue
			}
			both := p.Grow(sideBySide).Intersect(q.Grow(0.01))
			sum += max(both.Width(), both.Height())
		}
	}
	return sum
}

// wordsUnder is more than 0 when a box lies on words, a lug or a mark.
func (d *Drawing) wordsUnder(box scene.Rect) float64 {
	cost := 0.0
	for _, lines := range d.names {
		for _, n := range lines {
			if n.Box().Overlaps(box) {
				cost += onWords
			}
		}
	}
	for t := range d.Plan.Spots {
		s := &d.Plan.Spots[t]
		if s.Part < 0 || s.InFan || s.InCase || d.inSleeve(t) {
			continue
		}
		if l, ok := d.labels[t]; ok && l.Box().Overlaps(box) {
			cost += onWords
		}
		if around(s.At, 1.4).Overlaps(box) || s.HasPin && around(s.Pin, 1.1).Overlaps(box) {
			cost += onJoint
		}
	}
	for _, m := range d.Marks {
		if m.Box().Overlaps(box) {
			cost += onTag
		}
	}
	return cost
}
