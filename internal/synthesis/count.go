package synthesis

import (
	"fmt"
	"slices"

	"loomwright/internal/sat"
)

// count adds the number of joins in unary: the nodes of each net but one. The
// throws are counted column by column, and the same counts bound each setting
// from below.
func (e *encoding) count() {
	ports, commons := e.first(commonNode), e.first(throwNode)
	var head []sat.Lit
	for x := 1; x < commons; x++ {
		head = append(head, e.g.Or(e.others(x, x)...))
	}
	e.joins = e.total(head[:ports-1])
	e.joins = e.sum(e.joins, e.total(head[ports-1:]))
	if e.rules.count {
		e.bounds()
	}
	for _, column := range e.throwColumns() {
		e.joins = e.sum(e.joins, e.column(column))
	}
	if !e.portful() {
		e.discount(commons)
	}
	if e.rules.count {
		e.boundJoins()
		e.boundSwitches()
	}
}

func (e *encoding) total(lits []sat.Lit) []sat.Lit { return sat.Totalizer(e.s, sat.Both, lits...) }
func (e *encoding) sum(a, b []sat.Lit) []sat.Lit   { return sat.Merge(e.s, sat.Both, a, b) }

// portful reports whether the rules leave a port in every net: those of a lone
// switch of plain throws.
func (e *encoding) portful() bool {
	return e.rules.reach && len(e.p.switches) == 1 && e.p.switches[0].plainThrows()
}

// discount takes back one join for each net whose first node is a throw: its
// used throws are one more than its joins. Counted upside down, as throws that
// are not the first of such a net.
func (e *encoding) discount(commons int) {
	var rest []sat.Lit
	for x := commons; x < len(e.p.nodes); x++ {
		follows := e.g.Or(e.others(x, x)...)
		rest = append(rest, e.g.Or(follows, e.used[x].Not()))
	}
	e.joins = e.sum(e.joins, e.total(rest))
	e.offset = len(rest)
}

// more is the literal for "more than k joins".
func (e *encoding) more(k int) sat.Lit {
	if k < 0 {
		return sat.True
	}
	if k += e.offset; k < len(e.joins) {
		return e.joins[k]
	}
	return sat.False
}

// throwColumns sorts the throws by switch and by the positions that close them;
// those that nothing closes come last.
func (e *encoding) throwColumns() [][]int {
	var keys []string
	by := map[string][]int{}
	seen := map[int]bool{}
	for i, s := range e.p.switches {
		for _, p := range s.poles {
			for k, t := range p.throws {
				if e.p.nodes[t].role != throwNode || seen[t] {
					continue
				}
				seen[t] = true
				key := fmt.Sprint(i, p.when[k])
				if by[key] == nil {
					keys = append(keys, key)
				}
				by[key] = append(by[key], t)
			}
		}
	}
	slices.Sort(keys)
	out := make([][]int, len(keys), len(keys)+1)
	for i, k := range keys {
		out[i] = by[k]
	}
	var rest []int
	for x := e.first(throwNode); x < len(e.p.nodes); x++ {
		if !seen[x] {
			rest = append(rest, x)
		}
	}
	if len(rest) > 0 {
		out = append(out, rest)
	}
	return out
}

// column counts the used throws of a column, once.
func (e *encoding) column(nodes []int) []sat.Lit {
	key := fmt.Sprint(nodes)
	if c, ok := e.columns[key]; ok {
		return c
	}
	var lits []sat.Lit
	for _, x := range nodes {
		lits = append(lits, e.used[x])
	}
	e.columns[key] = e.total(lits)
	return e.columns[key]
}

// bounds adds for each setting: the nodes of its sound that are soldered
// together, and the contacts it closes on used lugs, suffice to merge them.
// Always sound: a group of contacts merges one net fewer than it has used lugs.
func (e *encoding) bounds() {
	columns := e.throwColumns()
	for i := range e.p.settings {
		d := &e.demand[i]
		if d.need <= 0 {
			continue
		}
		merges := e.total(e.follow(d.nodes))
		closed, rest := e.closedColumns(e.p.contacts(e.p.settings[i].at), columns)
		for _, c := range closed {
			merges = e.sum(merges, e.column(c))
		}
		if d.need -= rest; d.need > 0 && d.need <= len(merges) {
			e.s.AddClause(e.guardOf(i), merges[d.need-1])
		}
	}
}

func (e *encoding) guardOf(setting int) sat.Lit {
	return e.wanted[e.p.settings[setting].wish].Not()
}

// follow says, for each node but the first, whether it is soldered to an
// earlier one.
func (e *encoding) follow(nodes []int) []sat.Lit {
	var out []sat.Lit
	for i, x := range nodes[1:] {
		var lits []sat.Lit
		for _, y := range nodes[:i+1] {
			lits = append(lits, e.same[x][y])
		}
		out = append(out, e.g.Or(lits...))
	}
	return out
}

// closedColumns lists the columns of throws in groups of contacts, and how many
// merges the groups can make beside them at most.
func (e *encoding) closedColumns(groups [][]int, columns [][]int) (closed [][]int, rest int) {
	counted := map[int]bool{}
	for _, c := range columns {
		if slices.ContainsFunc(groups, func(g []int) bool { return slices.Contains(g, c[0]) }) {
			closed = append(closed, c)
			for _, x := range c {
				counted[x] = true
			}
		}
	}
	for _, g := range groups {
		others := -1
		for _, x := range g {
			if !counted[x] {
				others++
			}
		}
		rest += max(0, others)
	}
	return closed, rest
}
