package sat

// phases remembers the polarity to try first for each variable: 1 true, -1
// false.
type phases struct {
	initial []int8
	saved   []int8 // of the last assignment (Pipatsrisawat and Darwiche, 2007)
	target  []int8 // of the longest trail without conflict since the last rephase; 0: none
	best    []int8 // the same since the last time it was used
	reached int    // length of the target's trail
	record  int    // length of the best's trail
}

func phaseOf(l Lit) int8 {
	if l.Negative() {
		return -1
	}
	return 1
}

func (p *phases) grow() {
	p.initial = append(p.initial, -1)
	p.saved = append(p.saved, -1)
	p.target = append(p.target, 0)
	p.best = append(p.best, 0)
}

func (p *phases) prefer(l Lit) {
	v := l.Var()
	p.initial[v], p.saved[v] = phaseOf(l), phaseOf(l)
	p.target[v] = 0
}

// notePhases keeps the assignment that stood before the conflict when it is
// longer than those seen so far (target phases: Biere and Fleury, "Chasing
// Target Phases", 2020).
func (s *Solver) notePhases() {
	p, length := &s.phases, int(s.levels[s.level()-1])
	if !s.pace.stable {
		return
	}
	if length > p.reached {
		p.reached = length
		s.copyTrail(p.target, length)
	}
	if length > p.record {
		p.record = length
		s.copyTrail(p.best, length)
	}
}

func (s *Solver) copyTrail(to []int8, length int) {
	for _, l := range s.trail[:length] {
		to[l>>1] = phaseOf(l)
	}
}

// decisionLit gives the variable the polarity to try.
func (s *Solver) decisionLit(v int32) Lit {
	phase := s.phases.saved[v]
	if t := s.phases.target[v]; s.pace.stable && t != 0 {
		phase = t
	}
	if phase < 0 {
		return Lit(v)<<1 | 1
	}
	return Lit(v) << 1
}

// rephase overwrites the saved polarities, in turn by the best ones, the
// initial ones, their opposites and random ones.
func (s *Solver) rephase() {
	p := &s.phases
	turn := s.pace.rephases % 6
	for v := range p.saved {
		switch turn {
		case 0, 2, 4:
			if p.best[v] != 0 {
				p.saved[v] = p.best[v]
			}
		case 1:
			p.saved[v] = p.initial[v]
		case 3:
			p.saved[v] = -p.initial[v]
		case 5:
			p.saved[v] = phaseOf(Lit(s.rand() & 1))
		}
	}
	clear(p.target)
	clear(p.best)
	p.reached, p.record = 0, 0
}

// rand is xorshift64* (Vigna, 2016), upper half.
func (s *Solver) rand() uint32 {
	x := s.random
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	s.random = x
	return uint32(x * 0x2545F4914F6CDD1D >> 32)
}
