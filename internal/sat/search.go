package sat

// Solve looks for a model of the clauses in which the assumptions are true. On
// Sat read it with Value; on Unsat, Core tells which assumptions were to blame.
// Unknown means that MaxConflicts were spent or that Stop asked to end. What was
// learned stays for the next call.
func (s *Solver) Solve(assumptions ...Lit) Status {
	s.backtrack(0)
	s.core = s.core[:0]
	s.assumptions = append(s.assumptions[:0], assumptions...)
	s.base = min(1, len(assumptions))
	s.stats.Solves++
	status := Unsat
	if !s.broken {
		status = s.search(s.stats.Conflicts + s.MaxConflicts)
	}
	if status == Sat {
		s.model = append(s.model[:0], s.vals...)
	}
	s.backtrack(0)
	s.proof.flush()
	return status
}

// search runs conflict-driven clause learning until the answer is known or the
// count of conflicts reaches the limit.
func (s *Solver) search(limit int64) Status {
	for {
		conflict := s.propagate()
		if conflict == noRef {
			switch {
			case s.MaxConflicts > 0 && s.stats.Conflicts >= limit:
				return Unknown
			case s.restartDue():
				s.restart()
			case s.level() < s.base:
				if !s.assume() {
					return Unsat
				}
			case !s.decide():
				return Sat
			}
			continue
		}
		s.stats.Conflicts++
		if s.level() <= s.base {
			s.failByConflict(conflict)
			return Unsat
		}
		s.learn(conflict)
		if s.stopAsked() {
			return Unknown
		}
		if !s.tidy() {
			return Unsat
		}
	}
}

// stopAsked polls the caller.
func (s *Solver) stopAsked() bool {
	if s.stats.Conflicts%max(1, s.PollEvery) != 0 {
		return false
	}
	if s.Progress != nil {
		s.Progress(s.Stats())
	}
	return s.Stop != nil && s.Stop()
}

// tidy does the housekeeping that is due after a conflict. It returns false
// when that refutes the clauses.
func (s *Solver) tidy() bool {
	p := &s.pace
	s.switchModeWhenDue()
	if s.stats.Conflicts >= p.rephaseAt {
		s.rephase()
		p.rephases++
		p.rephaseAt = s.stats.Conflicts + rephaseStep*(p.rephases+1)
		s.backtrack(s.base)
	}
	if s.stats.Conflicts >= p.reduceAt {
		p.reduced++
		p.reduceAt = s.stats.Conflicts + reduceStep*(p.reduced+1)
		s.reduce()
	}
	return !s.broken
}

// decide guesses the most promising variable. It returns false when all
// variables have values.
func (s *Solver) decide() bool {
	v := s.nextVariable()
	if v < 0 {
		return false
	}
	s.stats.Decisions++
	s.newLevel()
	s.assign(s.decisionLit(v), noRef)
	return true
}

// nextVariable returns the open variable that ranks first, or -1.
func (s *Solver) nextVariable() int32 {
	if !s.pace.stable {
		v := s.queue.search
		for v >= 0 && s.vals[v*2] != 0 {
			v = s.queue.prev[v]
		}
		if v >= 0 {
			s.queue.search = v
		}
		return v
	}
	for len(s.scores.heap) > 0 {
		if v := s.scores.heap[0]; s.vals[v*2] == 0 {
			return v
		}
		s.scores.pop()
	}
	return -1
}

// assume makes all assumptions true on one level of their own, so that many of
// them cost no more than few. It returns false when they cannot all hold.
func (s *Solver) assume() bool {
	s.newLevel()
	for _, a := range s.assumptions {
		if s.vals[a] < 0 {
			s.failByAssumption(a)
			return false
		}
		if s.vals[a] > 0 {
			continue
		}
		s.assign(a, noRef)
		if conflict := s.propagate(); conflict != noRef {
			s.failByConflict(conflict)
			return false
		}
	}
	return true
}
