package place

import (
	"strings"

	"loomwright/internal/scene"
)

// labels names the lugs that a solderer cannot tell by the picture alone: those
// of switches, pots and jacks, on the part and beside the lug.
func (l *layout) labels(p *Plan) {
	for i := range p.Parts {
		it := &l.items[i]
		if it.use < 0 || it.role == roleSmall || !it.solid() || it.role == roleGround || it.role == rolePickup {
			continue
		}
		var taken []scene.Rect
		for k, t := range l.g.Loom.Uses[it.use].Part.Terminals {
			s := &p.Spots[l.g.Term(it.use, k)]
			if s.InFan || s.Kind == "case" || t.Name == "case" {
				continue
			}
			if s.Label == "" {
				s.Label = shortName(t.Name)
			}
			if box, ok := l.labelSpot(p, i, s, taken); ok {
				s.Words = box.Center()
				s.Dark = p.Parts[i].darkAt(s.Words)
				taken = append(taken, box)
			}
		}
	}
}

// shortName leaves out the name of the control that a lug belongs to.
func shortName(name string) string {
	name = strings.TrimPrefix(name, "pull.")
	return strings.ReplaceAll(name, ".", " ")
}

// labelSpot finds room for a lug's label: inward of it, else around it, on the
// body and on nothing else.
func (l *layout) labelSpot(p *Plan, i int, s *Spot, taken []scene.Rect) (scene.Rect, bool) {
	part := &p.Parts[i]
	w, h := scene.TextWidth(s.Label, labelSize, scene.Regular), labelSize
	inward := s.Far.Sub(s.At).Unit()
	if inward == (scene.Point{}) {
		inward = part.At.Sub(s.At).Unit()
	}
	base := s.Far.Add(inward.Mul(1.5))
	for _, d := range []scene.Point{inward, inward.Perp(), inward.Perp().Mul(-1), inward.Mul(-1)} {
		for _, more := range []float64{0.2, 1, 2, 3.2} {
			from := s.At
			if d == inward {
				from = base
			} else {
				from = from.Add(d.Mul(1.4))
			}
			c := from.Add(scene.Pt(d.X*(w/2+more*0.8), d.Y*(h/2+more)))
			box := scene.Box(c.X-w/2, c.Y-h/2, w, h)
			if part.carries(box) && l.clearOf(p, i, box, taken) && !s.before(box) {
				return box, true
			}
		}
	}
	return scene.Rect{}, false
}

// before reports whether a label lies on the way of a wire out of the lug.
func (s *Spot) before(box scene.Rect) bool {
	for q := range 4 {
		out := s.At.Add(scene.Toward(90 * float64(q)).Mul(12))
		if s.Exits&(1<<q) != 0 && around2(s.At, out).Grow(1.3).Overlaps(box) {
			return true
		}
	}
	return false
}

// carries reports whether a label lies wholly on one ground of the part.
func (p *Part) carries(box scene.Rect) bool {
	top := -1
	for _, c := range box.Corners() {
		on := -1
		for k, s := range p.Shapes {
			if s.IsBody() && s.Holds(c, 0.2) {
				on = k
			}
		}
		if on < 0 || top >= 0 && on != top {
			return false
		}
		top = on
	}
	return p.Case == nil || p.Case.Round || p.Shapes[top].Box != p.Case.Box // a narrow rim is for joints
}

func (l *layout) clearOf(p *Plan, i int, box scene.Rect, taken []scene.Rect) bool {
	for _, t := range taken {
		if t.Grow(0.4).Overlaps(box) {
			return false
		}
	}
	for _, n := range p.Parts[i].Name {
		if n.Box().Grow(0.3).Overlaps(box) {
			return false
		}
	}
	for _, s := range p.Parts[i].Shapes {
		if (s.Stem || s.Kind == "line") && s.Box.Grow(0.4).Overlaps(box) {
			return false
		}
	}
	for t := range p.Spots {
		s := &p.Spots[t]
		if s.Part != i || s.InCase {
			continue
		}
		if s.Inside && s.before(box) {
			return false
		}
		if around2(s.At, s.At).Grow(1.5).Overlaps(box) || s.HasPin && around2(s.Pin, s.Pin).Grow(1.1).Overlaps(box) {
			return false
		}
	}
	return true
}
