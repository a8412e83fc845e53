// Package pdf paints scenes as the pages of a PDF: true size, real text in
// embedded subsets of the Go fonts, the same bytes for the same input.
package pdf

import (
	"bytes"
	"errors"
	"time"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"

	"loomwright/internal/scene"
)

// Options describe the document. No author, machine or clock enters it.
type Options struct {
	Title   string    // of the document; "": the first page's
	Subject string    // one line of what it is about
	Lang    string    // BCP 47; "" is "en"
	Created time.Time // the date it bears; the zero time is 1970-01-01
	Ink     scene.Ink // changes every colour; none: as drawn
}

// Paint writes one page per scene, each of the scene's own size. It fails
// where scene.Check does, and for no page.
func Paint(pages []scene.Scene, o Options) ([]byte, error) {
	if len(pages) == 0 {
		return nil, errors.New("a document needs a page")
	}
	for _, s := range pages {
		if err := s.Check(); err != nil {
			return nil, err
		}
	}
	doc := newDocument(pages[0], o)
	for _, s := range pages {
		addPage(doc, s, o.Ink)
	}
	var out bytes.Buffer
	if err := doc.Output(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func addPage(doc *fpdf.Fpdf, s scene.Scene, ink scene.Ink) {
	doc.AddPageFormat("P", fpdf.SizeType{Wd: s.Width, Ht: s.Height})
	p := &painter{Fpdf: doc, height: s.Height}
	p.begin()
	p.items(s.Items, state{ink: ink})
}

// newDocument is an empty document whose pages are first's size unless they
// say otherwise.
func newDocument(first scene.Scene, o Options) *fpdf.Fpdf {
	doc := fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P",
		UnitStr:        "mm",
		Size:           fpdf.SizeType{Wd: first.Width, Ht: first.Height},
	})
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetCompression(true)
	created := o.Created
	if created.IsZero() {
		created = time.Unix(0, 0)
	}
	doc.SetCreationDate(created.UTC())
	doc.SetModificationDate(created.UTC())
	doc.SetProducer("Loomwright", false)
	doc.SetTitle(textString(or(o.Title, first.Title)), false)
	doc.SetSubject(textString(o.Subject), false)
	doc.SetLang(or(o.Lang, "en"))
	return doc
}

// textString is words as UTF-16 with a byte order mark (ISO 32000-1, 7.9.2.2),
// bad bytes as U+FFFD; nothing for no words.
func textString(words string) string {
	if words == "" {
		return ""
	}
	out := []byte{0xfe, 0xff}
	for _, u := range utf16.Encode([]rune(words)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return string(out)
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
