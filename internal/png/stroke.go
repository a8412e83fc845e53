package png

import (
	"math"

	"loomwright/internal/scene"
)

// strokePolygons is what a pen covers, in pixels: for each straight step a
// rectangle, for each corner a wedge on its outer side, for each end a cap. In
// a curve neighbouring steps meet on one slanted edge instead, so that nothing
// is covered twice. All polygons turn the same way.
func strokePolygons(o scene.Outline, s scene.Stroke, place scene.Transform) [][]scene.Point {
	k := place.Factor()
	pen := pen{half: s.Width * k / 2, cap: s.Cap, join: s.Join}
	for _, c := range o.Transformed(place).Flatten(flat) {
		for _, part := range dashes(c, s, k) {
			pen.draw(part)
		}
	}
	return pen.out
}

func dashes(c scene.Curve, s scene.Stroke, k float64) []scene.Curve {
	if len(s.Dash) == 0 {
		return []scene.Curve{c}
	}
	pattern := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		pattern[i] = d * k
	}
	return c.Dashed(pattern, s.Phase*k)
}

// pen collects the polygons of strokes half pixels to either side.
type pen struct {
	half float64
	cap  scene.Cap
	join scene.Join
	out  [][]scene.Point
}

// add keeps a polygon, turned clockwise.
func (p *pen) add(poly ...scene.Point) {
	area := 0.0
	for i, b := range poly {
		a := poly[(i+len(poly)-1)%len(poly)]
		area += a.X*b.Y - b.X*a.Y
	}
	if area < 0 {
		for i, j := 0, len(poly)-1; i < j; i, j = i+1, j-1 {
			poly[i], poly[j] = poly[j], poly[i]
		}
	}
	p.out = append(p.out, poly)
}

// apart leaves out points that lie on the one before, as where a dash ends in a
// corner: a step without length has no direction.
func apart(pts []scene.Point) []scene.Point {
	const same = 1e-6 // pixels
	out := pts[:1:1]
	for _, p := range pts[1:] {
		if p.Dist(out[len(out)-1]) > same {
			out = append(out, p)
		}
	}
	return out
}

func (p *pen) draw(c scene.Curve) {
	pts := apart(c.Points)
	n := len(pts)
	if n == 1 {
		p.dot(pts[0], c.Closed)
		return
	}
	if !c.Closed {
		p.end(pts[0], pts[0].Sub(pts[1]).Unit())
		p.end(pts[n-1], pts[n-1].Sub(pts[n-2]).Unit())
	}
	first, before := scene.Point{}, scene.Point{}
	if c.Closed {
		first = p.bend(pts[n-2], pts[0], pts[1])
		before = first
	}
	for i := 1; i < n; i++ {
		after := first // where the last step of a closed curve ends
		if i < n-1 {
			after = p.bend(pts[i-1], pts[i], pts[i+1])
		}
		p.step(pts[i-1], pts[i], before, after)
		before = after
	}
}

// dot is a piece without length: its two caps (SVG 2, 13.5.5).
func (p *pen) dot(at scene.Point, closed bool) {
	if !closed {
		p.end(at, scene.Pt(1, 0))
		p.end(at, scene.Pt(-1, 0))
	}
}

// step is the rectangle along a–b; where an end's half edge is given it is
// slanted to that.
func (p *pen) step(a, b, edgeA, edgeB scene.Point) {
	side := b.Sub(a).Unit().Perp().Mul(p.half)
	if edgeA == (scene.Point{}) {
		edgeA = side
	}
	if edgeB == (scene.Point{}) {
		edgeB = side
	}
	p.add(a.Add(edgeA), b.Add(edgeB), b.Sub(edgeB), a.Sub(edgeA))
}

// maxSlant is the tangent of the largest half turn, 11 degrees, that counts as
// part of a curve.
const maxSlant = 0.2

// bend is the half edge on which the steps a–b and b–c meet, when they turn
// little and are long enough for it. Else the corner is covered by a wedge and
// the edge is zero.
func (p *pen) bend(a, b, c scene.Point) scene.Point {
	in, out := b.Sub(a).Unit(), c.Sub(b).Unit()
	half := in.Add(out).Unit()
	tan := math.Abs(half.X*in.Y - half.Y*in.X)
	if half == (scene.Point{}) || tan > maxSlant || p.half*tan > min(a.Dist(b), b.Dist(c)) {
		p.corner(b, in, out)
		return scene.Point{}
	}
	return half.Perp().Mul(p.half / (half.X*in.X + half.Y*in.Y))
}

// end is the cap at a place, out the unit vector away from the line.
func (p *pen) end(at, out scene.Point) {
	side := out.Perp().Mul(p.half)
	switch p.cap {
	case scene.Square:
		far := at.Add(out.Mul(p.half))
		p.add(at.Add(side), far.Add(side), far.Sub(side), at.Sub(side))
	case scene.RoundCap:
		p.fan(at, side, side.Mul(-1), out)
	}
}

// corner is the wedge on the outer side of a bend at b, between the unit
// vectors of the steps into and out of it.
func (p *pen) corner(b, in, out scene.Point) {
	turn := in.X*out.Y - in.Y*out.X
	straight := in.X*out.X + in.Y*out.Y
	if straight > 1-1e-9 {
		return
	}
	side := -p.half // the outer side is to the left of a turn to the right
	if turn < 0 {
		side = p.half
	}
	from, to := in.Perp().Mul(side), out.Perp().Mul(side)
	switch cosHalf := math.Sqrt((1 + straight) / 2); {
	case p.join == scene.RoundJoin:
		p.fan(b, from, to, in)
	case p.join == scene.Miter && 1/cosHalf <= scene.MiterLimit:
		tip := from.Add(to).Unit().Mul(p.half / cosHalf)
		p.add(b, b.Add(from), b.Add(tip), b.Add(to))
	default:
		p.add(b, b.Add(from), b.Add(to))
	}
}

// fan is the part of a disc from one radius to another, the short way about;
// for opposite radii through the side that via points to.
func (p *pen) fan(c, from, to, via scene.Point) {
	angle := math.Atan2(from.X*to.Y-from.Y*to.X, from.X*to.X+from.Y*to.Y)
	if math.Abs(math.Abs(angle)-math.Pi) < 1e-6 {
		angle = math.Copysign(math.Pi, from.X*via.Y-from.Y*via.X)
	}
	// The chord of a step leaves a circle of r by r(1 − cos(step/2)).
	step := 2 * math.Acos(max(1-flat/max(p.half, flat), 0))
	n := int(math.Ceil(math.Abs(angle)/step)) + 1
	poly := []scene.Point{c}
	for i := range n + 1 {
		sin, cos := math.Sincos(angle * float64(i) / float64(n))
		poly = append(poly, c.Add(scene.Pt(from.X*cos-from.Y*sin, from.X*sin+from.Y*cos)))
	}
	p.add(poly...)
}
