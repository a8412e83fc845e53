// Package fault lists what can go wrong with a soldered loom and applies each
// to a graph: a faulted loom is an ordinary graph, which every later stage
// computes like any other. Faults that make the same circuit are one case, and
// those that provably change nothing are told apart. Nothing here judges
// readings.
package fault

import (
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
	WiresSwapped   Kind = "wires swapped"
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
	TaperWrong     Kind = "track of wrong taper"
	CapacitorShort Kind = "capacitor shorted"
	CapacitorOpen  Kind = "capacitor open"
	CapacitorWrong Kind = "capacitor of wrong value"
	ContactOpen    Kind = "switch contact open"
	ContactBad     Kind = "switch contact resistive"
	SwitchUpside   Kind = "switch upside down"
	JackSwapped    Kind = "tip and sleeve swapped"
	NoStringGround Kind = "string ground missing"
)

// Fault is one thing that can be wrong. Which of the indices have a meaning
// depends on the kind; unused ones are −1. A fault is a value and can be
// compared.
type Fault struct {
	Kind   Kind
	Words  string  // in the loom's own names: "open joint of bridge.orange at volume.cw"
	Run    int     // soldered run
	Other  int     // second run (leads or wires swapped)
	Term   int     // terminal: where
	To     int     // terminal: the other one; of a joint, the braid where it is the braid's
	Coil   int     //
	Track  int     //
	Cap    int     //
	Switch int     //
	Pole   int     // of the switch
	Factor float64 // what a wrong value is multiplied by
	AtCW   bool    // a track broken at its cw end instead of its ccw end
	Prior  float64 // stated judgement: how likely beside the others (see Priors)
}

// none is a Fault with every index unused.
func none(k Kind, words string) Fault {
	return Fault{Kind: k, Words: words, Run: -1, Other: -1, Term: -1, To: -1, Coil: -1, Track: -1, Cap: -1, Switch: -1, Pole: -1}
}

// Priors are judgements (no source): how likely each kind is beside the others,
// per place where it can be. They can be given otherwise.
func Priors() map[Kind]float64 {
	return map[Kind]float64{
		JointOpen: 3, JointResistive: 2, WireMissing: 2, Bridge: 1.5, LeadsSwapped: 3, WiresSwapped: 2, WireNextDoor: 2,
		CoilOpen: 1, CoilShorted: 0.3, CoilReversed: 1, MagnetReversed: 0.5, LeadToMetal: 1,
		PotEndsSwapped: 2, TrackOpen: 0.5, WiperOpen: 0.7, TrackWrong: 0.7, TaperWrong: 0.7,
		CapacitorShort: 0.3, CapacitorOpen: 0.3, CapacitorWrong: 0.7,
		ContactOpen: 1, ContactBad: 1, SwitchUpside: 2, JackSwapped: 2, NoStringGround: 3,
	}
}

// Places are the terminals and the runs where a fault sits, for a drawing.
func (f *Fault) Places(g *wiring.Graph) (terms, runs []int) {
	for _, t := range []int{f.Term, f.To} {
		if t >= 0 {
			terms = append(terms, t)
		}
	}
	for _, r := range []int{f.Run, f.Other} {
		if r >= 0 {
			runs = append(runs, r)
		}
	}
	switch {
	case f.Coil >= 0:
		terms = append(terms, g.Coils[f.Coil].Start, g.Coils[f.Coil].Finish)
	case f.Track >= 0:
		t := &g.Tracks[f.Track]
		terms = append(terms, t.CW, t.Wiper, t.CCW)
	case f.Cap >= 0:
		terms = append(terms, g.Caps[f.Cap].A, g.Caps[f.Cap].B)
	case f.Kind == JackSwapped:
		terms = append(terms, g.Hot, g.Ground)
	}
	return terms, runs
}
