package part

import (
	"loomwright/internal/sound"
	"loomwright/internal/units"
)

// Part is a part file, resolved and checked: every name it mentions exists.
type Part struct {
	ID         string // path below the library: "pot/push-pull-pads"
	Name       string
	Class      string
	About      string
	Source     string
	Confirm    string
	Rank       float64
	Terminals  []Terminal
	Ties       [][]int // terminal indices that are one piece of metal
	Coils      []Coil
	Couplings  []Coupling
	Full       sound.Expr // in the part's own coil names; Any when it has no coils
	Tracks     []Track
	Capacitors []Two
	Resistors  []Two
	Switches   []Switch
	Output     *Output
	Grounds    []int // terminals that belong on ground
	Body       Body
	Outline    []Shape
	index      map[string]int
}

// Terminal is one place where a wire can be soldered. At, Pin and exits are in
// mm from the part's centre, seen from the solder side, y down.
type Terminal struct {
	Name   string
	Kind   string // lug, pad, pin, case, lead, tag, point, plate
	Words  string
	Label  string
	View   string
	At     [2]float64
	Placed bool
	Pin    [2]float64
	HasPin bool
	Exit   []string
}

// Range is a value with its bounds; Known tells a stated value from a typical
// one. All zero: nothing is known.
type Range struct {
	Typical, Lo, Hi float64
	Known           bool
}

// Sign is +1, −1 or 0 (unknown).
type Sign int

// Coil is one coil: terminal indices, SI units.
type Coil struct {
	Name          string
	Start, Finish int
	Ohms          Range
	Henries       Range
	Farads        Range
	Eddy          Range   // loss resistor, Ω; zero: none stated
	EddyPart      float64 // part of the inductance it is across, 0…1
	Winding       Sign    // + clockwise from start to finish, seen from the strings
	Pole          Sign    // + north faces the strings
	Offset        float64 // mm towards the neck
	Mismatch      float64 // relative
	Sensitivity   float64 // to the strings, relative voltage, 1 an ordinary coil; 0: not stated
}

// Coupling is the signed magnetic coupling of two coils, dots at the starts.
type Coupling struct {
	A, B int
	K    float64
}

// Law is the part of the turn over which a track works.
type Law int

// A blend's halves: FirstHalf runs over the first half of the turn and is metal
// after it; SecondHalf is metal before it.
const (
	WholeTurn Law = iota
	FirstHalf
	SecondHalf
)

// Track is one resistance track: terminal indices, ohms.
type Track struct {
	Name           string
	CW, Wiper, CCW int
	Knob           string // "" for the part's only knob
	Value          units.TrackValue
	Law            Law
	Tolerance      float64
	End            float64 // end resistance, Ω
	NoLoad         bool
	Table          []float64 // fraction of the track from ccw at equal steps of the turn
}

// Two is a capacitor or resistor between two terminals, SI value.
type Two struct {
	Name      string
	A, B      int
	Value     units.Value
	Tolerance float64
}

// Switch is one control that selects.
type Switch struct {
	Name      string
	Positions []Position
	Travel    Travel
	Skew      bool
	Around    bool
	Proved    int // position it is proved in, or −1: the player moves it
	Poles     []Pole
}

// Travel says what happens between neighbouring positions.
type Travel int

// Unknown travel is proved both ways.
const (
	BreakFirst Travel = iota
	MakeFirst
	UnknownTravel
)

// Position is one place of a switch.
type Position struct{ Name, Words string }

// Pole is one pole: Contacts[position] are groups of terminal indices joined
// there. Common and Throws are set when the file wrote it that way.
type Pole struct {
	Name     string
	Common   int // −1: none
	Throws   []int
	Contacts [][][]int
}

// Output is the guitar's end.
type Output struct{ Hot, Ground int }

// Body is what the parts list needs to know.
type Body struct{ Size, Depth, Shaft, Thread, Hole, Joint string }

// Shape is one drawn shape, mm, from the part's centre.
type Shape struct {
	Shape  string
	At     [2]float64
	Size   [2]float64
	Round  float64
	Points [][2]float64
	Text   string
	Fill   string
}

// Terminal returns the index of a terminal by name.
func (p *Part) Terminal(name string) (int, bool) {
	i, ok := p.index[name]
	return i, ok
}

// TerminalNames lists the terminals in file order.
func (p *Part) TerminalNames() []string {
	names := make([]string, len(p.Terminals))
	for i, t := range p.Terminals {
		names[i] = t.Name
	}
	return names
}

// LeadNames lists the terminals that leads can be, in file order.
func (p *Part) LeadNames() []string {
	var out []string
	for _, t := range p.Terminals {
		if t.Kind == "lead" {
			out = append(out, t.Name)
		}
	}
	return out
}

// Knobs lists the names of the part's knobs; a single knob is "".
func (p *Part) Knobs() []string {
	var out []string
	seen := map[string]bool{}
	for _, t := range p.Tracks {
		if !seen[t.Knob] {
			seen[t.Knob] = true
			out = append(out, t.Knob)
		}
	}
	return out
}

// CoilIndex returns a coil by name, or −1.
func (p *Part) CoilIndex(name string) int {
	for i, c := range p.Coils {
		if c.Name == name {
			return i
		}
	}
	return -1
}

// Code is a lead code resolved against nothing yet: colours to what the maker
// or the meter says they are.
type Code struct {
	Name   string
	About  string
	Leads  []Lead
	Inside [][]string
}

// Lead is one lead: the ends it is, by terminal name of the pickup; Unknown
// when nobody has told. Maker's words (hot, ground, link) are kept in Ends
// until a pickup gives them a meaning.
type Lead struct {
	Name    string
	Ends    []string
	Unknown bool
}
