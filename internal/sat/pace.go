package sat

// pace decides when the search restarts, changes its mode, forgets and tidies
// up. Everything is counted in conflicts and propagations, nothing by clock.
//
// The search alternates between a focused mode (many restarts, order by last
// use, good at refuting) and a stable one (few restarts, order by activity,
// target phases, good at finding models), as in CaDiCaL and Kissat: Biere et
// al., "CaDiCaL, Kissat, Paracooba, Plingeling and Treengeling", 2020.
type pace struct {
	stable bool
	steady bool    // stable for good, once it is
	fast   average // of the LBD of learned clauses
	slow   average

	restartAt int64 // conflicts
	luby      luby
	modeAt    int64 // propagations; conflicts while the first mode lasts
	modes     int64 // changes of mode
	modeSpan  int64 // propagations of the first mode
	reduceAt  int64 // conflicts
	reduced   int64 // times
	rephaseAt int64 // conflicts
	rephases  int64
}

const (
	restartPause  = 2    // conflicts between restarts in focused mode
	restartMargin = 1.10 // restart when recent clauses are this much worse
	lubyUnit      = 1024 // conflicts, in stable mode
	steadyUnit    = 128  // the same where it lasts for good
	firstMode     = 1000 // conflicts
	reduceStep    = 300  // conflicts, growing by as many each time
	rephaseStep   = 1000 // conflicts, growing by as many each time
)

func newPace() pace {
	return pace{
		fast:      average{rate: 0.03},
		slow:      average{rate: 1e-5},
		luby:      luby{u: 1, v: 1},
		modeAt:    firstMode,
		reduceAt:  reduceStep,
		rephaseAt: rephaseStep,
	}
}

func (p *pace) noteConflict(lbd uint32) {
	p.fast.add(float64(lbd))
	p.slow.add(float64(lbd))
}

func (s *Solver) restartDue() bool {
	p := &s.pace
	if s.level() <= s.base || s.stats.Conflicts < p.restartAt {
		return false
	}
	return p.stable || p.fast.value > restartMargin*p.slow.value
}

// restart goes back as far as the next decisions would differ from the present
// ones (van der Tak, Ramos and Heule, "Reusing the Assignment Trail", 2011).
func (s *Solver) restart() {
	s.stats.Restarts++
	s.backtrack(s.reusableLevel())
	s.scheduleRestart()
}

func (s *Solver) scheduleRestart() {
	wait := int64(restartPause)
	if s.pace.stable {
		wait = s.pace.unit() * s.pace.luby.next()
	}
	s.pace.restartAt = s.stats.Conflicts + wait
}

func (p *pace) unit() int64 {
	if p.steady {
		return steadyUnit
	}
	return lubyUnit
}

func (s *Solver) reusableLevel() int {
	next := s.nextVariable()
	level := s.base
	for level < s.level() {
		v := int32(s.trail[s.levels[level]] >> 1)
		if !s.ranksBefore(v, next) {
			break
		}
		level++
	}
	return level
}

func (s *Solver) ranksBefore(v, w int32) bool {
	if w < 0 {
		return true
	}
	if s.pace.stable {
		return s.scores.before(v, w)
	}
	return s.queue.stamp[v] > s.queue.stamp[w]
}

// switchModeWhenDue changes between the focused and the stable mode. The first
// spell is measured in conflicts; the others last as many propagations as that
// one, times the square of the number of pairs so far.
func (s *Solver) switchModeWhenDue() {
	p := &s.pace
	now := s.stats.Propagations
	if p.modes == 0 {
		now = s.stats.Conflicts
	}
	if now < p.modeAt {
		return
	}
	if p.modes == 0 {
		p.modeSpan = s.stats.Propagations
	}
	p.modes++
	pair := p.modes/2 + 1
	p.modeAt = s.stats.Propagations + p.modeSpan*pair*pair
	p.stable = p.steady || !p.stable
	s.phases.reached = 0
	clear(s.phases.target)
	s.backtrack(s.base)
	s.scheduleRestart()
}

// average is an exponential moving average without the bias of its start
// (Kingma and Ba, "Adam", 2015). The conversions keep every machine from fusing
// the product with the sum, so that all of them search alike.
type average struct {
	value, biased, rate, rest float64
	started                   bool
}

func (a *average) add(x float64) {
	if !a.started {
		a.rest, a.started = 1, true
	}
	a.biased += float64(a.rate * (x - a.biased))
	a.rest = float64(a.rest * (1 - a.rate))
	a.value = a.biased / (1 - a.rest)
}

// luby is the sequence 1 1 2 1 1 2 4 … (Knuth's "reluctant doubling", The Art of
// Computer Programming 4B, 7.2.2.2).
type luby struct{ u, v int64 }

func (l *luby) next() int64 {
	now := l.v
	if l.u&-l.u == l.v {
		l.u, l.v = l.u+1, 1
	} else {
		l.v *= 2
	}
	return now
}
