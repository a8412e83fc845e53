package sheet

import (
	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/electrics"
	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Input is all that a sheet is made of. Drawing, Levels and Readings may be
// missing: their pages and columns are then left out, or left to be filled in.
type Input struct {
	Graph    *wiring.Graph
	Rows     []proof.Row
	Findings diag.List              // errors and warnings are printed
	Levels   []electrics.Row        // by setting, all knobs up
	Plan     build.Plan             // of work
	Drawing  *drawing.Drawing       // with the steps of Plan
	Readings func(stage int) []Take // what the meter should show after a stage of Plan
	Link     Link
	For      string // whom the sheet is for; printed in the head
	Date     string // as it is to be printed
}

// maxLevels is how many settings are worked out in numbers for a sheet.
const maxLevels = 64

// Gather runs the stages that a sheet needs on a graph that has an output. The
// findings are those of the stages, sorted.
func Gather(g *wiring.Graph) (Input, diag.List) {
	report := proof.Prove(g)
	in := Input{Graph: g, Rows: report.Rows, Plan: build.Order(g)}
	list := append(diag.List{}, report.Findings...)
	if len(in.Rows) > 0 && len(in.Rows) <= maxLevels {
		m, more := electrics.New(g, electrics.Options{})
		list = append(list, more...)
		in.Levels = levels(m, in.Rows)
	}
	plans, more := place.Lay(g, place.Options{})
	list = append(list, more...)
	d, more := drawing.Draw(g, plans, drawing.Options{Steps: in.Plan.StepOfRun(len(g.Runs))})
	list = append(list, more...)
	if d.Plan != nil {
		in.Drawing = &d
	}
	in.Findings = list.Sorted()
	return in, in.Findings
}

// levels are those of all settings over the first that sounds and whose level
// does not hang on what nobody has told; nil where there is none.
func levels(m *electrics.Model, rows []proof.Row) []electrics.Row {
	settings := make([]setting.Setting, len(rows))
	for i, r := range rows {
		settings[i] = r.Setting
	}
	turn := setting.FullUp(m.Graph())
	for i, r := range m.Table(settings, turn, -1) {
		if r.Output == electrics.Sounding && firm(&r) {
			return m.Table(settings, turn, i)
		}
	}
	return nil
}

// firm reports whether a level does not depend on unknown phases.
func firm(r *electrics.Row) bool { return r.LevelHi-r.LevelLo <= 0.5 }
