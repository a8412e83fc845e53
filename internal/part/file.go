// Package part reads part files and lead codes: what terminals a part has,
// which of them a switch joins in each position, what is between them
// electrically, what it looks like. A new part is a new file and no code.
package part

import (
	"loomwright/internal/diag"
	"loomwright/internal/source"
)

// File is a part file as written (library/*/*.yaml, or a user's shelf).
type File struct {
	Version    source.String             `yaml:"loomwright-part" required:"true" doc:"version of this layout: 1"`
	Name       source.String             `yaml:"name" required:"true" doc:"what the trade calls the part"`
	Class      source.String             `yaml:"class" required:"true" oneof:"pickup|pot|switch|jack|capacitor|resistor|bleed|ground|splice|points|output" doc:"the shelf it lies on"`
	About      source.String             `yaml:"about" doc:"one or two sentences for someone who chooses it"`
	Source     source.String             `yaml:"source" doc:"where the facts come from: a standard, a measurement, 'from memory'"`
	Confirm    source.String             `yaml:"confirm" doc:"what to confirm with the meter before soldering"`
	Rank       source.String             `yaml:"rank" doc:"how dear the part is beside its like; a number, smaller is cheaper"`
	Terminals  source.Map[*TerminalFile] `yaml:"terminals" required:"true" doc:"every place where a wire can be soldered"`
	Ties       [][]source.String         `yaml:"ties" doc:"terminals that are one piece of metal"`
	Coils      source.Map[CoilFile]      `yaml:"coils"`
	Couplings  []CouplingFile            `yaml:"couplings"`
	Full       source.String             `yaml:"full" doc:"the customary full sound, in the part's own coil names"`
	Tracks     source.Map[TrackFile]     `yaml:"tracks"`
	Capacitors source.Map[TwoFile]       `yaml:"capacitors"`
	Resistors  source.Map[TwoFile]       `yaml:"resistors"`
	Switches   source.Map[SwitchFile]    `yaml:"switches"`
	Output     *OutputFile               `yaml:"output" doc:"which terminal is hot and which is ground"`
	Grounds    []source.String           `yaml:"grounds" doc:"terminals that belong on ground: shield, case, cover, plate, string ground"`
	Body       *BodyFile                 `yaml:"body"`
	Outline    []ShapeFile               `yaml:"outline" doc:"what it looks like from the solder side, drawn in order"`
}

// TerminalFile is one place where a wire can be soldered.
type TerminalFile struct {
	Kind  source.String   `yaml:"kind" oneof:"lug|pad|pin|case|lead|tag|point|plate" doc:"what the solder sticks to"`
	Words source.String   `yaml:"words" doc:"how to find it, in plain words"`
	Label source.String   `yaml:"label" doc:"number or letter as printed by the part's maker"`
	View  source.String   `yaml:"view" doc:"the view that the label and the words belong to"`
	At    []source.String `yaml:"at" doc:"x and y in mm from the part's centre, seen from the solder side, y down"`
	Exit  []source.String `yaml:"exit" doc:"directions in which a wire can leave: up, down, left, right"`
	Pin   []source.String `yaml:"pin" doc:"second place of the same terminal: x and y in mm (a pin beside its pad)"`
}

// CoilFile is one coil of a pickup; anything may be left out or unknown.
type CoilFile struct {
	Start       source.String `yaml:"start" required:"true"`
	Finish      source.String `yaml:"finish" required:"true"`
	Ohms        *RangeFile    `yaml:"ohms"`
	Henries     *RangeFile    `yaml:"henries"`
	Farads      *RangeFile    `yaml:"farads"`
	Eddy        *RangeFile    `yaml:"eddy" doc:"loss resistor across the part of the inductance that the metal near the coil sees, in ohms"`
	EddyPart    source.String `yaml:"eddy-part" doc:"the part of the inductance that the loss is across, in percent"`
	Winding     source.String `yaml:"winding" oneof:"clockwise|anticlockwise|counterclockwise|unknown" doc:"seen from the strings, from start to finish"`
	Pole        source.String `yaml:"pole" oneof:"north|south|unknown" doc:"the pole that faces the strings"`
	Offset      source.String `yaml:"offset" doc:"distance from the pickup's middle line towards the neck, in mm"`
	Sensitivity source.String `yaml:"sensitivity" doc:"voltage that the same movement of the strings gives, over that of an ordinary coil of 2.5 H: 1 is as loud, 0.1 a noise coil that hears little; left out, the square root of the inductance stands for it"`
	Mismatch    source.String `yaml:"mismatch" doc:"how far its sensitivity may be from its like, in percent"`
}

// CouplingFile is the magnetic coupling of two coils, dots at the starts.
type CouplingFile struct {
	Coils []source.String `yaml:"coils" required:"true"`
	K     source.String   `yaml:"k" required:"true" doc:"signed; a side-by-side pair wound alike is negative"`
}

// RangeFile is a value with the range it is usually found in.
type RangeFile struct {
	Typical source.String `yaml:"typical"`
	From    source.String `yaml:"from"`
	To      source.String `yaml:"to"`
}

// TrackFile is one resistance track with its wiper.
type TrackFile struct {
	CW        source.String   `yaml:"cw" required:"true"`
	Wiper     source.String   `yaml:"wiper" required:"true"`
	CCW       source.String   `yaml:"ccw" required:"true"`
	Knob      source.String   `yaml:"knob" doc:"the knob that turns it, where the part has several"`
	Ohms      source.String   `yaml:"ohms" doc:"whole track"`
	Taper     source.String   `yaml:"taper" doc:"linear, audio, reverse audio"`
	Law       source.String   `yaml:"law" oneof:"whole|first half|second half" doc:"part of the turn over which the track works; the other half is metal"`
	Tolerance source.String   `yaml:"tolerance"`
	End       source.String   `yaml:"end" doc:"end resistance, in ohms"`
	NoLoad    source.String   `yaml:"no-load" oneof:"yes|no" doc:"track cut at full clockwise"`
	Table     []source.String `yaml:"table" doc:"measured taper: percent of the track from ccw at equal steps of the turn, first 0, last 100"`
}

// TwoFile is a capacitor or a resistor between two terminals.
type TwoFile struct {
	A         source.String `yaml:"a" required:"true"`
	B         source.String `yaml:"b" required:"true"`
	Value     source.String `yaml:"value"`
	Tolerance source.String `yaml:"tolerance"`
}

// SwitchFile is one lever, knob or plunger that selects.
type SwitchFile struct {
	Positions source.Map[*PositionFile] `yaml:"positions" required:"true"`
	Travel    source.String             `yaml:"travel" oneof:"break first|make first|unknown" doc:"what happens between neighbouring positions"`
	Skew      source.String             `yaml:"skew" oneof:"yes|no" doc:"whether poles may move one after the other"`
	Poles     source.Map[PoleFile]      `yaml:"poles" required:"true"`
	Proved    source.String             `yaml:"proved" doc:"position that it is proved in, where it is not a player's control (a jack's contact)"`
	Around    source.String             `yaml:"around" oneof:"yes|no" doc:"last and first position are neighbours"`
}

// PositionFile tells how a position looks and what words select it.
type PositionFile struct {
	Words source.String `yaml:"words" doc:"what the player sees: lever toward the neck, knob pulled"`
}

// PoleFile is one pole: a common with a throw for each position in turn, or a
// contact table.
type PoleFile struct {
	Common   source.String                 `yaml:"common"`
	Throws   []source.String               `yaml:"throws" doc:"throw met in each position; '-' where none"`
	Contacts source.Map[[][]source.String] `yaml:"contacts" doc:"per position: groups of terminals that are joined"`
}

// OutputFile names the ends of the guitar.
type OutputFile struct {
	Hot    source.String `yaml:"hot" required:"true"`
	Ground source.String `yaml:"ground" required:"true"`
}

// BodyFile is what the parts list needs to know.
type BodyFile struct {
	Size   source.String `yaml:"size" doc:"width x height x depth below the plate, in mm"`
	Depth  source.String `yaml:"depth" doc:"needed below the plate, in mm"`
	Shaft  source.String `yaml:"shaft"`
	Thread source.String `yaml:"thread"`
	Hole   source.String `yaml:"hole" doc:"hole in the plate, in mm"`
	Joint  source.String `yaml:"joint" oneof:"case|tag" doc:"how its body is grounded"`
}

// ShapeFile is one drawn shape in mm from the part's centre.
type ShapeFile struct {
	Shape  source.String   `yaml:"shape" required:"true" oneof:"circle|rect|path|text|line"`
	At     []source.String `yaml:"at"`
	Size   []source.String `yaml:"size"`
	Round  source.String   `yaml:"round"`
	Points []source.String `yaml:"points" doc:"x,y pairs"`
	Text   source.String   `yaml:"text"`
	Fill   source.String   `yaml:"fill" oneof:"metal|body|board|wafer|hole|none|dark|coil" doc:"a material, not a colour"`
}

// CodeFile is a lead code: which coil end each lead is. A lead may be several
// ends (tied), unknown, hot, ground or link (a maker's wording: hot, ground,
// join these two).
type CodeFile struct {
	Version source.String        `yaml:"loomwright-code" doc:"version of this layout: 1"`
	Name    source.String        `yaml:"name"`
	About   source.String        `yaml:"about"`
	Leads   source.Map[EndsFile] `yaml:"leads" required:"true" doc:"colour words to coil ends"`
	Inside  [][]source.String    `yaml:"inside" doc:"coil ends joined inside the pickup, without a lead"`
}

// EndsFile is one end or several.
type EndsFile struct{ Ends []source.String }

// UnmarshalSource reads "north.start" or "[shield, south.start]".
func (e *EndsFile) UnmarshalSource(n source.Node, l *diag.List) {
	if n.Kind() == source.Sequence {
		n.Decode(&e.Ends, l)
		return
	}
	var one source.String
	n.Decode(&one, l)
	e.Ends = []source.String{one}
}

// SourceShape is a scalar or a sequence of scalars.
func (EndsFile) SourceShape() source.Shape {
	one := source.Shape{Kind: source.ScalarShape}
	return source.Shape{Any: []source.Shape{one, {Kind: source.SeqShape, Values: &one}}}
}
