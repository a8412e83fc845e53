package place

import (
	"strings"

	"loomwright/internal/scene"
)

// labels names the lugs that a solderer cannot tell by the picture alone: those
// of switches, pots, jacks and terminal strips, and the pads that pickups will
// come to. Each name is kept a place beside its lug.
func (l *layout) labels(p *Plan) {
	for i := range p.Parts {
		terms := l.named(p, i)
		var taken []scene.Rect
		for _, t := range terms {
			if w, ok := p.keepLabel(i, t, taken); ok {
				p.Spots[t].Words = w
				taken = append(taken, w.Box())
			}
		}
	}
}

// named gives the lugs of a part their names, and lists those that have one.
func (l *layout) named(p *Plan, i int) []int {
	it := &l.items[i]
	if it.use < 0 || it.role == roleSmall || !it.solid() || it.role == roleGround || it.fan != nil {
		return nil
	}
	var out []int
	for k, t := range l.g.Loom.Uses[it.use].Part.Terminals {
		term := l.g.Term(it.use, k)
		s := &p.Spots[term]
		if s.Part < 0 || s.InFan || s.InCase {
			continue
		}
		if s.Label == "" {
			s.Label = shortName(t.Name)
		}
		out = append(out, term)
	}
	return out
}

// shortName leaves out the name of the control that a lug belongs to.
func shortName(name string) string {
	name = strings.TrimPrefix(name, "pull.")
	return strings.ReplaceAll(name, ".", " ")
}

// keepLabel finds room for a lug's name on the body and on nothing else.
func (p *Plan) keepLabel(i, term int, taken []scene.Rect) (Label, bool) {
	s, part := &p.Spots[term], &p.Parts[i]
	for _, w := range s.Labels() {
		box := w.Box()
		if part.carries(box) && !s.before(box) && p.clearOf(i, box, taken) && p.Nearest(term, box) {
			w.Dark = part.darkAt(w.At)
			return w, true
		}
	}
	return Label{}, false
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
	return p.Case == nil || p.Shapes[top].Box != p.Case.Box // the case is for joints
}

func (p *Plan) clearOf(i int, box scene.Rect, taken []scene.Rect) bool {
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
		if (s.Stem || s.Kind == "line") && s.Box.Grow(0.2).Overlaps(box) {
			return false
		}
	}
	for k := range p.Parts {
		if k != i && p.Parts[k].Box.Grow(0.5).Overlaps(box) {
			return false
		}
	}
	return p.clearOfSpots(i, box)
}

// clearOfSpots keeps a label off the lugs of its part and what leaves them.
func (p *Plan) clearOfSpots(i int, box scene.Rect) bool {
	for t := range p.Spots {
		s := &p.Spots[t]
		if s.Part != i || s.InCase {
			continue
		}
		if s.Inside && s.before(box) {
			return false
		}
		if around2(s.At, s.At).Grow(1.45).Overlaps(box) || s.HasPin && around2(s.Pin, s.Pin).Grow(1.1).Overlaps(box) {
			return false
		}
	}
	return true
}
