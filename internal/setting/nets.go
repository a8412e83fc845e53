package setting

import "loomwright/internal/wiring"

// Nets says which terminals are one net: Of[terminal] is the net, nets count
// from 0 in order of their first terminal.
type Nets struct {
	Of    []int
	Count int
}

// Base is a graph with its solid links merged once; settings start from it.
type Base struct {
	g      *wiring.Graph
	forest []int
}

// NewBase merges what is soldered or one piece of metal.
func NewBase(g *wiring.Graph) *Base {
	b := &Base{g: g, forest: make([]int, len(g.Terms))}
	for i := range b.forest {
		b.forest[i] = i
	}
	for _, l := range g.Links {
		union(b.forest, l.A, l.B)
	}
	for i := range b.forest {
		b.forest[i] = find(b.forest, i)
	}
	return b
}

// Redundant marks the links of a graph that join what earlier links join
// already.
func Redundant(g *wiring.Graph) []bool {
	b := &Base{g: g, forest: make([]int, len(g.Terms))}
	for i := range b.forest {
		b.forest[i] = i
	}
	out := make([]bool, len(g.Links))
	for i, l := range g.Links {
		out[i] = find(b.forest, l.A) == find(b.forest, l.B)
		union(b.forest, l.A, l.B)
	}
	return out
}

// Graph returns the graph that the base was made of.
func (b *Base) Graph() *wiring.Graph { return b.g }

// Nets merges the contacts closed with switch i in position at[i], and extra
// pairs of terminals (a pot's wiper and its end, say).
func (b *Base) Nets(at []int, extra ...[2]int) Nets {
	return b.merge(func(do func(group []int)) {
		for i := range b.g.Switches {
			for _, pole := range b.g.Switches[i].Contacts {
				for _, group := range pole[at[i]] {
					do(group)
				}
			}
		}
	}, extra)
}

// NetsOf merges the given groups of terminals instead of a setting's: a switch
// in mid-travel, say.
func (b *Base) NetsOf(groups [][]int, extra ...[2]int) Nets {
	return b.merge(func(do func(group []int)) {
		for _, group := range groups {
			do(group)
		}
	}, extra)
}

func (b *Base) merge(groups func(do func([]int)), extra [][2]int) Nets {
	forest := make([]int, len(b.forest))
	copy(forest, b.forest)
	groups(func(group []int) {
		for _, t := range group[1:] {
			union(forest, group[0], t)
		}
	})
	for _, e := range extra {
		union(forest, e[0], e[1])
	}
	return number(forest)
}

// number gives the trees of a forest dense numbers, in place.
func number(forest []int) Nets {
	n := Nets{Of: make([]int, len(forest))}
	ids := make([]int, len(forest))
	for i := range forest {
		root := find(forest, i)
		if ids[root] == 0 {
			n.Count++
			ids[root] = n.Count
		}
		n.Of[i] = ids[root] - 1
	}
	return n
}

// find and union are Tarjan's disjoint sets with path halving; the smaller
// index is the root, which keeps nets in order of their first terminal.
func find(forest []int, i int) int {
	for forest[i] != i {
		forest[i] = forest[forest[i]]
		i = forest[i]
	}
	return i
}

func union(forest []int, a, b int) {
	a, b = find(forest, a), find(forest, b)
	if a < b {
		forest[b] = a
	} else {
		forest[a] = b
	}
}
