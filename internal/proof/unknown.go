package proof

import (
	"slices"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// maxReadings bounds how many ways of telling unknown leads apart are tried:
// the 4! of one twin-coil pickup.
const maxReadings = 24

// leadReadings lists the ways in which the unknown leads can be coil ends, no
// two of them the same one. all is false where there are too many to list: then
// nothing can be told.
func leadReadings(g *wiring.Graph) (readings [][][2]int, all bool) {
	readings = [][][2]int{nil}
	for _, u := range g.Unknown {
		var next [][][2]int
		for _, before := range readings {
			for _, end := range u.May {
				if !slices.ContainsFunc(before, func(p [2]int) bool { return p[1] == end }) {
					next = append(next, append(slices.Clone(before), [2]int{u.Term, end}))
				}
			}
		}
		if len(next) > maxReadings {
			return readings[:1], false
		}
		readings = next
	}
	return readings, true
}

// dependsOnLeads reports whether another reading of the unknown leads would
// give another sound.
func (p *prover) dependsOnLeads(s setting.Setting, heard string) bool {
	return !p.allReadings || slices.ContainsFunc(p.readings[1:], func(leads [][2]int) bool {
		return p.draw(&p.spare[0], p.base.Contacts(s.At), p.full, leads).heard().String() != heard
	})
}
