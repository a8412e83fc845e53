package synthesis

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/sat"
	"loomwright/internal/wiring"
)

// mostReleased bounds the joins of the file that release tries to do without.
const mostReleased = 16

// release tries the wishes without one thing that the file has decided: a
// terminal that must stay free, or a join of a coil or a switch.
func (t *task) release(why *Why, f *effort) {
	l := t.g.Loom
	for i := range l.Free {
		less := *l
		less.Free = slices.Delete(slices.Clone(l.Free), i, i+1)
		if t.wouldDo(&less, f) {
			why.Loosened = append(why.Loosened, t.g.Terms[t.g.Ref(l.Free[i])].Name+" need not stay free")
		}
	}
	tried := 0
	for i := range l.Joins {
		if tried == mostReleased || !t.switching(&l.Joins[i]) {
			continue
		}
		tried++
		less := *l
		less.Joins = slices.Delete(slices.Clone(l.Joins), i, i+1)
		if t.wouldDo(&less, f) {
			run := l.Joins[i].Runs[0]
			why.Loosened = append(why.Loosened, "the join "+t.g.Terms[t.g.Ref(run.A)].Name+" -- "+t.g.Terms[t.g.Ref(run.B)].Name+" is given up")
		}
	}
}

// wouldDo reports whether the wishes of another loom can be met.
func (t *task) wouldDo(l *loom.Loom, f *effort) bool {
	other, _ := newTask(l, t.opt)
	return other != nil && other.possible(f) == sat.Sat
}

// switching reports whether a join ends at a coil or a switch that takes part.
func (t *task) switching(j *loom.Join) bool {
	return slices.ContainsFunc(j.Runs, func(r loom.Run) bool { return t.sounding(r.A.Use) || t.sounding(r.B.Use) })
}

func (t *task) sounding(use int) bool {
	return slices.ContainsFunc(t.g.Coils, func(c wiring.Coil) bool { return c.Use == use }) ||
		slices.ContainsFunc(t.switches, func(i int) bool { return t.g.Switches[i].Use == use })
}
