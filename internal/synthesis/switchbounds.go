package synthesis

import (
	"loomwright/internal/sat"
)

// boundSwitches adds for every two settings that differ in one switch alone: the
// contacts of that switch must make what the first merges and the second does
// not allow. Always sound.
func (e *encoding) boundSwitches() {
	columns := e.throwColumns()
	for i := range e.p.settings {
		for k := range e.p.settings {
			sw := e.differ(i, k)
			if sw < 0 || e.p.settings[i].wish < 0 || e.p.settings[k].wish < 0 {
				continue
			}
			if n := e.mustMake(&e.demand[i], &e.demand[k]); n > 0 {
				e.boundSwitch(sw, i, k, n, columns)
			}
		}
	}
}

// differ returns the one switch in which two settings differ, or −1.
func (e *encoding) differ(i, k int) int {
	found := -1
	for sw := range e.p.switches {
		if e.p.settings[i].at[sw] != e.p.settings[k].at[sw] {
			if found >= 0 {
				return -1
			}
			found = sw
		}
	}
	return found
}

// boundSwitch demands that a switch close n used throws in setting i.
func (e *encoding) boundSwitch(sw, i, k, n int, columns [][]int) {
	groups := e.p.switches[sw].closed[e.p.settings[i].at[sw]]
	closed, rest := e.closedColumns(groups, columns)
	if n -= rest; n <= 0 {
		return
	}
	count := []sat.Lit{}
	for _, c := range closed {
		count = e.sum(count, e.column(c))
	}
	clause := []sat.Lit{e.guardOf(i), e.guardOf(k)}
	if n <= len(count) {
		clause = append(clause, count[n-1])
	}
	e.s.AddClause(clause...)
}

// maxPairs bounds the pairs of ways that mustMake compares.
const maxPairs = 20000

// mustMake is the fewest merges of one setting's sound that another forbids to
// be made by anything that both have.
func (e *encoding) mustMake(a, b *demanded) int {
	if len(a.ways)*len(b.ways) > maxPairs || len(a.ways) == 0 || len(b.ways) == 0 {
		return 0
	}
	least := len(a.nodes)
	for _, w := range a.ways {
		for _, v := range b.ways {
			if w.flip != 0 && w.flip == -v.flip {
				continue
			}
			least = min(least, e.lost(a, b, w.class, v.class))
		}
	}
	return least
}

// lost is the number of merges of way w that cannot hold in way v: nodes of both
// sounds that v keeps apart, or else the two ends of a coil that v silences.
func (e *encoding) lost(a, b *demanded, w, v []int) int {
	place := map[int]int{}
	for i, x := range b.nodes {
		place[x] = v[i]
	}
	blocks := map[int]map[int]bool{} // class of w → classes of v in it
	for i, x := range a.nodes {
		if blocks[w[i]] == nil {
			blocks[w[i]] = map[int]bool{}
		}
		if c, ok := place[x]; ok {
			blocks[w[i]][c] = true
		}
	}
	n := 0
	for _, in := range blocks {
		n += max(0, len(in)-1)
	}
	if n == 0 && e.silences(a, w, blocks, place) {
		n = 1
	}
	return n
}

// silences reports whether a coil of the first sound, with both ends where the
// first has them, would be heard in the second, which does not want it.
func (e *encoding) silences(a *demanded, w []int, blocks map[int]map[int]bool, place map[int]int) bool {
	at := map[int]int{}
	for i, x := range a.nodes {
		at[x] = w[i]
	}
	for _, x := range e.p.elements {
		top, inA := at[x.a]
		bottom, inB := at[x.b]
		_, hasA := place[x.a]
		_, hasB := place[x.b]
		if !inA || !inB || hasA || hasB || e.p.hanging {
			continue
		}
		one, other := only(blocks[top]), only(blocks[bottom])
		if one >= 0 && other >= 0 && one != other {
			return true
		}
	}
	return false
}

// only is the one class in a set, or −1.
func only(set map[int]bool) int {
	if len(set) != 1 {
		return -1
	}
	for c := range set {
		return c
	}
	return -1
}
