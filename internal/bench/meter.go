package bench

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/diagnosis"
	"loomwright/internal/electrics"
	"loomwright/internal/meter"
	"loomwright/internal/wiring"
)

// Readings are lists of readings that prove a loom right.
type Readings struct {
	Version  int              `json:"loomwright"`
	File     string           `json:"file"`
	Title    string           `json:"title,omitempty"`
	Lists    []meter.Proof    `json:"lists"`
	Alike    []meter.Alike    `json:"alike,omitempty"` // faults that no offered reading tells apart
	Add      []meter.Addition `json:"add,omitempty"`   // from outside: what one more kind of reading would show
	Findings diag.List        `json:"findings"`
}

// When says at which point of the work readings are taken.
type When string

// The points of the work.
const (
	Finished  When = "finished" // the whole loom
	EachStage When = "stages"   // half-built, after each stage of work
	Sending   When = "sending"  // a loom without pickups, before it is sent
)

// Readings lists the readings to take, and what a right loom shows.
func (b *Bench) Readings(name, data string, when When, o meter.Options) Readings {
	out := Readings{Version: Version, File: name, Lists: []meter.Proof{}, Findings: diag.List{}}
	g, l, list := b.graph(diag.NewText(name, data))
	out.Findings = append(out.Findings, list...)
	if g == nil {
		return out
	}
	out.Title = l.Title
	switch when {
	case EachStage:
		proofs, more := meter.Stages(l, stagesOf(g), o)
		out.Lists, out.Findings = append(out.Lists, proofs...), append(out.Findings, more...)
	case Sending:
		p, more := meter.BeforeSending(g, o)
		out.Lists, out.Findings = append(out.Lists, p), append(out.Findings, more...)
	default:
		t, more := meter.NewTable(g, o)
		out.Findings = append(out.Findings, more...)
		if t == nil {
			return out
		}
		out.Lists, out.Alike = append(out.Lists, t.Proof()), t.LookAlike()
		if o.Access == meter.Outside {
			out.Add, _ = meter.Additions(g, o)
		}
	}
	return out
}

// stagesOf hands the plan of work to meter.
func stagesOf(g *wiring.Graph) []meter.Stage {
	plan := build.Order(g)
	var out []meter.Stage
	for _, s := range plan.Stages {
		out = append(out, meter.Stage{Name: s.Name, Soldered: plan.SolderedAfter(s.Last)})
	}
	return out
}

// Case is a loom on the bench with something wrong: what its readings can show
// for every fault, worked out once.
type Case struct {
	table *meter.Table
}

// errNoCase says that a loom has findings that keep it from being diagnosed.
var errNoCase = errors.New("the loom has errors: mend the file first (loomwright check)")

// OpenCase works out what every fault would show.
func (b *Bench) OpenCase(name, data string, o meter.Options) (*Case, diag.List, error) {
	g, _, list := b.graph(diag.NewText(name, data))
	if g == nil {
		return nil, list, errNoCase
	}
	t, more := meter.NewTable(g, o)
	if list = append(list, more...); t == nil {
		return nil, list, errNoCase
	}
	return &Case{t}, list, nil
}

// Graph is the healthy loom.
func (c *Case) Graph() *wiring.Graph { return c.table.Graph }

// Judge says what the answers so far mean, and what to measure next.
func (c *Case) Judge(s diagnosis.State) (diagnosis.Result, error) {
	return diagnosis.Judge(c.table, s)
}

// Understand checks one answer.
func (c *Case) Understand(a diagnosis.Answer) error { return diagnosis.Understand(c.table, a) }

// Symptom reads what a player notices: "thin: toggle middle", "buzz".
func (c *Case) Symptom(text string) (diagnosis.Symptom, error) {
	return diagnosis.ParseSymptom(c.table.Graph, text)
}

// Proof is the list of readings that shows whether anything else is wrong
// beside the likeliest suspect; nil when there is none.
func (c *Case) Proof(r diagnosis.Result) *meter.Proof {
	if len(r.Suspects) == 0 {
		return nil
	}
	return diagnosis.Verification(c.table, &r.Suspects[0])
}

// Meters lists the kinds of meter that need no file.
func Meters() []string { return slices.Sorted(maps.Keys(meter.Usual())) }

// Meter finds a meter by name: a usual kind, or meters/NAME.yaml on a shelf.
func (b *Bench) Meter(name string) (electrics.Meter, diag.List) {
	if m, ok := meter.Usual()[name]; ok {
		return m, nil
	}
	if text := b.Library.Text("meters/" + name); text != nil {
		return meter.Read(text)
	}
	return electrics.Meter{}, diag.List{{Code: "meter-file", Severity: diag.Error, Message: fmt.Sprintf("no meter %q is known or on the shelf", name)}}
}
