package proof

import (
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Checks of what belongs on ground: shields, cases, covers, plates, strings.

// grounded tells for a terminal in which rows it is on ground, and whether it
// is ever on hot.
type grounded struct {
	term    int
	on, off []string // settings
	onHot   []string
	lifted  []string // off and onHot, in order
	coilEnd int      // the coil's end that its metal also is, or −1
}

// groundStates looks at every terminal that belongs on ground, once for each
// piece of metal.
func (p *prover) groundStates() []grounded {
	if p.grounds != nil {
		return p.grounds
	}
	tied := p.tiedToCoil()
	at := map[int]int{} // of a piece
	solid := p.base.NetsOf(nil)
	for _, t := range p.g.Grounds {
		i, seen := at[solid.Of[t]]
		switch {
		case !seen:
			at[solid.Of[t]] = len(p.grounds)
			p.grounds = append(p.grounds, p.groundState(t, tied[t]))
		case p.grounds[i].coilEnd < 0 && tied[t] >= 0:
			p.grounds[i].term, p.grounds[i].coilEnd = t, tied[t]
		}
	}
	return p.grounds
}

func (p *prover) groundState(t, coilEnd int) grounded {
	s := grounded{term: t, coilEnd: coilEnd}
	for i, n := range p.networks {
		name := p.rows[i].Name
		switch n.nets.Of[t] {
		case n.ground:
			s.on = append(s.on, name)
		case n.hot:
			s.onHot = append(s.onHot, name)
		default:
			s.off = append(s.off, name)
		}
		if n.nets.Of[t] != n.ground {
			s.lifted = append(s.lifted, name)
		}
	}
	return s
}

// tiedToCoil returns for every terminal the coil end that metal inside its part
// joins it to, or −1.
func (p *prover) tiedToCoil() []int {
	inside := *p.g
	inside.Links = slices.DeleteFunc(slices.Clone(p.g.Links), func(l wiring.Link) bool { return l.Run >= 0 })
	nets := setting.NewBase(&inside).NetsOf(nil)
	out := make([]int, len(p.g.Terms))
	for t := range out {
		end := slices.IndexFunc(p.g.Coils, func(c wiring.Coil) bool {
			return nets.Of[c.Start] == nets.Of[t] || nets.Of[c.Finish] == nets.Of[t]
		})
		switch {
		case end < 0:
			out[t] = -1
		case nets.Of[p.g.Coils[end].Start] == nets.Of[t]:
			out[t] = p.g.Coils[end].Start
		default:
			out[t] = p.g.Coils[end].Finish
		}
	}
	return out
}

var groundMissing = &check{diag.Code{Code: "ground-missing", Severity: diag.Warning,
	Says: "a shield, case, cover or plate is not on ground", Notice: "hum and buzz, worse when the part is touched"}, func(p *prover, c *check) {
	for _, s := range p.groundStates() {
		if len(s.on) == 0 && len(s.onHot) == 0 && s.coilEnd < 0 {
			p.report(c, p.termSpan(s.term), nil, "%s is not on ground: hum, and buzz when it is touched", p.name(s.term))
		}
	}
}}

var groundLost = &check{diag.Code{Code: "ground-lost", Severity: diag.Warning,
	Says: "a shield, case, cover or plate loses ground in some settings", Notice: "hum in those settings"}, func(p *prover, c *check) {
	for _, s := range p.groundStates() {
		if len(s.on) > 0 && len(s.off) > 0 && s.coilEnd < 0 {
			p.report(c, p.termSpan(s.term), s.off, "%s %s is not on ground: hum", p.with(s.off), p.name(s.term))
		}
	}
}}

var groundHot = &check{diag.Code{Code: "ground-hot", Severity: diag.Error,
	Says: "a shield, case, cover or plate is on hot", Notice: "loud hum when it is touched, or silence where it meets ground"}, func(p *prover, c *check) {
	if p.sleeveIsHot() {
		return
	}
	for _, s := range p.groundStates() {
		if len(s.onHot) > 0 && s.coilEnd < 0 {
			p.report(c, p.termSpan(s.term), s.onHot, "%s %s is on hot: loud hum when it is touched", p.with(s.onHot), p.name(s.term))
		}
	}
}}

var coverLifted = &check{diag.Code{Code: "cover-lifted", Severity: diag.Warning,
	Says: "a cover or shield tied to a coil end is lifted from ground", Notice: "hum and a crackle when the pickup is touched in those settings"}, func(p *prover, c *check) {
	joined := p.soldered()
	for _, s := range p.groundStates() {
		if s.coilEnd >= 0 && len(s.lifted) > 0 && joined[s.term] {
			p.report(c, p.termSpan(s.coilEnd), s.lifted, "%s %s, which is also a coil's end, is lifted from ground: hum, and a crackle when the pickup is touched",
				p.with(s.lifted), p.name(s.term)).Hint = p.coverHint(s.term)
		}
	}
}}

// coverHint says what can be done: a braid round a single core cannot be parted
// from its coil, a cover can.
func (p *prover) coverHint(term int) string {
	if p.g.Terms[term].Kind == "lead" {
		return "the shield of this lead is a coil's end and has to stay on ground: give this pickup the place at the ground side, or a lead with a shield of its own"
	}
	return "part the cover from the coil and ground it by a lead of its own"
}

var jackSwapped = &check{diag.Code{Code: "jack-swapped", Severity: diag.Error,
	Says: "tip and sleeve are swapped", Notice: "loud hum with the cable in, and strings that buzz when touched"}, func(p *prover, c *check) {
	if p.sleeveIsHot() {
		p.report(c, p.termSpan(p.g.Hot), nil, "the cases and shields are on the jack's tip and the signal on its sleeve: the two are swapped")
	}
}}

// sleeveIsHot reports whether most of what belongs on ground is on hot in every
// setting that is not shorted, and none of it on ground.
func (p *prover) sleeveIsHot() bool {
	states := p.groundStates()
	hot := 0
	for _, s := range states {
		if len(s.onHot) > 0 {
			hot++
		}
		if use := p.g.Terms[s.term].Use; len(s.on) > 0 && (use < 0 || p.g.Loom.Uses[use].Part.Output == nil) {
			return false
		}
	}
	return hot > 0 && 2*hot >= len(states)
}

var stringGround = &check{diag.Code{Code: "string-ground-missing", Severity: diag.Warning,
	Says: "the loom has pickups and a jack and no string ground on ground", Notice: "buzz that stops when the strings are touched, or never stops"}, func(p *prover, c *check) {
	if !p.hasFinishedGuitar() {
		return
	}
	for i := range p.g.Loom.Uses {
		if p.g.Loom.Uses[i].Part.ID == stringGroundPart {
			return // there is one: ground-missing looks at its wire
		}
	}
	at := p.termSpan(p.g.Ground)
	d := p.report(c, at, nil, "nothing grounds the strings: buzz, until something else does")
	d.Hint = "strings: {is: " + stringGroundPart + "}"
}}

// stringGroundPart is the part that stands for the wire to bridge or tailpiece.
const stringGroundPart = "ground/string"

// hasFinishedGuitar reports whether the loom has real pickups and a jack: one
// with pickup points or tails is finished in the guitar.
func (p *prover) hasFinishedGuitar() bool {
	pickup, jack := false, false
	for i := range p.g.Loom.Uses {
		switch u := p.g.Loom.Uses[i].Part; u.Class {
		case "pickup":
			pickup = true
		case "jack":
			jack = true
		}
	}
	return pickup && jack
}

var taperReversed = &check{diag.Code{Code: "taper-reversed", Severity: diag.Warning,
	Says: "an audio pot with swapped ends acts as reverse audio", Notice: "all of the change at one end of the turn"}, func(p *prover, c *check) {
	if !p.g.Loom.EndsSwapped {
		return
	}
	for i := range p.g.Tracks {
		t := &p.g.Tracks[i]
		if t.Law == part.WholeTurn && p.boughtAs(t, units.Audio) {
			p.report(c, p.useSpan(t.Use), nil, "%s has an audio track and swapped ends: it acts as reverse audio, all of the change at one end of the turn",
				p.g.Knobs[t.Knob].Name).Hint = "a linear or a left-handed (reverse audio) pot turns evenly there"
		}
	}
}}

// boughtAs reports whether a track's part has a taper, whichever way round the
// loom uses it.
func (p *prover) boughtAs(t *wiring.Track, taper units.Taper) bool {
	return slices.ContainsFunc(p.g.Loom.Uses[t.Use].Part.Tracks, func(own part.Track) bool {
		return own.Name == t.Name && own.Value.Taper == taper
	})
}
