// Package pdf paints scenes as the pages of a PDF: true size, real text in
// embedded subsets of the Go fonts, the same bytes for the same input.
package pdf

import (
	"errors"
	"time"

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
	o.Title = or(o.Title, pages[0].Title)
	doc := newDocument()
	for _, s := range pages {
		p := painted(doc, s, o.Ink)
		doc.page(s.Width/mmPerPoint, s.Height/mmPerPoint, p.content, p.links)
	}
	return doc.finish(o), nil
}

// painted is a scene in the operators of a page.
func painted(doc *document, s scene.Scene, ink scene.Ink) *painter {
	p := &painter{doc: doc, height: s.Height}
	p.op("4 M") // scene.MiterLimit
	p.items(s.Items, state{ink: ink})
	return p
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
