package synthesis

import (
	"slices"

	"loomwright/internal/sat"
)

// relation says which pairs of nodes are one net; only nodes that still matter
// have a row.
type relation [][]sat.Lit

// reach contracts the groups of contacts one after the other and returns which
// of the kept nodes are one net, exact in both directions: after a group, two
// nodes are one if they were, or if both meet it. Equal beginnings of settings
// give equal literals (the gates are hashed).
func (e *encoding) reach(groups [][]int, keep []int) relation {
	r := relation(e.same)
	for i, group := range groups {
		matter := slices.Clone(keep)
		for _, later := range groups[i+1:] {
			matter = append(matter, later...)
		}
		slices.Sort(matter)
		r = e.contract(r, group, slices.Compact(matter))
	}
	return r
}

// contract merges the nets that a group touches, for the nodes that matter.
func (e *encoding) contract(r relation, group, matter []int) relation {
	out := make(relation, len(r))
	meets := make([]sat.Lit, len(r))
	for _, x := range matter {
		var any []sat.Lit
		for _, t := range group {
			any = append(any, r[x][t])
		}
		meets[x] = e.g.Or(any...)
		out[x] = make([]sat.Lit, len(r))
		out[x][x] = sat.True
	}
	for i, x := range matter {
		for _, y := range matter[:i] {
			l := e.g.OrAnd(r[x][y], meets[x], meets[y])
			out[x][y], out[y][x] = l, l
		}
	}
	return out
}
