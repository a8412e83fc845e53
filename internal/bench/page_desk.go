package bench

import (
	"fmt"

	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/electrics"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Desk is one loom lying open: it is read and proved once, and then asked many
// things. It may be used from one goroutine only.
type Desk struct {
	bench      *Bench
	name, data string
	page       OpenLoom
	begun      proof.Begun // of that page
	model      *electrics.Model
	drawn      *drawing.Saved
	fault      caseAt
	stages     stagesAt
	other      *Desk // with the loom that is compared with
}

// NewDesk is an empty desk.
func NewDesk(b *Bench) *Desk { return &Desk{bench: b} }

// OpenLoom is a loom as a page needs it: proved, with its parts by name.
type OpenLoom struct {
	Checked
	Lines    []SettingLine `json:"lines"`
	Parts    []OpenPart    `json:"parts"`
	Terms    []OpenTerm    `json:"terms"`
	Runs     []OpenRun     `json:"runs"`
	Knobs    []OpenKnob    `json:"knobs"`
	Switches []OpenSwitch  `json:"switches"`
	Plan     build.Plan    `json:"plan"`
}

// OpenPart is one part on the bench.
type OpenPart struct {
	Name  string `json:"name"`
	Is    string `json:"is"`
	Class string `json:"class"`
	Says  string `json:"says"`
	Line  int    `json:"line"`
}

// OpenTerm is a terminal; its index is its identity in drawing and runs.
type OpenTerm struct {
	Name  string `json:"name"`
	Other string `json:"other,omitempty"`
	Kind  string `json:"kind"`
	Part  int    `json:"part"` // −1: a braid
}

// OpenRun is one soldered run, in file order.
type OpenRun struct {
	A    int    `json:"a"`
	B    int    `json:"b"`
	Kind string `json:"kind"`
	Line int    `json:"line"`
}

// OpenKnob is a knob and where it rests, 0 to 10.
type OpenKnob struct {
	Name string  `json:"name"`
	Rest float64 `json:"rest"`
}

// OpenSwitch is a switch and its positions, in the order of its travel.
type OpenSwitch struct {
	Name      string   `json:"name"`
	Positions []string `json:"positions"`
}

// Open reads a loom and proves what is heard in every setting. The findings are
// those of reading it; Checkup adds the others. The same text again is not read
// again.
func (d *Desk) Open(name, data string) OpenLoom {
	if d.page.Text != nil && d.name == name && d.data == data {
		return d.page
	}
	d.name, d.data, d.model = name, data, nil
	var c Checked
	c, d.begun = d.bench.begin(name, data)
	c.Findings = c.Findings.Sorted()
	d.page = openLoom(c)
	return d.page
}

// Checkup is all that is found about a loom.
type Checkup struct {
	Findings diag.List `json:"findings"`
}

// Checkup looks for what is wrong with the loom that lies open. It takes longer
// than Open where a slip has to be searched for.
func (d *Desk) Checkup(name, data string) Checkup {
	p := d.Open(name, data)
	return Checkup{Findings: append(some(p.Findings), d.begun.Findings()...).Sorted()}
}

func openLoom(c Checked) OpenLoom {
	p := OpenLoom{Checked: c, Lines: []SettingLine{}, Parts: []OpenPart{}, Terms: []OpenTerm{}, Runs: []OpenRun{},
		Knobs: []OpenKnob{}, Switches: []OpenSwitch{}, Plan: build.Plan{Steps: []build.Step{}, Stages: []build.Stage{}}}
	g := c.Graph
	if g == nil {
		return p
	}
	p.Lines = append(p.Lines, SettingLines(c)...)
	p.Plan = build.Order(g)
	for i := range g.Loom.Uses {
		u := &g.Loom.Uses[i]
		p.Parts = append(p.Parts, OpenPart{u.Name, u.Part.ID, u.Part.Class, u.Part.Name, u.Span.Start.Line})
	}
	for _, t := range g.Terms {
		p.Terms = append(p.Terms, OpenTerm{t.Name, t.Other, t.Kind, t.Use})
	}
	for _, r := range g.Runs {
		p.Runs = append(p.Runs, OpenRun{r.A, r.B, string(r.Wire.Kind), r.Span.Start.Line})
	}
	p.controls(g)
	return p
}

func (p *OpenLoom) controls(g *wiring.Graph) {
	rest := setting.FullUp(g)
	for i, k := range g.Knobs {
		p.Knobs = append(p.Knobs, OpenKnob{k.Name, rest[i] * 10})
	}
	for i := range g.Switches {
		s := OpenSwitch{Name: g.Switches[i].Name}
		for _, at := range g.Switches[i].Positions {
			s.Positions = append(s.Positions, at.Name)
		}
		p.Switches = append(p.Switches, s)
	}
}

// Traced is the response of a loom in one setting, and where it can lie.
type Traced struct {
	Setting string          `json:"setting"`
	Curve   electrics.Curve `json:"curve"`
	Band    *electrics.Band `json:"band,omitempty"`
}

// pagePoints is how finely a curve on the page is drawn.
const pagePoints = 240

// Trace works out the curve of the first setting that the words name. The error
// is a usage error.
func (d *Desk) Trace(name, data string, s Stand, band bool) (Traced, error) {
	m := d.modelFor(name, data)
	if m == nil {
		return Traced{Curve: electrics.Curve{Output: electrics.NoOutput}}, nil
	}
	at, err := stand(m.Graph(), s)
	if err != nil {
		return Traced{}, err
	}
	out := Traced{Setting: at.settings[0].Name, Curve: m.Curve(at.settings[0].At, at.turn)}
	out.Curve.Coils = nil // the page draws sums
	if band {
		b := m.Band(at.settings[0].At, at.turn)
		out.Band = &b
	}
	return out, nil
}

// Rows works out the table of settings in numbers at a turn of the knobs.
func (d *Desk) Rows(name, data string, s Stand, over string) (Levels, error) {
	out := Levels{Version: Version, File: name, Rows: []electrics.Row{}}
	m := d.modelFor(name, data)
	if m == nil {
		return out, nil
	}
	at, err := stand(m.Graph(), s)
	if err != nil {
		return out, err
	}
	ref, err := reference(m, at, over)
	if err != nil {
		return out, err
	}
	out.Rows = m.Table(at.settings, at.turn, ref)
	if ref >= 0 {
		out.Over = at.settings[ref].Name
	}
	return out, nil
}

// Ohms says what an ordinary meter reads between two terminals.
func (d *Desk) Ohms(name, data string, s Stand, from, to string) (Measured, error) {
	out := Measured{Version: Version, File: name, Rows: []MeasuredLine{}, Findings: diag.List{}}
	m := d.modelFor(name, data)
	if m == nil {
		return out, nil
	}
	at, err := stand(m.Graph(), s)
	if err != nil {
		return out, err
	}
	a, okA := m.Graph().Find(from)
	z, okZ := m.Graph().Find(to)
	if !okA || !okZ {
		return out, fmt.Errorf("choose two terminals of this loom")
	}
	meter := electrics.AutoRanging()
	for _, st := range at.settings {
		r := m.DC(st.At, at.turn).Ohms(a, z)
		out.Rows = append(out.Rows, MeasuredLine{st.Name, r, meter.Shows(r)})
	}
	return out, nil
}

// modelFor is the model of the loom that lies open; nil where it cannot be read.
func (d *Desk) modelFor(name, data string) *electrics.Model {
	p := d.Open(name, data)
	if d.model == nil && p.Graph != nil && len(p.Rows) > 0 {
		d.model, _ = electrics.New(p.Graph, electrics.Options{Points: pagePoints, From: 40, To: 12e3})
	}
	return d.model
}
