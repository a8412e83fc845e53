package synthesis

import (
	"fmt"

	"loomwright/internal/sat"
)

// suggest looks for what would make the wishes possible: other demands, another
// order of the sounds on the same switch, another switch.
func (t *task) suggest(why *Why, f *effort) {
	f.state.Stage = "looking for another switch"
	few := &effort{left: 2 * explainEffort, stop: f.stop, progress: f.progress, state: f.state}
	t.loosen(why, few)
	t.release(why, few)
	for _, i := range t.switches {
		if t.touched(&t.g.Switches[i]) || !t.ordered(i) {
			continue
		}
		if order, status := t.reorder(i, few); status == sat.Sat {
			why.OrderOf, why.Order = t.g.Switches[i].Name, order
			break
		}
	}
	if t.opt.Library != nil {
		t.sweep(why, few)
	}
	why.Unexplored = why.Unexplored || few.out()
	f.add(few)
}

// loosen tries the wishes without demands that the loom does not make itself.
func (t *task) loosen(why *Why, f *effort) {
	try := func(words string, change func(*Options)) {
		o := t.opt
		change(&o)
		if other, _ := newTask(t.g.Loom, o); other != nil && other.possible(f) == sat.Sat {
			why.Loosened = append(why.Loosened, words)
		}
	}
	if !t.opt.Hanging {
		try("a silent coil may touch the sound with one end: as an aerial, or in a loop with another one", func(o *Options) { o.Hanging = true })
	}
	if t.opt.HumCancels {
		try("hum need not cancel", func(o *Options) { o.HumCancels = false })
	}
	if t.opt.WiresPerLug > 0 {
		try("a lug may take more wires", func(o *Options) { o.WiresPerLug = 0 })
	}
	if len(t.liftable) > 0 {
		other, _ := newTask(t.g.Loom, t.opt, t.liftable...)
		if other != nil && other.possible(f) == sat.Sat {
			for _, x := range t.liftable {
				why.Loosened = append(why.Loosened, fmt.Sprintf("%s, which is also a coil's end, is parted from it and grounded by a lead of its own", t.g.Terms[x].Name))
			}
		}
	}
}

// possible decides whether the wishes can be met, in one piece.
func (t *task) possible(f *effort) sat.Status {
	pl := t.whole()
	p, _ := t.build(&pl.specs[0])
	e := encode(p, feasible().settle(p), sat.Options{})
	return e.solve(f, f.left, e.everything()...)
}

// feasible are the rules of use when only a yes or no is asked.
func feasible() rules {
	return rules{own: true, sink: true, poles: true, columns: true, turns: true, count: true}
}
