package synthesis

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/sat"
)

// Find looks for joins that make a loom sound as its file wishes. The findings
// say what stands in the way; the result is empty when they hold an error of the
// file.
func Find(l *loom.Loom, o Options) (Result, diag.List) {
	f := o.effort()
	t, list := newTask(l, o)
	if t == nil {
		return Result{}, list.Sorted()
	}
	r := t.find(f)
	r.Scheme, r.Conflicts, r.CutShort = t.scheme, f.spent, f.stopped
	return r, t.list.Sorted()
}

func (o *Options) effort() *effort {
	f := &effort{left: o.Conflicts, stop: o.Stop, progress: o.Progress}
	if f.left == 0 {
		f.left = DefaultConflicts
	}
	return f
}

// solved is one spec of a plan, searched.
type solved struct {
	spec  *spec
	p     *puzzle
	terms [][]int
	e     *encoding
	out   outcome
	more  []solution // others as good as the best
	begun beginning
}

// find searches the pickups one by one where that can be, else the whole.
func (t *task) find(f *effort) Result {
	if pl, ok := t.split(); ok {
		if parts := t.searchPlan(pl, f); parts != nil {
			return t.result(pl, parts, f)
		}
	}
	pl := t.whole()
	s := t.search(&pl.specs[0], f)
	switch s.out.status {
	case sat.Sat:
		return t.result(pl, []*solved{s}, f)
	case sat.Unsat:
		return t.impossible(s, f)
	}
	if t.list.HasErrors() {
		return Result{}
	}
	t.list.Add(diag.Diagnostic{Code: "wire-open", Severity: diag.Warning, Message: f.openWords()})
	return Result{Status: Open}
}

// openWords says that nothing is known yet, and why.
func (f *effort) openWords() string {
	if f.stopped {
		return "cut short before a wiring was found, or a proof that there is none"
	}
	return fmt.Sprintf("not proved within the budget: after %d conflicts of the search there is neither a wiring nor a proof that there is none", f.spent)
}

// searchPlan searches the parts of a plan in the common polarity that takes
// fewer joins; nil when some part is impossible alone.
func (t *task) searchPlan(pl plan, f *effort) []*solved {
	var best []*solved
	fewest := 0
	for _, flip := range []int{1, -1} {
		var parts []*solved
		joins := 0
		for i := range pl.specs {
			pl.specs[i].flip = flip
			spec := pl.specs[i]
			s := t.search(&spec, f)
			if s.out.status != sat.Sat {
				break
			}
			parts = append(parts, s)
			joins += s.out.joins
		}
		if len(parts) == len(pl.specs) && (best == nil || joins < fewest) {
			best, fewest = parts, joins
		}
		if t.polarityGiven() {
			break
		}
	}
	return best
}

// polarityGiven reports whether some sound fixes the common polarity.
func (t *task) polarityGiven() bool {
	for i := range t.g.Loom.Sounds {
		if t.g.Loom.Sounds[i].Fixed {
			return true
		}
	}
	return false
}

// maxNodes bounds the terminals of one search; its clauses grow with their cube.
const maxNodes = 160

// search looks for the best wiring of one spec, and for others as good.
func (t *task) search(spec *spec, f *effort) *solved {
	s := &solved{spec: spec}
	s.p, s.terms = t.build(spec)
	s.p.held = t.held(spec.hot)
	if len(s.p.nodes) > maxNodes {
		t.fail("loom-limit", t.g.Loom.Doc.Text.Span(1, 1, 1), "", "%d terminals are more than the %d that are searched at once: find the wiring in parts", len(s.p.nodes), maxNodes)
		return s
	}
	s.begun = t.begin(spec, s, f)
	f.state.Stage = "looking for a wiring"
	if t.opt.First {
		s.first(f)
		return s
	}
	s.e = encode(s.p, allRules().settle(s.p), sat.Options{})
	f.state.Stage = "looking for fewer joins"
	s.e.floor = s.begun.floor
	s.out = s.e.minimise(f, s.begun.start)
	if s.out.status != sat.Sat {
		return s
	}
	f.state.Stage = "looking for shorter wires and quieter travel"
	s.e.refine(&s.out, f)
	if t.opt.Best > 1 {
		f.state.Stage = "looking for others as good"
		s.others(t.opt.Best-1, f)
	}
	return s
}

// first is content with any wiring, for which few rules are the fastest.
func (s *solved) first(f *effort) {
	start := s.begun.start
	s.e = encode(s.p, rules{own: true}.settle(s.p), sat.Options{})
	s.out = outcome{status: sat.Sat, best: start}
	if start == nil {
		s.out.status = s.e.solve(f, f.left, s.e.everything()...)
	}
	if s.out.status == sat.Sat {
		if start == nil {
			s.out.best = s.e.decode()
		}
		s.out.joins = s.out.best.joins()
		s.out.tasteOpen = true
	}
}

// others looks for further wirings that are as good as the best.
func (s *solved) others(n int, f *effort) {
	e := s.out.last
	if e == nil {
		return
	}
	want := s.p.taste(s.out.best)
	e.exclude(s.out.best)
	for len(s.more) < n {
		if e.solve(f, min(tasteEffort, f.left)) != sat.Sat {
			return
		}
		found := e.decode()
		if s.p.taste(found) == want && found.joins() == s.out.joins {
			s.more = append(s.more, found)
		}
		e.exclude(found)
	}
}

// exclude forbids a solution. One with as many joins that keeps all its nets
// together is the same one.
func (e *encoding) exclude(s solution) {
	var clause []sat.Lit
	for x, first := range s {
		if x != first {
			clause = append(clause, e.same[x][first].Not())
		}
	}
	e.s.AddClause(clause...)
}

// held reports whether a pot's track holds a terminal to ground.
func (t *task) held(term int) bool {
	ground := t.piece(t.g.Ground)
	for i := range t.g.Tracks {
		full, off := ends(&t.g.Tracks[i])
		at := t.piece(term)
		if t.piece(off) == ground && (t.piece(full) == at || t.piece(t.g.Tracks[i].Wiper) == at) {
			return true
		}
	}
	return false
}
