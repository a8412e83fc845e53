//go:build !js || paper

package bench

import (
	"cmp"
	"time"

	"loomwright/internal/diag"
	"loomwright/internal/meter"
	"loomwright/internal/scene"
	"loomwright/internal/sheet"
	"loomwright/internal/swap"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// SheetOptions choose a build sheet.
type SheetOptions struct {
	HTML  bool
	Page  string      // "", "a4", "letter"
	Grey  bool        // for black-and-white print
	For   string      // whom it is for
	Base  string      // address of a bench page, for the QR code; "": an empty place
	Date  time.Time   // that it bears; zero: none
	Empty bool        // leave the readings to be written in
	Habit units.Habit // of units and words; "": ours
}

// Sheeted is a build sheet; Data is nil where there is none.
type Sheeted struct {
	Data     []byte
	Findings diag.List
}

// Sheet makes the build sheet of a loom: cautions, settings, drawing, parts, cut
// list, solder steps with a reading after each stage.
func (b *Bench) Sheet(name, data string, o SheetOptions) (Sheeted, error) {
	g, l, list := b.graph(diag.NewText(name, data))
	if g == nil {
		return Sheeted{Findings: list}, nil
	}
	in, more := sheet.Gather(g)
	list = append(list, more...)
	in.For, in.Link = o.For, sheet.Link{Base: o.Base, Loom: sheet.LoomLink(data), File: name}
	if !o.Date.IsZero() {
		in.Date = o.Habit.Date(o.Date)
	}
	if !o.Empty {
		proofs, _ := meter.Stages(l, stagesOf(g), meter.Options{})
		takes := takesOf(g, proofs)
		in.Readings = func(stage int) []sheet.Take { return takes[stage] }
	}
	d := inHabit(sheet.Compose(in), g, o.Habit)
	var out []byte
	var err error
	if o.HTML {
		out, err = d.HTML()
	} else {
		out, err = d.PDF(printOf(o))
	}
	if warn := notProved(in.Rows, in.Findings); warn != "" {
		list.Add(drawnUnproved(g, warn))
	}
	return Sheeted{out, list}, err
}

// inHabit puts a sheet in a country's words; names of the loom stay.
func inHabit(d sheet.Document, g *wiring.Graph, h units.Habit) sheet.Document {
	if h == "" {
		return d
	}
	var names []string
	for _, u := range g.Loom.Uses {
		names = append(names, u.Name)
	}
	d.Lang = map[units.Habit]string{units.UK: "en-GB", units.US: "en-US"}[h]
	return d.Say(func(s string) string { return h.Say(s, names...) })
}

func printOf(o SheetOptions) sheet.Print {
	p := sheet.Print{Paper: scene.A4, Grey: o.Grey, Date: o.Date}
	if o.Page == "letter" {
		p.Paper = scene.Letter
	}
	return p
}

// MadeRow is what became of one row of a table of customers: a loom file and its
// sheet, or why there is none.
type MadeRow struct {
	Loom string   // the loom file
	PDF  []byte   // nil: no sheet
	Why  []string // for a row without a sheet, the reasons; else what to look at
}

// SheetRow makes loom and sheet of one customer of a table. It depends on its
// arguments alone, so that rows can be made on all cores.
func (b *Bench) SheetRow(name, data string, row swap.Row, o SheetOptions) MadeRow {
	r := b.SwapRow(name, data, row)
	m := MadeRow{Loom: r.Text, Why: Reasons(&r)}
	if r.Text == "" {
		return m
	}
	o.For, o.HTML = cmp.Or(row.For, o.For), false
	s, err := b.Sheet(row.Name+".yaml", r.Text, o)
	if err != nil {
		m.Why = append(m.Why, err.Error())
	}
	m.PDF = s.Data
	return m
}
