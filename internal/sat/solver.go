package sat

import (
	"io"
	"slices"
)

// Status is the outcome of Solve.
type Status int8

// The outcomes. Unknown means that the budget ran out or Stop said so.
const (
	Unknown Status = iota
	Sat
	Unsat
)

func (s Status) String() string { return [...]string{"unknown", "sat", "unsat"}[s] }

// Options of a new solver. The zero value is ready to use.
type Options struct {
	Proof io.Writer // where to write the refutation as DRAT text; nil: nowhere
	Seed  uint64    // of pseudo-random choices: another seed takes another way

	// Steady keeps to the stable mode after the first spell of the focused one:
	// better where counts have to be refuted.
	Steady bool
}

// Solver decides a growing set of clauses. Make one with New; the fields may be
// set between calls. It is not safe for use by several goroutines.
type Solver struct {
	// MaxConflicts is the budget of one Solve in conflicts; 0 is no limit.
	MaxConflicts int64
	// Stop, when set, is asked every PollEvery conflicts whether to give up.
	Stop func() bool
	// Progress, when set, is called every PollEvery conflicts.
	Progress func(Stats)
	// PollEvery is the number of conflicts between polls; New sets 256.
	PollEvery int64

	broken   bool  // refuted without any assumption
	problem  []Lit // every clause as it was added, each ended by noLit
	clauses  int   // number of clauses in problem
	original []ref // its clauses in the arena, as far as not satisfied
	learned  []ref
	arena    arena
	watches  [][]watch // literal → clauses to look at when it becomes false
	vals     []int8    // literal → 1 true, -1 false, 0 open
	vars     []varState
	trail    []Lit
	levels   []int32 // level-1 → length of the trail before its decision
	qhead    int     // trail[:qhead] is propagated

	simplified int   // Stats.Fixed at the last simplify
	spare      []Lit // for strip

	assumptions []Lit
	base        int // level below which no decision is free: 1 with assumptions
	core        []Lit
	model       []int8 // literal → value in the latest model

	scores  scoreHeap
	queue   useQueue
	phases  phases
	analyst analyst
	pace    pace
	proof   *proof
	seed    uint64
	random  uint64 // state of rand
	stats   Stats
}

type varState struct {
	level  int32
	place  int32 // in the trail
	reason ref
}

// New returns a solver without variables or clauses.
func New(o Options) *Solver {
	s := &Solver{PollEvery: 256, proof: newProof(o.Proof), seed: o.Seed, random: o.Seed*2 + 1}
	s.queue = useQueue{first: -1, last: -1, search: -1}
	s.scores.bump = 1
	s.pace = newPace()
	s.pace.steady = o.Steady
	s.addVar()
	s.assign(True, noRef)
	s.qhead = len(s.trail)
	return s
}

// NewVar adds a variable and returns its positive literal. Variables count from
// 1.
func (s *Solver) NewVar() Lit {
	s.backtrack(0)
	return s.addVar()
}

func (s *Solver) addVar() Lit {
	v := int32(len(s.vars))
	s.vars = append(s.vars, varState{reason: noRef})
	s.vals = append(s.vals, 0, 0)
	s.watches = append(s.watches, nil, nil)
	s.phases.grow()
	s.analyst.grow()
	s.scores.grow(v, s.firstScore())
	s.queue.grow(v)
	return Lit(v) << 1
}

// firstScore disturbs the order of variables that were never used, less than any
// use does, unless the seed is 0.
func (s *Solver) firstScore() float64 {
	if s.seed == 0 {
		return 0
	}
	return float64(s.rand()) * 1e-15
}

// NewVars adds n variables and returns their positive literals.
func (s *Solver) NewVars(n int) []Lit {
	lits := make([]Lit, n)
	for i := range lits {
		lits[i] = s.NewVar()
	}
	return lits
}

// NumVars returns the number of variables.
func (s *Solver) NumVars() int { return len(s.vars) - 1 }

// NumClauses returns the number of clauses added, tautologies not counted.
func (s *Solver) NumClauses() int { return s.clauses }

// AddClause demands that one of the literals be true. It can be called at any
// time between two Solves; the model and the core of the last one stay. All
// variables must come from NewVar.
func (s *Solver) AddClause(lits ...Lit) {
	s.backtrack(0)
	clause, trivial := normalise(lits)
	if trivial {
		return
	}
	s.problem = append(append(s.problem, clause...), noLit)
	s.clauses++
	if s.broken {
		return
	}
	n := len(clause)
	open, satisfied := s.openLits(clause)
	if satisfied {
		return
	}
	if len(open) < n {
		s.proof.lemma(open)
		s.proof.forget(s.lastProblemClause(n))
	}
	s.install(open)
}

// install stores a clause without fixed literals, at level 0.
func (s *Solver) install(open []Lit) {
	switch len(open) {
	case 0:
		s.broken = true
	case 1:
		s.assign(open[0], noRef)
		s.propagateFixed()
	default:
		s.original = append(s.original, s.attach(open, 0, 0))
	}
}

// propagateFixed propagates at level 0.
func (s *Solver) propagateFixed() {
	if !s.broken && s.propagate() != noRef {
		s.refuted()
	}
}

// refuted records that the clauses alone contradict each other.
func (s *Solver) refuted() {
	s.broken = true
	s.proof.lemma(nil)
}

func (s *Solver) lastProblemClause(n int) []Lit {
	end := len(s.problem) - 1
	return s.problem[end-n : end]
}

// normalise returns the clause without repeated literals and False, or says
// that it is trivial: it holds True or a literal and its negation. The literals
// are sorted.
func normalise(lits []Lit) (clause []Lit, trivial bool) {
	clause = slices.Clone(lits)
	slices.Sort(clause)
	clause = slices.Compact(clause)
	for i, l := range clause {
		if l == True || i > 0 && l == clause[i-1].Not() {
			return nil, true
		}
	}
	if len(clause) > 0 && clause[0] == False {
		clause = clause[1:]
	}
	return clause, false
}

// openLits drops the literals that are false for good, in place, and reports
// whether one is true for good. It is called at level 0.
func (s *Solver) openLits(clause []Lit) (open []Lit, satisfied bool) {
	open = clause[:0]
	for _, l := range clause {
		switch s.vals[l] {
		case 1:
			return nil, true
		case 0:
			open = append(open, l)
		}
	}
	return open, false
}

// Value reports whether the literal is true in the latest model, which later
// Solves without a model leave as it was. A variable made after it is false.
func (s *Solver) Value(l Lit) bool {
	if int(l) >= len(s.model) {
		return l == True || l > False && l.Negative()
	}
	return s.model[l] > 0
}

// Fixed returns True or False when the clauses found so far force the literal,
// and the literal itself otherwise.
func (s *Solver) Fixed(l Lit) Lit {
	if s.vals[l] == 0 || s.vars[l.Var()].level > 0 {
		return l
	}
	return Bool(s.vals[l] > 0)
}

// Prefer sets the polarity that the search tries first for the literal's
// variable, until it learns better. A fresh variable prefers false.
func (s *Solver) Prefer(l Lit) { s.phases.prefer(l) }
