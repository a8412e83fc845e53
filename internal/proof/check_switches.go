package proof

import (
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
)

// Checks of the switches: idle, upside down, and what is normal in a guitar.

var switchIdle = &check{diag.Code{Code: "switch-idle", Severity: diag.Warning,
	Says: "a switch changes nothing that is heard", Notice: "moving it does nothing"}, func(p *prover, c *check) {
	for sw := range p.g.Switches {
		s := &p.g.Switches[sw]
		if s.Proved < 0 && p.anySounding() && !p.anyUnsure() && !p.changesAnything(sw) {
			p.report(c, p.useSpan(s.Use), nil, "%s changes nothing that is heard", p.switchWords(sw))
		}
	}
}}

func (p *prover) anyUnsure() bool {
	return slices.ContainsFunc(p.rows, func(r Row) bool { return r.Unsure })
}

// switchWords names a switch so that the switch of a push-pull is not taken for
// its pot.
func (p *prover) switchWords(sw int) string {
	s := &p.g.Switches[sw]
	if len(p.g.Loom.Uses[s.Use].Part.Tracks) > 0 {
		return "the switch of " + s.Name
	}
	return s.Name
}

// changesAnything compares every row with the one where a switch is in its
// first position.
func (p *prover) changesAnything(sw int) bool {
	for i := range p.rows {
		at := slices.Clone(p.rows[i].Setting.At)
		at[sw] = 0
		first := &p.rows[setting.Index(p.g, at)]
		if first.Heard != p.rows[i].Heard || first.Output != p.rows[i].Output ||
			!slices.EqualFunc(first.Knobs, p.rows[i].Knobs, func(a, b KnobAct) bool { return a.Knob == b.Knob && a.Does == b.Does }) {
			return true
		}
		if !slices.Equal(p.networks[setting.Index(p.g, at)].engaged(), p.networks[i].engaged()) {
			return true
		}
	}
	return false
}

var switchUpsideDown = &check{diag.Code{Code: "switch-upside-down", Severity: diag.Error,
	Says: "every wanted sound would hold with a switch's positions in reverse", Notice: "the switch works, the wrong way round"}, func(p *prover, c *check) {
	if !p.anyMissed() {
		return
	}
	for sw := range p.g.Switches {
		s := &p.g.Switches[sw]
		if s.Proved < 0 && p.metInReverse(sw) {
			p.report(c, p.useSpan(s.Use), nil, "every wanted sound would hold with %s the other way round: it is upside down, or its throws are swapped", p.switchWords(sw))
		}
	}
}}

func (p *prover) anyMissed() bool {
	return slices.ContainsFunc(p.rows, func(r Row) bool { return r.Wanted != nil && r.Wanted.Met == No })
}

// metInReverse reports whether each row's wanted sound is heard in the row with
// one switch mirrored.
func (p *prover) metInReverse(sw int) bool {
	flip := 0
	for i := range p.rows {
		w := p.rows[i].Wanted
		if w == nil {
			continue
		}
		at := slices.Clone(p.rows[i].Setting.At)
		at[sw] = len(p.g.Switches[sw].Positions) - 1 - at[sw]
		other := p.compare(w.sound, &p.rows[setting.Index(p.g, at)])
		if other.Met == No || flip != 0 && other.flip == -flip {
			return false
		}
		if other.flip != 0 {
			flip = other.flip
		}
	}
	return true
}

var groundLoop = &check{diag.Code{Code: "ground-loop", Severity: diag.Info,
	Says: "a run joins what is joined already", Notice: "nothing: normal in a guitar"}, func(p *prover, c *check) {
	for i, extra := range setting.Redundant(p.g) {
		if l := p.g.Links[i]; extra && l.Run >= 0 {
			p.report(c, p.g.Runs[l.Run].Span, nil, "%s and %s are joined already without this run", p.g.Terms[l.A].Name, p.g.Terms[l.B].Name)
		}
	}
}}

var throwUnused = &check{diag.Code{Code: "throw-unused", Severity: diag.Info,
	Says: "a throw has nothing soldered to it", Notice: "nothing: normal in a guitar"}, func(p *prover, c *check) {
	joined := p.soldered()
	for i := range p.g.Switches {
		for _, pole := range p.g.Switches[i].Contacts {
			seen := map[int]bool{}
			for _, groups := range pole {
				for _, group := range groups {
					for _, t := range group {
						if !joined[t] && !seen[t] {
							p.report(c, p.useSpan(p.g.Switches[i].Use), nil, "%s has nothing soldered to it", p.g.Terms[t].Name)
						}
						seen[t] = true
					}
				}
			}
		}
	}
}}
