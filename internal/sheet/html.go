package sheet

import (
	"fmt"
	"html"
	"strings"

	"loomwright/internal/scene"
	"loomwright/internal/svg"
)

// style is the look of the HTML form: that of the paper, on one column.
const style = `:root{color:#1c2127;background:#fff;font:16px/1.45 Go,"Noto Sans","Segoe UI",Arial,sans-serif}
body{margin:0}main{max-width:60rem;margin:0 auto;padding:1.5rem}
h1{font-size:2rem;line-height:1.2;margin:0 0 .5rem}h2{border-top:.25rem solid #1c2127;padding-top:.4rem;margin-top:2.5rem}
h3{margin-top:2rem}h4{margin:1.4rem 0 .3rem}
header{display:flex;gap:2rem;justify-content:space-between}header svg{flex:none}header p{margin:0;color:#5b6067}
.small{font-size:.85rem;color:#5b6067}ul{padding-left:1.4rem}ul.ticks{list-style:none;padding-left:0}
li{margin:.25rem 0}li label{display:flex;gap:.6rem;align-items:baseline}
.wide{overflow-x:auto;margin:.6rem 0}table{border-collapse:collapse;width:100%;font-size:.9rem}
th,td{text-align:left;vertical-align:middle;padding:.35rem .4rem;border-bottom:1px solid #a9adb1}th{background:#f1f2f2}
svg{max-width:100%;height:auto;vertical-align:middle}figure{margin:1rem 0}figcaption{font-size:.85rem;color:#5b6067}
.step{display:grid;grid-template-columns:4rem 1fr auto;gap:.6rem;border-bottom:1px solid #a9adb1;padding:.6rem 0}
.step .number{font-weight:700;font-size:1.3rem}.step p{margin:.1rem 0}.step .good{color:#5b6067;font-size:.85rem}
.step input,li input,td input{width:1.1rem;height:1.1rem;flex:none}
.reading{background:#f1f2f2;border:1px solid #a9adb1;border-radius:.4rem;padding:.6rem;margin:.8rem 0}
.stand{margin:.7rem 0 .1rem;font-weight:700;font-size:.85rem}.take{display:grid;grid-template-columns:1.4rem 1fr minmax(7rem,14rem);gap:.5rem;padding:.35rem 0;border-top:1px solid #d3d5d7}
.take input{width:1.1rem;height:1.1rem;margin:.2rem 0}
.reading hr{border:0;border-bottom:1px solid #5b6067;margin:1.6rem 0 .2rem}
@media (max-width:45rem){.step{grid-template-columns:4rem 1fr}.step .views{grid-column:2}}
@media print{.step,tr,figure{break-inside:avoid}}`

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
		p.figure(b.Scene, b.Caption)
	case Page:
		p.figure(b.Scene(scene.A4), b.Name)
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
	p.line(`<div class="wide"><table aria-label="%s"><thead><tr>`, html.EscapeString(b.Name))
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

func (p *page) cell(c Cell, head string) {
	text := rich(c.Text)
	if c.Bold {
		text = "<b>" + text + "</b>"
	}
	p.WriteString("<td>")
	if c.Scene != nil {
		p.svg(*c.Scene)
		if text != "" {
			p.WriteString("<br>")
		}
	}
	if c.Tick {
		fmt.Fprintf(p, `<input type="checkbox" aria-label="%s">`, html.EscapeString(head))
	}
	p.line("%s</td>", text)
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

func (p *page) figure(s scene.Scene, caption string) {
	p.line(`<figure>`)
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
