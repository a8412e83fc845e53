package setting

import (
	"iter"
	"slices"

	"loomwright/internal/wiring"
)

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
	var n Nets
	n.Refill(b, b.Contacts(at), extra)
	return n
}

// NetsOf merges the given groups of terminals instead of a setting's: a switch
// in mid-travel, say.
func (b *Base) NetsOf(groups [][]int, extra ...[2]int) Nets {
	var n Nets
	n.Refill(b, slices.Values(groups), extra)
	return n
}

// Contacts yields the groups of terminals that are joined with switch i in
// position at[i].
func (b *Base) Contacts(at []int) iter.Seq[[]int] {
	return func(yield func([]int) bool) {
		for i := range b.g.Switches {
			for _, pole := range b.g.Switches[i].Contacts {
				for _, group := range pole[at[i]] {
					if !yield(group) {
						return
					}
				}
			}
		}
	}
}

// Refill merges groups and pairs of terminals on top of a base, in the storage
// of earlier nets.
func (n *Nets) Refill(b *Base, groups iter.Seq[[]int], pairs [][2]int) {
	n.Of = append(n.Of[:0], b.forest...)
	for group := range groups {
		for _, t := range group[1:] {
			union(n.Of, group[0], t)
		}
	}
	for _, p := range pairs {
		union(n.Of, p[0], p[1])
	}
	n.Count = 0
	for i, up := range n.Of { // no index above its own: up has its number already
		if up == i {
			n.Of[i] = n.Count
			n.Count++
		} else {
			n.Of[i] = n.Of[up]
		}
	}
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
