package diagnosis

import (
	"loomwright/internal/meter"
)

// Verification is the shortest list of readings that shows whether anything
// else is wrong beside a suspect: what each line calls right is what a loom with
// that fault alone shows. The list is answered like any other readings: Judge
// speaks of a contradiction where one does not fit. It is nil when the faulted
// loom cannot be worked out.
func Verification(t *meter.Table, s *Suspect) *meter.Proof {
	o := t.Options
	o.Idle = true
	faulted, _ := meter.NewTable(t.Cases[s.at].Graph, o)
	if faulted == nil {
		return nil
	}
	p := faulted.Proof()
	return &p
}
