package sat

// newlyFixed reports whether variables have got their value for good since the
// last simplify.
func (s *Solver) newlyFixed() bool {
	return s.simplified < s.Stats().Fixed
}

// simplify removes, at level 0, clauses that are true for good and literals that
// are false for good. It returns false when the clauses are refuted.
func (s *Solver) simplify() bool {
	s.backtrack(0)
	s.propagateFixed()
	if s.broken {
		return false
	}
	s.simplified = len(s.trail) - 1
	for _, list := range []*[]ref{&s.original, &s.learned} {
		for i, c := range *list {
			if !s.arena.has(c, markGarbage) {
				(*list)[i] = s.strip(c)
			}
		}
	}
	return true
}

// strip discards a clause that is true for good and cuts false literals from
// others. It returns the clause, which is a new one when only two are left.
func (s *Solver) strip(c ref) ref {
	open := s.spare[:0]
	for _, l := range s.arena.lits(c) {
		switch s.vals[l] {
		case 1:
			s.discard(c)
			return c
		case 0:
			open = append(open, l)
		}
	}
	s.spare = open
	if len(open) == s.arena.size(c) {
		return c
	}
	return s.shorten(c, open)
}

// shorten replaces a clause, at level 0, by some of its literals, none of them
// assigned, at least two. The first two watch.
func (s *Solver) shorten(c ref, lits []Lit) ref {
	s.proof.lemma(lits)
	marks := uint32(s.arena.words[c+1]) & (markLearned | maskUsed)
	lbd := min(s.arena.lbd(c), uint32(len(lits)-1))
	s.discard(c)
	return s.attach(lits, marks, lbd)
}
