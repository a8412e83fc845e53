package bench

import (
	"fmt"
	"slices"

	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
	"loomwright/internal/svg"
	"loomwright/internal/wiring"
)

// PictureFormat is how a picture is written.
type PictureFormat string

// The formats. InlineSVG is for a web page.
const (
	SVG       PictureFormat = "svg"
	InlineSVG PictureFormat = "inline svg"
	PDF       PictureFormat = "pdf"
	PNG       PictureFormat = "png"
)

// DrawOptions choose a drawing.
type DrawOptions struct {
	Format PictureFormat // default SVG
	With   string        // light the live path of this setting
	Front  bool          // as seen through the guitar from the front
	Marks  bool          // ground marks in place of wires between cases
	Page   string        // "", "a4", "letter"
	Grey   bool          // for black-and-white print
	DPI    float64       // of a PNG; 0: 150

	Earlier *Earlier // nil: none; what can stay where it was, stays
}

// Drawn is a drawing in one of the formats; Picture is nil where the loom
// cannot be drawn. Kept is the drawing to be given as the earlier one next time.
type Drawn struct {
	Picture   []byte
	Kept      []byte
	Crossings int
	Findings  diag.List
}

// Draw draws a loom to scale from the solder side. The error is a usage error.
func (b *Bench) Draw(name, data string, o DrawOptions) (Drawn, error) {
	g, _, list := b.graph(diag.NewText(name, data))
	if g == nil {
		return Drawn{Findings: list}, nil
	}
	earlier, more := readEarlier(o.Earlier)
	if list = append(list, more...); more.HasErrors() {
		return Drawn{Findings: list}, nil
	}
	list = append(list, ofAnother(earlier, o.Earlier, g)...)
	earlier = loosened(earlier, g)
	opts := drawing.Options{Front: o.Front, Page: pageOf(o.Page), Steps: build.Order(g).StepOfRun(len(g.Runs)), Previous: earlier}
	if o.Marks {
		opts.Grounds = drawing.AsMarks
	}
	report := proof.Prove(g)
	opts.Rows = report.Rows
	if o.With != "" {
		match, err := setting.Match(g, o.With)
		if err != nil {
			return Drawn{}, err
		}
		for _, row := range report.Rows {
			if row.Setting.Index == match[0].Index {
				opts.Setting, opts.LiveRuns = &match[0], row.LiveRuns
			}
		}
	}
	plans, more := place.Lay(g, place.Options{Keep: earlier.Keep()})
	list = append(list, more...)
	if len(plans) == 0 {
		return Drawn{Findings: list}, nil
	}
	d, more := drawing.Draw(g, plans, opts)
	out := Drawn{Crossings: len(d.Crossings), Findings: append(list, more...).Sorted()}
	var err error
	s := d.Scene()
	if warn := notProved(report.Rows, report.Findings); warn != "" {
		s.Items = append(s.Items, banner(s, warn))
		out.Findings = append(out.Findings, drawnUnproved(g, warn))
	}
	if out.Picture, err = paint(s, o); err != nil {
		return out, err
	}
	out.Kept, err = writeKept(d.Save())
	return out, err
}

// unproved is the record of the finding that a drawing was made of a loom with
// errors.
var unproved = diag.Code{Code: "drawn-unproved", Severity: diag.Warning, Says: "a loom with errors or unknown leads was drawn", Notice: "a band across the drawing says not to solder from it"}

// notProved says why a drawing is not one to solder from; "" when it is.
func notProved(rows []proof.Row, findings diag.List) string {
	errors := 0
	for _, d := range findings {
		if d.Severity == diag.Error {
			errors++
		}
	}
	switch {
	case errors == 1:
		return "NOT PROVED: 1 error. Do not solder from this drawing; see loomwright check."
	case errors > 1:
		return fmt.Sprintf("NOT PROVED: %d errors. Do not solder from this drawing; see loomwright check.", errors)
	case slices.ContainsFunc(rows, func(r proof.Row) bool { return r.Unsure }):
		return "NOT PROVED: leads are unknown. Find them with the meter before you solder."
	}
	return ""
}

// banner is a band with a warning across the head of a page: white on dark red,
// 7:1 and more, and dark in grey too.
func banner(s scene.Scene, text string) scene.Group {
	const height = 7.0
	ink := scene.RGB(0x8c1d18)
	band := scene.Path{Outline: scene.Rectangle(scene.Rect{Max: scene.Point{X: s.Width, Y: height}}), Fill: ink}
	words := scene.Text{At: scene.Point{X: s.Width / 2, Y: 4.9}, Content: text, Size: 4, Style: scene.Bold, Anchor: scene.Middle, Color: scene.RGB(0xffffff)}
	return scene.Group{ID: "not-proved", Title: text, Items: []scene.Item{band, words}}
}

func pageOf(word string) drawing.Page {
	return map[string]drawing.Page{"a4": drawing.A4, "letter": drawing.Letter}[word]
}

// paint writes a scene in one of the formats.
func paint(s scene.Scene, o DrawOptions) ([]byte, error) {
	var ink scene.Ink
	if o.Grey {
		ink = scene.Grey
	}
	switch o.Format {
	case "", SVG:
		return svg.Paint(s, svg.Options{LockWidths: true, Ink: ink})
	case InlineSVG:
		return svg.Paint(s, svg.Options{Inline: true, LockWidths: true, Ink: ink})
	case PDF, PNG:
		return paintPaper(s, o)
	}
	return nil, fmt.Errorf("there is no picture format %q", o.Format)
}

func drawnUnproved(g *wiring.Graph, warn string) diag.Diagnostic {
	return diag.Diagnostic{Code: unproved.Code, Severity: unproved.Severity, Span: g.Loom.Doc.Text.Span(1, 1, 1), Message: warn}
}
