package wiring

import "slices"

// maxReadings bounds how many ways of telling unknown leads apart are tried:
// the 4! of one twin-coil pickup.
const maxReadings = 24

// Readings lists the ways in which the unknown leads can be coil ends, no
// two of them the same one. all is false where there are too many to list: then
// only one is, and nothing can be told.
func Readings(g *Graph) (readings [][][2]int, all bool) {
	readings, all = [][][2]int{nil}, true
	for _, u := range g.Unknown {
		var next [][][2]int
		for _, before := range readings {
			for _, end := range u.May {
				if !slices.ContainsFunc(before, func(p [2]int) bool { return p[1] == end }) {
					next = append(next, append(slices.Clone(before), [2]int{u.Term, end}))
				}
			}
		}
		switch {
		case len(next) > maxReadings || !all && len(next) > 0:
			readings, all = next[:1], false
		case len(next) > 0: // else more leads than ends: this one leads nowhere
			readings = next
		}
	}
	return readings, all
}

// Without is the graph without pairs that With has joined.
func (g *Graph) Without(pairs [][2]int) *Graph {
	out := *g
	out.Links = slices.DeleteFunc(slices.Clone(g.Links), func(l Link) bool {
		return l.Run < 0 && slices.Contains(pairs, [2]int{l.A, l.B})
	})
	return &out
}

// With is the graph with pairs of terminals joined: a reading of the unknown
// leads, say.
func (g *Graph) With(pairs [][2]int) *Graph {
	out := *g
	out.Links = slices.Clone(g.Links)
	for _, p := range pairs {
		out.Links = append(out.Links, Link{p[0], p[1], -1})
	}
	return &out
}
