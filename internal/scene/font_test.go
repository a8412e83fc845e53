package scene_test

import (
	"math"
	"slices"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"loomwright/internal/scene"
	"loomwright/internal/scene/faces"
	"loomwright/internal/scene/scenetest"
)

// fonts are the Go fonts, read by another reader than made the table's run.
func fonts(t *testing.T) (out []*sfnt.Font) {
	t.Helper()
	for _, ttf := range faces.TTF {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, f)
	}
	return out
}

// Every rune of the basic plane: its width is the font's advance, and it is
// missing in the table exactly where it is missing in the font.
func TestWidthsAreTheFonts(t *testing.T) {
	var buf sfnt.Buffer
	covered := 0
	for i, f := range fonts(t) {
		em := fixed.I(int(f.UnitsPerEm()))
		for r := rune(' '); r < 0x10000; r++ {
			index, err := f.GlyphIndex(&buf, r)
			if err != nil || index == 0 {
				continue
			}
			covered++
			advance, err := f.GlyphAdvance(&buf, index, em, font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			want := float64(advance) / float64(em) * 3
			got := scene.TextWidth(string(r), 3, scenetest.Styles[i])
			if math.Abs(got-want) > 1e-9 || len(scene.MissingGlyphs(string(r))) > 0 {
				t.Errorf("%q in face %d: width %g, font %g", r, i, got, want)
			}
		}
	}
	if covered < 6*700 {
		t.Errorf("only %d glyphs looked at", covered)
	}
}

// Widths add up only in a font without kerning; the Go fonts have none.
func TestFontsDoNotKern(t *testing.T) {
	var buf sfnt.Buffer
	for i, f := range fonts(t) {
		for _, pair := range []string{"AV", "To", "Wa", "11", "P.", "LT"} {
			a, _ := f.GlyphIndex(&buf, rune(pair[0]))
			b, _ := f.GlyphIndex(&buf, rune(pair[1]))
			if k, err := f.Kern(&buf, a, b, fixed.I(2048), font.HintingNone); err == nil && k != 0 {
				t.Errorf("face %d kerns %s by %v", i, pair, k)
			}
		}
	}
}

func TestHeightsAreTheFonts(t *testing.T) {
	var buf sfnt.Buffer
	for i, f := range fonts(t) {
		em := fixed.I(2048)
		m, err := f.Metrics(&buf, em, font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		for name, pair := range map[string][2]float64{
			"ascent":  {scene.Ascent, float64(m.Ascent) / float64(em)},
			"descent": {scene.Descent, float64(m.Descent) / float64(em)},
			"capital": {scene.CapHeight, float64(m.CapHeight) / float64(em)},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9 {
				t.Errorf("face %d: %s %g, font %g", i, name, pair[0], pair[1])
			}
		}
	}
}

// The ink of every character lies in the height of Bounds.
func TestBoundsHoldTheInk(t *testing.T) {
	var buf sfnt.Buffer
	for i, f := range fonts(t) {
		em := fixed.I(2048)
		for r := rune('!'); r < 0x10000; r++ {
			index, _ := f.GlyphIndex(&buf, r)
			if index == 0 {
				continue
			}
			ink, _, err := f.GlyphBounds(&buf, index, em, font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			box := scene.Text{Content: string(r), Size: 1, Style: scenetest.Styles[i]}.Bounds()
			top, bottom := float64(ink.Min.Y)/float64(em), float64(ink.Max.Y)/float64(em)
			if t.Failed() {
				return // one is enough
			}
			if slack := 0.005; top < box.Min.Y-slack || bottom > box.Max.Y+slack {
				t.Errorf("%q in face %d: ink from %.3f to %.3f, box from %.3f to %.3f", r, i, top, bottom, box.Min.Y, box.Max.Y)
			}
		}
	}
}

func TestMissingGlyphs(t *testing.T) {
	for content, want := range map[string][]rune{
		"neck ∥ bridge ⏚ ✓ ☐ ♯ ♭ − × → ∞ Ω µ ± ⌀ ½": nil,
		"plain ASCII {}~":         nil,
		"Brachvögel, Æ, ż, Я, Ωή": nil,
		"漢字 and 漢":                {'漢', '字'},
		"tab\tline\n":             {'\t', '\n'},
		"not UTF-8 \xff":          nil, // the fonts have U+FFFD
	} {
		if got := scene.MissingGlyphs(content); !slices.Equal(got, want) {
			t.Errorf("MissingGlyphs(%q) = %q, want %q", content, got, want)
		}
	}
}

// Every text of the shared scenes has its glyphs.
func TestEveryWordHasItsGlyphs(t *testing.T) {
	texts := 0
	for _, s := range []scene.Scene{scenetest.Rich(), scenetest.Big(100)} {
		for text := range scene.Texts(s.Items) {
			texts++
			if missing := scene.MissingGlyphs(text.Content); missing != nil {
				t.Errorf("%q lacks %q", text.Content, missing)
			}
		}
	}
	if texts < 30 {
		t.Errorf("only %d texts", texts)
	}
}

// A drawn glyph stays within its advance, pen included, and within the line.
func TestDrawnGlyphsStayInTheirBox(t *testing.T) {
	for _, style := range []scene.Style{scene.Regular, scene.Bold} {
		for _, r := range "∥⊥∠∅⌀⏚✓✗☐☑♯♭♮▶◀⚠⎓∿↻↺\u2011" {
			text := scene.Text{Content: string(r), Size: 10, Style: style, Color: scene.Black}
			run := text.Layout(false).Runs[0]
			if run.Kind != scene.GlyphRun {
				t.Errorf("%q is not drawn by us", r)
				continue
			}
			ink := run.Glyph.Lines.Bounds()
			if !ink.Empty() {
				ink = ink.Grow(run.Glyph.Pen / 2)
			}
			ink = ink.Union(run.Glyph.Fill.Bounds())
			box := text.Bounds()
			if slack := 0.15; !box.Grow(slack).Contains(ink) {
				t.Errorf("%q: ink %v leaves its box %v", r, ink, box)
			}
		}
	}
}

func TestWrap(t *testing.T) {
	width := scene.TextWidth("two words", 3, scene.Regular)
	got := scene.Wrap("two words  and\nanextremelylongword 4.7\u00a0kΩ", width, 3, scene.Regular)
	want := []string{"two words", "and", "anextremelylongword", "4.7\u00a0kΩ"}
	if !slices.Equal(got, want) {
		t.Errorf("Wrap = %q, want %q", got, want)
	}
	for _, line := range got[:2] {
		if scene.TextWidth(line, 3, scene.Regular) > width {
			t.Errorf("%q is wider than %g", line, width)
		}
	}
}
