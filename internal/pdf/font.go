package pdf

import (
	"encoding/hex"
	"fmt"
	"hash/fnv"

	"golang.org/x/image/font/sfnt"

	"loomwright/internal/scene/faces"
)

// descriptors are what a document says of the Go fonts, in the order of
// Style.Face: their PostScript names, and the flags of their descriptors (9.8.2:
// 1 fixed pitch, 4 symbolic, 64 italic).
var descriptors = [faces.Count]struct {
	name  string
	flags int
	angle int // of slant, degrees
}{
	{"GoRegular", 4, 0}, {"Go-Bold", 4, 0}, {"Go-Italic", 68, -11}, {"Go-BoldItalic", 68, -11}, {"GoMono", 5, 0}, {"GoMono-Bold", 5, 0},
}

// font is one face as a document uses it. Characters are numbered from 1 as
// they come: two that share a glyph are still told apart when read back.
type font struct {
	face  int
	buf   sfnt.Buffer
	codes map[rune]int
	runes []rune // of each code
	ids   []int  // glyph of each code
}

// font is a face of the document, taken up when it is first asked for.
func (d *document) font(face int) *font {
	if d.fonts[face] == nil {
		d.fonts[face] = &font{face: face, codes: map[rune]int{}}
	}
	return d.fonts[face]
}

// show is words as two-byte codes in hexadecimal.
func (f *font) show(words string) string {
	out := make([]byte, 0, 2*len(words))
	for _, r := range words {
		code, ok := f.codes[r]
		if !ok {
			id, _ := faces.Font(f.face).GlyphIndex(&f.buf, r) // 0, the box, for what it lacks
			f.runes, f.ids = append(f.runes, r), append(f.ids, int(id))
			code = len(f.ids)
			f.codes[r] = code
		}
		out = be.AppendUint16(out, uint16(code))
	}
	return "<" + hex.EncodeToString(out) + ">"
}

// write puts the font into the document (9.7): composite, its descendant with
// the glyphs in use, widths, and the way back to Unicode.
func (f *font) write(d *document) ref {
	face := descriptors[f.face]
	tables := tablesOf(faces.TTF[f.face])
	em := 1000 / float64(be.Uint16(tables["head"][18:]))
	unit := func(table string, at int) string {
		return number(em * float64(int16(be.Uint16(tables[table][at:]))))
	}
	name := f.tag() + "+" + face.name
	data := tables.subset(f.ids)
	file := d.stream(data, fmt.Sprintf(" /Length1 %d", len(data)))
	descriptor := d.add("<</Type /FontDescriptor /FontName /%s /Flags %d /ItalicAngle %d /Ascent %s/Descent %s/CapHeight %s/StemV 80"+
		" /FontBBox [%s%s%s%s] /FontFile2 %v>>", name, face.flags, face.angle, unit("hhea", 4), unit("hhea", 6), unit("OS/2", 88),
		unit("head", 36), unit("head", 38), unit("head", 40), unit("head", 42), file)
	glyphs, widths := []byte{0, 0}, ""
	for _, id := range f.ids {
		glyphs = be.AppendUint16(glyphs, uint16(id))
		widths += number(em * float64(tables.advance(id)))
	}
	descendant := d.add("<</Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>>"+
		" /FontDescriptor %v /W [1 [%s]] /CIDToGIDMap %v>>", name, descriptor, widths, d.stream(glyphs, ""))
	return d.add("<</Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [%v] /ToUnicode %v>>",
		name, descendant, d.stream(f.unicode(), ""))
}

// unicode is the map from codes to characters (9.10.3).
func (f *font) unicode() []byte {
	out := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n")
	const most = 100 // lines in a block
	for from := 0; from < len(f.runes); from += most {
		block := f.runes[from:min(from+most, len(f.runes))]
		out = fmt.Appendf(out, "%d beginbfchar\n", len(block))
		for i, r := range block {
			out = fmt.Appendf(out, "<%04x> <%x>\n", from+i+1, utf16Of(r))
		}
		out = append(out, "endbfchar\n"...)
	}
	return append(out, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}

// tag is six letters that tell one subset from another (9.6.4).
func (f *font) tag() string {
	sum := fnv.New64a()
	_, _ = sum.Write([]byte(string(f.runes)))
	v, tag := sum.Sum64(), make([]byte, 6)
	for i := range tag {
		tag[i] = byte('A' + v%26)
		v /= 26
	}
	return string(tag)
}
