package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"loomwright/internal/build"
	"loomwright/internal/scene"
)

// Measures of a close-up, mm.
const (
	viewPad   = 10.0 // of the drawing around what is worked on
	viewMost  = 1.2  // largest scale
	viewLeast = 0.72 // smallest, before the view is split in two
	fadeDone  = 0.62 // of what was soldered before
)

// closeUps shows where a step is done: what is there by then, pale, and the
// step's own wire in full.
type closeUps struct {
	in    *Input
	items []scene.Item
	boxes []scene.Rect
	first []int // step of each run
	done  []solderedAt
}

// solderedAt is a place in the drawing and the step that heats it.
type solderedAt struct {
	at   scene.Point
	step int
}

func newCloseUps(in *Input) *closeUps {
	if in.Drawing == nil {
		return nil
	}
	c := &closeUps{in: in, first: in.Plan.StepOfRun(len(in.Graph.Runs))}
	for _, it := range onWhite(in.Drawing.Scene()).Items {
		if g, ok := it.(scene.Group); ok && g.Class == "loom" {
			c.items = onWhiteCavity(g.Items)
		}
	}
	for _, it := range c.items {
		c.boxes = append(c.boxes, it.Bounds())
	}
	for _, s := range in.Plan.Steps {
		for _, e := range s.Ends {
			if p, ok := c.spot(s.Run, e); ok && e.Heat > 0 {
				c.done = append(c.done, solderedAt{p, e.Heat})
			}
		}
	}
	return c
}

// onWhiteCavity is a drawing with its cavity left white: a tint costs ink and
// takes contrast from what is pale.
func onWhiteCavity(items []scene.Item) []scene.Item {
	out := items
	for _, it := range items {
		if p, ok := it.(scene.Path); ok && p.Class == "cavity" {
			out = recoloured(out, p.Fill, scene.White)
		}
	}
	return out
}

// views draws the close-ups of a step: one, or two where its ends lie far apart.
func (c *closeUps) views(s *build.Step) []scene.Scene {
	if c == nil {
		return nil
	}
	spots := c.spots(s)
	if len(spots) == 0 {
		return nil
	}
	groups := [][]scene.Point{spots}
	if c.scale(spots, viewWidth) < viewLeast {
		groups = split(spots)
	}
	width := (viewWidth - viewGap*float64(len(groups)-1)) / float64(len(groups))
	var out []scene.Scene
	for _, g := range groups {
		out = append(out, c.view(s, g, width))
	}
	return out
}

// scale is how large the drawing can be in a view of a width that shows spots.
func (c *closeUps) scale(spots []scene.Point, width float64) float64 {
	b := around(spots)
	return min(viewMost, width/(b.Width()+2*viewPad), viewHeight/(b.Height()+2*viewPad))
}

// around is the box of points.
func around(points []scene.Point) scene.Rect {
	r := scene.Rect{Min: points[0], Max: points[0]}
	for _, p := range points[1:] {
		r.Min = scene.Pt(min(r.Min.X, p.X), min(r.Min.Y, p.Y))
		r.Max = scene.Pt(max(r.Max.X, p.X), max(r.Max.Y, p.Y))
	}
	return r
}

// split parts spots into those near the first and those near what is farthest
// from it.
func split(spots []scene.Point) [][]scene.Point {
	far := slices.MaxFunc(spots, func(a, b scene.Point) int {
		return int(math.Copysign(1, a.Dist(spots[0])-b.Dist(spots[0])))
	})
	out := make([][]scene.Point, 2)
	for _, p := range spots {
		k := 0
		if p.Dist(far) < p.Dist(spots[0]) {
			k = 1
		}
		out[k] = append(out[k], p)
	}
	return out
}

// spots are the places in the drawing where a step's ends are worked on.
func (c *closeUps) spots(s *build.Step) []scene.Point {
	var out []scene.Point
	for _, e := range s.Ends {
		if e.Work == build.Tail || e.Work == build.Own {
			continue
		}
		if p, ok := c.spot(s.Run, e); ok && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// spot is where one end of a run meets its terminal.
func (c *closeUps) spot(run int, e build.End) (scene.Point, bool) {
	if p, ok := c.in.Drawing.EndOf(run, e.Term, e.Braid); ok {
		return p, true
	}
	return c.lug(e.Term)
}

// lug is the middle of a terminal.
func (c *closeUps) lug(term int) (scene.Point, bool) {
	s := &c.in.Drawing.Plan.Spots[term]
	return s.At, s.Part >= 0
}

// view is one close-up: the drawing clipped to a frame, the middle of the spots
// in its middle.
func (c *closeUps) view(s *build.Step, spots []scene.Point, width float64) scene.Scene {
	k := c.scale(spots, width)
	mid := around(spots).Center()
	frame := scene.Box(mid.X-width/2/k, mid.Y-viewHeight/2/k, width/k, viewHeight/k)
	place := scene.Transform{Scale: k, Move: scene.Pt(-frame.Min.X*k, -frame.Min.Y*k)}
	edge := scene.RoundRect(scene.Box(0, 0, width, viewHeight), 1)
	v := scene.Scene{Width: width, Height: viewHeight, Title: fmt.Sprintf("close-up of step %d", s.Number)}
	v.Items = []scene.Item{
		scene.Group{Clip: scene.Box(0, 0, width, viewHeight), Items: []scene.Item{
			scene.Group{Place: place, Items: append(c.visible(s, frame), rings(spots, k)...)},
		}},
		scene.Path{Outline: edge, Stroke: scene.Stroke{Color: rule, Width: 0.25}},
	}
	return v
}

// rings point out where the work is.
func rings(spots []scene.Point, k float64) []scene.Item {
	var out []scene.Item
	for _, p := range spots {
		o := scene.Circle(p, 3/k)
		out = append(out, scene.Path{Outline: o, Stroke: scene.Stroke{Color: scene.White, Width: 1.1 / k}},
			scene.Path{Outline: o, Stroke: scene.Stroke{Color: ink, Width: 0.45 / k, Dash: []float64{1.3 / k, 0.8 / k}}})
	}
	return out
}

// visible are the items of the drawing in a frame: parts, wires that are in
// before the step, pale, and the step's own.
func (c *closeUps) visible(s *build.Step, frame scene.Rect) []scene.Item {
	var out, own []scene.Item
	for i, it := range c.items {
		if !c.boxes[i].Overlaps(frame) {
			continue
		}
		g, ok := it.(scene.Group)
		if !ok {
			out = append(out, it)
			continue
		}
		run := runOf(&g)
		if g.Class == "terminal" {
			g.Items = c.withoutLater(g.Items, s.Number)
		}
		switch {
		case run == s.Run:
			own = append(own, cull(g, frame))
		case run < 0 || c.before(run, s):
			g.Fade = max(g.Fade, fadeOf(&g))
			out = append(out, cull(g, frame))
		}
	}
	return append(out, own...)
}

// dot is the largest width of solder on a terminal in the drawing, mm; a pad is
// larger.
const dot = 3.2

// withoutLater takes the solder of later steps off a terminal.
func (c *closeUps) withoutLater(items []scene.Item, step int) []scene.Item {
	return slices.DeleteFunc(slices.Clone(items), func(it scene.Item) bool {
		p, ok := it.(scene.Path)
		if !ok || p.Bounds().Width() > dot {
			return false
		}
		at := p.Bounds().Center()
		later := false
		for _, d := range c.done {
			if d.at.Dist(at) > 1 {
				continue
			}
			if d.step <= step {
				return false
			}
			later = true
		}
		return later
	})
}

// before reports whether a run is in the loom when a step is done.
func (c *closeUps) before(run int, s *build.Step) bool {
	return c.first[run] > 0 && c.first[run] < s.Number
}

// runOf is the run that a group of the drawing belongs to, or −1: a part or a
// terminal.
func runOf(g *scene.Group) int {
	if n, err := strconv.Atoi(g.Data["run"]); err == nil {
		return n
	}
	return -1
}

func fadeOf(g *scene.Group) float64 {
	switch g.Class {
	case "wire", "tag", "mark":
		return fadeDone
	}
	return 0.25
}

// cull drops what a frame does not show, so that a page stays small.
func cull(g scene.Group, frame scene.Rect) scene.Group {
	if g.Place != (scene.Transform{}) {
		return g
	}
	var kept []scene.Item
	for _, it := range g.Items {
		if in, ok := it.(scene.Group); ok {
			it = cull(in, frame)
		}
		if it.Bounds().Overlaps(frame) {
			kept = append(kept, it)
		}
	}
	g.Items = kept
	return g
}
