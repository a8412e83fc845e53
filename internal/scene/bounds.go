package scene

import (
	"math"
	"strings"
)

// Bounds is the exact box of the outline itself, without a pen.
func (o Outline) Bounds() Rect {
	var points []Point
	var from Point
	for _, s := range o {
		switch s.Op {
		case Close:
			continue
		case CubicTo:
			points = append(points, s.P)
			points = appendExtremes(points, from, s)
		default:
			points = append(points, s.P)
		}
		from = s.P
	}
	return around(points...)
}

// appendExtremes adds the points of a cubic where x or y turns back.
func appendExtremes(points []Point, from Point, s Seg) []Point {
	for _, t := range turnsBack(from.X, s.C1.X, s.C2.X, s.P.X) {
		points = append(points, cubicAt(from, s, t))
	}
	for _, t := range turnsBack(from.Y, s.C1.Y, s.C2.Y, s.P.Y) {
		points = append(points, cubicAt(from, s, t))
	}
	return points
}

// turnsBack solves the derivative of a cubic in Bézier form for 0 < t < 1.
func turnsBack(p0, p1, p2, p3 float64) (out []float64) {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	var roots [2]float64
	if math.Abs(a) < 1e-12 {
		roots[0] = -c / b
	} else {
		d := math.Sqrt(b*b - 4*a*c)
		roots = [2]float64{(-b + d) / (2 * a), (-b - d) / (2 * a)}
	}
	for _, t := range roots {
		if t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	return out
}

// Bounds is the outline's box and half the pen around it; the tips of sharp
// mitres may stand out of it.
func (p Path) Bounds() Rect {
	r := p.Outline.Bounds()
	if len(p.Outline) == 0 || !p.Stroke.Paints() {
		return r
	}
	return r.Grow(p.Stroke.Width / 2)
}

// Paints reports whether the pen leaves anything.
func (s Stroke) Paints() bool { return s.Width > 0 && s.Color.A > 0 }

// Bounds is the box of the group's items, moved by its place, inside its clip.
func (g Group) Bounds() Rect {
	r := Bounds(g.Items)
	if g.Clip != (Rect{}) {
		r = r.Intersect(g.Clip)
	}
	return g.Place.ApplyRect(r)
}

// Bounds is the box of all items.
func Bounds(items []Item) Rect {
	var r Rect
	for _, it := range items {
		r = r.Union(it.Bounds())
	}
	return r
}

// Bounds is the box of the line of words: its full width, from the top of the
// tallest plain letter to the bottom of the deepest, or more where there may be
// accents. A halo counts.
func (t Text) Bounds() Rect {
	line := t.Layout(false)
	if line.Width == 0 {
		return Rect{}
	}
	top, bottom := inkTop, inkBottom
	if strings.ContainsFunc(t.Content, tall) {
		top, bottom = tallTop, tallBottom
	}
	r := Rect{
		Point{line.Start, line.Base - top*t.Size},
		Point{line.Start + line.Width, line.Base + bottom*t.Size},
	}
	return line.Frame.ApplyRect(r.Grow(t.Halo.Width))
}

// low are the runes outside Latin-1 signs and our own glyphs that keep to the
// height of plain letters.
const low = "×÷ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρςστυφχψωΩ∆" +
	"‐–—‘’‚“”„†•…′″←↑→↓↔↕−∑∞≈≠≡≤≥►◄▲▼○●□■"

func tall(r rune) bool {
	if r < 0xc0 || strings.ContainsRune(low, r) {
		return false
	}
	_, ours := glyphs[r]
	return !ours
}
