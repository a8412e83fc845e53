package fault

import (
	"fmt"
	"slices"
)

// pickups: coils and magnets, and a lead that touches metal. Points where a
// pickup will be joined have none yet.
func (l *lister) pickups() {
	for i := range l.g.Coils {
		c := &l.g.Coils[i]
		if l.class(c.Start) == "points" || !l.joined(c.Use) {
			continue
		}
		for _, k := range []struct {
			kind  Kind
			words string
		}{{CoilOpen, "%s is open inside, or its lead is broken in the cable"}, {CoilShorted, "%s has shorted turns"},
			{CoilReversed, "%s is reversed inside the pickup"}, {MagnetReversed, "the magnet of %s is reversed"}} {
			f := none(k.kind, fmt.Sprintf(k.words, c.Name))
			f.Coil = i
			l.add(f)
		}
		l.onMetal(i)
	}
}

// joined reports whether any lead of a pickup is soldered.
func (l *lister) joined(use int) bool {
	for t := range l.g.Terms {
		if l.g.Terms[t].Use == use && l.wired(t) {
			return true
		}
	}
	return false
}

func (l *lister) onMetal(coil int) {
	c := &l.g.Coils[coil]
	metal := l.metalOf(c.Use)
	for _, t := range []int{c.Start, c.Finish} {
		if metal >= 0 && metal != t {
			f := none(LeadToMetal, fmt.Sprintf("%s touches %s", l.name(t), l.name(metal)))
			f.Term, f.To = t, metal
			l.add(f)
		}
	}
}

// metalOf is the first terminal of a use that belongs on ground, or −1.
func (l *lister) metalOf(use int) int {
	for _, t := range l.g.Grounds {
		if l.g.Terms[t].Use == use {
			return t
		}
	}
	return -1
}

// pots: ends swapped, track or wiper open, of wrong value or taper.
func (l *lister) pots() {
	for i := range l.g.Tracks {
		t := &l.g.Tracks[i]
		if !l.wired(t.CW) && !l.wired(t.Wiper) && !l.wired(t.CCW) {
			continue
		}
		l.pot(i, TrackOpen, "the track of %s is broken at its ccw end", 0, false)
		l.pot(i, TrackOpen, "the track of %s is broken at its cw end", 0, true)
		l.pot(i, WiperOpen, "the wiper of %s is lifted", 0, false)
		l.pot(i, PotEndsSwapped, "the wires on the outer lugs of %s are swapped", 0, false)
		if t.Value.Ohms.X > 0 {
			l.pot(i, TrackWrong, "the track of %s has half the value it should have", 0.5, false)
			l.pot(i, TrackWrong, "the track of %s has twice the value it should have", 2, false)
		}
		if t.Value.Taper != "" {
			l.pot(i, TaperWrong, "the track of %s has another taper than it should have", 0, false)
		}
	}
}

func (l *lister) pot(track int, kind Kind, words string, factor float64, atCW bool) {
	t := &l.g.Tracks[track]
	name := l.g.Knobs[t.Knob].Name
	if p := l.g.Loom.Uses[t.Use].Part; len(p.Tracks) > 1 && t.Name != "" {
		name = l.g.Loom.Uses[t.Use].Name + "." + t.Name
	}
	f := none(kind, fmt.Sprintf(words, name))
	f.Track, f.Factor, f.AtCW = track, factor, atCW
	l.add(f)
}

func (l *lister) capacitors() {
	for i := range l.g.Caps {
		c := &l.g.Caps[i]
		if !l.wired(c.A) && !l.wired(c.B) {
			continue
		}
		l.capacitor(i, CapacitorShort, "%s is shorted", 0)
		l.capacitor(i, CapacitorOpen, "%s is open", 0)
		if c.Value.X > 0 {
			l.capacitor(i, CapacitorWrong, "%s has a tenth of the value it should have", 0.1)
			l.capacitor(i, CapacitorWrong, "%s has ten times the value it should have", 10)
		}
	}
}

func (l *lister) capacitor(i int, kind Kind, words string, factor float64) {
	f := none(kind, fmt.Sprintf(words, l.g.Loom.Uses[l.g.Caps[i].Use].Name))
	f.Cap, f.Factor = i, factor
	l.add(f)
}

// switches: each contact between wired terminals open or resistive, and the
// switch upside down. A jack's own contact is no player's switch.
func (l *lister) switches() {
	for i := range l.g.Switches {
		s := &l.g.Switches[i]
		used := false
		for p := range s.Contacts {
			for _, pair := range l.contactsOf(s.Contacts[p]) {
				used = true
				l.contact(i, p, pair)
			}
		}
		if used && s.Proved < 0 {
			f := none(SwitchUpside, fmt.Sprintf("%s is upside down: %s and %s are exchanged", s.Name, s.Positions[0].Name, s.Positions[len(s.Positions)-1].Name))
			f.Switch = i
			l.add(f)
		}
	}
}

// contactsOf lists the contacts of a pole both of whose terminals are wired.
func (l *lister) contactsOf(pole [][][]int) [][2]int {
	var out [][2]int
	for p := range l.contactPairs(pole) {
		if l.wired(p[0]) && l.wired(p[1]) {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	return out
}

func (l *lister) contact(sw, pole int, pair [2]int) {
	where := fmt.Sprintf("the contact of %s between %s and %s", l.g.Switches[sw].Name, l.name(pair[0]), l.name(pair[1]))
	for _, k := range []Kind{ContactOpen, ContactBad} {
		f := none(k, where+map[Kind]string{ContactOpen: " does not close", ContactBad: " is dirty (resistive)"}[k])
		f.Switch, f.Pole, f.Term, f.To = sw, pole, pair[1], pair[0]
		l.add(f)
	}
}
