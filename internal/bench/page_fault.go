package bench

import (
	"errors"

	"loomwright/internal/diagnosis"
	"loomwright/internal/meter"
)

// Judged is a soldered loom in the middle of finding out what is wrong with it.
type Judged struct {
	diagnosis.Result
	Before []string     `json:"before"` // what to do before measuring
	Kinds  [][]string   `json:"kinds"`  // of symptoms: name, what it means, what may narrow it down
	Proof  *meter.Proof `json:"proof,omitempty"`
}

// caseAt is the case that lies open.
type caseAt struct {
	data    string
	outside bool
	c       *Case
}

// Judge says what the readings so far mean, and what to measure next. The first
// call on a loom works out what every fault would show, and takes seconds.
func (d *Desk) Judge(a Ask) (Judged, error) {
	o := meter.Options{}
	if a.Outside {
		o.Access = meter.Outside
	}
	if d.fault.c == nil || d.fault.data != a.Text || d.fault.outside != a.Outside {
		c, _, err := d.bench.OpenCase(a.Name, a.Text, o)
		if err != nil {
			return Judged{}, errors.New("this loom has errors: mend it on the bench first")
		}
		d.fault = caseAt{a.Text, a.Outside, c}
	}
	out := Judged{Before: meter.Preparations(o)}
	for _, k := range diagnosis.SymptomHelp() {
		out.Kinds = append(out.Kinds, k[:])
	}
	state := diagnosis.State{}
	if a.State != nil {
		state = *a.State
	}
	var err error
	if out.Result, err = d.fault.c.Judge(state); err == nil && out.Verdict == diagnosis.Found {
		out.Proof = d.fault.c.Proof(out.Result)
	}
	return out, err
}
