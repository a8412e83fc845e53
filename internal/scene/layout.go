package scene

import "unicode/utf8"

// RunKind says what a stretch of text is drawn with.
type RunKind int

// The kinds: a face of the font, a glyph of this package, a box for a rune
// that neither has.
const (
	FontRun RunKind = iota
	GlyphRun
	MissingRun
)

// Run is a stretch of a line drawn in one way. A GlyphRun or MissingRun is one
// rune long.
type Run struct {
	Kind     RunKind
	Content  string
	X, Width float64 // mm from the line's start
	Glyph    Glyph   // of the last two kinds, placed in Frame coordinates, mm
}

// Glyph is the drawing of a rune: filled areas, and pen strokes with round ends.
type Glyph struct {
	Fill, Lines Outline
	Pen         float64 // mm
}

// Line is a text laid out for a painter: runs from Start on the height Base,
// both in Frame coordinates, whose origin is Text.At.
type Line struct {
	Frame Transform // frame coordinates to the text's own
	Start float64   // x of the first run
	Base  float64   // y of the baseline
	Width float64
	Runs  []Run
}

// Layout lays the text out. Mirrored says that the groups around it, together,
// mirror: the frame then mirrors once more.
func (t Text) Layout(mirrored bool) Line {
	runs, width := t.runs()
	anchor := t.Anchor
	if mirrored {
		anchor = End - anchor
	}
	line := Line{
		Frame: Transform{Move: t.At, Turn: t.Turn, Mirror: mirrored},
		Start: -width * float64(anchor) / 2,
		Base:  t.Size * CapHeight * float64(t.Baseline) / 2,
		Width: width,
		Runs:  runs,
	}
	for i := range runs {
		line.place(&runs[i], t)
	}
	return line
}

// place puts the outline of a glyph of ours where its run stands.
func (l Line) place(r *Run, t Text) {
	if r.Kind == FontRun {
		return
	}
	own := tofu
	if first, _ := utf8.DecodeRuneInString(r.Content); r.Kind == GlyphRun {
		own = glyphs[first]
	}
	m := Matrix{A: t.Size, D: t.Size, E: l.Start + r.X, F: l.Base}
	r.Glyph = Glyph{own.fill.Map(m), own.lines.Map(m), t.Style.pen() * t.Size}
}

// runs cuts the content where the way of drawing changes.
func (t Text) runs() (runs []Run, width float64) {
	if !utf8.ValidString(t.Content) {
		t.Content = string([]rune(t.Content)) // every bad byte becomes U+FFFD
	}
	start, startX, x := 0, 0.0, 0.0
	flush := func(end int) {
		if end > start {
			runs = append(runs, Run{Content: t.Content[start:end], X: startX * t.Size, Width: (x - startX) * t.Size})
		}
	}
	for i, r := range t.Content {
		advance, kind := t.Style.advance(r)
		if kind != FontRun {
			flush(i)
			end := i + utf8.RuneLen(r)
			runs = append(runs, Run{Kind: kind, Content: t.Content[i:end], X: x * t.Size, Width: advance * t.Size})
			start, startX = end, x+advance
		}
		x += advance
	}
	flush(len(t.Content))
	return runs, x * t.Size
}

// Paint is the glyph as paths in the text's colours, its halo first.
func (g Glyph) Paint(t Text) []Path {
	pen := Stroke{Color: t.Color, Width: g.Pen, Cap: RoundCap, Join: RoundJoin}
	lines := Path{Class: t.Class, Outline: g.Lines, Stroke: pen}
	fill := Path{Class: t.Class, Outline: g.Fill, Fill: t.Color}
	if t.Halo.Width <= 0 {
		return []Path{lines, fill}
	}
	around := pen
	around.Color, around.Width = t.Halo.Color, g.Pen+2*t.Halo.Width
	edge := around
	edge.Width = 2 * t.Halo.Width
	return []Path{{Outline: g.Lines, Stroke: around}, {Outline: g.Fill, Stroke: edge}, lines, fill}
}
