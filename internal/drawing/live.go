package drawing

import (
	"math"
	"slices"

	"loomwright/internal/place"
)

// flow is a strand that carries the sound in the setting that is shown: +1
// from its A end to its B end, −1 back, 0 where no way can be told.
type flow int

// findFlows says which strands are live and which way the sound's current goes
// in them: from the coils to the tip of the jack, and from its sleeve back. It
// drives a current from sleeve to tip through coils, resistors and capacitors
// of 1 each, and live runs of 1 each, with the setting's contacts closed and all
// knobs up, and reads its direction in every run.
func (d *Drawing) findFlows() {
	o := &d.Options
	if o.Setting == nil || d.Graph.Hot < 0 {
		return
	}
	d.flows = map[int]flow{}
	n := d.newNetwork()
	volts := n.solve()
	for i := range d.Plan.Strands {
		s := &d.Plan.Strands[i]
		if !slices.Contains(o.LiveRuns, s.Run) {
			continue
		}
		a, b := d.strandLink(s)
		switch v := volts[n.of[a]] - volts[n.of[b]]; {
		case math.Abs(v) < 1e-9:
			d.flows[i] = 0
		case v > 0:
			d.flows[i] = 1
		default:
			d.flows[i] = -1
		}
		if s.Core >= 0 && d.flows[i] == 0 {
			delete(d.flows, i) // a braid that only screens
		}
	}
}

// strandLink is the terminals that a strand joins, in the strand's direction.
func (d *Drawing) strandLink(s *place.Strand) (a, b int) {
	r := &d.Graph.Runs[s.Run]
	switch {
	case s.Core >= 0:
		return r.Braid, s.A.Term
	case s.A.Term == r.B, s.B.Term == r.A && s.B.Splice < 0, s.Lead >= 0 && s.Lead == r.B:
		return r.B, r.A
	}
	return r.A, r.B
}
