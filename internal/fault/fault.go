// Package fault lists what can go wrong with a soldered loom and applies each
// to a graph: a faulted loom is an ordinary graph, which every later stage
// computes like any other. Nothing here judges readings.
package fault

import (
	"slices"

	"loomwright/internal/wiring"
)

// Kind is a sort of fault.
type Kind string

// The kinds of fault.
const (
	JointOpen      Kind = "joint open"
	JointResistive Kind = "joint resistive"
	WireMissing    Kind = "wire missing"
	Bridge         Kind = "bridge"
	LeadsSwapped   Kind = "leads swapped"
	WireNextDoor   Kind = "wire on the next terminal"
	CoilOpen       Kind = "coil open"
	CoilShorted    Kind = "shorted turns"
	CoilReversed   Kind = "coil reversed"
	MagnetReversed Kind = "magnet reversed"
	LeadToMetal    Kind = "lead to case or shield"
	PotEndsSwapped Kind = "pot ends swapped"
	TrackOpen      Kind = "track open"
	WiperOpen      Kind = "wiper open"
	TrackWrong     Kind = "track of wrong value"
	CapacitorShort Kind = "capacitor shorted"
	CapacitorOpen  Kind = "capacitor open"
	CapacitorWrong Kind = "capacitor of wrong value"
	ContactOpen    Kind = "switch contact open"
	ContactBad     Kind = "switch contact resistive"
	SwitchUpside   Kind = "switch upside down"
	JackSwapped    Kind = "tip and sleeve swapped"
	NoStringGround Kind = "string ground missing"
)

// Fault is one thing that can be wrong. What of the numbers has a meaning
// depends on the kind; unused ones are −1. A fault is a value and can be
// compared.
type Fault struct {
	Kind     Kind
	Words    string // in the loom's own names: "open joint at volume.cw (run 3)"
	Run      int    // soldered run
	Other    int    // second run (leads swapped)
	Term     int    // terminal: where
	To       int    // terminal: the other one
	Coil     int
	Track    int
	Cap      int
	Switch   int
	Pole     int
	Position int
	Factor   float64 // what a wrong value is multiplied by
	Prior    float64 // stated judgement: how likely beside the others (see Priors)
}

// none is a Fault with every index unused.
func none(k Kind, words string) Fault {
	return Fault{Kind: k, Words: words, Run: -1, Other: -1, Term: -1, To: -1, Coil: -1, Track: -1, Cap: -1, Switch: -1, Pole: -1, Position: -1}
}

// Priors are judgements (no source): how likely each kind is beside the others,
// per place where it can be. They can be given otherwise.
func Priors() map[Kind]float64 {
	return map[Kind]float64{
		JointOpen: 3, JointResistive: 2, WireMissing: 2, Bridge: 1.5, LeadsSwapped: 3, WireNextDoor: 2,
		CoilOpen: 1, CoilShorted: 0.3, CoilReversed: 1, MagnetReversed: 0.5, LeadToMetal: 1,
		PotEndsSwapped: 2, TrackOpen: 0.5, WiperOpen: 0.7, TrackWrong: 0.7,
		CapacitorShort: 0.3, CapacitorOpen: 0.3, CapacitorWrong: 0.7,
		ContactOpen: 1, ContactBad: 1, SwitchUpside: 2, JackSwapped: 2, NoStringGround: 3,
	}
}

// resistive is the resistance put in for a bad joint or contact, Ω: enough to
// be heard and to be measured (judgement, no source).
const resistive = 22e3

// Apply returns the graph with a fault in it; the healthy graph is not changed.
func Apply(g *wiring.Graph, f Fault) *wiring.Graph {
	out := *g
	do[f.Kind](&out, f)
	return &out
}

// ApplyAll applies several faults one after the other.
func ApplyAll(g *wiring.Graph, faults ...Fault) *wiring.Graph {
	for _, f := range faults {
		g = Apply(g, f)
	}
	return g
}

// do changes a shallow copy of a graph; each function clones what it changes.
var do = map[Kind]func(*wiring.Graph, Fault){
	JointOpen:      cutRunEnd,
	JointResistive: resistiveJoint,
	WireMissing:    dropRun,
	NoStringGround: dropRun,
	Bridge:         func(g *wiring.Graph, f Fault) { link(g, f.Term, f.To) },
	LeadToMetal:    func(g *wiring.Graph, f Fault) { link(g, f.Term, f.To) },
	LeadsSwapped:   swapEnds,
	JackSwapped:    swapOutput,
	WireNextDoor:   moveEnd,
	CoilOpen: func(g *wiring.Graph, f Fault) {
		g.Coils = slices.Clone(g.Coils)
		g.Coils[f.Coil].Finish = loose(g, "the break inside "+g.Coils[f.Coil].Name)
	},
	CoilShorted: shortTurns,
	CoilReversed: func(g *wiring.Graph, f Fault) {
		g.Coils = slices.Clone(g.Coils)
		c := &g.Coils[f.Coil]
		c.Start, c.Finish = c.Finish, c.Start
	},
	MagnetReversed: func(g *wiring.Graph, f Fault) {
		g.Coils = slices.Clone(g.Coils)
		g.Coils[f.Coil].Pole = -g.Coils[f.Coil].Pole
	},
	PotEndsSwapped: func(g *wiring.Graph, f Fault) {
		g.Tracks = slices.Clone(g.Tracks)
		t := &g.Tracks[f.Track]
		t.CW, t.CCW = t.CCW, t.CW
	},
	TrackOpen: func(g *wiring.Graph, f Fault) {
		g.Tracks = slices.Clone(g.Tracks)
		g.Tracks[f.Track].CCW = loose(g, "the break in a track")
	},
	WiperOpen: func(g *wiring.Graph, f Fault) {
		g.Tracks = slices.Clone(g.Tracks)
		g.Tracks[f.Track].Wiper = loose(g, "the lifted wiper")
	},
	TrackWrong: func(g *wiring.Graph, f Fault) {
		g.Tracks = slices.Clone(g.Tracks)
		g.Tracks[f.Track].Value.Ohms.X *= f.Factor
		g.Tracks[f.Track].Value.Ohms.Text = ""
	},
	CapacitorShort: func(g *wiring.Graph, f Fault) { link(g, g.Caps[f.Cap].A, g.Caps[f.Cap].B) },
	CapacitorOpen: func(g *wiring.Graph, f Fault) {
		g.Caps = slices.Clone(g.Caps)
		g.Caps[f.Cap].B = loose(g, "the break in a capacitor")
	},
	CapacitorWrong: func(g *wiring.Graph, f Fault) {
		g.Caps = slices.Clone(g.Caps)
		g.Caps[f.Cap].Value.X *= f.Factor
		g.Caps[f.Cap].Value.Text = ""
	},
	ContactOpen:  func(g *wiring.Graph, f Fault) { contacts(g, f, nil) },
	ContactBad:   badContact,
	SwitchUpside: upsideDown,
}

// loose adds a terminal that touches nothing.
func loose(g *wiring.Graph, name string) int {
	g.Terms = append(slices.Clip(g.Terms), wiring.Term{Name: name, Use: -1, Terminal: -1, Kind: "inside"})
	return len(g.Terms) - 1
}

func link(g *wiring.Graph, a, b int) {
	g.Links = append(slices.Clip(g.Links), wiring.Link{A: a, B: b, Run: -1})
}

// editLinks rewrites the links of one run.
func editLinks(g *wiring.Graph, run int, edit func(wiring.Link) wiring.Link) {
	g.Links = slices.Clone(g.Links)
	for i, l := range g.Links {
		if l.Run == run {
			g.Links[i] = edit(l)
		}
	}
}

// replace puts one terminal for another in a link.
func replace(l wiring.Link, old, new int) wiring.Link {
	switch old {
	case l.A:
		l.A = new
	case l.B:
		l.B = new
	}
	return l
}

// cutRunEnd leaves one end of a run on nothing; its braid stays.
func cutRunEnd(g *wiring.Graph, f Fault) {
	open := loose(g, "the open joint")
	editLinks(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, open) })
}

func resistiveJoint(g *wiring.Graph, f Fault) {
	end := loose(g, "the bad joint")
	editLinks(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, end) })
	resistor(g, end, f.Term)
}

func dropRun(g *wiring.Graph, f Fault) {
	g.Links = slices.DeleteFunc(slices.Clone(g.Links), func(l wiring.Link) bool { return l.Run == f.Run })
}

// swapEnds exchanges the ends of two runs: Term is the end of Run, To the end of
// Other.
func swapEnds(g *wiring.Graph, f Fault) {
	editLinks(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, f.To) })
	editLinks(g, f.Other, func(l wiring.Link) wiring.Link { return replace(l, f.To, f.Term) })
}

func moveEnd(g *wiring.Graph, f Fault) {
	editLinks(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, f.To) })
}

// swapOutput exchanges all that is soldered to tip and sleeve.
func swapOutput(g *wiring.Graph, f Fault) {
	g.Links = slices.Clone(g.Links)
	for i, l := range g.Links {
		if l.Run < 0 {
			continue
		}
		for _, end := range []*int{&l.A, &l.B} {
			switch *end {
			case g.Hot:
				*end = g.Ground
			case g.Ground:
				*end = g.Hot
			}
		}
		g.Links[i] = l
	}
}

func resistor(g *wiring.Graph, a, b int) {
	r := wiring.Two{Use: -1, A: a, B: b}
	r.Name = "the bad contact"
	r.Value.X = resistive
	r.Tolerance = 0.9
	g.Resistors = append(slices.Clip(g.Resistors), r)
}

// shortTurns takes a third of a coil's ohms and half of its inductance away.
func shortTurns(g *wiring.Graph, f Fault) {
	g.Coils = slices.Clone(g.Coils)
	c := &g.Coils[f.Coil]
	for _, v := range []struct {
		r *float64
		k float64
	}{{&c.Ohms.Typical, 0.7}, {&c.Ohms.Lo, 0.7}, {&c.Ohms.Hi, 0.7}, {&c.Henries.Typical, 0.5}, {&c.Henries.Lo, 0.5}, {&c.Henries.Hi, 0.5}} {
		*v.r *= v.k
	}
}

// contacts replaces one pole's groups in one position.
func contacts(g *wiring.Graph, f Fault, groups [][]int) {
	g.Switches = slices.Clone(g.Switches)
	s := &g.Switches[f.Switch]
	s.Contacts = slices.Clone(s.Contacts)
	s.Contacts[f.Pole] = slices.Clone(s.Contacts[f.Pole])
	s.Contacts[f.Pole][f.Position] = groups
}

// badContact puts a resistance between the first terminal of each group and the
// others.
func badContact(g *wiring.Graph, f Fault) {
	var groups [][]int
	for _, old := range g.Switches[f.Switch].Contacts[f.Pole][f.Position] {
		end := loose(g, "the bad contact")
		groups = append(groups, append([]int{end}, old[1:]...))
		resistor(g, end, old[0])
	}
	contacts(g, f, groups)
}

func upsideDown(g *wiring.Graph, f Fault) {
	g.Switches = slices.Clone(g.Switches)
	s := &g.Switches[f.Switch]
	s.Contacts = slices.Clone(s.Contacts)
	for i, pole := range s.Contacts {
		turned := slices.Clone(pole)
		slices.Reverse(turned)
		s.Contacts[i] = turned
	}
}
