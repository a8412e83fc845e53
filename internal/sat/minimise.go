package sat

// Limits of minimise.
const (
	maxDepth        = 1000 // of the recursion in removable
	strengthenLBD   = 6    // clauses of more levels are not worth strengthening
	strengthenWidth = 30   // nor those of more literals
)

// minimise drops literals that the others imply (Sörensson and Biere,
// "Minimizing Learned Clauses", 2009), then those that binary clauses of the
// first literal make needless.
func (s *Solver) minimise(lbd uint32) {
	a := &s.analyst
	kept := a.clause[:1]
	for _, l := range a.clause[1:] {
		if !s.removable(l, 0) {
			kept = append(kept, l)
		}
	}
	a.clause = kept
	if lbd <= strengthenLBD && len(kept) <= strengthenWidth {
		s.strengthenByBinaries()
	}
}

// removable reports whether the reasons of a false literal lead to literals of
// the clause or level 0 only.
func (s *Solver) removable(l Lit, depth int) bool {
	a, v := &s.analyst, l>>1
	state, marks := &s.vars[v], a.marks[v]
	if state.level == 0 || marks&markRemovable != 0 || depth > 0 && marks&markSeen != 0 {
		return true
	}
	use := &a.perLvl[state.level]
	if state.reason == noRef || marks&markKept != 0 || depth > maxDepth ||
		use.count == 0 || depth == 0 && use.count < 2 || state.place <= use.first {
		return false
	}
	mark := markRemovable
	for _, other := range s.arena.lits(state.reason) {
		if other>>1 != v && !s.removable(other, depth+1) {
			mark = markKept
			break
		}
	}
	a.marks[v] |= mark
	a.tried = append(a.tried, int32(v))
	return mark == markRemovable
}

// strengthenByBinaries drops a literal where a clause of two says that the
// first literal holds or this one does not (as in Glucose).
func (s *Solver) strengthenByBinaries() {
	a, found := &s.analyst, false
	for _, w := range s.watches[a.clause[0]] {
		v := w.blocker >> 1
		if w.binary() && s.vals[w.blocker] > 0 && a.marks[v]&markSeen != 0 {
			a.marks[v] |= markNeedless
			found = true
		}
	}
	if !found {
		return
	}
	kept := a.clause[:1]
	for _, l := range a.clause[1:] {
		if a.marks[l>>1]&markNeedless == 0 {
			kept = append(kept, l)
		}
	}
	a.clause = kept
}
