// Package wiring turns a loom into one flat graph: terminals, what joins them
// for good, and the elements and switches between them. It is what proof,
// electrics, faults and drawings work on; a half-built loom is the same graph
// with fewer runs.
package wiring

import (
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
)

// Term is one terminal of the loom. The index in Graph.Terms is its identity.
type Term struct {
	Name     string // as the user writes it: bridge.orange where a lead code names it
	Other    string // its second name: bridge.north.start; "" when the same
	Use      int    // part of the loom; −1 for a braid
	Terminal int    // of the part; −1 for a lead of unknown end, or a braid
	Kind     string // lug, pad, pin, case, lead, tag, point, plate, braid
}

// Link joins two terminals for good. Run is the soldered run it is, or −1 for
// metal inside a part.
type Link struct{ A, B, Run int }

// Run is one soldered run of the loom, in file order.
type Run struct {
	A, B  int // terminals
	Join  int // line of the loom's joins
	Wire  loom.Wire
	Braid int // terminal of its braid, or −1
	Span  diag.Span
}

// Coil, Track, Two are the elements, with terminals of the graph.
type (
	// Coil is one coil; the embedded part.Coil's Start and Finish are replaced.
	Coil struct {
		part.Coil
		Name          string // in sounds: "bridge.north", or the pickup's name
		Use           int
		Start, Finish int
	}
	// Track is one pot track. CW is the full-up end: where the pot ends of a
	// left-handed loom are swapped, that is the pot's ccw lug, and taper, law and
	// table are those of the pot turned the other way round.
	Track struct {
		part.Track
		Use            int
		CW, Wiper, CCW int
		Knob           int     // index in Graph.Knobs
		Cut            float64 // turn at which a no-load track is cut: 1, or 0 where the ends are swapped
	}
	// Two is a capacitor or a resistor.
	Two struct {
		part.Two
		Use  int
		A, B int
	}
)

// Coupling is the signed coupling of two coils of the graph, dots at the starts.
type Coupling struct {
	A, B int
	K    float64
}

// Knob is one control that turns; several tracks may hang on it.
type Knob struct {
	Name string // the part's name, with the knob's own where there are several
	Use  int
}

// Switch is one control that selects. Contacts[pole][position] are groups of
// terminals joined there.
type Switch struct {
	Name      string
	Use       int
	Positions []part.Position
	Travel    part.Travel
	Skew      bool
	Around    bool
	Proved    int // position it is proved in, or −1
	Contacts  [][][][]int
}

// Graph is a loom as a graph of terminals.
type Graph struct {
	Loom      *loom.Loom
	Terms     []Term
	Links     []Link
	Runs      []Run
	Coils     []Coil
	Couplings []Coupling
	Tracks    []Track
	Caps      []Two
	Resistors []Two
	Knobs     []Knob
	Switches  []Switch
	Hot       int   // terminal; −1: the loom has no output
	Ground    int   // terminal; −1: the loom has no output
	Grounds   []int // terminals that belong on ground
	Unknown   []Unknown
	first     []int // first terminal of each use
	leads     []map[string]int
}

// Unknown is a lead whose coil end nobody has told: Term is the lead, May the
// coil ends that it can be.
type Unknown struct {
	Term int
	May  []int
}

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "output-missing", Severity: diag.Error, Says: "the loom has no jack or other output", Notice: "nothing would be heard"},
	{Code: "output-twice", Severity: diag.Error, Says: "the loom has more than one output", Notice: "Loomwright proves one output at a time"},
}

// Term returns the terminal of the graph that a use's terminal is.
func (g *Graph) Term(use, terminal int) int { return g.first[use] + terminal }

// Ref returns the terminal of the graph that a reference of the loom is.
func (g *Graph) Ref(r loom.Ref) int {
	if r.Terminal >= 0 {
		return g.Term(r.Use, r.Terminal)
	}
	return g.leads[r.Use][g.Loom.Uses[r.Use].Leads[r.Lead].Name]
}

// SwitchOf returns the switch of the graph that a sound names; the first where
// there is none such.
func (g *Graph) SwitchOf(at loom.At) int {
	for i := range g.Switches {
		if g.Switches[i].Use == at.Use {
			return i + at.Switch
		}
	}
	return 0
}

// Find returns the terminal that a user means by a name: either of its names,
// or a lead's colour.
func (g *Graph) Find(name string) (int, bool) {
	for i, t := range g.Terms {
		if t.Name == name || t.Other == name {
			return i, true
		}
	}
	for u, leads := range g.leads {
		for lead, t := range leads {
			if g.Loom.Uses[u].Name+"."+lead == name {
				return t, true
			}
		}
	}
	return 0, false
}

// CoilIndex returns a coil by its name in sounds, or −1.
func (g *Graph) CoilIndex(name string) int {
	for i := range g.Coils {
		if g.Coils[i].Name == name {
			return i
		}
	}
	return -1
}
