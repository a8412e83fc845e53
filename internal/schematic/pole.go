package schematic

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/part"
	"loomwright/internal/scene"
	"loomwright/internal/wiring"
)

// poles draws the poles of a switch: each as one common with its throws, or as
// single contacts where it has no common.
func (n *netlist) poles(sw, at int) {
	s := &n.g.Switches[sw]
	for i, contacts := range s.Contacts {
		name := s.Name
		if len(s.Contacts) > 1 {
			name += " " + n.poleName(s, i)
		}
		for _, p := range split(contacts) {
			n.add(n.pole(sw, name, p, at))
		}
	}
}

func (n *netlist) poleName(s *wiring.Switch, i int) string {
	for k := range n.g.Loom.Uses[s.Use].Part.Switches {
		ps := &n.g.Loom.Uses[s.Use].Part.Switches[k]
		if len(ps.Poles) == len(s.Contacts) && samePositions(ps.Positions, s.Positions) {
			return ps.Poles[i].Name
		}
	}
	return strconv.Itoa(i + 1)
}

func samePositions(a, b []part.Position) bool { return slices.Equal(a, b) }

// fan is a common with its throws: closed[throw] lists the positions in which
// the two meet.
type fan struct {
	common int
	throws []int
	closed [][]int
}

// split makes fans of a pole's contact table: one around a terminal that is in
// every group, else one for each pair that meets.
func split(contacts [][][]int) []fan {
	var terms []int
	for _, groups := range contacts {
		for _, g := range groups {
			for _, t := range g {
				if !slices.Contains(terms, t) {
					terms = append(terms, t)
				}
			}
		}
	}
	for _, common := range terms {
		if inEvery(common, contacts) {
			return []fan{around(common, terms, contacts)}
		}
	}
	return pairs(contacts)
}

func inEvery(term int, contacts [][][]int) bool {
	for _, groups := range contacts {
		for _, g := range groups {
			if !slices.Contains(g, term) {
				return false
			}
		}
	}
	return true
}

func around(common int, terms []int, contacts [][][]int) fan {
	f := fan{common: common}
	for _, t := range terms {
		if t == common {
			continue
		}
		f.throws = append(f.throws, t)
		f.closed = append(f.closed, meetings(common, t, contacts))
	}
	return f
}

func meetings(a, b int, contacts [][][]int) []int {
	var out []int
	for pos, groups := range contacts {
		for _, g := range groups {
			if slices.Contains(g, a) && slices.Contains(g, b) {
				out = append(out, pos)
				break
			}
		}
	}
	return out
}

// pairs makes a contact of each two neighbours in a group.
func pairs(contacts [][][]int) []fan {
	var out []fan
	seen := map[[2]int]bool{}
	for _, groups := range contacts {
		for _, g := range groups {
			for i := 1; i < len(g); i++ {
				pair := [2]int{min(g[i-1], g[i]), max(g[i-1], g[i])}
				if !seen[pair] {
					seen[pair] = true
					out = append(out, fan{pair[0], []int{pair[1]}, [][]int{meetings(pair[0], pair[1], contacts)}})
				}
			}
		}
	}
	return out
}

// pole draws a fan: throws on the left, the common on the right.
func (n *netlist) pole(index int, name string, f fan, at int) *symbol {
	sw := &n.g.Switches[index]
	s := &symbol{kind: poleSymbol, use: sw.Use, sw: index, title: name}
	wide := 0
	for i, t := range f.throws {
		label := lugWords(n.g, t) + positionsText(f.closed[i], len(sw.Positions))
		s.throws = append(s.throws, throw{label, slices.Contains(f.closed[i], at)})
		wide = max(wide, textUnits(label, pinSize, scene.Regular))
	}
	stub := max(2, wide, textUnits(name, titleSize, scene.Bold)-2) // the title ends before armX
	height := 2 * (len(f.throws) - 1)
	for i, t := range f.throws {
		s.pins = append(s.pins, pin{term: t, at: gp{0, 2 * i}, out: left})
	}
	width := stub + 6
	s.pins = append(s.pins, pin{term: f.common, at: gp{width, height / 2}, out: right})
	s.min, s.max = gp{0, -3}, gp{width, height + 1}
	return s
}

// positionsText lists the positions in which a throw meets its common, counted
// from 1.
func positionsText(closed []int, all int) string {
	if len(closed) == 0 || all < 2 {
		return ""
	}
	nums := make([]string, len(closed))
	for i, p := range closed {
		nums[i] = fmt.Sprint(p + 1)
	}
	return " (" + strings.Join(nums, " ") + ")"
}
