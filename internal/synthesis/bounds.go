package synthesis

import (
	"fmt"
	"slices"

	"loomwright/internal/sat"
)

// Bounds on joins and contacts that follow from the wishes alone. The clauses
// imply them, but only a long search would find them.

// boundJoins adds: the joins are no fewer than the used commons and the merges
// of ports that the wishes force, whatever the positions. Draw every net as a
// dot and every used throw as a line from its net to its common's. Over all
// settings together the lines must connect what the wishes connect; a net
// without a port needs a line more. Condition: nothing useless is soldered (own,
// mates), and every pole has a common.
func (e *encoding) boundJoins() {
	if !e.rules.own || !e.rules.mates || !e.allRegular() {
		return
	}
	r := e.forcedRank() - e.givenLines()
	var commons []sat.Lit
	for x := e.first(commonNode); x < e.first(throwNode); x++ {
		commons = append(commons, e.used[x])
	}
	poles := e.total(commons)
	guard := make([]sat.Lit, 0, len(e.wanted))
	for _, w := range e.wanted {
		guard = append(guard, w.Not())
	}
	for q := 0; q <= len(poles); q++ {
		clause := slices.Clone(guard)
		if q > 0 {
			clause = append(clause, poles[q-1].Not())
		}
		if k := r + q - 1; k >= 0 {
			e.s.AddClause(append(clause, e.more(k))...)
		}
	}
}

func (e *encoding) allRegular() bool {
	for _, s := range e.p.switches {
		if slices.ContainsFunc(s.poles, func(p pole) bool { return !p.regular }) {
			return false
		}
	}
	return true
}

// givenLines counts the lines that no used throw stands for: pots at 10, and
// throws that are soldered already.
func (e *encoding) givenLines() int {
	n := len(e.p.always)
	for _, s := range e.p.switches {
		for _, p := range s.poles {
			for _, t := range p.throws {
				if e.p.nodes[t].role != throwNode {
					n++
				}
			}
		}
	}
	return n
}

// maxPartitions bounds the ways to combine the wishes that forcedRank tries.
const maxPartitions = 3000

// forcedRank is the fewest merges of ports that all wishes together force: the
// ways of one wish after the other are laid over each other, and of the results
// those are kept that merge the least.
func (e *encoding) forcedRank() int {
	best := -1
	for _, flip := range []int{1, -1} {
		if e.p.fixed && flip < 0 {
			continue
		}
		if r := e.rankWith(flip); best < 0 || r < best {
			best = r
		}
	}
	return max(best, 0)
}

func (e *encoding) rankWith(flip int) int {
	identity := make([]int, len(e.p.nodes))
	for i := range identity {
		identity[i] = i
	}
	for _, g := range e.p.always {
		mergeBlocks(identity, identity[g[0]], identity[g[1]])
	}
	front := [][]int{identity}
	done := map[int]bool{}
	for i, s := range e.p.settings {
		d := &e.demand[i]
		if s.wish < 0 || len(d.ways) == 0 || done[s.wish] {
			continue
		}
		done[s.wish] = true
		next := map[string][]int{}
		for _, part := range front {
			for _, w := range d.ways {
				if w.flip == -flip {
					continue
				}
				merged := overlay(part, d.nodes, w.class)
				next[fmt.Sprint(merged)] = merged
			}
		}
		if len(next) > maxPartitions {
			break // the wishes so far force their merges all the same
		}
		front = leastMerged(next)
	}
	least := e.ports()
	for _, part := range front {
		least = min(least, rank(part[:e.ports()]))
	}
	return least
}

// overlay merges the blocks of a partition (node → its first node) by classes.
func overlay(part []int, nodes, class []int) []int {
	out := slices.Clone(part)
	first := map[int]int{}
	for i, x := range nodes {
		if y, ok := first[class[i]]; ok {
			mergeBlocks(out, out[x], out[y])
		} else {
			first[class[i]] = x
		}
	}
	return out
}

func mergeBlocks(part []int, a, b int) {
	for i := range part {
		if part[i] == max(a, b) {
			part[i] = min(a, b)
		}
	}
}

func rank(part []int) int {
	n := 0
	for i, first := range part {
		if i != first {
			n++
		}
	}
	return n
}

// leastMerged drops partitions that merge all that another one merges.
func leastMerged(parts map[string][]int) [][]int {
	var all [][]int
	for _, p := range parts {
		all = append(all, p)
	}
	slices.SortFunc(all, func(a, b []int) int {
		if d := rank(a) - rank(b); d != 0 {
			return d
		}
		return slices.Compare(a, b)
	})
	var out [][]int
	for _, p := range all {
		if len(out) > 300 || !slices.ContainsFunc(out, func(o []int) bool { return coarser(p, o) }) {
			out = append(out, p)
		}
	}
	return out
}

// coarser reports whether p merges all that o merges.
func coarser(p, o []int) bool {
	for i := range o {
		if p[i] != p[o[i]] {
			return false
		}
	}
	return true
}
