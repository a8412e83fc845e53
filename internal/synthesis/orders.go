package synthesis

import (
	"slices"

	"loomwright/internal/sat"
)

// ordered reports whether the order of a switch's positions matters: it does
// unless each throw belongs to one position.
func (t *task) ordered(i int) bool {
	sw := &t.g.Switches[i]
	for _, contacts := range sw.Contacts {
		seen := map[int]int{}
		for pos, groups := range contacts {
			for _, g := range groups {
				if len(g) != 2 {
					return true
				}
				_, throws := splitPole(contacts)
				for _, x := range g {
					if before, ok := seen[x]; ok && before != pos && slices.Contains(throws, x) {
						return true
					}
					seen[x] = pos
				}
			}
		}
	}
	return false
}

// reorder looks for an order of a switch's sounds that can be met: each position
// gets the sounds of one position.
func (t *task) reorder(i int, f *effort) ([]Placed, sat.Status) {
	pl := t.whole()
	p, _ := t.build(&pl.specs[0])
	k := slices.Index(t.switches, i)
	e, order := encodeOrders(p, k)
	status := e.solve(f, f.left, e.everything()...)
	if status != sat.Sat {
		return nil, status
	}
	var out []Placed
	for at, from := range e.fewestMoved(order, f) {
		out = append(out, Placed{t.g.Switches[i].Positions[at].Name, t.g.Switches[i].Positions[from].Name})
	}
	return out, sat.Sat
}

// fewestMoved goes on from a model to orders that move fewer sounds, within a
// budget, and returns whose sounds each position gets.
func (e *encoding) fewestMoved(order [][]sat.Lit, f *effort) []int {
	gets := chosen(e.s, order)
	var stay []sat.Lit
	for at := range order {
		stay = append(stay, order[at][at])
	}
	many := e.total(stay)
	for n := staying(gets); n < len(gets) && e.solve(f, orderEffort, append(e.everything(), many[n])...) == sat.Sat; n = staying(gets) {
		gets = chosen(e.s, order)
	}
	return gets
}

// orderEffort bounds each step to an order that moves fewer sounds.
const orderEffort = 2000

// chosen reads, for each position, whose sounds it gets.
func chosen(s *sat.Solver, order [][]sat.Lit) []int {
	out := make([]int, len(order))
	for at := range order {
		out[at] = slices.IndexFunc(order[at], s.Value)
	}
	return out
}

// staying counts the positions that keep their sounds.
func staying(gets []int) int {
	n := 0
	for at, from := range gets {
		if at == from {
			n++
		}
	}
	return n
}

// encodeOrders encodes a puzzle in which the positions of one switch may
// exchange their sounds: order[at][from] says that position at gets those of
// position from.
func encodeOrders(p *puzzle, sw int) (e *encoding, order [][]sat.Lit) {
	n := p.switches[sw].positions
	bare := *p
	bare.settings = nil
	r := feasible()
	r.count = false
	e = encode(&bare, r.settle(p), sat.Options{})
	for range n {
		order = append(order, e.s.NewVars(n))
	}
	for a := range n {
		var column []sat.Lit
		for b := range n {
			column = append(column, order[b][a])
			for c := range b {
				e.s.AddClause(order[a][b].Not(), order[a][c].Not())
				e.s.AddClause(order[b][a].Not(), order[c][a].Not())
			}
		}
		e.s.AddClause(order[a]...)
		e.s.AddClause(column...)
		e.s.Prefer(order[a][a])
	}
	for i := range p.settings {
		e.settingInOrder(p, i, sw, order)
	}
	return e, order
}

// settingInOrder demands of a setting what the position that it gets demands.
func (e *encoding) settingInOrder(p *puzzle, i, sw int, order [][]sat.Lit) {
	groups := p.contacts(p.settings[i].at)
	r := e.reach(groups, e.portNodes())
	for from, chosen := range order[p.settings[i].at[sw]] {
		k := p.settingAt(i, sw, from)
		if k < 0 {
			continue
		}
		switch w := p.settings[k].wish; w {
		case anything:
		case nothing:
			e.s.AddClause(e.upon.Not(), chosen.Not(), r[hot][ground].Not())
		default:
			e.require(groups, r, &p.wishes[w], e.g.And(e.wanted[w], chosen))
		}
	}
}
