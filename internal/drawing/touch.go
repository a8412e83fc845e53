package drawing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/scene"
)

// Touch is a place where metal lies on metal and nothing is soldered: a case on
// a plate, a lug bent to its case. Its tag has the step that looks at it.
type Touch struct {
	Runs []int
	Term int
	To   string // what it touches, in full
	Tag  Tag    // without a wire
}

// findTouches lists what touches, by terminal: a plate that several parts touch
// has one tag with all their steps.
func (d *Drawing) findTouches() {
	at := map[int]int{}
	for i, r := range d.Graph.Runs {
		if r.Wire.Kind != loom.Touching {
			continue
		}
		for _, e := range [][2]int{{r.A, r.B}, {r.B, r.A}} {
			if !d.ownsTouch(e[0], e[1]) {
				continue
			}
			k, known := at[e[0]]
			if !known {
				k = len(d.Touches)
				at[e[0]] = k
				d.Touches = append(d.Touches, Touch{Term: e[0]})
			}
			t := &d.Touches[k]
			t.Runs = append(t.Runs, i)
			t.To = strings.TrimPrefix(t.To+", "+d.Graph.Terms[e[1]].Name, ", ")
			t.Tag.Text = d.touchWords(e[0], e[1], len(t.Runs))
		}
	}
	for k := range d.Touches {
		d.Touches[k].Tag.Step = d.stepsOf(d.Touches[k].Runs)
		d.Touches[k].Tag.Wire = -1
	}
}

// ownsTouch reports whether a terminal that touches another gets a tag: if it
// is drawn, and of two on one part the lug alone.
func (d *Drawing) ownsTouch(term, other int) bool {
	s, o := &d.Plan.Spots[term], &d.Plan.Spots[other]
	return s.Part >= 0 && (o.Part != s.Part || !s.InCase)
}

// touchWords says what a terminal touches: the case, or the other part.
func (d *Drawing) touchWords(term, other, n int) string {
	a, b := &d.Graph.Terms[term], &d.Graph.Terms[other]
	switch {
	case n > 1:
		return "touched"
	case a.Use == b.Use || b.Use < 0:
		return "touches " + afterDot(b.Name)
	}
	name := strings.NewReplacer("-", " ", "_", " ").Replace(d.Graph.Loom.Uses[b.Use].Name)
	if d.Plan.Spots[other].Label != "" {
		name += " " + d.Plan.Spots[other].Label
	}
	return "touches " + name
}

// stepsOf are the steps of runs as words: "11 12 13".
func (d *Drawing) stepsOf(runs []int) string {
	var steps []int
	for _, r := range runs {
		steps = append(steps, d.Options.Steps[r])
	}
	slices.Sort(steps)
	return strings.Trim(fmt.Sprint(steps), "[]")
}

// placeTouches puts the tags on the metal itself where it has room, or beside it
// with a line.
func (d *Drawing) placeTouches() {
	c := d.clutterOf()
	for _, lines := range d.names {
		for _, n := range lines {
			c.add(n.Box().Grow(nameClear), onWords, -1)
		}
	}
	for k := range d.Touches {
		t := &d.Touches[k]
		best, cost := t.Tag, 1e18
		d.eachTouchPlace(t, func(tag Tag, base float64) {
			if base >= cost {
				return
			}
			if all := base + d.touchCost(c, t, &tag); all < cost {
				best, cost = tag, all
			}
		})
		best.Free = cost < notFree
		t.Tag = best
		c.add(t.Tag.Box().Grow(0.4), onTag, -1)
	}
}

// How far from its metal a touch's tag may stand, mm, and what that costs.
const (
	touchFrom  = 2.4
	touchTo    = 24.0
	touchApart = 6.0
	onForeign  = 80
	onEdge     = 12
	nameClear  = 0.7
)

// eachTouchPlace goes through the places of a tag: over the case, then around
// the terminal.
func (d *Drawing) eachTouchPlace(t *Touch, do func(tag Tag, base float64)) {
	s := &d.Plan.Spots[t.Term]
	tag := t.Tag
	a, b := tag.widths()
	if s.InCase {
		box := d.Plan.Parts[s.Part].Case.Box
		for y := box.Min.Y + tagHeight/2; y <= box.Max.Y-tagHeight/2; y += tagStep {
			for x := box.Min.X + (a+b)/2; x <= box.Max.X-(a+b)/2; x += tagStep {
				tag.At = scene.Pt(x, y)
				if d.onCase(s.Part, tag.Box()) {
					do(tag, tag.At.Dist(box.Center())*0.1)
				}
			}
		}
	}
	for r := touchFrom; r < touchTo; r += tagStep {
		for turn := 0.0; turn < 360; turn += 15 {
			dir := scene.Toward(turn)
			from := d.touchEdge(t.Term, dir)
			tag.At = from.Add(scene.Pt(dir.X*(r+(a+b)/2), dir.Y*(r+tagHeight/2)))
			tag.Leader = &from
			do(tag, touchApart+r)
		}
	}
}

// onCase reports whether a box lies on the case alone.
func (d *Drawing) onCase(part int, box scene.Rect) bool {
	p := &d.Plan.Parts[part]
	for _, c := range box.Corners() {
		on := scene.Rect{}
		for _, s := range p.Shapes {
			if s.IsBody() && s.Holds(c, 0.4) {
				on = s.Box
			}
		}
		if on != p.Case.Box {
			return false
		}
	}
	return true
}

// touchEdge is where the line of a tag begins: on a case near its edge, else at
// the terminal.
func (d *Drawing) touchEdge(term int, dir scene.Point) scene.Point {
	s := &d.Plan.Spots[term]
	if !s.InCase {
		return s.At.Add(dir.Mul(1))
	}
	box := d.Plan.Parts[s.Part].Case.Box
	return box.Center().Add(scene.Pt(dir.X*(box.Width()/2-1), dir.Y*(box.Height()/2-1)))
}

// touchCost weighs what a tag and its line would lie on.
func (d *Drawing) touchCost(c *clutter, t *Touch, tag *Tag) float64 {
	box := tag.Box()
	cost := 0.0
	c.near(box, func(o *thing) { cost += o.cost })
	for i := range d.Plan.Parts {
		if i != d.Plan.Spots[t.Term].Part && d.Plan.Parts[i].Box.Grow(0.5).Overlaps(box) {
			cost += onForeign
		}
	}
	if !d.Plan.Box.Contains(box) {
		cost += onForeign
	}
	if tag.Leader != nil && d.Plan.Parts[d.Plan.Spots[t.Term].Part].Box.Overlaps(box) {
		cost += onEdge
	}
	if tag.Leader == nil {
		return cost
	}
	a, b := *tag.Leader, tag.leaderEnd()
	c.near(segmentBox(a, b).Grow(0.05), func(o *thing) {
		if o.cost >= onWire && cutsBox(a, b, o.box) {
			cost += onLeader
		}
	})
	return cost
}

// paintTouch is the tag of what touches.
func (d *Drawing) paintTouch(i int) scene.Group {
	t := &d.Touches[i]
	g := scene.Group{ID: fmt.Sprintf("touch-%d", i+1), Class: "touch", Title: d.touchTitle(t),
		Data: map[string]string{"run": fmt.Sprint(t.Runs[0]), "step": t.Tag.Step}}
	g.Items = append(g.Items, paintLeader(&t.Tag)...)
	g.Items = append(g.Items, paintSleeve(&t.Tag, t.Tag.At))
	if d.Options.Setting != nil {
		g.Fade = fadeRest
	}
	return g
}

func (d *Drawing) touchTitle(t *Touch) string {
	return fmt.Sprintf("%s touches %s: nothing to solder, step %s", d.Graph.Terms[t.Term].Name, t.To, t.Tag.Step)
}

// plateWords name a plate that is not drawn but as what the controls sit in:
// which parts touch it in which steps; "" if there is none.
func (d *Drawing) plateWords() string {
	byStep := map[int]string{}
	plate := ""
	for i, r := range d.Graph.Runs {
		if r.Wire.Kind != loom.Touching {
			continue
		}
		for _, e := range [][2]int{{r.A, r.B}, {r.B, r.A}} {
			a, b := &d.Graph.Terms[e[0]], &d.Graph.Terms[e[1]]
			if a.Use >= 0 && b.Use >= 0 && d.Plan.Spots[e[0]].Part < 0 {
				use := &d.Graph.Loom.Uses[a.Use]
				plate = cmp.Or(use.Called, use.Name)
				byStep[d.Options.Steps[i]] = d.Graph.Loom.Uses[b.Use].Name
			}
		}
	}
	if plate == "" {
		return ""
	}
	var words []string
	for step := range maxKey(byStep) + 1 {
		if part, ok := byStep[step]; ok {
			words = append(words, fmt.Sprintf("%s (%d)", strings.NewReplacer("-", " ", "_", " ").Replace(part), step))
		}
	}
	return plate + ", touched by " + strings.Join(words, ", ")
}

func maxKey(m map[int]string) int {
	most := -1
	for k := range m {
		most = max(most, k)
	}
	return most
}
