package synthesis

import (
	"slices"
)

// factor looks for groups of coils that sound beside one another and have
// switches of their own. Each group's switching between hot and ground is then a
// puzzle of its own, and the solutions together solve the whole: a good start,
// which need not be the best.
func (t *task) factor() []spec {
	groups := t.groups()
	if len(groups) < 2 || len(t.modules)+len(t.hung) > 0 {
		return nil
	}
	taken := make([]int, len(t.switches))
	var out []spec
	for _, g := range groups {
		keys := make([]string, len(t.settings))
		for i, a := range t.settings {
			if a.sound >= 0 {
				keys[i] = t.within(a.tree, g).text()
			}
		}
		set := t.switchesFor(keys)
		for _, s := range set {
			taken[s]++
		}
		s := spec{elements: g, hot: t.hot, switches: set, fixed: true}
		s.settings = t.pick(set, keys, func(a asked) asked {
			a.tree = t.within(a.tree, g)
			a.off = a.tree == nil
			return a
		})
		out = append(out, s)
	}
	if slices.ContainsFunc(taken, func(n int) bool { return n > 1 }) {
		return nil
	}
	return out
}

// groups sorts the coils into groups that no sound joins but side by side
// between hot and ground.
func (t *task) groups() [][]int {
	block := make([]int, len(t.coils))
	for i := range block {
		block[i] = i
	}
	for _, a := range t.settings {
		for _, kid := range besides(a.tree) {
			in := kid.elements()
			for _, e := range in[1:] {
				mergeBlocks(block, block[in[0]], block[e])
			}
		}
	}
	for i, c := range t.coils { // coils that share a terminal stay together
		for k, d := range t.coils[:i] {
			if c.use == d.use && (c.a == d.b || c.b == d.a || c.a == d.a || c.b == d.b) {
				mergeBlocks(block, block[i], block[k])
			}
		}
	}
	var out [][]int
	for first := range block {
		var g []int
		for i, b := range block {
			if b == first {
				g = append(g, i)
			}
		}
		if len(g) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// besides are the parts of a sound that lie side by side between hot and ground.
func besides(x *tree) []*tree {
	switch {
	case x == nil:
		return nil
	case x.leaf() || x.series:
		return []*tree{x}
	}
	return x.kids
}

// within is the part of a sound that a group of coils makes; nil when it is
// silent.
func (t *task) within(x *tree, group []int) *tree {
	var kids []*tree
	for _, k := range besides(x) {
		if slices.Contains(group, k.elements()[0]) {
			kids = append(kids, k)
		}
	}
	switch len(kids) {
	case 0:
		return nil
	case 1:
		return kids[0]
	}
	return &tree{kids: kids}
}

// compose puts solutions of parts together: nets that share a terminal's node
// are one.
func compose(whole *puzzle, terms [][]int, parts []solution, partTerms [][][]int) solution {
	node := map[int]int{}
	for n, members := range terms {
		for _, x := range members {
			node[x] = n
		}
	}
	out := make(solution, len(whole.nodes))
	for i := range out {
		out[i] = i
	}
	for k, s := range parts {
		for n, first := range s {
			mergeBlocks(out, out[node[partTerms[k][n][0]]], out[node[partTerms[k][first][0]]])
		}
	}
	return out
}
