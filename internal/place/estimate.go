package place

import (
	"math"

	"loomwright/internal/scene"
)

// What an arrangement costs while parts are moved, in mm of wire.
const (
	perCrossing = 18
	perBackward = 10
	perBodyCut  = 12
	perSideways = 12 // a pot that stands neither up nor down
	perTurned   = 3  // a pot with its lugs up
)

// findLinks lists the strands between items.
func (l *layout) findLinks() {
	entered := make([]int, len(l.items)) // tips of each sleeve that are taken
	for _, s := range l.strands {
		if s.Run < 0 || s.Core >= 0 {
			continue
		}
		a, okA := l.endOf(s.A, entered)
		b, okB := l.endOf(s.B, entered)
		if okA && okB {
			l.links = append(l.links, link{a, b})
		}
	}
}

func (l *layout) endOf(e End, entered []int) (linkEnd, bool) {
	if e.Splice >= 0 {
		return l.tip(len(l.g.Loom.Uses)+e.Splice, entered), true
	}
	t := &l.g.Terms[e.Term]
	if t.Use < 0 {
		return linkEnd{}, false
	}
	it := &l.items[t.Use]
	if it.fan != nil {
		for i, lead := range it.fan.Leads {
			if lead == e.Term {
				return linkEnd{item: t.Use, at: it.fan.Slots[i], exits: exitBits["right"]}, true
			}
		}
	}
	if t.Terminal < 0 {
		return linkEnd{}, false
	}
	if len(it.form.tips) > 0 {
		return l.tip(t.Use, entered), true
	}
	s := &it.form.spots[t.Terminal]
	out := linkEnd{item: t.Use, at: s.At, exits: s.Exits}
	if s.Kind == "case" {
		out.rim = it.form.caseReach(s.At) - 2.4
	}
	return out, true
}

// tip is the next free place to enter a sleeve.
func (l *layout) tip(i int, entered []int) linkEnd {
	tips := l.items[i].form.tips
	t := &tips[entered[i]%len(tips)]
	entered[i]++
	return linkEnd{item: i, at: t.At, exits: t.Exits}
}

// caseReach is half the width of the metal around a case's place.
func (f *form) caseReach(at scene.Point) float64 {
	if s := f.caseShape(at); s != nil {
		return s.Box.Width() / 2
	}
	return 0
}

// caseShape is the largest metal shape around a place.
func (f *form) caseShape(at scene.Point) *Shape {
	var best *Shape
	for k := range f.shapes {
		s := &f.shapes[k]
		if s.IsBody() && s.Fill == "metal" && s.Holds(at, 0) && (best == nil || s.Box.Width() > best.Box.Width()) {
			best = s
		}
	}
	return best
}

// where is the place of a link's end, seen from the other.
func (l *layout) where(e *linkEnd, toward scene.Point) scene.Point {
	it := &l.items[e.item]
	p := it.at.Add(turnPoint(e.at, it.turn))
	if e.rim <= 0 {
		return p
	}
	best, exits := p, e.exits.Turned(it.turn)
	for q := range 4 {
		if exits&(1<<q) == 0 {
			continue
		}
		if c := p.Add(quarter[q].Mul(e.rim)); best == p || c.Dist(toward) < best.Dist(toward) {
			best = c
		}
	}
	return best
}

// segment is a link laid straight.
type segment struct {
	p, q scene.Point
	a, b int
}

func (l *layout) segment(k int) segment {
	lk := &l.links[k]
	q0 := l.where(&lk.b, l.items[lk.a.item].at)
	p := l.where(&lk.a, q0)
	return segment{p, l.where(&lk.b, p), lk.a.item, lk.b.item}
}

// cost is what the arrangement costs as it stands.
func (l *layout) cost() float64 {
	segs := make([]segment, len(l.links))
	sum := 0.0
	for k := range l.links {
		segs[k] = l.segment(k)
		sum += l.alone(k, segs[k])
		for _, o := range segs[:k] {
			if crosses(segs[k], o) {
				sum += perCrossing
			}
		}
	}
	for i := range l.items {
		sum += l.items[i].pose()
	}
	return sum
}

// pose is what a pot's turn costs: usual drawings have the lugs down or up.
func (it *item) pose() float64 {
	switch {
	case it.role != rolePot || it.turn == 0:
		return 0
	case it.turn == 2:
		return perTurned
	}
	return perSideways
}

// Pots are read most easily when all stand alike.
const (
	sideways = 60
	unlike   = 15
)

// awkward is what a finished layout's looks cost, whatever its wires do.
func (l *layout) awkward() float64 {
	sum, count := l.offPage(), [4]int{}
	pots := l.of(rolePot)
	for _, i := range pots {
		count[l.items[i].turn&3]++
	}
	sum += float64(sideways*(count[1]+count[3]) + unlike*(len(pots)-max(count[0], count[1], count[2], count[3])))
	return sum + l.untidy()
}

// alone is what one link costs by itself: length, ends that face away, bodies
// that it would cut.
func (l *layout) alone(k int, s segment) float64 {
	d := s.q.Sub(s.p)
	cost := math.Abs(d.X) + math.Abs(d.Y)
	lk := &l.links[k]
	cost += perBackward * (away(lk.a.exits.Turned(l.items[s.a].turn), d) + away(lk.b.exits.Turned(l.items[s.b].turn), d.Mul(-1)))
	for i := range l.items {
		if i != s.a && i != s.b && l.items[i].solid() && cuts(l.items[i].box(), s) {
			cost += perBodyCut
		}
	}
	return cost
}

// quarter are the unit vectors of the headings.
var quarter = [4]scene.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}

// solid reports whether wires go round an item.
func (it *item) solid() bool { return it.role != roleSmall && it.role != roleGroundwork }

// away is 1 when no exit points toward the other end.
func away(exits Exits, d scene.Point) float64 {
	for q := range 4 {
		if v := quarter[q]; exits&(1<<q) != 0 && v.X*d.X+v.Y*d.Y > 0 {
			return 0
		}
	}
	return 1
}

// box is the place of an item with its lugs.
func (it *item) box() scene.Rect {
	r := turnBox(it.form.box, it.turn)
	if it.fan != nil {
		for _, s := range it.fan.Slots {
			p := turnPoint(s, it.turn)
			r = r.Union(scene.Rect{Min: p, Max: p}.Grow(0.1))
		}
	}
	return scene.Rect{Min: r.Min.Add(it.at), Max: r.Max.Add(it.at)}
}

// cuts reports whether a segment goes through a box.
func cuts(r scene.Rect, s segment) bool {
	t0, t1 := 0.0, 1.0
	d := s.q.Sub(s.p)
	for _, c := range [4][2]float64{{-d.X, s.p.X - r.Min.X}, {d.X, r.Max.X - s.p.X}, {-d.Y, s.p.Y - r.Min.Y}, {d.Y, r.Max.Y - s.p.Y}} {
		switch {
		case c[0] == 0:
			if c[1] < 0 {
				return false
			}
		case c[0] < 0:
			t0 = max(t0, c[1]/c[0])
		default:
			t1 = min(t1, c[1]/c[0])
		}
	}
	return t0 < t1
}

func crosses(a, b segment) bool {
	side := func(p, q, r scene.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return side(a.p, a.q, b.p)*side(a.p, a.q, b.q) < 0 && side(b.p, b.q, a.p)*side(b.p, b.q, a.q) < 0
}
