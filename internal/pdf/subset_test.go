package pdf

import (
	"bytes"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// A subset has the outlines asked for and no others, and none is made of others
// (a negative count of contours, "glyf").
// The sum over a whole font file is 0xB1B0AFBA (OpenType 1.9, "head").
func TestSubset(t *testing.T) {
	for _, face := range faces {
		id, err := face.read().GlyphIndex(&sfnt.Buffer{}, 'é')
		if err != nil || id == 0 {
			t.Fatalf("%s has no é (%v)", face.name, err)
		}
		all := tablesOf(face.ttf)
		want := map[int]bool{0: true, int(id): true}
		file := all.subset([]int{int(id)})
		if sum := checksum(file); sum != 0xb1b0afba {
			t.Errorf("%s: the sum of the file is %x", face.name, sum)
		}
		some := tablesOf(file)
		for g := range face.read().NumGlyphs() {
			if outline := all.glyph(g); len(outline) > 0 && int16(be.Uint16(outline)) < 0 {
				t.Errorf("%s: glyph %d is made of others", face.name, g)
			}
			switch got := some.glyph(g); {
			case want[g] && !bytes.HasPrefix(got, all.glyph(g)):
				t.Errorf("%s: glyph %d is not what it was", face.name, g)
			case !want[g] && len(got) > 0:
				t.Errorf("%s: glyph %d is there unasked", face.name, g)
			}
			if want[g] && some.advance(g) != all.advance(g) {
				t.Errorf("%s: glyph %d has another width", face.name, g)
			}
		}
	}
}
