package sat

// watch stands in the list of a literal of a clause that is looked at when
// the literal becomes false. While the blocker, another literal of the
// clause, is true there is nothing to do. For a clause of two the blocker is the
// other literal.
type watch struct {
	blocker Lit
	tagged  ref
}

const binaryTag ref = 1 << 31

func (w watch) ref() ref     { return w.tagged &^ binaryTag }
func (w watch) binary() bool { return w.tagged&binaryTag != 0 }

// attach stores a clause of at least two literals and watches the first two.
func (s *Solver) attach(lits []Lit, marks, lbd uint32) ref {
	c := s.arena.alloc(lits, marks, lbd)
	tagged := c
	if len(lits) == 2 {
		tagged |= binaryTag
	}
	s.watches[lits[0]] = append(s.watches[lits[0]], watch{lits[1], tagged})
	s.watches[lits[1]] = append(s.watches[lits[1]], watch{lits[0], tagged})
	return c
}

// assign makes an open literal true at the current level. At level 0 the literal
// becomes a lemma of its own and needs its reason no more.
func (s *Solver) assign(l Lit, reason ref) {
	if len(s.levels) == 0 && reason != noRef {
		s.proof.unit(l)
		reason = noRef
	}
	s.vals[l], s.vals[l^1] = 1, -1
	s.vars[l>>1] = varState{int32(len(s.levels)), int32(len(s.trail)), reason}
	s.trail = append(s.trail, l)
}

// propagate draws all consequences of the trail by unit clauses (two watched
// literals: Moskewicz et al., "Chaff", 2001; blockers as in MiniSat 2.2). It
// returns a clause whose literals are all false, or noRef.
func (s *Solver) propagate() ref {
	conflict := noRef
	for conflict == noRef && s.qhead < len(s.trail) {
		p := s.trail[s.qhead]
		s.qhead++
		s.stats.Propagations++
		conflict = s.visitWatches(p.Not())
	}
	return conflict
}

// visitWatches restores the watches of a literal that has become false. This is
// where a search spends its time.
func (s *Solver) visitWatches(falsified Lit) ref {
	vals, words := s.vals, s.arena.words
	ws := s.watches[falsified]
	conflict, kept := noRef, 0
	for i := 0; i < len(ws) && conflict == noRef; i++ {
		w := ws[i]
		value := vals[w.blocker]
		if value <= 0 && w.tagged&binaryTag == 0 {
			c := w.tagged
			lits := words[c+headerWords : c+headerWords+ref(words[c])]
			w.blocker = lits[0] ^ lits[1] ^ falsified
			if value = vals[w.blocker]; value <= 0 {
				if k := findWatch(vals, lits, &words[c+2]); k > 0 {
					fresh := lits[k]
					lits[0], lits[1], lits[k] = w.blocker, fresh, falsified
					s.watches[fresh] = append(s.watches[fresh], w)
					continue
				}
			}
		}
		ws[kept] = w
		kept++
		switch {
		case value < 0:
			conflict = w.ref()
			kept += copy(ws[kept:], ws[i+1:])
		case value == 0:
			s.assign(w.blocker, w.ref())
		}
	}
	s.watches[falsified] = ws[:kept]
	return conflict
}

// findWatch returns the index of a literal beyond the first two that is not
// false, or 0. It starts where it found one last time (Gent, "Optimal
// Implementation of Watched Literals and More General Techniques", 2013).
func findWatch(vals []int8, lits []Lit, last *Lit) int {
	from := int(*last)
	for k := from; k < len(lits); k++ {
		if vals[lits[k]] >= 0 {
			*last = Lit(k)
			return k
		}
	}
	for k := 2; k < from; k++ {
		if vals[lits[k]] >= 0 {
			*last = Lit(k)
			return k
		}
	}
	return 0
}

func (s *Solver) level() int { return len(s.levels) }

func (s *Solver) newLevel() { s.levels = append(s.levels, int32(len(s.trail))) }

// backtrack takes back every assignment above the level.
func (s *Solver) backtrack(level int) {
	if s.level() <= level {
		return
	}
	start := int(s.levels[level])
	for i := len(s.trail) - 1; i >= start; i-- {
		l := s.trail[i]
		v := int32(l >> 1)
		s.vals[l], s.vals[l^1] = 0, 0
		s.phases.saved[v] = phaseOf(l)
		s.scores.push(v)
		s.queue.unassigned(v)
	}
	s.trail = s.trail[:start]
	s.levels = s.levels[:level]
	s.qhead = start
}
