package route

import (
	"math"

	"loomwright/internal/scene"
)

// What a millimetre costs beyond its length, in mm, by what it passes.
const (
	overBody   = 30
	overOwn    = 3
	overLug    = 40
	overHard   = 30
	overSoft   = 2.5
	bodyMargin = 1.1 // mm around a body
	lugClear   = 2.2 // mm from a lug's middle line: just over half a wire and half a lug
	ownReach   = 3.0 // mm around its own terminal in which a wire may be near its lug
)

// covered is an edge that something lies on or near, and what that costs.
type covered struct {
	edge, cost int32
}

// terrain is what edges cost beyond their length. bodies and lugs hold each
// part's and terminal's share, so that a wire can be let over its own.
type terrain struct {
	cost   []int32
	bodies map[int][]covered
	lugs   map[int][]covered
}

func newTerrain(g *grid, b *Board) *terrain {
	t := &terrain{cost: make([]int32, 2*g.nx*g.ny), bodies: map[int][]covered{}, lugs: map[int][]covered{}}
	t.layBodies(g, b.Bodies)
	for _, l := range b.Lugs {
		t.layLug(g, l)
	}
	for _, l := range b.Labels {
		price := overSoft * unit
		if l.Hard {
			price = overHard * unit
		}
		g.eachEdge(l.Box.Grow(0.9), func(e int32, _ scene.Point, length int32) {
			t.cost[e] += scaled(length, price)
		})
	}
	return t
}

// scaled is a length in units at a price in units per mm.
func scaled(length int32, price float64) int32 { return int32(float64(length) * price / unit) }

// layBodies charges each edge once for each part that it crosses.
func (t *terrain) layBodies(g *grid, bodies []Body) {
	done := map[[2]int32]bool{}
	for _, b := range bodies {
		box := b.Box.Grow(bodyMargin)
		g.eachEdge(box, func(e int32, mid scene.Point, length int32) {
			if key := [2]int32{int32(b.Part), e}; (!b.Round || inEllipse(box, mid)) && !done[key] {
				done[key] = true
				price := scaled(length, overBody*unit)
				t.bodies[b.Part] = append(t.bodies[b.Part], covered{e, price})
				t.cost[e] += price
			}
		})
	}
}

func inEllipse(box scene.Rect, p scene.Point) bool {
	c := box.Center()
	return math.Hypot((p.X-c.X)/box.Width()*2, (p.Y-c.Y)/box.Height()*2) <= 1
}

func (t *terrain) layLug(g *grid, l Lug) {
	box := around(l.Tip, l.Far).Grow(lugClear)
	g.eachEdge(box.Grow(lane*2), func(e int32, _ scene.Point, length int32) {
		a, b := g.edgeEnds(e)
		if segmentDistance(a, b, l.Tip, l.Far) < lugClear-1e-6 {
			price := scaled(length, overLug*unit)
			t.lugs[l.Term] = append(t.lugs[l.Term], covered{e, price})
			t.cost[e] += price
		}
	})
}

// ease lets a wire over what is its own (sign −1), or takes that back (+1).
func (r *router) ease(w int, sign int32) {
	s := &r.state[w]
	if s.own == nil {
		s.own = r.terrain.own(&r.grid, r.board, &r.wires[w])
	}
	for _, c := range s.own {
		r.terrain.cost[c.edge] += sign * c.cost
	}
}

// own lists what a wire need not pay: its way over its own part, and by its own
// lugs.
func (t *terrain) own(g *grid, b *Board, w *Wire) []covered {
	out := []covered{}
	jumper := w.A.Over && w.B.Over && w.A.Part == w.B.Part && w.A.Kind == AtTerm && w.B.Kind == AtTerm
	for i, end := range []*End{&w.A, &w.B} {
		if end.Over && (i == 0 || !jumper) {
			for _, c := range t.bodies[end.Part] {
				twice := i == 1 && w.A.Over && w.A.Part == end.Part && mayCross(g, b, &w.A, c.edge)
				if jumper || mayCross(g, b, end, c.edge) && !twice {
					out = append(out, covered{c.edge, scaled(c.cost, unit*(1-overOwn/overBody))})
				}
			}
		}
		if end.Kind == AtTerm && (i == 0 || w.A.Kind != AtTerm || w.A.Term != end.Term) {
			out = t.ownLug(g, end, out)
		}
	}
	return out
}

// ownLug adds the edges near a wire's own terminal, as far as its lug is in the way.
func (t *terrain) ownLug(g *grid, end *End, out []covered) []covered {
	for _, c := range t.lugs[end.Term] {
		a, b := g.edgeEnds(c.edge)
		for _, tip := range end.Tips {
			if a.Lerp(b, 0.5).Dist(tip.At) <= ownReach {
				out = append(out, c)
				break
			}
		}
	}
	return out
}

// wayIn is how far over its own part a wire may run to a terminal amid it, mm.
const wayIn = 13.0

// mayCross reports whether an edge over its own part is on a wire's way to its
// end: near a terminal amid the part, or on the rim of a zone.
func mayCross(g *grid, board *Board, end *End, e int32) bool {
	a, b := g.edgeEnds(e)
	mid := a.Lerp(b, 0.5)
	if end.Kind == InZone {
		z := &board.Zones[end.Index]
		return z.inside(mid, -bodyMargin) && !z.inside(mid, jointRim+0.6)
	}
	for _, tip := range end.Tips {
		if mid.Dist(tip.At) <= wayIn {
			return true
		}
	}
	return false
}

func around(a, b scene.Point) scene.Rect {
	return scene.Rect{Min: scene.Pt(min(a.X, b.X), min(a.Y, b.Y)), Max: scene.Pt(max(a.X, b.X), max(a.Y, b.Y))}
}

// segmentDistance is the least distance of two straight segments.
func segmentDistance(a, b, c, d scene.Point) float64 {
	if segmentsCross(a, b, c, d) {
		return 0
	}
	return min(pointSegment(a, c, d), pointSegment(b, c, d), pointSegment(c, a, b), pointSegment(d, a, b))
}

func pointSegment(p, a, b scene.Point) float64 {
	ab := b.Sub(a)
	if l := ab.X*ab.X + ab.Y*ab.Y; l > 0 {
		t := ((p.X-a.X)*ab.X + (p.Y-a.Y)*ab.Y) / l
		a = a.Add(ab.Mul(min(max(t, 0), 1)))
	}
	return p.Dist(a)
}

func segmentsCross(a, b, c, d scene.Point) bool {
	side := func(p, q, r scene.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	s1, s2, s3, s4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	return s1*s2 < 0 && s3*s4 < 0
}
