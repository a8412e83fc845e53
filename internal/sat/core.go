package sat

import "slices"

// Core returns assumptions of the latest Solve that contradict the clauses, in
// the order in which they were given. It is empty when the clauses contradict
// each other without any, and after Sat or Unknown.
func (s *Solver) Core() []Lit { return slices.Clone(s.core) }

// failByConflict derives the core from a clause that is false under the
// assumptions alone.
func (s *Solver) failByConflict(conflict ref) {
	if s.level() == 0 {
		s.refuted()
		return
	}
	for _, l := range s.arena.lits(conflict) {
		s.see(l)
	}
	s.collectCore(noLit)
}

// failByAssumption derives the core from an assumption that the ones before it
// make false.
func (s *Solver) failByAssumption(a Lit) {
	s.see(a)
	s.collectCore(a)
}

// collectCore follows the reasons of the seen literals back to assumptions.
func (s *Solver) collectCore(failed Lit) {
	marks := s.analyst.marks
	guilty := map[Lit]bool{failed: true}
	for i := len(s.trail) - 1; i >= 0 && s.vars[s.trail[i]>>1].level > 0; i-- {
		l := s.trail[i]
		if marks[l>>1]&markSeen == 0 {
			continue
		}
		reason := s.vars[l>>1].reason
		if reason == noRef {
			guilty[l] = true
			continue
		}
		for _, other := range s.arena.lits(reason) {
			s.see(other)
		}
	}
	s.clearAnalysis()
	for _, a := range s.assumptions {
		if guilty[a] {
			s.core = append(s.core, a)
			delete(guilty, a)
		}
	}
	if failed != False {
		s.proof.lemma(negated(s.core))
	}
}

func negated(lits []Lit) []Lit {
	out := make([]Lit, len(lits))
	for i, l := range lits {
		out[i] = l.Not()
	}
	return out
}

// MinimalCore solves with the assumptions. On Unsat it returns a core, in their
// order, from which nothing can be spared: without any one of its literals the
// clauses and the rest of it have a model. The budget of MaxConflicts counts for
// each of the solves inside, at most one for each literal of the first core;
// where one of them gives Unknown its literal stays and minimal is false.
func (s *Solver) MinimalCore(assumptions ...Lit) (core []Lit, status Status, minimal bool) {
	status = s.Solve(assumptions...)
	if status != Unsat {
		return nil, status, false
	}
	core, minimal = s.Core(), true
	for _, l := range s.Core() {
		at := slices.Index(core, l)
		if at < 0 {
			continue
		}
		switch s.Solve(slices.Delete(slices.Clone(core), at, at+1)...) {
		case Unsat:
			core = s.Core()
		case Unknown:
			minimal = false
		}
	}
	s.core = append(s.core[:0], core...)
	return core, Unsat, minimal
}
