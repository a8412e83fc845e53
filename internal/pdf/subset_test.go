package pdf

import (
	"bytes"
	"testing"

	"golang.org/x/image/font/sfnt"

	"loomwright/internal/scene/faces"
)

// A subset has the outlines asked for and no others, and none is made of others
// (a negative count of contours, "glyf").
// The sum over a whole font file is 0xB1B0AFBA (OpenType 1.9, "head").
func TestSubset(t *testing.T) {
	for i, ttf := range faces.TTF {
		id, err := faces.Font(i).GlyphIndex(&sfnt.Buffer{}, 'é')
		if err != nil || id == 0 {
			t.Fatalf("%s has no é (%v)", descriptors[i].name, err)
		}
		all := tablesOf(ttf)
		want := map[int]bool{0: true, int(id): true}
		file := all.subset([]int{int(id)})
		if sum := checksum(file); sum != 0xb1b0afba {
			t.Errorf("%s: the sum of the file is %x", descriptors[i].name, sum)
		}
		some := tablesOf(file)
		for g := range faces.Font(i).NumGlyphs() {
			if outline := all.glyph(g); len(outline) > 0 && int16(be.Uint16(outline)) < 0 {
				t.Errorf("%s: glyph %d is made of others", descriptors[i].name, g)
			}
			switch got := some.glyph(g); {
			case want[g] && !bytes.HasPrefix(got, all.glyph(g)):
				t.Errorf("%s: glyph %d is not what it was", descriptors[i].name, g)
			case !want[g] && len(got) > 0:
				t.Errorf("%s: glyph %d is there unasked", descriptors[i].name, g)
			}
			if want[g] && some.advance(g) != all.advance(g) {
				t.Errorf("%s: glyph %d has another width", descriptors[i].name, g)
			}
		}
	}
}
