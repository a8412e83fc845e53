package place

import (
	"math"

	"loomwright/internal/part"
	"loomwright/internal/scene"
)

// form is a part before it is placed: in mm from its centre, drawn scale
// applied, not turned.
type form struct {
	scale  float64
	shapes []Shape
	spots  []Spot // by terminal of the part; Part is not set
	tips   []Spot // of a sleeve: where wires enter it
	cases  int    // terminal of the case, or −1
	box    scene.Rect
}

// newForm reads the outline and the terminals of a part.
func newForm(p *part.Part, scale float64) *form {
	f := &form{scale: scale, cases: -1}
	for _, s := range p.Outline {
		f.shapes = append(f.shapes, shapeOf(s, scale))
	}
	for i, t := range p.Terminals {
		f.spots = append(f.spots, spotOf(t, scale))
		if t.Kind == "case" && f.cases < 0 {
			f.cases = i
		}
	}
	f.fallback(p)
	f.shorten(p)
	f.findStems()
	f.measure()
	if p.Class == "splice" && len(f.spots) == 1 {
		f.sleeve(sideTips)
	}
	return f
}

func shapeOf(s part.Shape, k float64) Shape {
	w, h := s.Size[0]*k, s.Size[1]*k
	out := Shape{Kind: s.Shape, Round: s.Round * k, Text: s.Text, Fill: s.Fill,
		Box: scene.Box(s.At[0]*k-w/2, s.At[1]*k-h/2, w, h)}
	for _, q := range s.Points {
		out.Points = append(out.Points, scene.Pt(q[0]*k, q[1]*k))
	}
	if len(out.Points) > 0 {
		out.Box = boxOf(out.Points)
	}
	return out
}

func spotOf(t part.Terminal, k float64) Spot {
	s := Spot{Kind: t.Kind, At: scene.Pt(t.At[0]*k, t.At[1]*k), HasPin: t.HasPin, Label: t.Label}
	s.Pin, s.Far = scene.Pt(t.Pin[0]*k, t.Pin[1]*k), s.At
	for _, e := range t.Exit {
		s.Exits |= exitBits[e]
	}
	if s.Exits == 0 {
		s.Exits = 15
	}
	return s
}

func boxOf(points []scene.Point) scene.Rect {
	r := scene.Rect{Min: points[0], Max: points[0]}
	for _, p := range points[1:] {
		r.Min = scene.Pt(min(r.Min.X, p.X), min(r.Min.Y, p.Y))
		r.Max = scene.Pt(max(r.Max.X, p.X), max(r.Max.Y, p.Y))
	}
	return r
}

// fallback gives a part whose file has no places a row of lugs, and one without
// outline a plain body.
func (f *form) fallback(p *part.Part) {
	placed := false
	for _, t := range p.Terminals {
		placed = placed || t.Placed
	}
	if n := float64(len(f.spots)); !placed && n > 0 {
		for i := range f.spots {
			f.spots[i].At = scene.Pt((float64(i)-(n-1)/2)*6, 9)
			f.spots[i].Far, f.spots[i].Exits = scene.Pt(f.spots[i].At.X, 5), exitBits["down"]
		}
	}
	if len(f.shapes) > 0 || len(f.spots) == 0 {
		return
	}
	var at []scene.Point
	for _, s := range f.spots {
		at = append(at, s.At)
	}
	box := boxOf(at).Grow(3)
	if !placed {
		box = scene.Rect{Min: scene.Pt(box.Min.X, -6), Max: scene.Pt(box.Max.X, 6)}
	}
	f.shapes = append(f.shapes, Shape{Kind: "rect", Box: box, Round: 1, Fill: "body"})
}

// leadOut is how far the straight lead of a component is drawn: the rest of it
// is bent to where it is soldered, mm.
const leadOut = 2.4

// shorten cuts the straight leads of a component near its body.
func (f *form) shorten(p *part.Part) {
	if len(p.Coils) > 0 {
		return
	}
	for i := range f.spots {
		s := &f.spots[i]
		if s.Kind != "lead" || s.At.Y != 0 {
			continue
		}
		keep := f.bodyReach(s.At) + leadOut
		if math.Abs(s.At.X) <= keep {
			continue
		}
		to := scene.Pt(math.Copysign(keep, s.At.X), 0)
		for k := range f.shapes {
			for q, pt := range f.shapes[k].Points {
				if pt == s.At {
					f.shapes[k].Points[q] = to
				}
			}
			if len(f.shapes[k].Points) > 0 {
				f.shapes[k].Box = boxOf(f.shapes[k].Points)
			}
		}
		s.At, s.Far = to, to
	}
}

// bodyReach is how far a component's body, or a bend of its leads, reaches
// toward a lead's end.
func (f *form) bodyReach(tip scene.Point) float64 {
	far := 0.0
	sign := math.Copysign(1, tip.X)
	for _, s := range f.shapes {
		if s.Kind == "rect" || s.Kind == "circle" {
			far = max(far, s.Box.Max.X*sign, s.Box.Min.X*sign)
		}
		for _, p := range s.Points {
			if p != tip {
				far = max(far, min(p.X*sign, math.Abs(tip.X)))
			}
		}
	}
	return far
}

// stemSize is the largest size of a shape that is a lug's metal, mm.
const stemSize = 9.5

// findStems marks the small metal shapes that terminals lie on, and where each
// lug ends inward.
func (f *form) findStems() {
	for i := range f.spots {
		s := &f.spots[i]
		s.Inside = s.Kind == "case"
		for k := range f.shapes {
			if h := &f.shapes[k]; h.Fill == "metal" && f.isStem(h) && h.Box.Grow(0.01).Contains(scene.Rect{Min: s.At, Max: s.At}) {
				h.Stem = true
				s.Far = farEnd(h.Box, s.At)
			}
		}
		s.Inside = s.Inside || f.onBody(s.At)
	}
	f.clipStems()
}

// stemApart is how near one lug's stem may come to another lug, mm.
const stemApart = 3.2

// clipStems shortens the stems that reach behind another lug of the part.
func (f *form) clipStems() {
	for i := range f.spots {
		s := &f.spots[i]
		for k := range f.spots {
			o := &f.spots[k]
			if k == i || o.Kind == "case" {
				continue
			}
			for s.Far.Dist(o.At) < stemApart && s.Far.Dist(s.At) > 0.2 {
				s.Far = s.Far.Lerp(s.At, min(1, 0.2/s.Far.Dist(s.At)))
			}
		}
	}
}

func (f *form) isStem(h *Shape) bool {
	if h.Kind != "rect" && h.Kind != "circle" {
		return false
	}
	w, l := h.Box.Width()/f.scale, h.Box.Height()/f.scale
	return max(w, l) <= stemSize && min(w, l) <= 3.2
}

// farEnd is the end of a stem's middle line that is farther from a place.
func farEnd(box scene.Rect, at scene.Point) scene.Point {
	c := box.Center()
	a, b := c, c
	if box.Width() > box.Height() {
		a.X, b.X = box.Min.X+box.Height()/2, box.Max.X-box.Height()/2
	} else {
		a.Y, b.Y = box.Min.Y+box.Width()/2, box.Max.Y-box.Width()/2
	}
	if a.Dist(at) > b.Dist(at) {
		return a
	}
	return b
}

// onBody reports whether a place lies on a body of the part.
func (f *form) onBody(at scene.Point) bool {
	for _, s := range f.shapes {
		if s.IsBody() && s.Holds(at, 0) {
			return true
		}
	}
	return false
}

// IsBody reports whether the shape is part of the body that wires go round.
func (s Shape) IsBody() bool {
	return !s.Stem && (s.Kind == "rect" || s.Kind == "circle") && s.Fill != "hole" && s.Fill != "none"
}

// Holds reports whether a place lies in the shape, at least inset mm from its edge.
func (s Shape) Holds(p scene.Point, inset float64) bool {
	box := s.Box.Grow(-inset)
	if s.Kind == "circle" {
		c := box.Center()
		return math.Hypot((p.X-c.X)/box.Width()*2, (p.Y-c.Y)/box.Height()*2) <= 1
	}
	return p.X >= box.Min.X && p.X <= box.Max.X && p.Y >= box.Min.Y && p.Y <= box.Max.Y
}

func (f *form) measure() {
	for _, s := range f.shapes {
		if s.Kind != "text" {
			f.box = f.box.Union(s.Box)
		}
	}
	for _, s := range f.spots {
		f.box = f.box.Union(scene.Rect{Min: s.At, Max: s.At}.Grow(1.3))
	}
}

// turnPoint turns a vector by quarters clockwise.
func turnPoint(p scene.Point, quarters int) scene.Point {
	switch quarters & 3 {
	case 1:
		return scene.Pt(-p.Y, p.X)
	case 2:
		return scene.Pt(-p.X, -p.Y)
	case 3:
		return scene.Pt(p.Y, -p.X)
	}
	return p
}

func turnBox(r scene.Rect, quarters int) scene.Rect {
	return boxOf([]scene.Point{turnPoint(r.Min, quarters), turnPoint(r.Max, quarters)})
}
