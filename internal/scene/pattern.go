package scene

import "math"

// finer is how far the patterns below may leave their outline, in mm.
const finer = 0.01

// joined is the whole outline as one curve per piece, without empty pieces.
func joined(o Outline) []Curve {
	var out []Curve
	for _, c := range o.Flatten(finer) {
		if c.Length() > 0 {
			out = append(out, c)
		}
	}
	return out
}

// Offset is the outline moved sideways by d mm: to the right of its direction
// when d is positive. Corners are mitred; where the bend is tighter than d the
// result folds, so keep d under the smallest radius.
func Offset(o Outline, d float64) Outline {
	var out Outline
	for _, c := range joined(o) {
		out = append(out, offsetCurve(c, d).Outline()...)
	}
	return out
}

func offsetCurve(c Curve, d float64) Curve {
	p := distinct(c.Points)
	n := len(p)
	out := Curve{Points: make([]Point, n), Closed: c.Closed}
	for i := range p {
		before, after := p[max(i-1, 0)], p[min(i+1, n-1)]
		if c.Closed && (i == 0 || i == n-1) {
			before, after = p[n-2], p[1]
		}
		out.Points[i] = p[i].Add(mitre(p[i].Sub(before).Unit(), after.Sub(p[i]).Unit()).Mul(d))
	}
	return out
}

// mitre is the vector from a corner to the corner of the line one to the
// right, at most MiterLimit long.
func mitre(in, out Point) Point {
	if in == (Point{}) {
		in = out
	}
	if out == (Point{}) {
		out = in
	}
	half := in.Add(out).Unit()
	if half == (Point{}) {
		return in.Perp()
	}
	return half.Perp().Mul(1 / max(dot(half, in), 1.0/MiterLimit))
}

// Ticks is short lines across an outline, every pitch mm, length mm long,
// leaning by lean degrees from square: bare wire (0), stranded wire (about 30).
// The first stands half a pitch from the start.
func Ticks(o Outline, pitch, length, lean float64) Outline {
	var out Outline
	for _, c := range joined(o) {
		n := int(math.Round(c.Length() / pitch))
		for i := range min(n, maxMarks) {
			at, ahead := c.At((float64(i) + 0.5) * c.Length() / float64(n))
			across := Toward(ahead.Heading() + 90 + lean).Mul(length / 2 / max(math.Cos(lean*math.Pi/180), 0.2))
			out = append(out, Segment(at.Sub(across), at.Add(across))...)
		}
	}
	return out
}

// maxMarks bounds a pattern on absurd input.
const maxMarks = 100_000

// Dots is places along an outline, every pitch mm, the first half a pitch from
// the start, with the heading there in degrees: for arrows and tags.
func Dots(o Outline, pitch float64) (at []Point, heading []float64) {
	for _, c := range joined(o) {
		n := max(1, int(math.Round(c.Length()/pitch)))
		for i := range min(n, maxMarks) {
			p, ahead := c.At((float64(i) + 0.5) * c.Length() / float64(n))
			at, heading = append(at, p), append(heading, ahead.Heading())
		}
	}
	return at, heading
}

// Wave runs along an outline and swings width/2 to either side, half a swing
// every pitch mm, starting and ending on the outline. Flip starts to the left.
func Wave(o Outline, pitch, width float64, flip bool) Outline {
	side := width / 2
	if flip {
		side = -side
	}
	var out Outline
	for _, c := range joined(o) {
		halves := max(1, int(math.Round(c.Length()/pitch)))
		out = append(out, waveCurve(c, halves, side).Outline()...)
	}
	return out
}

const stepsPerHalf = 12

func waveCurve(c Curve, halves int, side float64) Curve {
	n := min(halves*stepsPerHalf, maxMarks)
	var out Curve
	for i := range n + 1 {
		t := float64(i) / float64(n)
		at, ahead := c.At(t * c.Length())
		swing := side * math.Sin(t*float64(halves)*math.Pi)
		out.Points = append(out.Points, at.Add(ahead.Perp().Mul(swing)))
	}
	return out
}

// Strands are two strands wound around each other. Paint A with edge and core,
// B the same, then the parts of A that pass in front of B, at every other
// crossing: OverEdge, then OverCore, which is a little longer, so that the ends
// of the edge do not show.
type Strands struct{ A, B, OverEdge, OverCore Outline }

// Twist winds two strands along an outline, crossing every pitch mm, width mm
// between the middles of the strands.
func Twist(o Outline, pitch, width float64) Strands {
	s := Strands{A: Wave(o, pitch, width, false), B: Wave(o, pitch, width, true)}
	for _, c := range joined(s.A) {
		for from := stepsPerHalf / 2; from+stepsPerHalf+1 < len(c.Points); from += 2 * stepsPerHalf {
			to := from + stepsPerHalf + 1
			s.OverEdge = append(s.OverEdge, Polyline(0, c.Points[from:to]...)...)
			s.OverCore = append(s.OverCore, Polyline(0, c.Points[from-1:to+1]...)...)
		}
	}
	return s
}

// Braid is the crossed strands of a woven screen: zigzags both ways over the
// width, each stroke advancing pitch mm.
func Braid(o Outline, pitch, width float64) Outline {
	var out Outline
	for _, c := range joined(o) {
		n := max(1, int(math.Round(c.Length()/pitch)))
		step := c.Length() / float64(n)
		for i := range min(n, maxMarks) {
			a, aheadA := c.At(float64(i) * step)
			b, aheadB := c.At(float64(i+1) * step)
			sa, sb := aheadA.Perp().Mul(width/2), aheadB.Perp().Mul(width/2)
			out = append(out, Segment(a.Add(sa), b.Sub(sb))...)
			out = append(out, Segment(a.Sub(sa), b.Add(sb))...)
		}
	}
	return out
}

// Layers strokes one outline with several pens, the widest first: a wire as
// edge, core and tracer.
func Layers(o Outline, class string, pens ...Stroke) []Item {
	out := make([]Item, len(pens))
	for i, pen := range pens {
		out[i] = Path{Class: class, Outline: o, Stroke: pen}
	}
	return out
}
