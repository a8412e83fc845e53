package synthesis

import (
	"slices"

	"loomwright/internal/sat"
)

// rules are the shortcuts of the search. Each keeps at least one wiring with
// the fewest joins under the condition that its method states; where the
// condition does not hold for a switch, the rule leaves that switch alone.
type rules struct {
	own     bool // nothing is soldered to its own common
	mates   bool // nothing is soldered to a lug that meets nothing
	sink    bool // a throw on a common that leads on goes where that common leads
	reach   bool // no net is of one switch alone
	poles   bool // equal poles stand in order
	columns bool // throws of joined poles stand in order
	turns   bool // a coil that may lie either way lies in order
	count   bool // a setting merges no more nets than it closes contacts
}

// allRules is what the search for the fewest joins uses.
func allRules() rules { return rules{true, true, true, true, true, true, true, true} }

// settle turns off, for a whole puzzle, the rules whose conditions fail.
//
// own, mates: taking a lug out of its net saves a join; a limit of wires per
// lug can make a spare lug worth a join.
// sink, reach: exchange joins for as many others, which may break such a limit.
// count, poles, columns: always sound.
func (r rules) settle(p *puzzle) rules {
	if p.limited {
		r.own, r.mates, r.sink, r.reach = false, false, false, false
	}
	return r
}

// plainThrows reports whether all contacts of a switch join a common to one
// throw of its own, each throw in one position, and all its lugs may move.
func (s *selector) plainThrows() bool {
	for _, q := range s.poles {
		if !q.regular || slices.ContainsFunc(q.when, func(w []int) bool { return len(w) != 1 }) {
			return false
		}
	}
	for _, groups := range s.closed {
		if slices.ContainsFunc(groups, func(g []int) bool { return len(g) != 2 }) {
			return false
		}
	}
	return s.plain
}

// apply adds the clauses of the rules.
func (e *encoding) apply() {
	if e.rules.mates {
		e.applyMates()
	}
	for i := range e.p.switches {
		s := &e.p.switches[i]
		if e.rules.sink {
			e.applySink(s)
		}
		if e.rules.reach {
			e.applyReach(s)
		}
		e.applySymmetry(s)
	}
	if e.rules.turns {
		e.applyTurns()
	}
}

// applyMates: a lug whose contacts meet only lugs without anything soldered to
// them is left alone. Condition: the lug can be left alone (it is no port and
// not joined already). Taking it out of its net saves a join.
func (e *encoding) applyMates() {
	for _, x := range e.p.lugNodes() {
		if !e.p.movable(x) {
			continue
		}
		clause := []sat.Lit{e.used[x].Not()}
		for _, y := range e.meets[x] {
			clause = append(clause, e.alive[y])
		}
		e.s.AddClause(clause...)
	}
}

// applySink: where a throw x is soldered to the common of another pole whose
// own throw y is in use and closed exactly when x is, x can be soldered to y
// instead: whenever x matters, y and that common are one. The number of joins
// and of jumpers stays. Condition: both columns are movable lugs closed in the
// same positions. (Moving on along used throws ends, because a loop of them
// would hold a join too many.)
func (e *encoding) applySink(s *selector) {
	for i, p := range s.poles {
		for k, q := range s.poles {
			if i == k || !p.regular || !q.regular {
				continue
			}
			for n, x := range p.throws {
				if m := columnOf(&q, p.when[n]); m >= 0 && e.p.movable(x) && e.p.movable(q.throws[m]) {
					e.s.AddClause(e.same[x][q.common].Not(), e.used[q.throws[m]].Not())
				}
			}
		}
	}
}

// columnOf finds the one throw of a pole that is closed in exactly these
// positions, or −1.
func columnOf(q *pole, when []int) int {
	found := -1
	for m, w := range q.when {
		if slices.Equal(w, when) {
			if found >= 0 {
				return -1
			}
			found = m
		}
	}
	return found
}

// applyReach: a used lug shares its net with something that is not of its own
// switch; a common may also share it with another common.
//
// In a switch of plain throws, a net of its own lugs alone is touched by no other
// contacts. What its throws of one column join there, one throw fewer on a
// common joins as well; and a throw on a common moves on as in applySink. For
// any other switch the weaker demand holds that the net is not of one pole alone:
// such a net leads only to that pole's common.
func (e *encoding) applyReach(s *selector) {
	plain := s.plainThrows()
	lugs := s.lugs()
	for _, p := range s.poles {
		if !p.regular {
			continue
		}
		own := lugs
		if !plain {
			own = append([]int{p.common}, p.throws...)
		}
		for _, x := range append([]int{p.common}, p.throws...) {
			if !e.p.movable(x) {
				continue
			}
			clause := []sat.Lit{e.used[x].Not()}
			for y := range e.p.nodes {
				other := !slices.Contains(own, y)
				common := x == p.common && s.isCommon(y)
				several := e.p.nodes[y].several
				if y != x && (other || common || several) {
					clause = append(clause, e.same[x][y])
				}
			}
			e.s.AddClause(clause...)
		}
	}
}

// lugs lists all nodes of a switch.
func (s *selector) lugs() []int {
	var out []int
	for _, p := range s.poles {
		if p.common >= 0 {
			out = append(out, p.common)
		}
		out = append(out, p.throws...)
	}
	return out
}

func (s *selector) isCommon(x int) bool {
	return slices.ContainsFunc(s.poles, func(p pole) bool { return p.common == x })
}
