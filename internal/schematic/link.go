package schematic

import (
	"cmp"
	"slices"
	"strings"

	"loomwright/internal/scene"
)

// linkage is the mechanical connection between two poles of a switch, or two
// gangs of a pot: a broken line from arm to arm (IEC 60617, from memory), which
// crosses wires at right angles and runs along none. On the grid it is a net of
// its own, above those of the loom.
type linkage struct {
	a, b     *symbol
	from, to gp // the sides on which it leaves them
	net      int
}

// link lays the linkages of every switch and knob, from one to the next. The
// names of those whose line found no way are returned.
func (r *router) link(l *layout) (lost []string) {
	l.linked = nil
	for i, s := range l.g.Switches {
		lost = append(lost, r.linkAll(l, s.Name, l.movedBy(poleSymbol, i))...)
	}
	for i, k := range l.g.Knobs {
		lost = append(lost, r.linkAll(l, k.Name, l.movedBy(potSymbol, i))...)
	}
	return lost
}

func (r *router) linkAll(l *layout, name string, arms []*symbol) (lost []string) {
	for i := 1; i < len(arms); i++ {
		k := linkage{a: arms[i-1], b: arms[i], net: l.nets.Count + len(l.linked)}
		way := r.between(&k)
		if way == nil {
			return []string{name}
		}
		r.mark(way, k.net)
		l.linked = append(l.linked, k)
	}
	return nil
}

// mover is the switch or the knob that moves a symbol.
func (s *symbol) mover() int {
	if s.kind == potSymbol {
		return s.knob
	}
	return s.sw
}

// movedBy lists the contacts of one switch or the gangs of one knob, from the
// left and from the top.
func (l *layout) movedBy(what kind, mover int) []*symbol {
	var out []*symbol
	for _, s := range l.symbols {
		if s.kind == what && s.mover() == mover {
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b *symbol) int {
		return cmp.Or(cmp.Compare(a.column, b.column), cmp.Compare(a.origin.y, b.origin.y))
	})
	return out
}

// between finds the cheapest way of a linkage, from below or above each symbol.
func (r *router) between(k *linkage) []step {
	var best []step
	least := 1 << 30
	for _, from := range []gp{down, up} {
		for _, to := range []gp{up, down} {
			start, end := r.node(k.a.leave(from)), r.node(k.b.leave(to))
			n := wanted{net: k.net, pins: []int{start, end}, out: []int{slices.Index(headings[:], from), slices.Index(headings[:], to)}}
			if way, price := r.search(n, start, n.out[0], map[int]bool{end: true}, least); way != nil {
				best, least = way, price
				k.from, k.to = from, to
			}
		}
	}
	return best
}

// armX is where the broken line meets the arms of a pole, or the arrow of a
// pot's wiper, in its own units.
func (s *symbol) armX() int {
	hinge := s.pins[len(s.pins)-1].at.x
	if s.kind == potSymbol {
		return hinge - 1
	}
	return hinge - 3
}

// leave is the grid point at which a symbol's broken line leaves its box.
func (s *symbol) leave(to gp) gp {
	x := s.armX()
	if s.flipped {
		x = s.pivot() - x
	}
	lo, hi := s.box()
	if to == up {
		return gp{x + s.origin.x, lo.y}
	}
	return gp{x + s.origin.x, hi.y}
}

// arms are the heights at which the broken line meets a symbol's arms, in its
// own units: the height of a pot's wiper, or a third of the way from a pole's
// hinge to each throw that is closed.
func (s *symbol) arms() []float64 {
	mid := float64(s.pins[len(s.pins)-1].at.y)
	if s.kind == potSymbol {
		return []float64{mid}
	}
	var out []float64
	for i, t := range s.throws {
		if t.closed {
			out = append(out, mid+(float64(2*i)-mid)/3)
		}
	}
	if len(out) == 0 {
		out = append(out, mid+(s.openArm()-mid)*openThird)
	}
	return out
}

// openArm is the height of the tip of an arm that meets no throw: between two of
// them, or above the only one.
func (s *symbol) openArm() float64 {
	mid := float64(s.pins[len(s.pins)-1].at.y)
	if len(s.throws)%2 == 1 {
		return mid - 1
	}
	return mid
}

// openTip is how far before the hinge an open arm ends, units; openThird is the
// share of it at armX.
const (
	openTip   = 2.6
	openThird = 1 / openTip
)

// paintLink draws a linkage from arm to arm.
func (r *router) paintLink(k *linkage) scene.Item {
	pts := []scene.Point{k.a.armAt(k.from)}
	heading := slices.Index(headings[:], k.from)
	for at := k.a.leave(k.from); at != k.b.leave(k.to); at = at.add(headings[heading]) {
		for turn := range 4 {
			if h := (heading + turn + 3) % 4; h != (heading+2)%4 && r.netAt(r.node(at), h) == k.net {
				if h != heading {
					pts = append(pts, at.mm())
				}
				heading = h
				break
			}
		}
	}
	pts = append(pts, k.b.armAt(k.to))
	o := scene.Polyline(0, pts...)
	return scene.Path{Class: "linkage", Outline: o, Stroke: scene.Stroke{Color: ink, Width: thinPen, Dash: []float64{1.1, 0.9}}}
}

// linkNotes say what the broken lines are, and which are missing.
func (l *layout) linkNotes() []string {
	var out []string
	if len(l.linked) > 0 {
		out = append(out, "A broken line joins what one knob or lever moves.")
	}
	if len(l.unlinked) > 0 {
		out = append(out, "All poles of one switch, all gangs of one pot move together: "+strings.Join(l.unlinked, ", ")+".")
	}
	return out
}

// armAt is where a broken line that leaves upward or downward begins: at the arm
// farthest from there, so that it meets them all.
func (s *symbol) armAt(to gp) scene.Point {
	y := slices.Min(s.arms())
	if to == up {
		y = slices.Max(s.arms())
	}
	return scene.Pt(s.leave(to).mm().X, s.origin.mm().Y+y*unit)
}
