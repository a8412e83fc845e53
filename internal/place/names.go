package place

import (
	"cmp"
	"fmt"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/scene"
	"loomwright/internal/units"
)

// Sizes of words, mm.
const (
	nameSize  = 3.0
	valueSize = 2.3
	smallName = 2.3
	labelSize = 1.8
)

// names puts each part's name and value in or beside it, where no lug faces.
func (l *layout) names(p *Plan) {
	for i := range p.Parts {
		if l.items[i].use < 0 || l.items[i].role == roleGroundwork {
			continue
		}
		l.name(p, i)
	}
}

func (l *layout) name(p *Plan, i int) {
	use := &l.g.Loom.Uses[l.items[i].use]
	lines := nameLines(use, l.items[i].role, p.Parts[i].Scale)
	w, h := sizeOf(lines)
	best, cost := scene.Point{}, 1e18
	for _, c := range l.nameSpots(p, i, w, h) {
		if k := l.nameCost(p, i, scene.Box(c.at.X-w/2, c.at.Y-h/2, w, h)) + c.cost; k < cost {
			best, cost = c.at, k
		}
	}
	setLines(lines, best, h)
	for k := range lines {
		lines[k].Soft = cost >= 1000
		lines[k].Dark = p.Parts[i].darkAt(lines[k].At)
	}
	p.Parts[i].Name = lines
}

// nameLines are what is printed for a part: its name, its value.
func nameLines(use *loom.Use, r role, scale float64) []Line {
	name := cmp.Or(use.Called, spaced(use.Name))
	size := nameSize
	if r == roleSmall || r == roleGround {
		size = smallName
	}
	out := []Line{{Text: name, Size: size, Bold: true}}
	if v := valueOf(use.Part); v != "" {
		out = append(out, Line{Text: v, Size: valueSize})
	}
	if scale != 1 {
		out = append(out, Line{Text: fmt.Sprintf("enlarged × %.3g", scale), Size: labelSize + 0.2})
	}
	if len(use.Part.Outline) == 0 {
		out = append(out, Line{Text: "size not known", Size: labelSize + 0.2})
	}
	return out
}

// spaced is a name of the loom file as words.
func spaced(name string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(name) }

// valueOf is a part's value as the trade writes it.
func valueOf(p *part.Part) string {
	var out []string
	for _, t := range p.Tracks {
		if s := t.Value.String(); t.Value.Ohms.X > 0 && (len(out) == 0 || out[len(out)-1] != s) {
			out = append(out, s)
		}
	}
	for _, t := range p.Capacitors {
		if t.Value.X > 0 {
			out = append(out, units.FormatFarads(t.Value.X))
		}
	}
	for _, t := range p.Resistors {
		if t.Value.X > 0 {
			out = append(out, units.FormatOhms(t.Value.X))
		}
	}
	return strings.Join(out, ", ")
}

func sizeOf(lines []Line) (w, h float64) {
	for _, n := range lines {
		w = max(w, scene.TextWidth(n.Text, n.Size, scene.Style{Bold: n.Bold}))
		h += n.Size * 1.25
	}
	return w, h
}

func setLines(lines []Line, middle scene.Point, h float64) {
	y := middle.Y - h/2
	for i := range lines {
		y += lines[i].Size * 1.25
		lines[i].At = scene.Pt(middle.X, y-lines[i].Size*0.62)
	}
}

func (p *Part) darkAt(at scene.Point) bool {
	dark := false
	for _, s := range p.Shapes {
		if s.IsBody() && s.Holds(at, 0) {
			dark = s.Fill == "dark"
		}
	}
	return dark
}

type nameSpot struct {
	at   scene.Point
	cost float64
}

// nameSpots lists places for a name: on the body, then around it.
func (l *layout) nameSpots(p *Plan, i int, w, h float64) []nameSpot {
	part := &p.Parts[i]
	b, c := part.Box, part.Box.Center()
	var out []nameSpot
	for _, s := range part.Shapes {
		if s.IsBody() && s.Box.Width() > w && s.Box.Height() > h && l.items[i].role != rolePickup {
			out = append(out, nameSpot{s.Box.Center(), 0})
		}
	}
	gap := 1.6
	out = append(out,
		nameSpot{scene.Pt(c.X, b.Min.Y-h/2-gap), 4}, nameSpot{scene.Pt(c.X, b.Max.Y+h/2+gap), 6},
		nameSpot{scene.Pt(b.Max.X+w/2+gap, c.Y), 8}, nameSpot{scene.Pt(b.Min.X-w/2-gap, c.Y), 9},
		nameSpot{scene.Pt(b.Min.X+w/2, b.Min.Y-h/2-gap), 10}, nameSpot{scene.Pt(b.Max.X-w/2, b.Min.Y-h/2-gap), 10},
		nameSpot{scene.Pt(b.Min.X+w/2, b.Max.Y+h/2+gap), 12}, nameSpot{scene.Pt(b.Max.X-w/2, b.Max.Y+h/2+gap), 12})
	return out
}

// nameCost weighs what a name would lie on or in front of.
func (l *layout) nameCost(p *Plan, i int, box scene.Rect) float64 {
	cost := 0.0
	for k := range p.Parts {
		o := &p.Parts[k]
		if k != i && o.Box.Grow(1).Overlaps(box) {
			cost += 2000
		}
		for _, n := range o.Name {
			if k != i && n.Box().Grow(1).Overlaps(box) {
				cost += 2000
			}
		}
		if o.Fan != nil && boxOf(append([]scene.Point{o.Fan.Mouth}, o.Fan.Slots...)).Grow(2).Overlaps(box) {
			cost += 1000
		}
	}
	for t := range p.Spots {
		cost += nameOnSpot(&p.Spots[t], box)
	}
	for _, s := range p.Parts[i].Shapes {
		line := s.Kind == "line" && l.items[i].role != roleSmall
		if (line || s.Fill == "hole") && l.items[i].role != rolePickup && l.items[i].role != roleOut && s.Box.Grow(0.3).Overlaps(box) {
			cost += 300
		}
	}
	return cost
}

// nameOnSpot charges a name for lying on a terminal, or before its exits.
func nameOnSpot(s *Spot, box scene.Rect) float64 {
	if s.Part < 0 || s.InCase {
		return 0
	}
	cost := 0.0
	if around2(s.At, s.Far).Grow(2.2).Overlaps(box) || s.HasPin && around2(s.Pin, s.Pin).Grow(1.6).Overlaps(box) {
		cost += 1000
	}
	for q := range 4 {
		if s.Exits&(1<<q) == 0 || s.Kind == "plate" {
			continue
		}
		out := s.At.Add(scene.Toward(90 * float64(q)).Mul(9))
		if !s.Inside && around2(s.At, out).Grow(1.5).Overlaps(box) {
			cost += 60
		}
	}
	return cost
}

func around2(a, b scene.Point) scene.Rect { return boxOf([]scene.Point{a, b}) }
