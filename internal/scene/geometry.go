package scene

import "math"

// Point is a place or a vector, in mm.
type Point struct{ X, Y float64 }

// Pt is short for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add is the vector sum.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub is the vector from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul is the vector times a number.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Len is the vector's length.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

// Dist is the distance of two points.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Len() }

// Unit is the vector at length 1, or zero for a zero vector.
func (p Point) Unit() Point {
	if l := p.Len(); l > 0 {
		return p.Mul(1 / l)
	}
	return Point{}
}

// Perp is the vector turned a quarter clockwise on the page.
func (p Point) Perp() Point { return Point{-p.Y, p.X} }

// Lerp is the point at share t of the way from p to q.
func (p Point) Lerp(q Point, t float64) Point { return p.Add(q.Sub(p).Mul(t)) }

// Heading is the vector's direction in degrees clockwise from +x, in (-180, 180].
func (p Point) Heading() float64 { return math.Atan2(p.Y, p.X) * 180 / math.Pi }

// Toward is the unit vector of a heading in degrees; multiples of 90 are exact.
func Toward(degrees float64) Point {
	sin, cos := sincos(degrees)
	return Point{cos, sin}
}

func dot(p, q Point) float64   { return p.X*q.X + p.Y*q.Y }
func cross(p, q Point) float64 { return p.X*q.Y - p.Y*q.X }

// sincos is exact at multiples of 90 degrees, so that turned parts stay on
// their grid.
func sincos(degrees float64) (sin, cos float64) {
	d := math.Mod(degrees, 360)
	if d < 0 {
		d += 360
	}
	switch d {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(d * math.Pi / 180)
}

// Rect is a box from Min (left, top) to Max (right, bottom). The zero Rect is
// empty.
type Rect struct{ Min, Max Point }

// Box is the rectangle at x, y with a width and a height.
func Box(x, y, w, h float64) Rect { return Rect{Point{x, y}, Point{x + w, y + h}} }

// Empty reports whether the box has no area and no length.
func (r Rect) Empty() bool { return r.Min == r.Max || r.Max.X < r.Min.X || r.Max.Y < r.Min.Y }

// Width is the box's extent in x.
func (r Rect) Width() float64 { return r.Max.X - r.Min.X }

// Height is the box's extent in y.
func (r Rect) Height() float64 { return r.Max.Y - r.Min.Y }

// Center is the middle of the box.
func (r Rect) Center() Point { return r.Min.Lerp(r.Max, 0.5) }

// Union is the smallest box that holds both; an empty one counts for nothing.
func (r Rect) Union(s Rect) Rect {
	switch {
	case r.Empty():
		return s
	case s.Empty():
		return r
	}
	return Rect{
		Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}

// Intersect is what both boxes cover, or the zero Rect.
func (r Rect) Intersect(s Rect) Rect {
	out := Rect{
		Point{max(r.Min.X, s.Min.X), max(r.Min.Y, s.Min.Y)},
		Point{min(r.Max.X, s.Max.X), min(r.Max.Y, s.Max.Y)},
	}
	if out.Empty() {
		return Rect{}
	}
	return out
}

// Overlaps reports whether the boxes share area.
func (r Rect) Overlaps(s Rect) bool {
	return r.Min.X < s.Max.X && s.Min.X < r.Max.X && r.Min.Y < s.Max.Y && s.Min.Y < r.Max.Y
}

// Contains reports whether s lies wholly in r.
func (r Rect) Contains(s Rect) bool {
	return r.Min.X <= s.Min.X && r.Min.Y <= s.Min.Y && s.Max.X <= r.Max.X && s.Max.Y <= r.Max.Y
}

// Grow is the box with d more on every side.
func (r Rect) Grow(d float64) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Corners are the four corners, clockwise from the top left.
func (r Rect) Corners() [4]Point {
	return [4]Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}

// around is the smallest box of some points.
func around(points ...Point) Rect {
	if len(points) == 0 {
		return Rect{}
	}
	r := Rect{points[0], points[0]}
	for _, p := range points[1:] {
		r.Min = Point{min(r.Min.X, p.X), min(r.Min.Y, p.Y)}
		r.Max = Point{max(r.Max.X, p.X), max(r.Max.Y, p.Y)}
	}
	return r
}
