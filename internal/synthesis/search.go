package synthesis

import (
	"loomwright/internal/sat"
)

// effort is what the search may spend and has spent, in conflicts.
type effort struct {
	left, spent int64
	stop        func() bool
	progress    func(Progress)
	state       Progress
	stopped     bool // by the caller
}

// out reports whether nothing is left to spend.
func (f *effort) out() bool { return f.left <= 0 || f.stopped }

// ask polls the caller.
func (f *effort) ask() bool {
	if f.progress != nil {
		f.progress(f.state)
	}
	if f.stop != nil && f.stop() {
		f.stopped = true
	}
	return f.stopped
}

// solve runs the solver within a limit of conflicts and the effort that is
// left.
func (e *encoding) solve(f *effort, limit int64, assumptions ...sat.Lit) sat.Status {
	if f.out() {
		return sat.Unknown
	}
	before := e.s.Stats().Conflicts
	e.s.MaxConflicts = min(limit, f.left)
	e.s.PollEvery = 256
	e.s.Stop = f.ask
	e.s.Progress = func(st sat.Stats) { f.state.Conflicts = f.spent + st.Conflicts - before }
	status := e.s.Solve(assumptions...)
	n := e.s.Stats().Conflicts - before
	f.spent += n
	f.left -= n
	f.state.Conflicts = f.spent
	return status
}

// solution is which nodes are soldered together: node → net, nets named by
// their first node.
type solution []int

// decode reads the solver's model.
func (e *encoding) decode() solution {
	out := make(solution, len(e.p.nodes))
	for x := range out {
		out[x] = x
		for y := range x {
			if e.s.Value(e.same[x][y]) {
				out[x] = y
				break
			}
		}
	}
	return out
}

// joins counts the soldered runs of a solution.
func (s solution) joins() int {
	n := 0
	for x, first := range s {
		if x != first {
			n++
		}
	}
	return n
}

// outcome is what the search found out about a puzzle.
type outcome struct {
	status sat.Status
	best   solution
	joins  int
	bound  int // joins that are proved to be needed

	tasteOpen bool      // the effort ran out before the best taste was proved
	last      *encoding // with clauses that allow only wirings as good as the best
}

// everything is the assumptions that all wishes are met.
func (e *encoding) everything() []sat.Lit {
	return append([]sat.Lit{e.upon}, e.wanted...)
}

// minimise looks for the fewest joins. A start, when there is one, meets all
// wishes.
func (e *encoding) minimise(f *effort, start solution) outcome {
	out := outcome{status: sat.Sat}
	if start == nil {
		out.status = e.solve(f, f.left, e.everything()...)
	} else {
		out.best = start
		e.start(start)
	}
	if out.status != sat.Sat {
		return out
	}
	for _, l := range e.everything() {
		e.s.AddClause(l)
	}
	if start == nil {
		out.best = e.decode()
	}
	out.bound = e.floor
	e.s.AddClause(e.more(e.floor - 1))
	e.settle(&out, f)
	e.improve(&out, f)
	return out
}

// settle demands no more joins than the best has from now on.
func (e *encoding) settle(out *outcome, f *effort) {
	out.joins = out.best.joins()
	e.s.AddClause(e.more(out.joins).Not())
	f.state.Joins = out.joins
}

// take keeps the model as the best so far.
func (e *encoding) take(out *outcome, f *effort) {
	out.best = e.decode()
	e.settle(out, f)
}

// Conflicts of the first try to improve, and of the neighbourhoods after a try at
// most. In a puzzle of many settings neighbourhoods are what helps: they get
// several times as much as the tries.
const (
	firstTry         = 200
	mostNeighbours   = 1500
	manySettings     = 12
	neighboursAmount = 4
)

// improve takes tries at fewer joins in turn with neighbourhoods of the best,
// until fewer are refuted or the effort is spent.
func (e *encoding) improve(out *outcome, f *effort) {
	near := e.newNeighbourhoods()
	for try := int64(firstTry); out.bound < out.joins && !f.out(); {
		switch e.solve(f, try, e.more(out.joins-1).Not()) {
		case sat.Sat:
			e.take(out, f)
		case sat.Unsat:
			out.bound = out.joins
		case sat.Unknown:
			most := min(try, mostNeighbours)
			if len(e.p.settings) > manySettings {
				most = neighboursAmount * try
			}
			if !near.search(out, f, most) {
				try *= 2
			}
		}
	}
	if out.bound < out.joins {
		e.raise(out, f)
	}
}

// raise looks for a lower bound when the effort is spent: the number of joins
// that propagation alone refutes.
func (e *encoding) raise(out *outcome, f *effort) {
	few := &effort{left: max(raiseEffort, f.spent/20), stop: f.stop}
	for out.bound < out.joins && e.solve(few, few.left, e.more(out.bound).Not()) == sat.Unsat {
		out.bound++
	}
	f.add(few)
}

// raiseEffort is spent at least on a lower bound, beyond the budget.
const raiseEffort = 500
