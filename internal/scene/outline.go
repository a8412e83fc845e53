package scene

// Op is what a segment of an outline does.
type Op uint8

// The segments: start a piece at P, go straight to P, go to P as a cubic
// Bézier curve with control points C1 and C2, go back to the piece's start.
const (
	MoveTo Op = iota
	LineTo
	CubicTo
	Close
)

// Seg is one segment; Close has no points.
type Seg struct {
	Op        Op
	C1, C2, P Point
}

// Outline is one or more pieces, each starting with a MoveTo. Its building
// methods return the longer outline, as append does.
type Outline []Seg

// Move starts a new piece.
func (o Outline) Move(x, y float64) Outline { return append(o, Seg{Op: MoveTo, P: Point{x, y}}) }

// Line goes straight to x, y.
func (o Outline) Line(x, y float64) Outline { return append(o, Seg{Op: LineTo, P: Point{x, y}}) }

// Cubic goes to p as a cubic Bézier curve.
func (o Outline) Cubic(c1, c2, p Point) Outline {
	return append(o, Seg{Op: CubicTo, C1: c1, C2: c2, P: p})
}

// Quad goes to p as a quadratic Bézier curve.
func (o Outline) Quad(c, p Point) Outline {
	from := o.End()
	return o.Cubic(from.Lerp(c, 2.0/3), p.Lerp(c, 2.0/3), p)
}

// Close goes back to the start of the piece.
func (o Outline) Close() Outline { return append(o, Seg{Op: Close}) }

// Arc goes along an ellipse around c from the angle start over sweep degrees
// (clockwise positive), straight to its first point if the outline is
// elsewhere. Each part of 90 degrees or less is one cubic, off the true circle
// by at most 0.03 % of the radius.
func (o Outline) Arc(c Point, rx, ry, start, sweep float64) Outline {
	at := func(deg float64) Point {
		u := Toward(deg)
		return Point{c.X + rx*u.X, c.Y + ry*u.Y}
	}
	if first := at(start); len(o) == 0 {
		o = o.Move(first.X, first.Y)
	} else if o.End().Dist(first) > 1e-9 {
		o = o.Line(first.X, first.Y)
	}
	n := arcParts(sweep)
	step := sweep / float64(n)
	k := arcHandle(step)
	for i := range n {
		a, b := start+float64(i)*step, start+float64(i+1)*step
		ta, tb, p := Toward(a).Perp(), Toward(b).Perp(), at(b)
		c1 := at(a).Add(Point{ta.X * rx * k, ta.Y * ry * k})
		c2 := p.Sub(Point{tb.X * rx * k, tb.Y * ry * k})
		o = o.Cubic(c1, c2, p)
	}
	return o
}

// End is where the pen stands: the last point, or the start of a closed piece.
func (o Outline) End() Point {
	if len(o) == 0 {
		return Point{}
	}
	last := o[len(o)-1]
	if last.Op != Close {
		return last.P
	}
	for i := len(o) - 1; i >= 0; i-- {
		if o[i].Op == MoveTo {
			return o[i].P
		}
	}
	return Point{}
}

// Map is the outline under an affine map.
func (o Outline) Map(m Matrix) Outline {
	out := make(Outline, len(o))
	for i, s := range o {
		out[i] = Seg{s.Op, m.Apply(s.C1), m.Apply(s.C2), m.Apply(s.P)}
	}
	return out
}

// Transformed is the outline under a transform.
func (o Outline) Transformed(t Transform) Outline { return o.Map(t.Matrix()) }

// Reversed is the outline gone through backward, piece by piece.
func (o Outline) Reversed() Outline {
	var out Outline
	for _, piece := range o.pieces() {
		out = append(out, piece.reversed()...)
	}
	return out
}

func (o Outline) reversed() Outline {
	n := len(o)
	closed := o[n-1].Op == Close
	if closed {
		n--
	}
	out := Outline{}.Move(o[n-1].P.X, o[n-1].P.Y)
	for i := n - 1; i > 0; i-- {
		out = append(out, Seg{o[i].Op, o[i].C2, o[i].C1, o[i-1].P})
	}
	if closed {
		out = out.Close()
	}
	return out
}

// pieces cuts the outline at its MoveTo segments.
func (o Outline) pieces() (out []Outline) {
	start := 0
	for i := 1; i <= len(o); i++ {
		if i == len(o) || o[i].Op == MoveTo {
			out = append(out, o[start:i])
			start = i
		}
	}
	return out
}
