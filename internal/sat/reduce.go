package sat

import (
	"cmp"
	"slices"
)

// Learned clauses of few levels stay for good, those of some levels for two
// reductions after a use, the others for one (tiers: Oh, "Between SAT and
// UNSAT", 2015).
const (
	tierCore = 2
	tierMid  = 6
)

// reducePart is the share of the candidates that a reduction forgets.
const reducePart = 0.75

// reduce forgets the learned clauses that seem least useful.
func (s *Solver) reduce() {
	if s.newlyFixed() && !s.simplify() {
		return
	}
	candidates := s.forgettable()
	a := &s.arena
	slices.SortStableFunc(candidates, func(x, y ref) int {
		return cmp.Or(cmp.Compare(a.lbd(y), a.lbd(x)), cmp.Compare(a.size(y), a.size(x)))
	})
	for _, c := range candidates[:int(float64(len(candidates))*reducePart)] {
		s.discard(c)
		s.stats.Forgotten++
	}
	s.collect()
}

// forgettable returns the learned clauses that a reduction may forget, and ages
// the others.
func (s *Solver) forgettable() []ref {
	var out []ref
	for _, c := range s.learned {
		if s.arena.has(c, markGarbage) || s.arena.lbd(c) <= tierCore || s.isReason(c) {
			continue
		}
		if used := s.arena.used(c); used > 0 {
			s.arena.setUsed(c, used-1)
			continue
		}
		out = append(out, c)
	}
	return out
}

// isReason reports whether an assignment rests on the clause.
func (s *Solver) isReason(c ref) bool {
	for _, l := range s.arena.lits(c)[:2] {
		if s.vals[l] > 0 && s.vars[l>>1].reason == c {
			return true
		}
	}
	return false
}

// discard takes a clause out of the problem; its watches go at the next
// collection.
func (s *Solver) discard(c ref) {
	s.proof.forget(s.arena.lits(c))
	s.arena.discard(c)
}

// collect drops the watches of garbage clauses and, when enough of the arena is
// waste, copies the living clauses to a fresh one.
func (s *Solver) collect() {
	for l := range s.watches {
		ws := s.watches[l]
		kept := ws[:0]
		for _, w := range ws {
			if !s.arena.has(w.ref(), markGarbage) {
				kept = append(kept, w)
			}
		}
		s.watches[l] = kept
	}
	dead := func(c ref) bool { return s.arena.has(c, markGarbage) }
	s.original = slices.DeleteFunc(s.original, dead)
	s.learned = slices.DeleteFunc(s.learned, dead)
	if s.arena.wasted*4 > len(s.arena.words) {
		s.compact()
	}
}

// compact moves the living clauses together, in the order in which the watches
// meet them.
func (s *Solver) compact() {
	to := arena{words: make([]Lit, 0, len(s.arena.words)-s.arena.wasted)}
	for l := range s.watches {
		ws := s.watches[l]
		for i, w := range ws {
			ws[i].tagged = s.arena.move(w.ref(), &to) | w.tagged&binaryTag
		}
	}
	for _, l := range s.trail {
		if r := &s.vars[l>>1].reason; *r != noRef {
			*r = s.arena.move(*r, &to)
		}
	}
	for _, list := range [][]ref{s.original, s.learned} {
		for i, c := range list {
			list[i] = s.arena.move(c, &to)
		}
	}
	s.arena = to
}
