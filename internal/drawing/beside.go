package drawing

import (
	"math"

	"loomwright/internal/scene"
)

// What a tag beside its wire costs, and how far from it it may stand, mm.
const (
	notFree     = 30
	besideBase  = 12
	besideFrom  = 2.4
	besideTo    = 13.0
	besideReach = 40.0 // mm along the wire
	onLeader    = 25
)

// besideTag finds a place beside a wire that has no room for its tag.
func (d *tagger) besideTag(i, end int) (Tag, float64) {
	w := &d.Wires[i]
	var best Tag
	cost := math.Inf(1)
	for off := besideFrom; off <= besideTo; off += 0.9 {
		for _, text := range w.tagTexts() {
			t := Tag{Wire: i, End: end, Step: d.stepText(w, end), Text: text}
			a, b := t.widths()
			base := besideBase + off*1.5 + float64(len(text))*0.5
			w.eachPlace(end, besideReach, true, func(at scene.Point, upright bool, dist float64) {
				if base+dist*0.1 >= cost {
					return
				}
				for _, dir := range besideWays(upright) {
					t.At = at.Add(scene.Pt(dir.X*(off+(a+b)/2), dir.Y*(off+tagHeight/2)))
					from := at
					t.Leader = &from
					if c := base + dist*0.1 + d.tagCost(&t) + d.leaderCost(&t); c < cost {
						best, cost = t, c
					}
				}
			})
		}
	}
	return best, cost
}

// besideWays are the directions square to a stretch, and the slants.
func besideWays(upright bool) []scene.Point {
	if upright {
		return []scene.Point{{X: 1}, {X: -1}, {X: 0.7, Y: 0.7}, {X: -0.7, Y: 0.7}, {X: 0.7, Y: -0.7}, {X: -0.7, Y: -0.7}}
	}
	return []scene.Point{{Y: 1}, {Y: -1}, {X: 0.7, Y: 0.7}, {X: -0.7, Y: 0.7}, {X: 0.7, Y: -0.7}, {X: -0.7, Y: -0.7}}
}

// leaderCost charges a leader for what it runs over.
func (d *tagger) leaderCost(t *Tag) float64 {
	cost := 0.0
	a, b := *t.Leader, t.leaderEnd()
	d.clutter.near(segmentBox(a, b).Grow(0.05), func(o *thing) {
		if o.cost < onCrossing || o.wire == t.Wire || !cutsBox(a, b, o.box) {
			return
		}
		cost += onLeader
	})
	return cost
}

// cutsBox reports whether a segment runs through a box, in steps of half a mm.
func cutsBox(a, b scene.Point, box scene.Rect) bool {
	n := int(a.Dist(b)*2) + 1
	for k := range n + 1 {
		if p := a.Lerp(b, float64(k)/float64(n)); p.X > box.Min.X && p.X < box.Max.X && p.Y > box.Min.Y && p.Y < box.Max.Y {
			return true
		}
	}
	return false
}

// leaderEnd is where a leader meets its tag: the nearest point of its edge.
func (t *Tag) leaderEnd() scene.Point {
	b := t.Box()
	return scene.Pt(min(max(t.Leader.X, b.Min.X), b.Max.X), min(max(t.Leader.Y, b.Min.Y), b.Max.Y))
}
