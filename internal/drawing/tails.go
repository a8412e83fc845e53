package drawing

import (
	"fmt"
	"slices"

	"loomwright/internal/build"
	"loomwright/internal/place"
	"loomwright/internal/wiring"
)

// tail is the far end of a wire that is left free in one step and joined in a
// later one.
type tail struct{ run, term int }

// tailsOf finds the later steps of a loom that is built in the order of build;
// of one that is not, there are none.
func tailsOf(g *wiring.Graph, steps []int) map[tail]int {
	plan := build.Order(g)
	out := map[tail]int{}
	if !slices.Equal(plan.StepOfRun(len(g.Runs)), steps) {
		return out
	}
	for _, s := range plan.Steps {
		if s.Finishes == 0 {
			continue
		}
		for _, e := range s.Ends {
			out[tail{s.Run, e.Term}] = s.Number
		}
	}
	return out
}

// stepText is the step at one end of a wire: "5", or "5→13" where the tail of
// step 5 is joined in step 13.
func (d *Drawing) stepText(w *Wire, end int) string {
	if w.Step == 0 {
		return "–"
	}
	if later, ok := d.tails[tail{w.Run, d.endTerm(w, end)}]; ok {
		return fmt.Sprintf("%d→%d", w.Step, later)
	}
	return fmt.Sprint(w.Step)
}

// endTerm is the terminal at one end of a wire; −1 if there is none.
func (d *Drawing) endTerm(w *Wire, end int) int {
	s := d.strandOf(w)
	switch {
	case s == nil:
		return -1
	case w.Tap[0]:
		return termOf(tailEnd(w, s))
	case end == 0:
		return termOf(s.A)
	}
	return termOf(s.B)
}

func termOf(e place.End) int {
	if e.Splice >= 0 {
		return -1
	}
	return e.Term
}

// laterEnd is the end of a wire that a later step joins, or −1.
func (d *Drawing) laterEnd(w *Wire) int {
	for end := range 2 {
		if _, ok := d.tails[tail{w.Run, d.endTerm(w, end)}]; ok {
			return end
		}
	}
	return -1
}
