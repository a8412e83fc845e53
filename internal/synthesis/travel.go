package synthesis

import (
	"slices"

	"loomwright/internal/part"
	"loomwright/internal/sat"
)

// passage is the way between two neighbouring settings: what is closed at each
// moment of it, all poles moving together.
type passage struct {
	from, to int // settings
	stages   [][][]int
}

// passages lists the ways between settings in both of which a sound is wished.
func (p *puzzle) passages() []passage {
	var out []passage
	for i := range p.settings {
		for sw := range p.switches {
			s := &p.switches[sw]
			next := p.settings[i].at[sw] + 1
			if next == s.positions && s.around && next > 2 {
				next = 0
			}
			k := p.settingAt(i, sw, next)
			if k >= 0 && p.sounds(i) && p.sounds(k) {
				out = append(out, passage{i, k, p.stages(i, k, sw)})
			}
		}
	}
	return out
}

// settingAt finds the setting that differs from another in one switch; −1 when
// there is none.
func (p *puzzle) settingAt(i, sw, position int) int {
	at := slices.Clone(p.settings[i].at)
	at[sw] = position
	return slices.IndexFunc(p.settings, func(s setpoint) bool { return slices.Equal(s.at, at) })
}

func (p *puzzle) sounds(i int) bool {
	w := p.settings[i].wish
	return w >= 0 && p.wishes[w].tree != nil
}

// stages lists what is closed on the way between two settings: what both have
// where contacts break first, what either has where they make first.
func (p *puzzle) stages(i, k, sw int) [][][]int {
	var still [][]int
	for n, s := range p.switches {
		if n != sw {
			still = append(still, s.closed[p.settings[i].at[n]]...)
		}
	}
	still = append(still, p.always...)
	s := &p.switches[sw]
	from, to := s.closed[p.settings[i].at[sw]], s.closed[p.settings[k].at[sw]]
	var out [][][]int
	if s.travel != part.MakeFirst {
		out = append(out, append(slices.Clone(still), inBoth(from, to)...))
	}
	if s.travel != part.BreakFirst {
		out = append(out, slices.Concat(still, from, to))
	}
	return out
}

// inBoth is what two positions both join.
func inBoth(from, to [][]int) [][]int {
	var out [][]int
	for _, a := range from {
		for _, b := range to {
			both := slices.DeleteFunc(slices.Clone(a), func(x int) bool { return !slices.Contains(b, x) })
			if len(both) > 1 {
				out = append(out, both)
			}
		}
	}
	return out
}

// coilGroups are the coils as contacts.
func (p *puzzle) coilGroups() [][]int {
	var out [][]int
	for _, x := range p.elements {
		if x.a != x.b {
			out = append(out, []int{x.a, x.b})
		}
	}
	return out
}

// Moments of a passage, mildest first.
const (
	smooth = ""
	gap    = "gap"  // no coil, but a track holds hot
	mute   = "mute" // hot is shorted
	pop    = "pop"  // hot hangs in the air
)

// moment is the worst that happens on a passage.
func (p *puzzle) moment(s solution, w *passage) string {
	worst := smooth
	for _, groups := range w.stages {
		net := p.nets(s, groups)
		through := p.nets(net, p.coilGroups())
		switch {
		case net[hot] == net[ground]:
			worst = worse(worst, mute)
		case through[hot] != through[ground] && p.held:
			worst = worse(worst, gap)
		case through[hot] != through[ground]:
			worst = worse(worst, pop)
		}
	}
	return worst
}

func worse(a, b string) string {
	order := []string{smooth, gap, mute, pop}
	return order[max(slices.Index(order, a), slices.Index(order, b))]
}

// noise counts the passages that are not smooth.
func (p *puzzle) noise(s solution) int {
	n := 0
	for _, w := range p.passages() {
		if p.moment(s, &w) != smooth {
			n++
		}
	}
	return n
}

// noisy returns one literal for each passage: it is not smooth.
func (e *encoding) noisy() []sat.Lit {
	var out []sat.Lit
	keep := []int{hot, ground}
	for _, w := range e.p.passages() {
		var bad []sat.Lit
		for _, groups := range w.stages {
			short := e.reach(groups, keep)[hot][ground]
			through := e.reach(slices.Concat(groups, e.p.coilGroups()), keep)[hot][ground]
			bad = append(bad, short, through.Not())
		}
		out = append(out, e.g.Or(bad...))
	}
	return out
}
