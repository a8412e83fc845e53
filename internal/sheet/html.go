package sheet

import (
	"fmt"
	"html"
	"slices"
	"strings"

	"loomwright/internal/scene"
	"loomwright/internal/svg"
)

// page writes the HTML form.
type page struct {
	strings.Builder
	figures int
	err     error
}

// HTML writes a document as one file that asks for nothing else: no script, no
// outside reference. It fails where a picture cannot be painted.
func (d *Document) HTML() ([]byte, error) {
	p := &page{}
	p.line(`<!DOCTYPE html>`)
	p.line(`<html lang="%s"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">`, html.EscapeString(d.Lang))
	p.line(`<title>%s</title><style>%s</style></head><body><main>`, html.EscapeString(d.Title), style)
	for _, b := range d.Blocks {
		p.block(b)
	}
	p.line(`<p class="small">%s</p></main></body></html>`, html.EscapeString(d.Footer))
	return []byte(p.String()), p.err
}

func (p *page) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

func (p *page) block(b Block) {
	switch b := b.(type) {
	case Head:
		p.head(b)
	case Heading:
		level := min(max(b.Level, 1), 3) + 1
		p.line(`<h%d>%s</h%d>`, level, rich(b.Text), level)
	case Paragraph:
		p.paragraph(b)
	case List:
		p.list(b)
	case Table:
		p.table(b)
	case Figure:
		p.figure(sideways(b.Width == 0), b.Scene, b.Caption)
	case Page:
		name := b.Name
		if b.Exact {
			name += ": on this page it is scaled; the PDF is true to size"
		}
		p.figure(sideways(true), b.Scene(scene.A4), name)
	case Step:
		p.step(b)
	case Reading:
		p.reading(b)
	}
}

// rich escapes a text and sets its **bold** words.
func rich(text string) string {
	var b strings.Builder
	for _, s := range spans(text) {
		t := strings.ReplaceAll(html.EscapeString(s.text), "\n", "<br>")
		if s.bold {
			t = "<b>" + t + "</b>"
		}
		b.WriteString(t)
	}
	return b.String()
}

func (p *page) head(b Head) {
	p.line(`<header><div><h1>%s</h1>`, rich(b.Title))
	for _, l := range b.Lines {
		p.line(`<p>%s</p>`, rich(l))
	}
	p.line(`</div>`)
	if b.Code != nil && b.Code.Link != "" {
		p.svg(scene.Scene{Width: b.Code.Size, Height: b.Code.Size, Title: b.Code.Says,
			Items: []scene.Item{scene.Path{Outline: b.Code.Square, Fill: scene.Black}}})
	}
	p.line(`</header>`)
}

func (p *page) paragraph(b Paragraph) {
	class := ""
	if b.Small {
		class = ` class="small"`
	}
	p.line(`<p%s>%s</p>`, class, rich(b.Text))
}

func (p *page) list(b List) {
	if !b.Ticks {
		p.line(`<ul>`)
		for _, text := range b.Items {
			p.line(`<li>%s</li>`, rich(text))
		}
		p.line(`</ul>`)
		return
	}
	p.line(`<ul class="ticks">`)
	for _, text := range b.Items {
		p.line(`<li><label><input type="checkbox"><span>%s</span></label></li>`, rich(text))
	}
	p.line(`</ul>`)
}

func (p *page) table(b Table) {
	p.line(`<div class="wide"><table%s aria-label="%s"><thead><tr>`, cards(b), html.EscapeString(b.Name))
	for _, h := range b.Heads {
		p.line(`<th scope="col">%s</th>`, rich(h))
	}
	p.line(`</tr></thead><tbody>`)
	for _, row := range b.Rows {
		p.line(`<tr>`)
		for i, c := range row {
			p.cell(c, b.Heads[i])
		}
		p.line(`</tr>`)
	}
	p.line(`</tbody></table></div>`)
}

// sideways is the class of a figure that keeps its size on a phone.
func sideways(yes bool) string {
	if yes {
		return ` class="page"`
	}
	return ""
}

// cards is the class of a table whose rows become cards on a phone: not of one to
// write in, with the same heads twice.
func cards(b Table) string {
	if len(b.Heads) != len(slices.Compact(slices.Sorted(slices.Values(b.Heads)))) {
		return ""
	}
	return ` class="cards"`
}

func (p *page) cell(c Cell, head string) {
	text := rich(c.Text)
	if c.Bold {
		text = "<b>" + text + "</b>"
	}
	blank := ""
	if text == "" && c.Scene == nil && !c.Tick {
		blank = ` class="blank"`
	}
	fmt.Fprintf(p, `<td%s data-head="%s"><div>`, blank, html.EscapeString(head))
	if c.Scene != nil {
		p.svg(*c.Scene)
		if text != "" {
			p.WriteString("<br>")
		}
	}
	if c.Tick {
		fmt.Fprintf(p, `<input type="checkbox" aria-label="%s">`, html.EscapeString(head))
	}
	p.line("%s</div></td>", text)
}

func (p *page) step(b Step) {
	p.line(`<section class="step" id="step-%d"><label class="number"><input type="checkbox"> %s</label><div><p>%s</p>`, b.Number, b.label(), rich(b.Do))
	for _, n := range b.Notes {
		p.line(`<p>%s</p>`, rich(n))
	}
	if b.Good != "" {
		p.line(`<p class="good">%s</p>`, rich(b.Good))
	}
	p.line(`</div><div class="views">`)
	for _, v := range b.Views {
		p.svg(v)
	}
	p.line(`</div></section>`)
}

func (p *page) reading(b Reading) {
	p.line(`<aside class="reading"><b>%s</b>`, rich(b.Title))
	stand := ""
	for _, t := range b.Takes {
		if t.Stand != stand && t.Stand != "" {
			p.line(`<p class="stand">%s</p>`, rich(t.Stand))
		}
		stand = t.Stand
		p.line(`<label class="take"><input type="checkbox"><span>%s</span><span>right: <b>%s</b></span></label>`, rich(t.Do), rich(t.Right))
	}
	if len(b.Takes) == 0 {
		p.line(`<hr>`)
	}
	p.line(`</aside>`)
}

func (p *page) figure(class string, s scene.Scene, caption string) {
	p.line(`<figure%s>`, class)
	p.svg(s)
	if caption != "" {
		p.line(`<figcaption>%s</figcaption>`, rich(caption))
	}
	p.line(`</figure>`)
}

// svg paints a picture in place, its names its own.
func (p *page) svg(s scene.Scene) {
	p.figures++
	data, err := svg.Paint(s, svg.Options{Inline: true, IDPrefix: fmt.Sprintf("p%d-", p.figures), LockWidths: true})
	if err != nil && p.err == nil {
		p.err = err
	}
	p.Write(data)
}
