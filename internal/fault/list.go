package fault

import (
	"fmt"
	"math"
	"slices"

	"loomwright/internal/wiring"
)

// nextDoor is how near two terminals of a part lie for a blob of solder to join
// them or a wire to land on the wrong one, mm (judgement: pot lugs stand 5 mm
// apart, toggle lugs 4.7 mm).
const nextDoor = 6.0

// List names everything that can go wrong with a loom, in a fixed order.
func List(g *wiring.Graph) []Fault {
	l := &lister{g: g, priors: Priors()}
	l.runs()
	l.neighbours()
	l.swaps()
	l.pickups()
	l.pots()
	l.capacitors()
	l.switches()
	l.output()
	return l.faults
}

type lister struct {
	g      *wiring.Graph
	priors map[Kind]float64
	faults []Fault
}

func (l *lister) add(f Fault) {
	f.Prior = l.priors[f.Kind]
	l.faults = append(l.faults, f)
}

func (l *lister) name(term int) string { return l.g.Terms[term].Name }

// place names the part that a terminal is on.
func (l *lister) use(term int) string {
	if u := l.g.Terms[term].Use; u >= 0 {
		return l.g.Loom.Uses[u].Name
	}
	return ""
}

// runs: each end of each run open or resistive, each run missing.
func (l *lister) runs() {
	for i, r := range l.g.Runs {
		way := fmt.Sprintf("%s -- %s", l.name(r.A), l.name(r.B))
		for _, t := range []int{r.A, r.B} {
			f := none(JointOpen, fmt.Sprintf("open joint at %s on the wire %s", l.name(t), way))
			f.Run, f.Term = i, t
			l.add(f)
			f.Kind, f.Words = JointResistive, fmt.Sprintf("bad (resistive) joint at %s on the wire %s", l.name(t), way)
			l.add(f)
		}
		f := none(WireMissing, "missing wire "+way)
		if l.isStrings(r.A) || l.isStrings(r.B) {
			f = none(NoStringGround, "the string ground is not joined")
		}
		f.Run = i
		l.add(f)
	}
}

func (l *lister) isStrings(term int) bool {
	u := l.g.Terms[term].Use
	return u >= 0 && l.g.Loom.Uses[u].Part.ID == "ground/string"
}

// neighbours: bridges between terminals that lie next door, and wires on the
// terminal next door.
func (l *lister) neighbours() {
	next := Neighbours(l.g)
	for _, p := range next {
		f := none(Bridge, fmt.Sprintf("solder bridge between %s and %s", l.name(p[0]), l.name(p[1])))
		f.Term, f.To = p[0], p[1]
		l.add(f)
	}
	for i, r := range l.g.Runs {
		for _, t := range []int{r.A, r.B} {
			for _, p := range next {
				if p[0] != t && p[1] != t {
					continue
				}
				f := none(WireNextDoor, fmt.Sprintf("the wire %s -- %s sits on %s instead of %s", l.name(r.A), l.name(r.B), l.name(p[0]+p[1]-t), l.name(t)))
				f.Run, f.Term, f.To = i, t, p[0]+p[1]-t
				l.add(f)
			}
		}
	}
}

// Neighbours lists the pairs of terminals of one part that lie next door, by
// the geometry of the part file (pads and pins included); leads in the air have
// no neighbours.
func Neighbours(g *wiring.Graph) [][2]int {
	var out [][2]int
	for a := range g.Terms {
		for b := a + 1; b < len(g.Terms) && g.Terms[b].Use == g.Terms[a].Use; b++ {
			if near(g, a, b) {
				out = append(out, [2]int{a, b})
			}
		}
	}
	return out
}

func near(g *wiring.Graph, a, b int) bool {
	for _, p := range places(g, a) {
		for _, q := range places(g, b) {
			if math.Hypot(p[0]-q[0], p[1]-q[1]) <= nextDoor {
				return true
			}
		}
	}
	return false
}

// places lists where a terminal can be soldered, mm.
func places(g *wiring.Graph, t int) [][2]float64 {
	term := g.Terms[t]
	if term.Use < 0 || term.Terminal < 0 || term.Kind == "lead" || term.Kind == "case" || term.Kind == "plate" {
		return nil
	}
	p := g.Loom.Uses[term.Use].Part.Terminals[term.Terminal]
	var out [][2]float64
	if p.Placed {
		out = append(out, p.At)
	}
	if p.HasPin {
		out = append(out, p.Pin)
	}
	return out
}

// swaps: two leads of a pickup, or two wires of a part, exchanged.
func (l *lister) swaps() {
	type end struct{ run, term int }
	byUse := map[int][]end{}
	for i, r := range l.g.Runs {
		for _, t := range []int{r.A, r.B} {
			if l.g.Terms[t].Kind == "lead" {
				byUse[l.g.Terms[t].Use] = append(byUse[l.g.Terms[t].Use], end{i, t})
			}
		}
	}
	for u := range l.g.Loom.Uses {
		ends := byUse[u]
		for i, a := range ends {
			for _, b := range ends[i+1:] {
				if a.run == b.run || a.term == b.term || l.sameFarEnd(a.run, a.term, b.run, b.term) {
					continue
				}
				f := none(LeadsSwapped, fmt.Sprintf("%s and %s are swapped", l.name(a.term), l.name(b.term)))
				f.Run, f.Term, f.Other, f.To = a.run, a.term, b.run, b.term
				l.add(f)
			}
		}
	}
}

func (l *lister) sameFarEnd(runA, a, runB, b int) bool {
	return l.g.Runs[runA].A+l.g.Runs[runA].B-a == l.g.Runs[runB].A+l.g.Runs[runB].B-b
}

// pickups: coils and magnets, and a lead that touches metal.
func (l *lister) pickups() {
	for i := range l.g.Coils {
		c := &l.g.Coils[i]
		for _, k := range []struct {
			kind  Kind
			words string
		}{{CoilOpen, "%s is open inside"}, {CoilShorted, "%s has shorted turns"}, {CoilReversed, "%s is reversed inside the pickup"}, {MagnetReversed, "the magnet of %s is reversed"}} {
			f := none(k.kind, fmt.Sprintf(k.words, c.Name))
			f.Coil = i
			l.add(f)
		}
		for _, t := range []int{c.Start, c.Finish} {
			if metal := l.metalOf(c.Use); metal >= 0 && metal != t {
				f := none(LeadToMetal, fmt.Sprintf("%s touches the shield or baseplate of %s", l.name(t), l.use(t)))
				f.Term, f.To = t, metal
				l.add(f)
			}
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

// pots: ends swapped, track or wiper open, half or twice the value.
func (l *lister) pots() {
	for i := range l.g.Tracks {
		knob := l.g.Knobs[l.g.Tracks[i].Knob].Name
		for _, k := range []struct {
			kind   Kind
			words  string
			factor float64
		}{{PotEndsSwapped, "the outer lugs of %s are swapped", 1}, {TrackOpen, "the track of %s is broken at its ccw end", 1}, {WiperOpen, "the wiper of %s is lifted", 1},
			{TrackWrong, "%s is half the value it should be", 0.5}, {TrackWrong, "%s is twice the value it should be", 2}} {
			f := none(k.kind, fmt.Sprintf(k.words, knob))
			f.Track, f.Factor = i, k.factor
			l.add(f)
		}
	}
}

func (l *lister) capacitors() {
	for i := range l.g.Caps {
		name := l.g.Loom.Uses[l.g.Caps[i].Use].Name
		for _, k := range []struct {
			kind   Kind
			words  string
			factor float64
		}{{CapacitorShort, "%s is shorted", 1}, {CapacitorOpen, "%s is open", 1}, {CapacitorWrong, "%s is a tenth of the value it should be", 0.1}, {CapacitorWrong, "%s is ten times the value it should be", 10}} {
			f := none(k.kind, fmt.Sprintf(k.words, name))
			f.Cap, f.Factor = i, k.factor
			l.add(f)
		}
	}
}

func (l *lister) switches() {
	for i := range l.g.Switches {
		s := &l.g.Switches[i]
		for p := range s.Contacts {
			for at, groups := range s.Contacts[p] {
				if len(groups) == 0 || !l.anyJoined(groups) {
					continue
				}
				where := fmt.Sprintf("the contact of %s at %s", l.name(groups[0][0]), s.Positions[at].Name)
				for _, k := range []Kind{ContactOpen, ContactBad} {
					f := none(k, where+map[Kind]string{ContactOpen: " does not close", ContactBad: " is dirty (resistive)"}[k])
					f.Switch, f.Pole, f.Position = i, p, at
					l.add(f)
				}
			}
		}
		f := none(SwitchUpside, s.Name+" is upside down")
		f.Switch = i
		l.add(f)
	}
}

// anyJoined reports whether at least two terminals of a group have a run.
func (l *lister) anyJoined(groups [][]int) bool {
	for _, group := range groups {
		n := 0
		for _, t := range group {
			if slices.ContainsFunc(l.g.Links, func(k wiring.Link) bool { return k.A == t || k.B == t }) {
				n++
			}
		}
		if n > 1 {
			return true
		}
	}
	return false
}

func (l *lister) output() {
	if l.g.Hot >= 0 {
		l.add(none(JackSwapped, "tip and sleeve are swapped at the output"))
	}
}
