package scene

// drawnGlyph is a rune that the Go fonts lack, drawn by us: in ems, baseline at
// y = 0, up negative. Lines are stroked with the style's pen.
type drawnGlyph struct {
	advance     float64
	fill, lines Outline
}

// pen is the stroke width of drawn glyphs in ems, that of the fonts' stems.
func (s Style) pen() float64 {
	if s.Bold {
		return 0.105
	}
	return 0.074
}

// middle is the height of the fonts' plus and minus signs.
const middle = -0.29

// tofu stands for a rune that nobody has.
var tofu = drawnGlyph{advance: 0.6, lines: Rectangle(Box(0.09, -0.68, 0.42, 0.68))}

// glyphs are our own, each with its Unicode name.
var glyphs = map[rune]drawnGlyph{
	// THIN SPACE, NARROW NO-BREAK SPACE, HAIR SPACE
	'\u2009': {advance: 0.2},
	'\u202f': {advance: 0.2},
	'\u200a': {advance: 0.1},
	// NON-BREAKING HYPHEN
	'\u2011': {advance: 0.584, lines: stroke(0.09, middle, 0.494, middle)},
	// PARALLEL TO
	'∥': {advance: 0.5, lines: join(stroke(0.15, 0.1, 0.15, -0.72), stroke(0.35, 0.1, 0.35, -0.72))},
	// UP TACK
	'⊥': {advance: 0.72, lines: join(stroke(0.36, -0.04, 0.36, -0.68), stroke(0.06, -0.04, 0.66, -0.04))},
	// ANGLE
	'∠': {advance: 0.72, lines: stroke(0.6, -0.62, 0.08, -0.04, 0.66, -0.04)},
	// EMPTY SET, DIAMETER SIGN
	'∅': {advance: 0.76, lines: slashed()},
	'⌀': {advance: 0.76, lines: slashed()},
	// EARTH GROUND: IEC 60417-5017 in outline, a stem on three shrinking bars
	'⏚': {advance: 0.84, lines: join(
		stroke(0.42, -0.72, 0.42, -0.34), stroke(0.06, -0.34, 0.78, -0.34),
		stroke(0.18, -0.17, 0.66, -0.17), stroke(0.31, 0, 0.53, 0))},
	// CHECK MARK, BALLOT X
	'✓': {advance: 0.76, lines: stroke(0.1, -0.32, 0.29, -0.06, 0.66, -0.62)},
	'✗': {advance: 0.7, lines: join(stroke(0.1, -0.06, 0.6, -0.62), stroke(0.12, -0.6, 0.58, -0.04))},
	// BALLOT BOX, BALLOT BOX WITH CHECK
	'☐': {advance: 0.86, lines: ballotBox()},
	'☑': {advance: 0.86, lines: join(ballotBox(), stroke(0.25, -0.34, 0.38, -0.16, 0.62, -0.5))},
	// MUSIC SHARP SIGN, FLAT SIGN, NATURAL SIGN
	'♯': {advance: 0.62, lines: join(
		stroke(0.2, 0.1, 0.2, -0.72), stroke(0.42, 0.04, 0.42, -0.78),
		stroke(0.07, -0.14, 0.55, -0.24), stroke(0.07, -0.44, 0.55, -0.54))},
	'♭': {advance: 0.5, lines: flat()},
	'♮': {advance: 0.52, lines: join(
		stroke(0.12, -0.78, 0.12, -0.12, 0.4, -0.22), stroke(0.4, 0.12, 0.4, -0.54, 0.12, -0.44))},
	// BLACK RIGHT-POINTING TRIANGLE, BLACK LEFT-POINTING TRIANGLE
	'▶': {advance: 0.8, fill: Polygon(Pt(0.1, -0.64), Pt(0.72, -0.31), Pt(0.1, 0.02))},
	'◀': {advance: 0.8, fill: Polygon(Pt(0.7, -0.64), Pt(0.7, 0.02), Pt(0.08, -0.31))},
	// WARNING SIGN
	'⚠': {advance: 0.96, fill: Circle(Pt(0.48, -0.115), 0.05), lines: join(
		Polygon(Pt(0.48, -0.74), Pt(0.9, 0), Pt(0.06, 0)), stroke(0.48, -0.48, 0.48, -0.27))},
	// DIRECT CURRENT SYMBOL FORM TWO
	'⎓': {advance: 0.78, lines: join(stroke(0.08, -0.38, 0.7, -0.38),
		stroke(0.08, -0.16, 0.16, -0.16), stroke(0.35, -0.16, 0.43, -0.16), stroke(0.62, -0.16, 0.7, -0.16))},
	// SINE WAVE
	'∿': {advance: 0.84, lines: Outline{}.Move(0.07, middle).
		Cubic(Pt(0.2, -0.68), Pt(0.3, -0.68), Pt(0.42, middle)).
		Cubic(Pt(0.54, 0.1), Pt(0.64, 0.1), Pt(0.77, middle))},
	// CLOCKWISE OPEN CIRCLE ARROW, ANTICLOCKWISE OPEN CIRCLE ARROW
	'↻': turningArrow(false),
	'↺': turningArrow(true),
}

// stroke is an open line through x, y pairs.
func stroke(xy ...float64) Outline {
	o := Outline{}.Move(xy[0], xy[1])
	for i := 2; i < len(xy); i += 2 {
		o = o.Line(xy[i], xy[i+1])
	}
	return o
}

func join(parts ...Outline) (o Outline) {
	for _, p := range parts {
		o = append(o, p...)
	}
	return o
}

func slashed() Outline {
	return join(Circle(Pt(0.38, -0.33), 0.27), stroke(0.08, 0, 0.68, -0.66))
}

func ballotBox() Outline { return Rectangle(Box(0.12, -0.64, 0.62, 0.62)) }

func flat() Outline {
	return Outline{}.Move(0.1, -0.76).Line(0.1, -0.01).
		Cubic(Pt(0.26, -0.08), Pt(0.42, -0.2), Pt(0.42, -0.34)).
		Cubic(Pt(0.42, -0.49), Pt(0.22, -0.52), Pt(0.1, -0.36))
}

// turningArrow is three quarters of a circle, open at the upper right, with its
// head pointing clockwise, or the mirror image of it.
func turningArrow(mirror bool) drawnGlyph {
	g := drawnGlyph{
		advance: 0.84,
		fill:    Polygon(Pt(0.42, -0.79), Pt(0.66, -0.6), Pt(0.42, -0.41)),
		lines:   Outline{}.Arc(Pt(0.42, -0.33), 0.27, 0.27, 0, 270),
	}
	if mirror {
		m := Mirrored(g.advance / 2).Matrix()
		g.fill, g.lines = g.fill.Map(m), g.lines.Map(m)
	}
	return g
}
