//go:build !js || paper

package bench

import (
	"fmt"
	"time"

	"loomwright/internal/pdf"
	"loomwright/internal/png"
	"loomwright/internal/scene"
)

// paintPaper writes a scene with its own fonts inside. The browser's core is
// built without it, a third smaller; its second core has it.
func paintPaper(s scene.Scene, o DrawOptions) ([]byte, error) {
	switch o.Format {
	case PDF:
		var ink scene.Ink
		if o.Grey {
			ink = scene.Grey
		}
		return pdf.Paint([]scene.Scene{s}, pdf.Options{Created: time.Time{}, Ink: ink})
	case PNG:
		dpi := o.DPI
		if dpi == 0 {
			dpi = 150
		}
		return png.Paint(s, png.Options{DPI: dpi, Grey: o.Grey})
	}
	return nil, fmt.Errorf("there is no picture format %q", o.Format)
}

// paperCalls are the calls of the second core: paper, and what searches.
func (d *Desk) paperCalls(tell func(any)) map[string]func(Ask) any {
	return map[string]func(Ask) any{
		"choices": func(Ask) any { return d.bench.Choices() },
		"wording": func(a Ask) any { return d.bench.Wording(a.Part, a.Value) },
		"lead":    func(a Ask) any { return orFailure(d.bench.leadStep(a)) },
		"lug":     func(a Ask) any { return orFailure(lugStep(a)) },
		"compose": func(a Ask) any { return orFailure(d.bench.Compose(a.Plan)) },
		"sheet":   func(a Ask) any { return orFailure(d.sheet(a)) },
		"find":    func(a Ask) any { return d.find(a, tell) },
		"judge":   func(a Ask) any { return orFailure(d.Judge(a)) },
		"stage":   func(a Ask) any { return orFailure(d.Stage(a)) },
		"circuit": func(a Ask) any { return orFailure(d.bench.Circuit(a)) },
	}
}

// sheet is the build sheet as PDF, with the page's own address in its QR code.
func (d *Desk) sheet(a Ask) (Pictured, error) {
	date, err := time.Parse(time.DateOnly, a.Date)
	if err != nil {
		return Pictured{}, fmt.Errorf("%q is not a date", a.Date)
	}
	s, err := d.bench.Sheet(a.Name, a.Text, SheetOptions{Page: a.Page, Grey: a.Grey, Base: a.Base, Date: date, Habit: a.Habit})
	return Pictured{Data: s.Data, Findings: some(s.Findings)}, err
}
