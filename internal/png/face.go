package png

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"loomwright/internal/scene"
	"loomwright/internal/scene/faces"
)

// read are the Go fonts in the order of Style.Face, each when first used.
var read = func() (out [faces.Count]func() *face) {
	for i := range out {
		out[i] = sync.OnceValue(func() *face { return &face{font: faces.Font(i), glyphs: map[rune]glyph{}} })
	}
	return out
}()

// face is one parsed font; its outlines are kept in ems, ready to be placed.
type face struct {
	font   *sfnt.Font
	mu     sync.Mutex
	buf    sfnt.Buffer
	glyphs map[rune]glyph
}

type glyph struct {
	outline scene.Outline // ems, baseline at 0, up negative
	advance float64       // ems
}

// outline is a run of words from x on the baseline, in mm.
func (f *face) outline(content string, t scene.Text, x, base float64) scene.Outline {
	var out scene.Outline
	for _, r := range content {
		g := f.glyph(r)
		m := scene.Matrix{A: t.Size, D: t.Size, E: x, F: base}
		for _, s := range g.outline {
			s.C1, s.C2, s.P = m.Apply(s.C1), m.Apply(s.C2), m.Apply(s.P)
			out = append(out, s)
		}
		x += g.advance * t.Size
	}
	return out
}

func (f *face) glyph(r rune) glyph {
	f.mu.Lock()
	defer f.mu.Unlock()
	g, ok := f.glyphs[r]
	if !ok {
		g = f.read(r)
		f.glyphs[r] = g
	}
	return g
}

// read takes a glyph from the font at a size of one unit to the pixel, so that
// nothing is rounded.
func (f *face) read(r rune) glyph {
	em := fixed.I(int(f.font.UnitsPerEm()))
	index, _ := f.font.GlyphIndex(&f.buf, r)
	advance, _ := f.font.GlyphAdvance(&f.buf, index, em, font.HintingNone)
	segments, _ := f.font.LoadGlyph(&f.buf, index, em, nil)
	g := glyph{advance: float64(advance) / float64(em)}
	at := func(p fixed.Point26_6) scene.Point {
		return scene.Pt(float64(p.X)/float64(em), float64(p.Y)/float64(em))
	}
	for _, s := range segments {
		p, q := at(s.Args[0]), at(s.Args[1])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			g.outline = g.outline.Move(p.X, p.Y)
		case sfnt.SegmentOpLineTo:
			g.outline = g.outline.Line(p.X, p.Y)
		case sfnt.SegmentOpQuadTo:
			g.outline = g.outline.Quad(p, q)
		case sfnt.SegmentOpCubeTo:
			g.outline = g.outline.Cubic(p, q, at(s.Args[2]))
		}
	}
	return g
}
