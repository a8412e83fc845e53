// Package build puts the joins of a loom in an order that the hand can reach:
// what is soldered at the bench, what in the guitar, what is only hooked until
// the last wire of a lug is there, which joint must be heated twice. It also
// lists the parts.
package build

import (
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

// The kinds of work. Hook: put the wire through and leave it for a later step's
// heat. Again: the joint was soldered before and is heated once more. Touch:
// metal on metal, nothing to solder.
const (
	Solder Work = "solder"
	Hook   Work = "hook"
	Again  Work = "heat again"
	Case   Work = "solder to the case"
	Touch  Work = "touch"
)

// End is one end of a run in a step.
type End struct {
	Term int  `json:"term"` // terminal of the graph
	Work Work `json:"work"`
}

// Step is one run put in. Runs count as in the graph.
type Step struct {
	Number int      `json:"number"` // from 1, through both places
	Where  Where    `json:"where"`
	Stage  int      `json:"stage"` // index in Plan.Stages
	Run    int      `json:"run"`
	Ends   []End    `json:"ends"`
	Do     string   `json:"do"`    // what to do, in a sentence or two
	Notes  []string `json:"notes"` // what to mind
}

// Stage is a stretch of steps after which a reading is worth taking.
type Stage struct {
	Where Where  `json:"where"`
	Name  string `json:"name"`
	Last  int    `json:"last"` // number of its last step
}

// Plan is the order of work of a loom.
type Plan struct {
	Steps  []Step  `json:"steps"`
	Stages []Stage `json:"stages"`
}

// Order plans the work on a loom. The same loom gives the same plan.
func Order(g *wiring.Graph) Plan {
	o := newOrder(g)
	var plan Plan
	for _, s := range stages {
		o.stage(s, &plan)
	}
	return plan
}

// StepOfRun gives for each run of the graph the number of its step: the tag
// that drawings show.
func (p Plan) StepOfRun(runs int) []int {
	out := make([]int, runs)
	for _, s := range p.Steps {
		out[s.Run] = s.Number
	}
	return out
}

// SolderedAfter tells which runs are in once a step is done; it fits
// wiring.Half.
func (p Plan) SolderedAfter(step int) func(run int) bool {
	in := map[int]bool{}
	for _, s := range p.Steps {
		if s.Number <= step {
			in[s.Run] = true
		}
	}
	return func(run int) bool { return in[run] }
}
