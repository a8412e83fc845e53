package proof

import (
	"slices"

	"loomwright/internal/setting"
)

// dependsOnLeads reports whether another reading of the unknown leads would
// give another sound.
func (p *prover) dependsOnLeads(s setting.Setting, heard string) bool {
	return !p.allReadings || slices.ContainsFunc(p.readings[1:], func(leads [][2]int) bool {
		return p.draw(&p.spare[0], p.base.Contacts(s.At), p.full, leads).heard().String() != heard
	})
}
