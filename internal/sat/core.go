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
	s.proof.lemma(negated(s.core))
}

func negated(lits []Lit) []Lit {
	out := make([]Lit, len(lits))
	for i, l := range lits {
		out[i] = l.Not()
	}
	return out
}

// MinimalCore solves with the assumptions and, on Unsat, returns a core of which
// no literal can be spared: without any single one of them the rest holds
// together. The literals are tried from the last to the first, so those given
// first are kept by preference...
func (s *Solver) MinimalCore(assumptions ...Lit) (core []Lit, status Status) {
	return nil, Unknown
}
