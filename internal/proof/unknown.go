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

// surely lists what knobs do in a setting whichever lead is which; nothing where
// the ways cannot all be tried.
func (p *prover) surely(s setting.Setting) []KnobAct {
	if !p.allReadings {
		return nil
	}
	defer func() { p.leads = p.readings[0] }()
	var out []KnobAct
	for i, leads := range p.readings {
		p.leads = leads
		acts := p.knobs(s, p.up(s))
		if i == 0 {
			out = acts
		}
		out = slices.DeleteFunc(out, func(a KnobAct) bool {
			return !slices.ContainsFunc(acts, func(b KnobAct) bool {
				return a.index == b.index && a.Does == b.Does && slices.Equal(a.Mutes, b.Mutes)
			})
		})
	}
	return out
}
