package proof

import (
	"slices"

	"loomwright/internal/setting"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// maxReadings bounds how many ways of telling unknown leads apart are tried:
// the 4! of one twin-coil pickup.
const maxReadings = 24

// leadReadings lists the ways in which the unknown leads can be coil ends, no
// two of them the same one. With too many ways the list holds only the first
// two, which differ, so that nothing is claimed.
func leadReadings(g *wiring.Graph) [][][2]int {
	out := [][][2]int{nil}
	for _, u := range g.Unknown {
		var next [][][2]int
		for _, before := range out {
			for _, end := range u.May {
				if !slices.ContainsFunc(before, func(p [2]int) bool { return p[1] == end }) {
					next = append(next, append(slices.Clone(before), [2]int{u.Term, end}))
				}
			}
		}
		if len(next) == 0 {
			continue // more unknown leads than coil ends: this one leads nowhere
		}
		out = next[:min(len(next), maxReadings+1)]
	}
	if len(out) > maxReadings {
		out = out[:2]
	}
	return out
}

// dependsOnLeads reports whether another reading of the unknown leads would
// give another sound.
func (p *prover) dependsOnLeads(s setting.Setting, heard string) bool {
	for _, leads := range p.readings[1:] {
		other := sound.Expr{Op: sound.Silent}
		if f := p.reading(s, p.full, leads).reduce(); f != nil {
			other = f.heard(p.g).Canon()
		}
		if other.String() != heard {
			return true
		}
	}
	return false
}
