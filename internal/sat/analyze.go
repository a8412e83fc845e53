package sat

import (
	"cmp"
	"slices"
)

// analyst holds what conflict analysis needs between its steps.
type analyst struct {
	marks   []uint8    // variable → bits below
	seen    []int32    // variables with markSeen
	tried   []int32    // variables with markRemovable or markKept
	clause  []Lit      // the learned clause: first the literal that flips
	perLvl  []levelUse // level → what the clause holds of it
	touched []int32    // levels with an entry in perLvl
	stamp   []uint32   // level → time of its last count in an LBD
	clock   uint32
}

type levelUse struct {
	count int32 // seen literals of this level
	first int32 // place of the earliest of them in the trail
}

const (
	markSeen      uint8 = 1 << iota // in the clause, or resolved away
	markRemovable                   // minimise: implied by the rest of the clause
	markKept                        // minimise: not known to be implied
	markNeedless                    // strengthen: a binary clause makes up for it
)

func (a *analyst) grow() {
	a.marks = append(a.marks, 0)
	a.perLvl = append(a.perLvl, levelUse{})
	a.stamp = append(a.stamp, 0)
	if len(a.perLvl) == 1 { // one level more than variables: that of assumptions
		a.perLvl = append(a.perLvl, levelUse{})
		a.stamp = append(a.stamp, 0)
	}
}

// learn turns a conflict into a clause, goes back to where that clause forces a
// literal, and assigns it.
func (s *Solver) learn(conflict ref) {
	s.notePhases()
	s.resolveToUIP(conflict)
	lbd := s.countLevels(s.analyst.clause)
	s.pace.noteConflict(lbd)
	s.minimise(lbd)
	s.seeReasons()
	s.useSeen()
	clause := s.analyst.clause
	jump := s.moveSecondWatch(clause)
	s.clearAnalysis()
	s.proof.lemma(clause)
	s.backtrack(jump)
	s.stats.Learned++
	if len(clause) == 1 {
		s.assign(clause[0], noRef)
		return
	}
	c := s.attach(clause, markLearned, lbd)
	s.arena.setUsed(c, 1)
	s.learned = append(s.learned, c)
	s.assign(clause[0], c)
}

// resolveToUIP resolves the conflict with the reasons of its literals until one
// literal of the current level is left (Marques-Silva and Sakallah, "GRASP",
// 1999; first point as in Chaff).
func (s *Solver) resolveToUIP(conflict ref) {
	a := &s.analyst
	a.clause = append(a.clause[:0], noLit)
	open, at, reason, pivot := 0, len(s.trail), conflict, noLit
	for {
		s.useClause(reason)
		for _, l := range s.arena.lits(reason) {
			if l != pivot && s.see(l) {
				open++
			}
		}
		at--
		for a.marks[s.trail[at]>>1]&markSeen == 0 {
			at--
		}
		pivot = s.trail[at]
		open--
		if open == 0 {
			break
		}
		reason = s.vars[pivot>>1].reason
	}
	a.clause[0] = pivot.Not()
}

// see marks a false literal and reports whether it is of the current level; one
// of a lower level joins the clause.
func (s *Solver) see(l Lit) bool {
	a, v := &s.analyst, l>>1
	state := &s.vars[v]
	if state.level == 0 || a.marks[v]&markSeen != 0 {
		return false
	}
	a.marks[v] |= markSeen
	a.seen = append(a.seen, int32(v))
	use := &a.perLvl[state.level]
	if use.count == 0 {
		a.touched = append(a.touched, state.level)
		use.first = state.place
	}
	use.count++
	use.first = min(use.first, state.place)
	if int(state.level) == s.level() {
		return true
	}
	a.clause = append(a.clause, l)
	return false
}

// useClause notes that a learned clause was worth keeping and recounts its
// levels (Audemard and Simon, "Predicting Learnt Clauses Quality", 2009).
func (s *Solver) useClause(c ref) {
	if !s.arena.has(c, markLearned) {
		return
	}
	old := s.arena.lbd(c)
	if old <= tierCore {
		return
	}
	lbd := s.countLevels(s.arena.lits(c))
	if lbd < old {
		s.arena.setLBD(c, lbd)
	}
	used := uint32(1)
	if min(lbd, old) <= tierMid {
		used = 2
	}
	s.arena.setUsed(c, used)
}

// countLevels returns the LBD of assigned literals: how many levels they are
// of, not counting one of them, the clause's own.
func (s *Solver) countLevels(lits []Lit) uint32 {
	a, n := &s.analyst, uint32(0)
	a.clock++
	for _, l := range lits {
		level := s.vars[l>>1].level
		if a.stamp[level] != a.clock {
			a.stamp[level] = a.clock
			n++
		}
	}
	return n - 1
}

// seeReasons adds, for the use counts only, the literals of the reasons of the
// clause (Liang et al., "Learning Rate Based Branching", 2016).
func (s *Solver) seeReasons() {
	a := &s.analyst
	for _, l := range a.clause[1:] {
		reason := s.vars[l>>1].reason
		if reason == noRef {
			continue
		}
		for _, other := range s.arena.lits(reason) {
			if v := other >> 1; a.marks[v]&markSeen == 0 && s.vars[v].level > 0 {
				a.marks[v] |= markSeen
				a.seen = append(a.seen, int32(v))
			}
		}
	}
}

// useSeen raises the rank of the variables that took part in the conflict.
func (s *Solver) useSeen() {
	if s.pace.stable {
		for _, v := range s.analyst.seen {
			s.scores.use(v)
		}
		s.scores.decay()
		return
	}
	slices.SortFunc(s.analyst.seen, func(v, w int32) int {
		return cmp.Compare(s.queue.stamp[v], s.queue.stamp[w])
	})
	for _, v := range s.analyst.seen {
		s.queue.use(v)
	}
}

// moveSecondWatch puts a literal of the highest level below the current one
// second and returns that level; the clause forces its first literal there.
func (s *Solver) moveSecondWatch(clause []Lit) int {
	if len(clause) == 1 {
		return 0
	}
	best := 1
	for i, l := range clause {
		if i > 1 && s.vars[l>>1].level > s.vars[clause[best]>>1].level {
			best = i
		}
	}
	clause[1], clause[best] = clause[best], clause[1]
	return int(s.vars[clause[1]>>1].level)
}

func (s *Solver) clearAnalysis() {
	a := &s.analyst
	for _, v := range a.seen {
		a.marks[v] = 0
	}
	for _, v := range a.tried {
		a.marks[v] = 0
	}
	for _, level := range a.touched {
		a.perLvl[level] = levelUse{}
	}
	a.seen, a.tried, a.touched = a.seen[:0], a.tried[:0], a.touched[:0]
}
