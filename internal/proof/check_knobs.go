package proof

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
)

// Checks of the knobs: backwards, dead, tangled.

// knobRows names the settings in which a knob does something.
func (p *prover) knobRows(knob int, does string) []string {
	return p.rowsWhere(func(_ int, r *Row) bool {
		for _, k := range r.Knobs {
			if k.index == knob && k.Does == does {
				return true
			}
		}
		return false
	})
}

func (p *prover) eachKnob(c *check, does, format string, hint string) {
	for k := range p.g.Knobs {
		if bad := p.knobRows(k, does); len(bad) > 0 {
			p.report(c, p.knobSpan(k), bad, format, p.g.Knobs[k].Name).Hint = hint
		}
	}
}

// knobSpan is the first run soldered to a knob's pot, its case aside.
func (p *prover) knobSpan(knob int) diag.Span {
	for i := range p.g.Tracks {
		t := &p.g.Tracks[i]
		if t.Knob != knob {
			continue
		}
		for _, r := range p.g.Runs {
			for _, term := range []int{t.CW, t.CCW, t.Wiper} {
				if r.A == term || r.B == term {
					return r.Span
				}
			}
		}
	}
	return p.useSpan(p.g.Knobs[knob].Use)
}

var volumeWrongWay = &check{diag.Code{Code: "volume-backwards", Severity: diag.Error,
	Says: "a volume is full at 0 and silent at 10", Notice: "the knob works the wrong way round"}, func(p *prover, c *check) {
	for k := range p.g.Knobs {
		bad := p.rowsWhere(func(i int, r *Row) bool {
			if r.Unsure {
				return slices.ContainsFunc(r.Knobs, func(a KnobAct) bool { return a.index == k && a.Does == volumeBackwards })
			}
			down := p.moved(r.Setting, k, 0, 0)
			return len(p.lost(down, p.networks[i])) > len(p.lost(p.networks[i], down)) && !isBlend(p.g, k)
		})
		if len(bad) > 0 {
			p.report(c, p.knobSpan(k), bad, "%s is full at 0 and silent at 10: its outer lugs are swapped", p.g.Knobs[k].Name)
		}
	}
}}

var toneWrongWay = &check{diag.Code{Code: "tone-backwards", Severity: diag.Error,
	Says: "a tone is dark at 10 and bright at 0", Notice: "the knob works the wrong way round"}, func(p *prover, c *check) {
	p.eachKnob(c, toneBackwards, "%s is dark at 10 and bright at 0: the wrong outer lug is used", "use the ccw lug instead of cw, beside the wiper")
}}

var alwaysDark = &check{diag.Code{Code: "always-dark", Severity: diag.Warning,
	Says: "a capacitor lies straight across the signal, no knob or switch opens it", Notice: "always dark, the tone does nothing"}, func(p *prover, c *check) {
	for i := range p.g.Caps {
		bad := p.rowsWhere(func(row int, _ *Row) bool { return p.darkens(row, i) })
		if len(bad) > 0 && p.neverBright(i) {
			p.report(c, p.termSpan(p.g.Caps[i].A), bad, "%s %s lies straight across the signal: always dark", p.with(bad),
				p.g.Loom.Uses[p.g.Caps[i].Use].Name)
		}
	}
}}

// darkens reports whether a capacitor lies across the output in a row, knobs
// up, and not because a tone is backwards.
func (p *prover) darkens(row, capacitor int) bool {
	n := p.networks[row]
	return n.acrossOutput(capacitor) && slices.Contains(n.engaged(), capacitor) &&
		!slices.ContainsFunc(p.rows[row].Knobs, func(k KnobAct) bool { return k.Does == toneBackwards })
}

// neverBright reports whether some coil is heard only with a capacitor across
// the output: where every coil is also heard without it, a switch selects it.
func (p *prover) neverBright(capacitor int) bool {
	heard, bright := make([]bool, len(p.g.Coils)), make([]bool, len(p.g.Coils))
	for row, n := range p.networks {
		for i, live := range n.liveCoils() {
			heard[i] = heard[i] || live
			bright[i] = bright[i] || live && !p.darkens(row, capacitor)
		}
	}
	return !slices.Equal(heard, bright)
}

// acrossOutput reports whether a capacitor joins hot and ground directly.
func (n *network) acrossOutput(c int) bool {
	a, b := n.nets.Of[n.g.Caps[c].A], n.nets.Of[n.g.Caps[c].B]
	return a == n.hot && b == n.ground || a == n.ground && b == n.hot
}

var knobDead = &check{diag.Code{Code: "knob-dead", Severity: diag.Warning,
	Says: "a knob acts in no setting", Notice: "turning it changes nothing"}, func(p *prover, c *check) {
	for k := range p.g.Knobs {
		acts := p.rowsWhere(func(_ int, r *Row) bool {
			for _, a := range r.Knobs {
				if a.index == k {
					return true
				}
			}
			return r.Output == Shorted || r.Unsure
		})
		if len(acts) == 0 && p.anySounding() {
			p.report(c, p.knobSpan(k), nil, "%s changes nothing in any setting", p.g.Knobs[k].Name)
		}
	}
}}

var knobWeak = &check{diag.Code{Code: "knob-weak", Severity: diag.Warning,
	Says: "a knob that acts only loads: it never mutes, darkens or blends", Notice: "turning it changes little"}, func(p *prover, c *check) {
	for k := range p.g.Knobs {
		weak := p.rowsWhere(func(i int, r *Row) bool { return slices.Contains(r.knobsThat(load), k) && !p.smothers(i, k) })
		acts := p.rowsWhere(func(_ int, r *Row) bool {
			return slices.ContainsFunc(r.Knobs, func(a KnobAct) bool { return a.index == k })
		})
		if len(weak) == 0 || len(weak) < len(acts) {
			continue
		}
		p.report(c, p.knobSpan(k), weak, "%s never mutes, darkens or blends: turning it changes little", p.g.Knobs[k].Name).Hint = p.freeLugs(k)
	}
}}

// smothers reports whether a knob at either end of its turn puts its track in
// the way of the sound before a capacitor: together they take treble away,
// whatever the knob is called.
func (p *prover) smothers(row, knob int) bool {
	return p.networks[row].capBehind(knob) || p.moved(p.rows[row].Setting, knob, 0, 0).capBehind(knob)
}

// capBehind reports whether a capacitor lies straight across the sound where it
// has gone through a track of a knob.
func (n *network) capBehind(knob int) bool {
	if !n.goesThrough(knob) {
		return false
	}
	way, before := n.way(), n.before(knob)
	on := make([]bool, n.nets.Count)
	for _, e := range way {
		on[e.a], on[e.b] = true, true
	}
	return len(n.liveCaps(func(e element) bool {
		return on[e.a] && on[e.b] && !(before[e.a] && before[e.b]) && !slices.Contains(way, e)
	})) > 0
}

// before marks the nets of heard coils, and those that the sound reaches from
// there without going through a track of a knob.
func (n *network) before(knob int) []bool {
	out := n.coilNets()
	for grown := true; grown; {
		grown = false
		for _, e := range n.way() {
			if e.kind == track && n.g.Tracks[e.index].Knob == knob || out[e.a] == out[e.b] {
				continue
			}
			out[e.a], out[e.b], grown = true, true, true
		}
	}
	return out
}

// freeLugs names the lugs of a knob's pot that nothing is soldered to.
func (p *prover) freeLugs(knob int) string {
	joined := p.soldered()
	var free []string
	for i := range p.g.Tracks {
		t := &p.g.Tracks[i]
		for _, lug := range []int{t.CW, t.Wiper, t.CCW} {
			if t.Knob == knob && !joined[lug] {
				free = append(free, p.g.Terms[lug].Name)
			}
		}
	}
	if len(free) == 0 {
		return ""
	}
	return "nothing is soldered to " + strings.Join(free, " and ")
}

func (p *prover) anySounding() bool {
	for i := range p.rows {
		if p.rows[i].Output == Sounding {
			return true
		}
	}
	return false
}

var volumesMute = &check{diag.Code{Code: "volumes-mute-all", Severity: diag.Info,
	Says: "each of two volumes mutes everything in a setting", Notice: "one volume at 0 silences the other pickup too"}, func(p *prover, c *check) {
	masters := p.masters()
	p.tangled(c, func(r *Row) []int { return p.volumesOf(r, masters) }, "%s each of %s mutes everything: one at 0 silences the other pickup too",
		"for independent volumes, join each pickup to its pot's wiper and the output to cw")
}}

var tonesTogether = &check{diag.Code{Code: "tones-load-together", Severity: diag.Info,
	Says: "two tones act on the whole sound in a setting", Notice: "where pickups are heard together, turning down either tone darkens both: usual, and no fault"}, func(p *prover, c *check) {
	p.tangled(c, func(r *Row) []int { return r.knobsThat(tone) }, "%s, turning down any one of %s darkens all that is heard, not its own pickup alone", "")
}}

// knobsThat lists the knobs that do one thing in a row.
func (r *Row) knobsThat(does string) []int {
	var out []int
	for _, k := range r.Knobs {
		if k.Does == does {
			out = append(out, k.index)
		}
	}
	return out
}

// volumesOf lists the volumes that mute all of a row in which several pickups
// are heard; a master, which does so in every row, counts only where all do.
func (p *prover) volumesOf(r *Row, masters []bool) []int {
	all := r.knobsThat(volume)
	if len(all) < 2 || len(p.pickupsIn(r)) < 2 {
		return nil
	}
	own := slices.DeleteFunc(slices.Clone(all), func(knob int) bool { return masters[knob] })
	if len(own) == 0 {
		return all
	}
	return own
}

// pickupsIn marks the pickups that are heard in a row.
func (p *prover) pickupsIn(r *Row) map[int]bool {
	out := map[int]bool{}
	for _, leaf := range r.Sound.Leaves() {
		if c := p.g.CoilIndex(leaf.Name); c >= 0 {
			out[p.g.Coils[c].Use] = true
		}
	}
	return out
}

// masters marks the knobs that mute every row that sounds.
func (p *prover) masters() []bool {
	out := make([]bool, len(p.g.Knobs))
	for k := range out {
		out[k] = true
	}
	for i := range p.rows {
		if r := &p.rows[i]; r.Output == Sounding {
			mutes := r.knobsThat(volume)
			for k := range out {
				out[k] = out[k] && slices.Contains(mutes, k)
			}
		}
	}
	return out
}

// tangled reports settings in which several knobs do the same to all that is heard.
func (p *prover) tangled(c *check, which func(*Row) []int, format, hint string) {
	byKnobs := map[string][]string{}
	first := map[string]int{}
	var order []string
	for i := range p.rows {
		knobs := which(&p.rows[i])
		if len(knobs) < 2 {
			continue
		}
		var names []string
		for _, k := range knobs {
			names = append(names, p.g.Knobs[k].Name)
		}
		key := strings.Join(names, " and ")
		if byKnobs[key] == nil {
			order, first[key] = append(order, key), knobs[0]
		}
		byKnobs[key] = append(byKnobs[key], p.rows[i].Name)
	}
	for _, key := range order {
		p.report(c, p.useSpan(p.g.Knobs[first[key]].Use), byKnobs[key], format, p.with(byKnobs[key]), key).Hint = hint
	}
}
