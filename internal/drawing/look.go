package drawing

import (
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/units"
)

// Kind is what a wire is made of, as far as it looks.
type Kind int

// The kinds: an insulated wire or lead, bare wire or braid, the metal lead of a
// component, the jacket of a screened cable.
const (
	Insulated Kind = iota
	BareWire
	ComponentLead
	ScreenedCable
)

// Look is how a wire is drawn and called.
type Look struct {
	Kind    Kind
	Colour  units.Colour // of the insulation
	Word    string       // colour in words: "orange", "bare", "lead"
	Letters string       // short for it: OG; IEC 60757 where it is a colour
	Sleeved bool
	Twisted bool
}

// leadLook is the look of a pickup's or a component's own lead, by its name.
func (d *Drawing) leadLook(term int) Look {
	t := &d.Graph.Terms[term]
	if d.Plan.Spots[term].InFan {
		return namedLook(afterDot(t.Name), afterDot(t.Other))
	}
	return Look{Kind: ComponentLead, Word: "own lead"}
}

// afterDot is a terminal's name without its part.
func afterDot(name string) string {
	if _, after, ok := strings.Cut(name, "."); ok {
		return after
	}
	return name
}

// bareNames are leads that have no insulation.
var bareNames = map[string]bool{"bare": true, "shield": true, "braid": true, "screen": true, "drain": true}

// namedLook reads a lead's name: a colour, a bare wire, or else an uncoloured
// lead under its own name.
func namedLook(name, other string) Look {
	if c, err := units.ReadColour(name); err == nil {
		return Look{Colour: c, Word: c.String(), Letters: c.Letters()}
	}
	if bareNames[name] {
		return Look{Kind: BareWire, Word: name, Letters: name}
	}
	if bareNames[other] {
		return Look{Kind: BareWire, Word: name, Letters: name}
	}
	word := strings.ReplaceAll(strings.TrimPrefix(name, "coil."), ".", " ")
	return Look{Word: word, Letters: word}
}

// wireLook is the look of a wire from the reel in a colour.
func wireLook(w loom.Wire, colour units.Colour) Look {
	look := Look{Colour: colour, Word: colour.String(), Letters: colour.Letters(), Sleeved: w.Sleeved, Twisted: w.Twisted}
	switch w.Kind {
	case loom.Bare:
		look.Kind, look.Word, look.Letters, look.Colour = BareWire, "bare", "bare", units.Colour{}
	case loom.OwnLead:
		look.Kind, look.Word, look.Letters, look.Colour = ComponentLead, "own lead", "", units.Colour{}
	case loom.Screened:
		look.Kind = ScreenedCable
	}
	return look
}
