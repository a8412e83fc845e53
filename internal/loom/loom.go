package loom

import (
	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/sound"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// Loom is a loom file resolved against the library: every name in it exists.
type Loom struct {
	Doc         *source.Document
	Title       string
	Note        string
	Left        bool
	EndsSwapped bool        // left-handed with pot ends swapped: full up is at ccw
	Cable       units.Value // capacitance at the jack, F
	Input       units.Value // amplifier's input, Ω
	Scale       float64     // string length, m
	Uses        []Use
	Joins       []Join
	Sounds      []Sound
	Scheme      source.String
	Free        []Ref
	Place       map[string][3]float64 // x, y in mm, quarter turns
}

// Use is one part on the bench: a copy of the part with this loom's values.
type Use struct {
	Name       string
	Called     string
	Span       diag.Span // of its name
	Part       *part.Part
	Leads      []Lead
	NoLead     []int   // terminals that have no lead: joined inside, or not in the code
	Inside     [][]int // terminals joined inside the pickup
	FromBridge float64 // m; 0: not stated
	Note       string
}

// Lead is one lead of a pickup. Ends are terminals of the part, tied when there
// are several. May lists what an unknown lead can be.
type Lead struct {
	Name string
	Ends []int
	May  []int
}

// Ref is a terminal as written in a join: of a part, or one of its leads.
type Ref struct {
	Use      int
	Terminal int // −1 when the lead's end is unknown
	Lead     int // −1 when named by its terminal
	Name     string
	Span     diag.Span
}

// WireKind is what a run is made of.
type WireKind string

// The kinds of run. A component's own lead or a pickup's lead needs no wire.
const (
	Hookup   WireKind = "wire"
	Bare     WireKind = "bare"
	Screened WireKind = "screened"
	OwnLead  WireKind = "lead"
	Touching WireKind = "touching" // metal on metal, no solder: a case on a plate
)

// Wire is what a run is made of.
type Wire struct {
	Kind    WireKind
	Colour  string // insulation colour word; "" is the solderer's choice
	Size    units.WireSize
	Sleeved bool
	Twisted bool
}

// Run is one soldered run between two terminals.
type Run struct {
	A, B  Ref
	Wire  Wire
	Braid *Braid
}

// Braid is the screen of a run: soldered at A, and at B unless cut there.
type Braid struct {
	A Ref
	B *Ref
}

// Join is one line of the loom file's joins: one run or several to one place.
type Join struct {
	Runs []Run
	Span diag.Span
}

// At is one switch in one position.
type At struct{ Use, Switch, Position int }

// Sound is one wanted sound. Hear is in coil names ("bridge.north").
type Sound struct {
	With      []At
	Hear      sound.Expr
	Text      string // as written
	FreePhase bool
	Fixed     bool // the common polarity may not be turned over
	HumFree   bool // hum is to cancel
	Span      diag.Span
	WithSpan  diag.Span
	HearSpan  diag.Span
}

// Use returns a part of the loom by its name.
func (l *Loom) Use(name string) (int, bool) {
	for i := range l.Uses {
		if l.Uses[i].Name == name {
			return i, true
		}
	}
	return 0, false
}
