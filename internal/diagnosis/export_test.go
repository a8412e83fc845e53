package diagnosis

import "loomwright/internal/meter"

// Belief is the core of a diagnosis, for tests that take many readings.
type Belief struct {
	b *belief
	j *judge
}

func NewBelief(t *meter.Table) *Belief {
	b := newBelief(t)
	return &Belief{b, &judge{b: b}}
}

// firsts is the first advice of a table, which is always the same.
var firsts = map[*meter.Table]int{}

// First is Next before any reading, remembered.
func (b *Belief) First() int {
	if _, ok := firsts[b.b.t]; !ok {
		firsts[b.b.t] = b.Next()
	}
	return firsts[b.b.t]
}

func (b *Belief) Next() int {
	left := b.b.left()
	if len(left) == 0 {
		return -1
	}
	at, _ := b.j.next(left)
	return at
}

func (b *Belief) See(a meter.Ask, said string) error {
	x, err := understand(b.b.t, Answer{Ask: a.Key(b.b.t.Graph), Said: said})
	if err != nil {
		return err
	}
	b.j.answers = append(b.j.answers, x)
	b.b.see(&x.ask, x.seen, false)
	return nil
}

func (b *Belief) Left() []int { return b.b.left() }

// Gain is the expected gain of a reading in bits.
var Gain = gain

// CaseOf is the case of the table that a suspect is.
func CaseOf(s *Suspect) int { return s.at }
