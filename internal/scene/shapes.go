package scene

import "math"

// arcParts is how many cubics an arc of sweep degrees takes.
func arcParts(sweep float64) int { return max(1, int(math.Ceil(math.Abs(sweep)/90-1e-9))) }

// arcHandle is the length of the control handles, in radii, of the cubic that
// follows an arc of step degrees (4/3 tan(step/4), the usual construction).
func arcHandle(step float64) float64 { return 4.0 / 3 * math.Tan(step*math.Pi/180/4) }

// Circle is a full circle, clockwise.
func Circle(c Point, r float64) Outline { return Ellipse(c, r, r) }

// Ellipse is a full ellipse with upright axes, clockwise.
func Ellipse(c Point, rx, ry float64) Outline {
	return Outline{}.Arc(c, rx, ry, 0, 360).Close()
}

// Rectangle is the outline of a box, clockwise.
func Rectangle(r Rect) Outline { return RoundRect(r, 0) }

// RoundRect is a box with corners rounded at radius, at most half its short side.
func RoundRect(r Rect, radius float64) Outline {
	radius = min(radius, r.Width()/2, r.Height()/2)
	if radius <= 0 {
		return Polygon(r.Min, Point{r.Max.X, r.Min.Y}, r.Max, Point{r.Min.X, r.Max.Y})
	}
	in := r.Grow(-radius).Corners()
	var o Outline
	for i, c := range in {
		o = o.Arc(c, radius, radius, 180+90*float64(i), 90)
	}
	return o.Close()
}

// Segment is one straight line.
func Segment(a, b Point) Outline { return Outline{}.Move(a.X, a.Y).Line(b.X, b.Y) }

// Polygon is a closed outline through points.
func Polygon(points ...Point) Outline { return Polyline(0, points...).Close() }

// Polyline goes through points in straight lines with corners rounded at
// radius; where a segment is short, its corners are rounded at less, so that
// two corners never share more than the segment.
func Polyline(radius float64, points ...Point) Outline {
	points = distinct(points)
	if len(points) == 0 {
		return nil
	}
	o := Outline{}.Move(points[0].X, points[0].Y)
	for i := 1; i < len(points)-1; i++ {
		o = o.corner(points[i-1], points[i], points[i+1], radius)
	}
	if n := len(points); n > 1 {
		o = o.Line(points[n-1].X, points[n-1].Y)
	}
	return o
}

// corner goes from the middle of a–b around b toward c.
func (o Outline) corner(a, b, c Point, radius float64) Outline {
	in, out := b.Sub(a).Unit(), c.Sub(b).Unit()
	turn := math.Atan2(cross(in, out), dot(in, out))
	reach := radius * math.Tan(math.Abs(turn)/2) // from the corner to where the arc starts
	reach = min(reach, a.Dist(b)/2, b.Dist(c)/2)
	if reach < 1e-9 || math.Abs(turn) > math.Pi-1e-6 {
		return o.Line(b.X, b.Y)
	}
	r := reach / math.Tan(math.Abs(turn)/2)
	k := r * arcHandle(math.Abs(turn)*180/math.Pi)
	p, q := b.Sub(in.Mul(reach)), b.Add(out.Mul(reach))
	if o.End().Dist(p) > 1e-9 {
		o = o.Line(p.X, p.Y)
	}
	return o.Cubic(p.Add(in.Mul(k)), q.Sub(out.Mul(k)), q)
}

// distinct drops points that repeat the one before.
func distinct(points []Point) []Point {
	var out []Point
	for _, p := range points {
		if len(out) == 0 || out[len(out)-1].Dist(p) > 1e-9 {
			out = append(out, p)
		}
	}
	return out
}

// Arrowhead is a filled head with its tip at a point, heading in degrees.
// Its back is notched by a quarter of its length.
func Arrowhead(tip Point, heading, length, width float64) Outline {
	ahead := Toward(heading)
	back, side := tip.Sub(ahead.Mul(length)), ahead.Perp().Mul(width/2)
	return Polygon(tip, back.Add(side), back.Add(ahead.Mul(length/4)), back.Sub(side))
}
