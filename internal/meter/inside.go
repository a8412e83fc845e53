package meter

import (
	"loomwright/internal/fault"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// inside: pairs of terminals that lie near one another or belong together, each
// with the switches in a few settings that show every position once.
func (f *offer) inside() {
	full := setting.FullUp(f.g)
	pairs := f.pairs()
	for _, at := range keySettings(f.g) {
		for _, p := range pairs {
			f.ohms(at, full, p[0], p[1])
		}
	}
	for _, at := range keySettings(f.g) {
		for i := range f.g.Tracks {
			f.track(at, full, i)
		}
	}
	f.coils(full)
}

// track: the lugs of a pot with its knob elsewhere.
func (f *offer) track(at []int, full setting.Turn, i int) {
	t := &f.g.Tracks[i]
	if !f.wired[t.CW] && !f.wired[t.Wiper] && !f.wired[t.CCW] {
		return
	}
	for _, mark := range f.marks(t.Knob) {
		turn := full.With(t.Knob, mark)
		f.ohms(at, turn, t.CW, t.Wiper)
		f.ohms(at, turn, t.Wiper, t.CCW)
		for _, r := range f.g.Runs {
			if onTrack(t, r.A) || onTrack(t, r.B) {
				f.ohms(at, turn, r.A, r.B)
			}
		}
	}
}

func onTrack(t *wiring.Track, term int) bool { return term == t.CW || term == t.Wiper || term == t.CCW }

// coils: each coil tapped at its own leads.
func (f *offer) coils(full setting.Turn) {
	for i := range f.g.Coils {
		c := &f.g.Coils[i]
		if f.probed(c.Start) && f.probed(c.Finish) {
			for _, at := range keySettings(f.g) {
				ask := f.ask(Tap, at, full)
				ask.A, ask.B, ask.Coil = c.Start, c.Finish, i
				if f.m.at(&ask).tap(i, c.Start, c.Finish)&Still == 0 {
					f.add(ask)
					break
				}
			}
		}
	}
}

// keySettings are the fewest settings in which every position of every switch
// comes up.
func keySettings(g *wiring.Graph) [][]int {
	n := 1
	for i := range g.Switches {
		if g.Switches[i].Proved < 0 {
			n = max(n, len(g.Switches[i].Positions))
		}
	}
	var out [][]int
	for k := range n {
		at := make([]int, len(g.Switches))
		for i := range at {
			if at[i] = g.Switches[i].Proved; at[i] < 0 {
				at[i] = k % len(g.Switches[i].Positions)
			}
		}
		out = append(out, at)
	}
	return out
}

// probed reports whether a terminal is in reach and worth a probe: it is wired,
// or lies on a part that is; leads are probed on their bare end.
func (f *offer) probed(t int) bool {
	term := f.g.Terms[t]
	return term.Use >= 0 && term.Kind != "plate" && f.wired[t]
}

// pairs lists the pairs of terminals that a meter can be held to, those worth a
// reading first: both ends of each run, what lies next door, what switch
// contacts join, the ends of coils, tracks and capacitors, everything against
// ground and hot; then any two.
func (f *offer) pairs() [][2]int {
	var out [][2]int
	seen := map[[2]int]bool{}
	add := func(a, b int) {
		if p := [2]int{min(a, b), max(a, b)}; a != b && f.probed(a) && f.probed(b) && !seen[p] {
			seen[p] = true
			out = append(out, [2]int{a, b})
		}
	}
	for _, r := range f.g.Runs {
		add(r.A, r.B)
	}
	for _, p := range append(fault.Neighbours(f.g), fault.NearMetal(f.g)...) {
		add(p[0], p[1])
	}
	for i := range f.g.Switches {
		for _, p := range Contacts(&f.g.Switches[i]) {
			add(p[0], p[1])
		}
	}
	f.elements(add)
	for _, ref := range f.references() {
		for t := range f.g.Terms {
			add(t, ref)
		}
	}
	for a := range f.g.Terms {
		for b := range a {
			add(b, a)
		}
	}
	return out
}

// elements adds the ends of coils, tracks and capacitors.
func (f *offer) elements(add func(a, b int)) {
	for i := range f.g.Coils {
		add(f.g.Coils[i].Start, f.g.Coils[i].Finish)
	}
	for i := range f.g.Tracks {
		t := &f.g.Tracks[i]
		add(t.CW, t.CCW)
		add(t.CW, t.Wiper)
		add(t.Wiper, t.CCW)
	}
	for i := range f.g.Caps {
		add(f.g.Caps[i].A, f.g.Caps[i].B)
	}
}

// references are hot and ground; before the jack is in, the metal that most
// wires come to.
func (f *offer) references() []int {
	if f.hasJack() {
		return []int{f.g.Ground, f.g.Hot}
	}
	count := make([]int, len(f.g.Terms))
	for _, l := range f.g.Links {
		if l.Run >= 0 {
			count[l.A]++
			count[l.B]++
		}
	}
	best := -1
	for _, t := range f.g.Grounds {
		if f.probed(t) && (best < 0 || count[t] > count[best]) {
			best = t
		}
	}
	if best < 0 {
		return nil
	}
	return []int{best}
}

// Contacts lists what the contacts of a switch can join.
func Contacts(s *wiring.Switch) [][2]int {
	var out [][2]int
	seen := map[[2]int]bool{}
	for _, pole := range s.Contacts {
		for _, groups := range pole {
			for _, group := range groups {
				for _, t := range group[1:] {
					p := [2]int{group[0], t}
					if !seen[p] {
						seen[p] = true
						out = append(out, p)
					}
				}
			}
		}
	}
	return out
}
