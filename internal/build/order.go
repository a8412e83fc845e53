package build

import (
	"cmp"
	"math"
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// stageRule is one stage of the work and the runs that belong to it. The first
// rule that takes a run has it.
type stageRule struct {
	where Where
	name  string
	takes func(o *order, run int) bool
}

// stages, in order of work (common practice, no source): cases first, because
// they need the most heat; jumpers before what would cover them; wires, then
// small parts, which the heat of later joints would hurt; then what needs the
// guitar.
var stages = []stageRule{
	{AtTheBench, "grounds on the cases", func(o *order, r int) bool { return !o.inGuitar(r) && o.onCase(r) && !o.small(r) }},
	{AtTheBench, "jumpers", func(o *order, r int) bool { return !o.inGuitar(r) && o.jumper(r) }},
	{AtTheBench, "wires between the controls", func(o *order, r int) bool { return !o.inGuitar(r) && !o.small(r) }},
	{AtTheBench, "capacitors and resistors", func(o *order, r int) bool { return !o.inGuitar(r) }},
	{InTheGuitar, "string ground and plates", func(o *order, r int) bool { return o.touches(r, "ground") }},
	{InTheGuitar, "pickups", func(o *order, r int) bool { return o.touches(r, "pickup") || o.touches(r, "points") }},
	{InTheGuitar, "jack", func(*order, int) bool { return true }},
}

// order is the work so far.
type order struct {
	g      *wiring.Graph
	left   map[Where][]int // runs still to come, by place of work and terminal
	done   []bool          // by run
	hooked []bool          // by terminal: a wire is hooked there and not yet soldered
	hot    []bool          // by terminal: soldered already
	count  int
}

func newOrder(g *wiring.Graph) *order {
	o := &order{g: g, done: make([]bool, len(g.Runs)), hooked: make([]bool, len(g.Terms)), hot: make([]bool, len(g.Terms)),
		left: map[Where][]int{AtTheBench: make([]int, len(g.Terms)), InTheGuitar: make([]int, len(g.Terms))}}
	for i, r := range g.Runs {
		o.left[o.where(i)][r.A]++
		o.left[o.where(i)][r.B]++
	}
	return o
}

func (o *order) where(run int) Where {
	if o.inGuitar(run) {
		return InTheGuitar
	}
	return AtTheBench
}

func (o *order) use(term int) *loom.Use {
	if u := o.g.Terms[term].Use; u >= 0 {
		return &o.g.Loom.Uses[u]
	}
	return nil
}

func (o *order) touches(run int, class string) bool {
	r := &o.g.Runs[run]
	a, b := o.use(r.A), o.use(r.B)
	return a != nil && a.Part.Class == class || b != nil && b.Part.Class == class
}

// inGuitar reports whether a run ends on what stays in the guitar.
func (o *order) inGuitar(run int) bool {
	return o.touches(run, "pickup") || o.touches(run, "points") || o.touches(run, "jack") || o.touches(run, "output") || o.touches(run, "ground")
}

func (o *order) onCase(run int) bool {
	r := &o.g.Runs[run]
	return o.g.Terms[r.A].Kind == "case" || o.g.Terms[r.B].Kind == "case"
}

// small reports whether a run is a lead of a part that heat can hurt.
func (o *order) small(run int) bool {
	return o.touches(run, "capacitor") || o.touches(run, "resistor") || o.touches(run, "bleed")
}

// jumper reports whether a run stays on one part.
func (o *order) jumper(run int) bool {
	r := &o.g.Runs[run]
	return o.g.Terms[r.A].Use == o.g.Terms[r.B].Use
}

// stage adds the steps of one stage.
func (o *order) stage(rule stageRule, plan *Plan) {
	var runs []int
	for i := range o.g.Runs {
		if !o.done[i] && rule.takes(o, i) {
			runs = append(runs, i)
		}
	}
	if len(runs) == 0 {
		return
	}
	o.sort(runs)
	at := len(plan.Stages)
	for len(runs) > 0 {
		k := o.pick(runs)
		plan.Steps = append(plan.Steps, o.step(rule, at, runs[k]))
		runs = slices.Delete(runs, k, k+1)
	}
	plan.Stages = append(plan.Stages, Stage{rule.where, rule.name, o.count})
}

// sort puts inner terminals before outer ones, and keeps a part's work
// together.
func (o *order) sort(runs []int) {
	slices.SortStableFunc(runs, func(a, b int) int {
		ra, rb := &o.g.Runs[a], &o.g.Runs[b]
		return cmp.Or(cmp.Compare(o.part(ra), o.part(rb)), cmp.Compare(o.depth(ra), o.depth(rb)), cmp.Compare(a, b))
	})
}

// part is the use that a run's work belongs to: the one that stays.
func (o *order) part(r *wiring.Run) int { return max(o.g.Terms[r.A].Use, o.g.Terms[r.B].Use) }

// depth is how far a run's outer end lies from its part's centre, in mm.
func (o *order) depth(r *wiring.Run) float64 {
	d := 0.0
	for _, t := range []int{r.A, r.B} {
		if u, i := o.use(t), o.g.Terms[t].Terminal; u != nil && i >= 0 {
			at := u.Part.Terminals[i].At
			d = max(d, math.Hypot(at[0], at[1]))
		}
	}
	return d
}

// pick prefers a run that brings a begun lug its last wire, so that the lug is
// heated once and soon; then any run to a begun lug.
func (o *order) pick(runs []int) int {
	begun := 0
	for k, i := range runs {
		r := &o.g.Runs[i]
		left := o.left[o.where(i)]
		if o.hooked[r.A] && left[r.A] == 1 || o.hooked[r.B] && left[r.B] == 1 {
			return k
		}
		if begun == 0 && (o.hooked[r.A] || o.hooked[r.B]) {
			begun = k
		}
	}
	return begun
}

// step puts one run in.
func (o *order) step(rule stageRule, stage, run int) Step {
	o.count++
	r := &o.g.Runs[run]
	o.done[run] = true
	s := Step{Number: o.count, Where: rule.where, Stage: stage, Run: run}
	for _, t := range []int{r.A, r.B} {
		o.left[o.where(run)][t]--
		s.Ends = append(s.Ends, End{t, o.work(t, rule.where, r)})
	}
	o.describe(&s)
	return s
}

// work decides what is done at a terminal: heat it when its last wire of this
// place of work has come, else hook the wire.
func (o *order) work(t int, where Where, r *wiring.Run) Work {
	switch kind := o.g.Terms[t].Kind; {
	case r.Wire.Kind == loom.Touching:
		return Touch
	case kind == "case" || kind == "plate":
		return Case
	case o.left[where][t] > 0:
		o.hooked[t] = true
		return Hook
	case o.hot[t]:
		return Again
	}
	o.hooked[t], o.hot[t] = false, true
	return Solder
}
