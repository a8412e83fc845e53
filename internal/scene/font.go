package scene

import (
	"slices"
	"strings"
)

// Style is one face of the Go font family.
type Style struct {
	Bold   bool
	Italic bool // not with Mono, which has none
	Mono   bool
}

// The styles most used.
var (
	Regular = Style{}
	Bold    = Style{Bold: true}
	Mono    = Style{Mono: true}
)

// Heights of the Go fonts in ems, the same in every face: capitals and small x
// above the baseline, the font's own ascent and descent (enough for accents).
const (
	CapHeight = 1480.0 / unitsPerEm
	XHeight   = 1086.0 / unitsPerEm
	Ascent    = 1935.0 / unitsPerEm
	Descent   = 432.0 / unitsPerEm

	inkTop, inkBottom   = 0.82, Descent // of ASCII and the signs of wiring
	tallTop, tallBottom = 1.12, 0.27    // of all the rest
)

// Face numbers the six faces: regular, bold, italic, bold italic, mono, mono bold.
func (s Style) Face() int {
	face := 0
	if s.Bold {
		face = 1
	}
	switch {
	case s.Mono:
		return face + 4
	case s.Italic:
		return face + 2
	}
	return face
}

type runeRange struct {
	lo, hi rune
	first  int
}

// inFont reports whether the Go fonts have the rune, and its index in advances.
func inFont(r rune) (index int, ok bool) {
	if r < 0x7f {
		return int(r) - 0x20, r >= 0x20
	}
	i, found := slices.BinarySearchFunc(fontRanges[:], r, func(rr runeRange, r rune) int {
		switch {
		case rr.hi < r:
			return -1
		case rr.lo > r:
			return 1
		}
		return 0
	})
	if !found {
		return 0, false
	}
	return fontRanges[i].first + int(r-fontRanges[i].lo), true
}

// advance is how far a rune moves the pen, in ems, and how it is drawn.
func (s Style) advance(r rune) (float64, RunKind) {
	if i, ok := inFont(r); ok {
		if s.Mono {
			return monoAdvance / float64(unitsPerEm), FontRun
		}
		return float64(advances[s.Face()][i]) / unitsPerEm, FontRun
	}
	if g, ok := glyphs[r]; ok {
		return g.advance, GlyphRun
	}
	return tofu.advance, MissingRun
}

// TextWidth is the width in mm of one line at size (the em in mm), as every
// painter lays it out: the sum of the advances, without kerning.
func TextWidth(content string, size float64, style Style) float64 {
	sum := 0.0
	for _, r := range content {
		a, _ := style.advance(r)
		sum += a
	}
	return sum * size
}

// MissingGlyphs lists the runes of a text that neither the Go fonts nor the
// glyphs of this package have, each once, in order. PNG and PDF show a box for
// them; SVG leaves them to the reader's fonts.
func MissingGlyphs(content string) []rune {
	var out []rune
	for _, r := range content {
		if _, kind := Regular.advance(r); kind == MissingRun && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// Wrap breaks a text at spaces and newlines into lines of at most width mm. A
// word that is too long stands alone on its line. No-break spaces do not break.
func Wrap(content string, width, size float64, style Style) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(content, "\n") {
		line := ""
		for word := range strings.FieldsFuncSeq(paragraph, func(r rune) bool { return r == ' ' || r == '\t' }) {
			switch longer := line + " " + word; {
			case line == "":
				line = word
			case TextWidth(longer, size, style) <= width:
				line = longer
			default:
				lines, line = append(lines, line), word
			}
		}
		lines = append(lines, line)
	}
	return lines
}
