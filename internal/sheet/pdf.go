package sheet

import (
	"time"

	"loomwright/internal/pdf"
	"loomwright/internal/scene"
)

// Print chooses the paper form of a sheet. The zero value is A4 in colour.
type Print struct {
	Paper scene.Size // scene.A4 or scene.Letter; zero: A4
	Grey  bool
	Date  time.Time // that the file bears; zero: none
}

// Pages lays a document out on paper.
func (d *Document) Pages(paper scene.Size) []scene.Scene {
	if paper == (scene.Size{}) {
		paper = scene.A4
	}
	return pagesOf(d, paper)
}

// PDF prints a document: real text, true size.
func (d *Document) PDF(p Print) ([]byte, error) {
	o := pdf.Options{Title: d.Title, Subject: "build sheet of a guitar's wiring", Lang: d.Lang, Created: p.Date}
	if p.Grey {
		o.Ink = scene.Grey
	}
	return pdf.Paint(d.Pages(p.Paper), o)
}
