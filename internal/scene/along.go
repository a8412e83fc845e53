package scene

import "math"

// Curve is an outline's piece as straight steps; a closed one ends where it
// starts.
type Curve struct {
	Points []Point
	Closed bool
}

// Flatten turns an outline into straight steps that leave it by at most tol
// (mm). A piece without length gives a curve of one point.
func (o Outline) Flatten(tol float64) []Curve {
	var out []Curve
	for _, piece := range o.pieces() {
		out = append(out, piece.flatten(tol))
	}
	return out
}

func (o Outline) flatten(tol float64) Curve {
	c := Curve{Points: make([]Point, 0, len(o)+8)}
	add := func(p Point) {
		if n := len(c.Points); n == 0 || c.Points[n-1] != p {
			c.Points = append(c.Points, p)
		}
	}
	for _, s := range o {
		switch s.Op {
		case CubicTo:
			from := c.Points[len(c.Points)-1]
			for i, n := 1, cubicSteps(from, s, tol); i <= n; i++ {
				add(cubicAt(from, s, float64(i)/float64(n)))
			}
		case Close:
			c.Closed = true
			add(c.Points[0])
		default:
			add(s.P)
		}
	}
	return c
}

// cubicSteps is how many straight steps keep within tol of a cubic: Wang's
// bound, sqrt(6/8 · M / tol) with M the largest second difference of its points.
func cubicSteps(from Point, s Seg, tol float64) int {
	m := max(second(from, s.C1, s.C2), second(s.C1, s.C2, s.P))
	return int(min(max(math.Ceil(math.Sqrt(0.75*m/tol)), 1), 500))
}

func second(a, b, c Point) float64 { return math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y) }

func cubicAt(from Point, s Seg, t float64) Point {
	if t == 1 {
		return s.P
	}
	u := 1 - t
	a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{
		a*from.X + b*s.C1.X + c*s.C2.X + d*s.P.X,
		a*from.Y + b*s.C1.Y + c*s.C2.Y + d*s.P.Y,
	}
}

// Length is the curve's length in mm.
func (c Curve) Length() float64 {
	sum := 0.0
	for i := 1; i < len(c.Points); i++ {
		sum += c.Points[i-1].Dist(c.Points[i])
	}
	return sum
}

// At is the place at a distance along the curve and the unit vector ahead
// there. Distances outside the curve give its ends.
func (c Curve) At(dist float64) (place, ahead Point) {
	for i := 1; i < len(c.Points); i++ {
		a, b := c.Points[i-1], c.Points[i]
		step := a.Dist(b)
		if dist <= step || i == len(c.Points)-1 {
			t := min(max(dist/step, 0), 1)
			return a.Lerp(b, t), b.Sub(a).Unit()
		}
		dist -= step
	}
	if len(c.Points) > 0 {
		place = c.Points[0]
	}
	return place, Point{X: 1}
}

// Between is the part of the curve from one distance to another, open; at
// least one point where the curve has any.
func (c Curve) Between(from, to float64) Curve {
	var out Curve
	done := 0.0
	for i := 1; i < len(c.Points) && done < to; i++ {
		a, b := c.Points[i-1], c.Points[i]
		step := a.Dist(b)
		if done+step >= from {
			lo, hi := max(0, (from-done)/step), min(1, (to-done)/step)
			if len(out.Points) == 0 {
				out.Points = append(out.Points, a.Lerp(b, lo))
			}
			out.Points = append(out.Points, a.Lerp(b, hi))
		}
		done += step
	}
	if len(out.Points) == 0 && len(c.Points) > 0 {
		place, _ := c.At(from)
		out.Points = []Point{place}
	}
	return out
}

// Dashed cuts the curve by a pattern of lengths in mm, on first; an odd count
// is gone through twice. Phase is how far into the pattern it starts. A pattern
// without length leaves the curve whole.
func (c Curve) Dashed(pattern []float64, phase float64) []Curve {
	if len(pattern)%2 == 1 {
		pattern = append(append([]float64{}, pattern...), pattern...)
	}
	period := 0.0
	for _, d := range pattern {
		period += d
	}
	total := c.Length()
	if !(period > 0) || total/period > 1e5 {
		return []Curve{c}
	}
	at := -math.Mod(phase, period)
	if at > 0 {
		at -= period
	}
	var out []Curve
	for i := 0; at < total; i = (i + 1) % len(pattern) {
		end := at + pattern[i]
		if i%2 == 0 && (end > 0 || at >= 0) {
			out = append(out, c.Between(max(at, 0), min(end, total)))
		}
		at = end
	}
	return out
}

// Outline is the curve as an outline of straight lines.
func (c Curve) Outline() Outline {
	o := Polyline(0, c.Points...)
	if c.Closed {
		o = o.Close()
	}
	return o
}
