//go:build !js || paper

package bench

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/leads"
	"loomwright/internal/part"
	"loomwright/internal/source"
)

// LeadStep is the next step of the wizard for unknown leads; at its end Notes
// are what goes into a loom file.
type LeadStep struct {
	leads.Step
	Notes *LeadNotes `json:"notes,omitempty"`
}

// LugStep is the next step of the wizard for an unknown switch; at its end Part
// is its part file, and Choice the part as it can be picked.
type LugStep struct {
	leads.SwitchStep
	Part   string  `json:"part,omitempty"`
	Choice *Choice `json:"choice,omitempty"`
}

// leadStep works out the next question about a pickup. A code that is believed
// is put into the state by its name.
func (b *Bench) leadStep(a Ask) (LeadStep, error) {
	if a.Leads == nil {
		return LeadStep{}, fmt.Errorf("no pickup is described")
	}
	s := *a.Leads
	if a.Key != "" {
		believed, list := b.Believe(s, a.Key)
		if list.HasErrors() {
			return LeadStep{}, fmt.Errorf("%s", list[0].Message)
		}
		s = believed
	}
	step, err := NextLead(s)
	if err != nil || step.Found == nil {
		return LeadStep{Step: step}, err
	}
	var file part.CodeFile
	doc, list := source.Parse(diag.NewText("code", step.Found.Code("found")))
	if list = append(list, source.Decode(doc, &file)...); list.HasErrors() {
		return LeadStep{}, fmt.Errorf("these leads cannot be written down: %s", list[0].Message)
	}
	code := part.ResolveCode("found", &file)
	return LeadStep{step, &LeadNotes{codeChoice(code).Leads, code.Inside, step.Found.Ohms, step.Found.Pole}}, nil
}

// lugStep works out the next question about a switch.
func lugStep(a Ask) (LugStep, error) {
	if a.Lugs == nil {
		return LugStep{}, fmt.Errorf("no switch is described")
	}
	step, err := NextLug(*a.Lugs)
	if err != nil || step.Found == nil {
		return LugStep{SwitchStep: step}, err
	}
	out := LugStep{SwitchStep: step, Part: step.Found.Part(a.Value)}
	var file part.File
	doc, list := source.Parse(diag.NewText("switch", out.Part))
	if list = append(list, source.Decode(doc, &file)...); list.HasErrors() {
		return LugStep{}, fmt.Errorf("this switch cannot be written down: %s", list[0].Message)
	}
	p, list := part.Resolve("switch/"+a.Key, &file)
	if list.HasErrors() {
		return LugStep{}, fmt.Errorf("this switch cannot be written down: %s", list[0].Message)
	}
	c := choice(p)
	out.Choice = &c
	return out, nil
}
