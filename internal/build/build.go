// Package build puts the joins of a loom in an order that the hand can reach:
// what is soldered at the bench, what in the guitar, what is only hooked until
// the last wire of a lug is there, which joint must be heated twice. It also
// lists the parts.
package build

import (
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// Where a step is done.
type Where string

// The two places of work.
const (
	AtTheBench  Where = "at the bench"
	InTheGuitar Where = "in the guitar"
)

// Work is what is done to one end of a run.
type Work string

// The kinds of work. Solder and Again heat a lug when its last wire of this
// place is there; Again: it was soldered before, at the bench. Hook: put the
// wire through and leave it for a later step's heat. Tail: leave the end free,
// with a label. Own: the end is the part's own lead, nothing is done there.
// Touch: metal on metal, nothing to solder.
const (
	Solder Work = "solder"
	Again  Work = "heat again"
	Case   Work = "solder to the case"
	Hook   Work = "hook"
	Tail   Work = "leave as a tail"
	Own    Work = "its own lead"
	Touch  Work = "touch"
)

// Heats reports whether the iron is put to an end in its step.
func (w Work) Heats() bool { return w == Solder || w == Again || w == Case }

// End is one end of a run in a step, or of its braid.
type End struct {
	Term  int  `json:"term"` // terminal of the graph
	Work  Work `json:"work"`
	Braid bool `json:"braid,omitempty"` // the end of the braid, not of the wire
	Heat  int  `json:"heat,omitempty"`  // number of the step that heats it; 0: none
}

// Step is one run put in, or the far end of one whose near end was soldered at
// the bench. Runs count as in the graph.
type Step struct {
	Number   int      `json:"number"` // from 1, through both places
	Where    Where    `json:"where"`
	Stage    int      `json:"stage"` // index in Plan.Stages
	Run      int      `json:"run"`
	Finishes int      `json:"finishes,omitempty"` // number of the step that left the tail; 0: a run of its own
	Ends     []End    `json:"ends"`
	Do       string   `json:"do"`    // what to do, in a sentence or two
	Notes    []string `json:"notes"` // what to mind
	Good     string   `json:"good"`  // what a good joint looks like; "" where nothing is heated
}

// Stage is a stretch of steps after which a reading is worth taking.
type Stage struct {
	Where Where  `json:"where"`
	Name  string `json:"name"`
	Last  int    `json:"last"` // number of its last step
}

// Loose is a tail of a loom that is sold without what goes there.
type Loose struct {
	Term int    `json:"term"`
	For  string `json:"for"` // what is joined there in the guitar
}

// Plan is the order of work of a loom.
type Plan struct {
	Steps  []Step  `json:"steps"`
	Stages []Stage `json:"stages"`
	Loose  []Loose `json:"loose,omitempty"` // tails for what the customer has
}

// Order plans the work on a loom. The same loom gives the same plan.
func Order(g *wiring.Graph) Plan {
	o := newOrder(g)
	var plan Plan
	for _, s := range stages {
		o.stage(s, &plan)
	}
	o.heats(&plan)
	plan.Loose = o.loose()
	return plan.Coloured(g, nil)
}

// Coloured is the plan with its words written for the colours that the wires
// have in the drawing; where colours is nil or has none, the loom file's stand.
func (p Plan) Coloured(g *wiring.Graph, colours func(run int) string) Plan {
	out := p
	out.Steps = make([]Step, len(p.Steps))
	for i, s := range p.Steps {
		w := g.Runs[s.Run].Wire
		if colours != nil && w.Colour == "" {
			w.Colour = colours(s.Run)
		}
		describe(g, &s, w)
		out.Steps[i] = s
	}
	return out
}

// StepOfRun gives for each run of the graph the number of its first step: the
// tag that drawings show.
func (p Plan) StepOfRun(runs int) []int {
	out := make([]int, runs)
	for _, s := range p.Steps {
		if s.Finishes == 0 {
			out[s.Run] = s.Number
		}
	}
	return out
}

// SolderedAfter tells which runs are in once a step is done: those whose every
// end has had its heat. A wire that is only hooked, or whose far end is still a
// tail, is not in. It fits wiring.Half.
func (p Plan) SolderedAfter(step int) func(run int) bool {
	out := map[int]bool{}
	for _, s := range p.Steps {
		open := s.Number > step
		for _, e := range s.Ends {
			open = open || e.Heat > step
		}
		out[s.Run] = out[s.Run] || open
	}
	return func(run int) bool {
		open, known := out[run]
		return known && !open
	}
}

// Half is the graph of a loom as it is after a stage.
func (p Plan) Half(l *loom.Loom, stage int) (*wiring.Graph, diag.List) {
	return wiring.Half(l, p.SolderedAfter(p.Stages[stage].Last))
}
