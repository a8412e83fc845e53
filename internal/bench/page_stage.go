package bench

import (
	"errors"
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/diagnosis"
	"loomwright/internal/meter"
	"loomwright/internal/wiring"
)

// StageCheck is the end of one stage of work: the readings to take on the
// half-built loom, what was typed for each, and what that points to.
type StageCheck struct {
	Stage    string         `json:"stage"`
	Before   []string       `json:"before"` // what comes before any reading
	Readings []StageLine    `json:"readings"`
	Says     string         `json:"says,omitempty"` // of all that was typed; "": nothing yet
	Suspects []StageSuspect `json:"suspects,omitempty"`
	Do       []string       `json:"do,omitempty"`
}

// StageLine is one reading and whether what was typed is what a right loom can
// show there.
type StageLine struct {
	meter.Line
	Right string `json:"right"`           // what a right loom shows, in words
	Said  string `json:"said,omitempty"`  // as typed
	Met   string `json:"met,omitempty"`   // yes, no; "": not typed
	Wrong string `json:"wrong,omitempty"` // why what was typed cannot be read
}

// StageSuspect is what may be wrong, and where.
type StageSuspect struct {
	Faults []string `json:"faults"` // the same to every probe
	Do     []string `json:"do"`
	Runs   []int    `json:"runs"`
	Terms  []int    `json:"terms"`
}

// stagesAt are the stages of the loom that lies open.
type stagesAt struct {
	data   string
	proofs []meter.Proof
	tables map[int]*meter.Table
}

// Stage says which readings follow a stage of the plan of work (a.Run, its
// index), and what the answers of a.State mean. The error is in a user's words.
func (d *Desk) Stage(a Ask) (StageCheck, error) {
	t, err := d.stageTable(a)
	if err != nil {
		return StageCheck{}, err
	}
	p := d.stages.proofs[a.Run]
	out := StageCheck{Stage: p.Name, Before: p.Before, Readings: []StageLine{}}
	said := map[string]string{}
	if a.State != nil {
		for _, s := range a.State.Answers {
			said[s.Ask] = s.Said
		}
	}
	var taken diagnosis.State
	for _, l := range p.Lines {
		line := stageLine(t, l, said[l.Key])
		if line.Met != "" {
			taken.Answers = append(taken.Answers, diagnosis.Answer{Ask: l.Key, Said: line.Said})
		}
		out.Readings = append(out.Readings, line)
	}
	return out, out.conclude(t, taken)
}

// stageTable works out what every fault of the half-built loom would show.
func (d *Desk) stageTable(a Ask) (*meter.Table, error) {
	g, l, _ := d.bench.graph(diag.NewText(a.Name, a.Text))
	if g == nil {
		return nil, errors.New("this loom has errors: mend it on the bench first")
	}
	stages := stagesOf(g)
	if a.Run < 0 || a.Run >= len(stages) {
		return nil, fmt.Errorf("this loom has no stage %d", a.Run)
	}
	o := meter.Options{}
	if d.stages.data != a.Text {
		proofs, _ := meter.Stages(l, stages, o)
		if len(proofs) != len(stages) {
			return nil, errors.New("no readings can be worked out for this loom")
		}
		d.stages = stagesAt{a.Text, proofs, map[int]*meter.Table{}}
	}
	if t := d.stages.tables[a.Run]; t != nil {
		return t, nil
	}
	half, _ := wiring.Half(l, stages[a.Run].Soldered)
	o.Idle = true
	t, _ := meter.NewTable(meter.WithoutPickups(half), o)
	if t == nil {
		return nil, errors.New("no readings can be worked out for this loom")
	}
	d.stages.tables[a.Run] = t
	return t, nil
}

// stageLine holds one answer against what a right loom can show.
func stageLine(t *meter.Table, l meter.Line, said string) StageLine {
	out := StageLine{Line: l, Right: stageRight(l), Said: said}
	if said == "" {
		return out
	}
	ask, err := meter.Parse(t.Graph, l.Key)
	if err != nil {
		out.Wrong = err.Error()
		return out
	}
	seen, err := meter.Seen(t.Options.Meter, ask.Kind, said)
	if err != nil {
		out.Wrong = err.Error()
		return out
	}
	out.Met = "no"
	if t.Shown(&ask, 0).Fits(seen) {
		out.Met = "yes"
	}
	return out
}

// stageRight says what a right loom shows, and what a bare 1 means.
func stageRight(l meter.Line) string {
	if l.Lo == "1" {
		return "1 at the left: no path"
	}
	return l.Right()
}

// fewStageSuspects is how many suspects are named after a stage.
const fewStageSuspects = 4

// conclude says what the answers taken so far mean together.
func (c *StageCheck) conclude(t *meter.Table, taken diagnosis.State) error {
	wrong := 0
	for _, l := range c.Readings {
		if l.Met == "no" {
			wrong++
		}
	}
	switch {
	case len(taken.Answers) == 0:
		return nil
	case wrong == 0 && len(taken.Answers) < len(c.Readings):
		c.Says = "Right so far."
		return nil
	case wrong == 0:
		c.Says = "Every reading is as it should be. Go on to the next stage."
		return nil
	}
	c.Says = "This is not what a right loom shows. Do not go on: look first."
	r, err := diagnosis.Judge(t, taken)
	if err != nil {
		return err
	}
	if r.Verdict == diagnosis.Contradiction {
		c.Says, c.Do = r.Says, r.Do
		return nil
	}
	for _, s := range r.Suspects[:min(len(r.Suspects), fewStageSuspects)] {
		if len(s.Faults) > 0 {
			c.Suspects = append(c.Suspects, StageSuspect{s.Faults, s.Do, s.Runs, s.Terms})
		}
	}
	return nil
}
