package scene

// Transform is a similarity: first mirror left–right (x becomes −x), then
// scale, then turn, then move. Shapes and pens keep their proportions under it.
// The zero Transform changes nothing.
type Transform struct {
	Move   Point
	Turn   float64 // degrees clockwise
	Scale  float64 // 0 is read as 1
	Mirror bool
}

// Moved is the transform that only moves.
func Moved(x, y float64) Transform { return Transform{Move: Point{x, y}} }

// Turned is the transform that turns about a point, in degrees clockwise.
func Turned(degrees float64, about Point) Transform {
	t := Transform{Turn: degrees}
	t.Move = about.Sub(t.Apply(about))
	return t
}

// Mirrored is the transform that swaps left and right about the vertical line at x.
func Mirrored(x float64) Transform { return Transform{Mirror: true, Move: Point{X: 2 * x}} }

// Factor is the scale, 1 where none is given.
func (t Transform) Factor() float64 {
	if t.Scale == 0 {
		return 1
	}
	return t.Scale
}

// Apply maps a point.
func (t Transform) Apply(p Point) Point { return t.Matrix().Apply(p) }

// Then is the transform that does t first and outer after it.
func (t Transform) Then(outer Transform) Transform {
	turn := t.Turn
	if outer.Mirror {
		turn = -turn
	}
	return Transform{
		Move:   outer.Apply(t.Move),
		Turn:   outer.Turn + turn,
		Scale:  outer.Factor() * t.Factor(),
		Mirror: outer.Mirror != t.Mirror,
	}
}

// Matrix is an affine map: x' = A x + C y + E, y' = B x + D y + F.
type Matrix struct{ A, B, C, D, E, F float64 }

// Matrix is the transform as six numbers.
func (t Transform) Matrix() Matrix {
	sin, cos := sincos(t.Turn)
	k := t.Factor()
	m := Matrix{A: cos * k, B: sin * k, C: -sin * k, D: cos * k, E: t.Move.X, F: t.Move.Y}
	if t.Mirror {
		m.A, m.B = -m.A, -m.B
	}
	return m
}

// Apply maps a point.
func (m Matrix) Apply(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// ApplyRect is the smallest upright box around a mapped box.
func (t Transform) ApplyRect(r Rect) Rect {
	if r.Empty() {
		return Rect{}
	}
	m, c := t.Matrix(), r.Corners()
	return around(m.Apply(c[0]), m.Apply(c[1]), m.Apply(c[2]), m.Apply(c[3]))
}
