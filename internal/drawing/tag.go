package drawing

import (
	"math"

	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// Tag is the marker sleeve near a wire's end: the solder step and the colour.
type Tag struct {
	Wire    int
	End     int // 0 at A, 1 at B
	At      scene.Point
	Upright bool // on an upright stretch: read from the right
	Step    string
	Text    string
	Free    bool         // lies on nothing but its wire
	Leader  *scene.Point // it stands beside its wire, with a line to here
}

// Sizes of a tag, mm.
const (
	tagText   = 2.15
	tagHeight = 2.7
	tagPad    = 0.55
	labelSize = place.LabelSize
)

// widths are those of its two fields.
func (t *Tag) widths() (step, text float64) {
	step = scene.TextWidth(t.Step, tagText, scene.Bold) + 2*tagPad
	if t.Text != "" {
		text = scene.TextWidth(t.Text, tagText, scene.Regular) + 2*tagPad
	}
	return step, text
}

// Box is the place that the tag takes.
func (t *Tag) Box() scene.Rect {
	a, b := t.widths()
	w, h := a+b, tagHeight
	if t.Upright {
		w, h = h, w
	}
	return scene.Box(t.At.X-w/2, t.At.Y-h/2, w, h)
}

// What a tag's place costs.
const (
	onWire     = 60
	onTag      = 200
	onWords    = 120
	onJoint    = 90
	onCrossing = 60
	onBody     = 3
	onSleeve   = 25
	onBend     = 22 // of its own wire
	hidesBend  = 1.1
	fromEnd    = 7.0 // mm: the usual distance from the end
	tagStep    = 0.8
	oneTag     = 30 // mm: a shorter wire has one tag
	oneTagWill = 45 // mm: up to here a wire's second tag is left out where there is no room
	tagsBeside = 13 // mm: nearer than that two tags of a wire look like one
	tagsApart  = 22 // mm: nearer than that one tag says all
	wordBonus  = 14 // what the colour's whole word is worth over its letters
)

// tagger puts tags on a drawing, one after the other.
type tagger struct {
	*Drawing
	clutter *clutter
	number  []int // of each tag in the clutter
}

// placeTags marks both ends of every wire, one end of a short one; then those
// without a good place try again.
func (d *Drawing) placeTags() {
	t := &tagger{Drawing: d, clutter: d.clutterOf()}
	for i := range d.Wires {
		w := &d.Wires[i]
		later := d.laterEnd(w)
		if w.Length < oneTag || w.stub || w.Tap[0] {
			t.put(t.bestTag(i, max(later, 0), w.Length))
			continue
		}
		for end := range 2 {
			best := t.bestTag(i, end, w.Length/2)
			if end == 0 || end == later || t.worthSecond(w, &best) {
				t.put(best)
			}
		}
	}
	for k := range d.Tags {
		if !d.Tags[k].Free {
			t.again(k)
		}
	}
}

// worthSecond reports whether a wire's second tag tells more than its first: it
// has a free place on the wire and is not beside the first, or the wire is long
// and the first is far.
func (t *tagger) worthSecond(w *Wire, second *Tag) bool {
	apart := t.Tags[len(t.Tags)-1].At.Dist(second.At)
	if second.Free && second.Leader == nil {
		return apart >= tagsBeside
	}
	return w.Length > oneTagWill && apart >= tagsApart
}

func (t *tagger) put(tag Tag) {
	t.Tags = append(t.Tags, tag)
	t.number = append(t.number, t.clutter.add(tag.Box().Grow(0.4), onTag, -1))
}

// again finds a tag another place, now that all others have theirs.
func (t *tagger) again(k int) {
	t.clutter.remove(t.number[k])
	old := t.Tags[k]
	t.Tags[k] = t.bestTag(old.Wire, old.End, t.Wires[old.Wire].Length)
	t.number[k] = t.clutter.add(t.Tags[k].Box().Grow(0.4), onTag, -1)
}

// bestTag tries all places along a wire up to a reach from its end.
func (d *tagger) bestTag(i, end int, reach float64) Tag {
	w := &d.Wires[i]
	var best Tag
	cost := math.Inf(1)
	for k, text := range w.tagTexts() {
		t := Tag{Wire: i, End: end, Step: d.stepText(w, end), Text: text}
		bonus := 0.0
		if k == 0 {
			bonus = wordBonus
		}
		w.eachPlace(end, reach, false, func(at scene.Point, upright bool, dist float64) {
			t.At, t.Upright = at, upright
			c := abs(dist-fromEnd) - bonus + d.tagCost(&t)
			if c < cost {
				best, cost = t, c
			}
		})
	}
	if cost >= notFree {
		if t, c := d.besideTag(i, end); c < cost {
			best, cost = t, c
		}
	}
	best.Free = cost < notFree
	return best
}

// tagTexts are what a tag may say: the colour's word, or its letters.
func (w *Wire) tagTexts() []string {
	switch {
	case w.Look.Kind == BareWire:
		return []string{w.Look.Word, ""} // bare metal is known by its look
	case w.Look.Word == w.Look.Letters || w.Look.Letters == "":
		return []string{w.Look.Letters}
	}
	return []string{w.Look.Word, w.Look.Letters}
}

// eachPlace goes along a wire's upright and level stretches from one end, and
// along its slants if asked.
func (w *Wire) eachPlace(end int, reach float64, slants bool, do func(at scene.Point, upright bool, dist float64)) {
	n := len(w.Points)
	dist := 0.0
	for k := 1; k < n && dist < reach; k++ {
		a, b := w.Points[k-1], w.Points[k]
		if end == 1 {
			a, b = w.Points[n-k], w.Points[n-1-k]
		}
		l := a.Dist(b)
		if a.X != b.X && a.Y != b.Y && !slants {
			dist += l
			continue
		}
		for s := 0.4; s < l && dist+s <= reach; s += tagStep {
			do(a.Lerp(b, s/l), a.X == b.X, dist+s)
		}
		dist += l
	}
}

// tagCost weighs what a tag would lie on.
func (d *tagger) tagCost(t *Tag) float64 {
	box := t.Box()
	cost := 0.0
	d.clutter.near(box, func(o *thing) {
		if o.wire != t.Wire || t.Leader != nil {
			cost += o.cost
		}
	})
	if t.Leader == nil {
		cost += d.ownBends(t, box)
	}
	return cost
}

// ownBends charges a tag for hiding a bend of its own wire, or standing out
// from its stretch.
func (d *tagger) ownBends(t *Tag, box scene.Rect) float64 {
	w := &d.Wires[t.Wire]
	cost := 0.0
	for k, p := range w.Points {
		if k > 0 && k < len(w.Points)-1 && around(p, hidesBend).Overlaps(box) {
			cost += onBend
		}
	}
	ends := []scene.Point{w.Points[0], w.Points[len(w.Points)-1]}
	for _, p := range ends {
		if around(p, 1.2).Overlaps(box) {
			cost += 12
		}
	}
	return cost
}

// covered is how many straight stretches of a wire a box lies on.
func covered(w *Wire, box scene.Rect) float64 {
	n := 0.0
	if !w.box.Overlaps(box) {
		return 0
	}
	for k := 1; k < len(w.Points); k++ {
		if segmentBox(w.Points[k-1], w.Points[k]).Grow(halfWire).Overlaps(box) {
			n++
		}
	}
	return n
}

func segmentBox(a, b scene.Point) scene.Rect {
	return scene.Rect{Min: scene.Pt(min(a.X, b.X), min(a.Y, b.Y)), Max: scene.Pt(max(a.X, b.X), max(a.Y, b.Y))}
}

func around(p scene.Point, r float64) scene.Rect { return scene.Rect{Min: p, Max: p}.Grow(r) }

func abs(x float64) float64 { return math.Abs(x) }
