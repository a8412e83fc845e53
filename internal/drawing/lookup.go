package drawing

import (
	"slices"

	"loomwright/internal/scene"
	"loomwright/internal/setting"
)

// RunLength is the mm of wire of a run as drawn, its braid left out; the second
// wire of a twisted pair goes with the first between its ends. Parts that are
// drawn larger make it a little long.
func (d *Drawing) RunLength(run int) float64 {
	sum := 0.0
	lengths := d.Lengths()
	for i := range d.Plan.Strands {
		if s := &d.Plan.Strands[i]; s.Run == run && s.Core < 0 {
			sum += lengths[i]
		}
	}
	return sum
}

// EndOf is where a run's wire, or its braid, is soldered to a terminal of the
// graph; false where it is not drawn, or ends elsewhere.
func (d *Drawing) EndOf(run, term int, braid bool) (scene.Point, bool) {
	for i := range d.Wires {
		w := &d.Wires[i]
		s := d.strandOf(w)
		if s == nil || s.Run != run || (s.Core >= 0) != braid {
			continue
		}
		if e := s.B; e.Splice < 0 && e.Term == term && !(w.Tap[0] && !w.far) {
			return w.Points[len(w.Points)-1], true
		}
		if e := s.A; e.Splice >= 0 || e.Term != term || w.Tap[0] && s.Pair >= 0 && w.far {
			continue
		}
		if w.Tap[0] {
			return w.Points[len(w.Points)-1], true
		}
		return w.Points[0], true
	}
	return scene.Point{}, false
}

// Lit is the drawing with the live path of a setting, nothing else moved.
func (d *Drawing) Lit(s *setting.Setting, liveRuns []int) *Drawing {
	out := *d
	out.Options.Setting, out.Options.LiveRuns = s, slices.Clone(liveRuns)
	out.flows = nil
	out.findFlows()
	return &out
}
