package pdf

import (
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"fmt"
	"slices"
	"strconv"
	"time"

	"loomwright/internal/scene/faces"
)

// document is a PDF file in the writing (ISO 32000-1, 7.5): objects as they
// come, what they share at the end.
type document struct {
	out     bytes.Buffer
	offsets []int // of each object, from number 1
	zip     *zlib.Writer
	pages   []ref
	fonts   [faces.Count]*font // those in use
	alphas  []float64          // opacities in use: /G0, /G1, …
}

// ref is the number of an object.
type ref int

func (r ref) String() string { return strconv.Itoa(int(r)) + " 0 R" }

// The objects that every document has, in this order.
const (
	catalogueRef ref = 1 + iota
	pagesRef
	resourcesRef
	infoRef
)

func newDocument() *document {
	d := &document{offsets: make([]int, infoRef), zip: zlib.NewWriter(nil)}
	d.out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	return d
}

// reserve takes the next number for an object that is written later.
func (d *document) reserve() ref {
	d.offsets = append(d.offsets, 0)
	return ref(len(d.offsets))
}

// object writes an object under its number.
func (d *document) object(r ref, format string, args ...any) {
	d.offsets[r-1] = d.out.Len()
	fmt.Fprintf(&d.out, "%d 0 obj\n", r)
	fmt.Fprintf(&d.out, format, args...)
	d.out.WriteString("\nendobj\n")
}

// add writes an object under the next number.
func (d *document) add(format string, args ...any) ref {
	r := d.reserve()
	d.object(r, format, args...)
	return r
}

// stream writes deflated data (7.4.4) with further entries of its dictionary.
func (d *document) stream(data []byte, entries string) ref {
	var packed bytes.Buffer
	d.zip.Reset(&packed)
	_, _ = d.zip.Write(data) // a buffer takes everything
	_ = d.zip.Close()
	return d.add("<</Length %d /Filter /FlateDecode%s>>\nstream\n%s\nendstream", packed.Len(), entries, packed.Bytes())
}

// alpha names the graphics state with an opacity (8.4.5, 11.6.4.4).
func (d *document) alpha(a float64) string {
	i := slices.Index(d.alphas, a)
	if i < 0 {
		i = len(d.alphas)
		d.alphas = append(d.alphas, a)
	}
	return "/G" + strconv.Itoa(i)
}

// page writes a page (7.7.3.3): its size in points, its content, its links.
func (d *document) page(width, height float64, content []byte, links []ref) {
	stream := d.stream(content, "")
	d.pages = append(d.pages, d.add("<</Type /Page /Parent %v /MediaBox [0 0 %.2f %.2f] /Contents %v /Annots %v"+
		" /Group <</S /Transparency /CS /DeviceRGB>>>>", pagesRef, width, height, stream, links))
}

// finish writes what the pages share, the catalogue and the table of objects.
func (d *document) finish(o Options) []byte {
	d.resources()
	d.object(pagesRef, "<</Type /Pages /Count %d /Kids %v /Resources %v>>", len(d.pages), d.pages, resourcesRef)
	d.object(catalogueRef, "<</Type /Catalog /Pages %v /Lang %s>>", pagesRef, textString(or(o.Lang, "en")))
	d.info(o)
	table := d.out.Len()
	fmt.Fprintf(&d.out, "xref\n0 %d\n0000000000 65535 f \n", len(d.offsets)+1)
	for _, at := range d.offsets {
		fmt.Fprintf(&d.out, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&d.out, "trailer\n<</Size %d /Root %v /Info %v>>\nstartxref\n%d\n%%%%EOF\n",
		len(d.offsets)+1, catalogueRef, infoRef, table)
	return d.out.Bytes()
}

func (d *document) resources() {
	dict := "<</Font <<"
	for i, f := range d.fonts {
		if f != nil {
			dict += fmt.Sprintf("/F%d %v ", i, f.write(d))
		}
	}
	dict += ">> /ExtGState <<"
	for i, a := range d.alphas {
		dict += fmt.Sprintf("/G%d <</ca %s/CA %[2]s>> ", i, number(a))
	}
	d.object(resourcesRef, "%s>>>>", dict)
}

// info is the document information dictionary (14.3.3).
func (d *document) info(o Options) {
	created := o.Created
	if created.IsZero() {
		created = time.Unix(0, 0)
	}
	dict := "<</Producer (Loomwright)"
	for _, entry := range [][2]string{{"Title", o.Title}, {"Subject", o.Subject}} {
		if entry[1] != "" {
			dict += " /" + entry[0] + " " + textString(entry[1])
		}
	}
	date := created.UTC().Format("20060102150405Z")
	d.object(infoRef, "%s /CreationDate (D:%s) /ModDate (D:%[2]s)>>", dict, date)
}

// textString is words as UTF-16 with a byte order mark (7.9.2.2), bad bytes as
// U+FFFD, written in hexadecimal; nothing for no words.
func textString(words string) string {
	if words == "" {
		return "<>"
	}
	return "<" + hex.EncodeToString(append([]byte{0xfe, 0xff}, utf16Of([]rune(words)...)...)) + ">"
}
