package build

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// stageRule is one stage of the work and the runs that belong to it. The first
// rule of a place that takes a run has it.
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
	{AtTheBench, "grounds on the cases", (*order).ground},
	{AtTheBench, "jumpers", func(o *order, r int) bool { return jumper(o.g, r) }},
	{AtTheBench, "wires between the controls", func(o *order, r int) bool { return !small(o.g, r) }},
	{AtTheBench, "capacitors and resistors", func(*order, int) bool { return true }},
	{InTheGuitar, "string ground and plates", func(o *order, r int) bool { return o.touches(r, "ground") }},
	{InTheGuitar, "pickups", func(o *order, r int) bool { return o.touches(r, "pickup") }},
	{InTheGuitar, "jack", func(*order, int) bool { return true }},
}

// piece is the part of a run that is done at one place.
type piece struct {
	run  int
	ends []End
}

// order is the work so far.
type order struct {
	g      *wiring.Graph
	pieces map[Where][]piece // by run; no ends: nothing is done there
	left   map[Where][]int   // ends still to come, by terminal
	leads  []int             // by terminal: ends of runs, where it is a part's own lead
	hooked []bool            // by terminal: a wire is hooked there and not yet soldered
	hot    []bool            // by terminal: soldered already
	first  []int             // by run: number of its step at the bench
	count  int
	last   int // run of the last step
}

func newOrder(g *wiring.Graph) *order {
	n := len(g.Terms)
	o := &order{g: g, pieces: map[Where][]piece{}, left: map[Where][]int{AtTheBench: make([]int, n), InTheGuitar: make([]int, n)},
		leads: make([]int, n), hooked: make([]bool, n), hot: make([]bool, n), first: make([]int, len(g.Runs))}
	for run := range g.Runs {
		bench, guitar := o.split(run)
		o.pieces[AtTheBench] = append(o.pieces[AtTheBench], piece{run, bench})
		o.pieces[InTheGuitar] = append(o.pieces[InTheGuitar], piece{run, guitar})
	}
	for where, all := range o.pieces {
		for _, p := range all {
			for _, e := range p.ends {
				if o.counts(p.run, e) {
					o.left[where][e.Term]++
					o.leads[e.Term]++
				}
			}
		}
	}
	return o
}

// counts reports whether an end takes part in the heat of its terminal.
func (o *order) counts(run int, e End) bool {
	return e.Work != Tail && (e.Braid || o.g.Runs[run].Wire.Kind != loom.Touching)
}

// split says which ends of a run are done at the bench and which in the guitar.
// A wire to the jack is soldered at the bench and leaves it as a tail.
func (o *order) split(run int) (bench, guitar []End) {
	all := ends(o.g, run)
	for _, e := range all {
		if stays(o.g, e.Term) && !is(o.g, e.Term, "jack") {
			return nil, all
		}
		switch {
		case tailed(o.g, e.Term):
			bench = append(bench, End{Term: e.Term, Work: Tail, Braid: e.Braid})
		case is(o.g, e.Term, "jack"):
			guitar = append(guitar, e)
			bench = append(bench, End{Term: e.Term, Work: Tail, Braid: e.Braid})
		default:
			bench = append(bench, e)
		}
	}
	near := slices.ContainsFunc(bench, func(e End) bool { return e.Work != Tail })
	if len(guitar) > 0 && (!near || o.ownLead(run)) {
		return nil, all
	}
	return bench, guitar
}

// ownLead reports whether a run is a lead of a part, which has no end to spare.
func (o *order) ownLead(run int) bool {
	r := &o.g.Runs[run]
	return o.g.Terms[r.A].Kind == "lead" || o.g.Terms[r.B].Kind == "lead" || r.Wire.Kind == loom.Touching
}

func (o *order) touches(run int, classes ...string) bool {
	return slices.ContainsFunc(ends(o.g, run), func(e End) bool { return is(o.g, e.Term, classes...) })
}

// ground reports whether a run is soldered to a case and has no partner that it
// is twisted with.
func (o *order) ground(run int) bool {
	r := &o.g.Runs[run]
	return (onCase(o.g, r.A) || onCase(o.g, r.B)) && !small(o.g, run) && !r.Wire.Twisted
}

// stage adds the steps of one stage.
func (o *order) stage(rule stageRule, plan *Plan) {
	var todo []piece
	for run, p := range o.pieces[rule.where] {
		if len(p.ends) > 0 && rule.takes(o, run) {
			todo = append(todo, p)
			o.pieces[rule.where][run].ends = nil
		}
	}
	if len(todo) == 0 {
		return
	}
	o.sort(todo)
	at := len(plan.Stages)
	for len(todo) > 0 {
		k := o.pick(todo, rule.where)
		plan.Steps = append(plan.Steps, o.step(rule.where, at, todo[k]))
		todo = slices.Delete(todo, k, k+1)
	}
	plan.Stages = append(plan.Stages, Stage{rule.where, rule.name, o.count})
}

// pick prefers a run that brings a begun lug its last wire, so that the lug is
// heated once and soon; then any run to a begun lug; then the partner of a
// twisted wire.
func (o *order) pick(todo []piece, where Where) int {
	best, most := 0, 0
	for k, p := range todo {
		score := o.partner(p.run)
		for _, e := range p.ends {
			if o.hooked[e.Term] && e.Work != Tail {
				score += 2
				if o.left[where][e.Term] == 1 {
					score += 3
				}
			}
		}
		if score > most {
			best, most = k, score
		}
	}
	return best
}

// partner is 1 for a wire that is twisted with the one of the last step.
func (o *order) partner(run int) int {
	a, b := &o.g.Runs[o.last], &o.g.Runs[run]
	if o.count > 0 && a.Wire.Twisted && b.Wire.Twisted && o.parts(a) == o.parts(b) {
		return 1
	}
	return 0
}

// parts are the two parts that a run joins, the smaller index first.
func (o *order) parts(r *wiring.Run) [2]int {
	a, b := o.g.Terms[r.A].Use, o.g.Terms[r.B].Use
	return [2]int{min(a, b), max(a, b)}
}

// step does one piece.
func (o *order) step(where Where, stage int, p piece) Step {
	o.count++
	o.last = p.run
	s := Step{Number: o.count, Where: where, Stage: stage, Run: p.run, Finishes: o.first[p.run]}
	if where == AtTheBench {
		o.first[p.run] = o.count
	}
	for _, e := range p.ends {
		if o.counts(p.run, e) {
			o.left[where][e.Term]--
			e.Work = o.work(e, where, p.run)
		} else if e.Work != Tail {
			e.Work = Touch
		}
		s.Ends = append(s.Ends, e)
	}
	return s
}

// own reports whether a terminal is a part's own lead with nothing else on it.
func (o *order) own(t int) bool {
	k := o.g.Terms[t].Kind
	return (k == "lead" || k == "point" && is(o.g, t, "ground")) && o.leads[t] == 1
}

// work decides what is done at a terminal: heat it when its last wire of this
// place has come, else hook the wire. Two leads on one another are soldered at
// the second.
func (o *order) work(e End, where Where, run int) Work {
	t := e.Term
	r := &o.g.Runs[run]
	switch {
	case o.own(t) && !(t == r.B && o.own(r.A)):
		return Own
	case onCase(o.g, t):
		return Case
	case o.left[where][t] > 0:
		o.hooked[t] = true
		return Hook
	case o.hot[t]:
		o.hooked[t] = false
		return Again
	}
	o.hooked[t], o.hot[t] = false, true
	return Solder
}

// heats tells every end the step that heats it: its own, or for a hooked one
// the next that solders its terminal.
func (o *order) heats(plan *Plan) {
	next := make([]int, len(o.g.Terms))
	for i := len(plan.Steps) - 1; i >= 0; i-- {
		s := &plan.Steps[i]
		for k := len(s.Ends) - 1; k >= 0; k-- {
			e := &s.Ends[k]
			switch {
			case e.Work == Case:
				e.Heat = s.Number
			case e.Work.Heats():
				e.Heat = s.Number
				next[e.Term] = s.Number
			case e.Work == Hook:
				e.Heat = next[e.Term]
			}
		}
	}
}

// loose lists the tails that the customer's parts will be joined to.
func (o *order) loose() []Loose {
	var out []Loose
	for t := range o.g.Terms {
		used := slices.ContainsFunc(o.g.Runs, func(r wiring.Run) bool { return r.A == t || r.B == t })
		if used && tailed(o.g, t) && o.g.Terms[t].Terminal >= 0 {
			out = append(out, Loose{t, use(o.g, t).Part.Terminals[o.g.Terms[t].Terminal].Words})
		}
	}
	return out
}
