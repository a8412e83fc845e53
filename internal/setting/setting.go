// Package setting walks a graph through every position of its switches and
// says which terminals are one net in each.
package setting

import (
	"iter"
	"strings"

	"loomwright/internal/wiring"
)

// Max is the most settings that one loom is walked through.
const Max = 4096

// Setting is one position of every switch that the player moves. At[i] is the
// position of switch i of the graph (the proved position of the others).
type Setting struct {
	Index int
	At    []int
	Name  string // "lever middle, volume pulled"; "as wired" without switches
}

// Count returns the number of settings; it saturates just above Max.
func Count(g *wiring.Graph) int {
	n := 1
	for i := range g.Switches {
		if g.Switches[i].Proved < 0 {
			n *= len(g.Switches[i].Positions)
		}
		if n > Max {
			return Max + 1
		}
	}
	return n
}

// All yields every setting in order: the last switch moves fastest.
func All(g *wiring.Graph) iter.Seq[Setting] {
	return func(yield func(Setting) bool) {
		for i := range Count(g) {
			if !yield(Nth(g, i)) {
				return
			}
		}
	}
}

// Nth returns one setting by its index.
func Nth(g *wiring.Graph, index int) Setting {
	s := Setting{Index: index, At: make([]int, len(g.Switches))}
	rest := index
	for i := len(g.Switches) - 1; i >= 0; i-- {
		sw := &g.Switches[i]
		if sw.Proved >= 0 {
			s.At[i] = sw.Proved
			continue
		}
		s.At[i] = rest % len(sw.Positions)
		rest /= len(sw.Positions)
	}
	s.Name = Name(g, s.At)
	return s
}

// Index returns the index of the setting with these positions.
func Index(g *wiring.Graph, at []int) int {
	index := 0
	for i := range g.Switches {
		if sw := &g.Switches[i]; sw.Proved < 0 {
			index = index*len(sw.Positions) + at[i]
		}
	}
	return index
}

// Name puts positions in words.
func Name(g *wiring.Graph, at []int) string {
	var words []string
	for i := range g.Switches {
		if sw := &g.Switches[i]; sw.Proved < 0 {
			words = append(words, sw.Name+" "+sw.Positions[at[i]].Name)
		}
	}
	if len(words) == 0 {
		return "as wired"
	}
	return strings.Join(words, ", ")
}
