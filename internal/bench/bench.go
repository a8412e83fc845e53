// Package bench is the facade: it runs the stages in order and hands one result
// to every face (command line, server, browser). No face calls a stage itself.
package bench

import (
	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/source"
	"loomwright/internal/wiring"
	"loomwright/library"
)

// Version is the version of the JSON that results are written as.
const Version = 1

// Bench is a library of parts with the tools laid out beside it. It may be used
// from several goroutines at once.
type Bench struct {
	Library *part.Library
}

// New lays out a bench: the user's own shelves before the shipped library.
func New(shelves ...part.Shelf) *Bench {
	return &Bench{Library: part.NewLibrary(append(shelves, part.Shelf{Name: "library", FS: library.Files})...)}
}

// Checked is a loom proved. Rows is empty when the file cannot be read.
type Checked struct {
	Version  int             `json:"loomwright"` // of this JSON
	File     string          `json:"file"`
	Title    string          `json:"title,omitempty"`
	Rows     []proof.Row     `json:"settings"`
	Figures  []electrics.Row `json:"figures,omitempty"` // the same settings in numbers; none above maxFigures settings
	Over     string          `json:"over,omitempty"`    // the setting that levels are over
	Findings diag.List       `json:"findings"`
	Graph    *wiring.Graph   `json:"-"`
	Text     *diag.Text      `json:"-"`
}

// Check reads a loom file and proves every setting of it.
func (b *Bench) Check(name, data string) Checked {
	out, begun := b.begin(name, data)
	out.Findings = append(out.Findings, begun.Findings()...).Sorted()
	return out
}

// begin is Check before anyone has looked for what is wrong: the findings are
// those of reading the file and of the figures.
func (b *Bench) begin(name, data string) (Checked, proof.Begun) {
	text := diag.NewText(name, data)
	out := Checked{Version: Version, File: name, Text: text, Rows: []proof.Row{}, Findings: diag.List{}}
	g, l, list := b.graph(text)
	out.Findings = append(out.Findings, list...)
	if l != nil {
		out.Title = l.Title
	}
	if g == nil {
		return out, proof.Begun{}
	}
	out.Graph = g
	begun := proof.Begin(g)
	out.Rows = append(out.Rows, begun.Rows...)
	out.figures()
	return out, begun
}

// maxFigures is how many settings are worked out in numbers beside the proof.
const maxFigures = 512

// figures adds level, brightness, resonance and hum to the rows.
func (c *Checked) figures() {
	if len(c.Rows) == 0 || len(c.Rows) > maxFigures {
		return
	}
	m, list := electrics.New(firstReading(c.Graph), electrics.Options{})
	c.Findings = append(c.Findings, list...)
	if m == nil {
		return
	}
	at := stood{turn: setting.FullUp(c.Graph)}
	for i := range c.Rows {
		at.settings = append(at.settings, c.Rows[i].Setting)
	}
	c.Figures, c.Over = levelTable(m, at)
}

// graph reads a loom file and draws its graph; nil where it cannot be read.
func (b *Bench) graph(text *diag.Text) (*wiring.Graph, *loom.Loom, diag.List) {
	l, list := loom.Read(text, b.Library)
	if l == nil {
		return nil, nil, list
	}
	g, more := wiring.Build(l)
	if list = append(list, more...); more.HasErrors() {
		return nil, l, list
	}
	return g, l, list
}

// Format lays a loom file, part file or lead code out in the one canonical way. A file that cannot be
// parsed is returned unchanged, with what is wrong.
func (b *Bench) Format(name, data string) (string, diag.List) {
	doc, list := source.Parse(diag.NewText(name, data))
	if list.HasErrors() {
		return data, list
	}
	return source.Format(doc, layoutOf(doc)), list
}

// layoutOf picks the layout by the kind of file: its first telling key.
func layoutOf(doc *source.Document) source.Style {
	for _, e := range doc.Root().Entries() {
		if e.Key.Value == "loomwright-part" || e.Key.Value == "loomwright-code" {
			return part.Layout()
		}
	}
	return loom.Layout()
}

// TextOf finds the text of a part file or lead code by the name that findings
// give it ("library/pot/standard.yaml"); nil when there is none.
func (b *Bench) TextOf(file string) *diag.Text { return b.Library.TextNamed(file) }
