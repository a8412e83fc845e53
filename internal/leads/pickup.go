// Package leads tells by meter which lead of an unknown pickup is which coil
// end, and which lugs of an unknown switch meet in which position. Each wizard
// is a value, the answers so far: the same answers give the same next question,
// and in the end a lead code or a part file for the shelf.
package leads

import (
	"fmt"
	"slices"
)

// Make is what is known of a pickup from looking at it.
type Make string

// The makes. TwoLead is a twin coil whose coils are joined inside; Three is a
// twin coil with a single coil beside it.
const (
	Single  Make = "single coil"
	TwoLead Make = "twin coil, two leads"
	Tapped  Make = "tapped coil"
	Twin    Make = "twin coil, four leads"
	Three   Make = "three coils, six leads"
)

// Pickup is an unknown pickup as it lies on the bench.
type Pickup struct {
	Make    Make     `json:"make"`
	Leads   []string `json:"leads"`             // colours of the insulated leads
	Bare    string   `json:"bare,omitempty"`    // the shield: a bare wire or braid
	Hidden  bool     `json:"hidden,omitempty"`  // one more of Leads is the shield, nobody knows which
	Plate   bool     `json:"plate,omitempty"`   // a baseplate or cover can be probed
	Compass bool     `json:"compass,omitempty"` // a compass is at hand
	Coils   []string `json:"coils,omitempty"`   // where each coil is, in words
	Part    string   `json:"part,omitempty"`    // part file that the code is for, where it is not the usual one of the make
	Names   []string `json:"names,omitempty"`   // names of its coils there: upper and lower of stacked coils
}

// design is how a make is wound: its nodes, and its coils between them. Up is
// the end of a coil that goes positive as steel touches it.
type design struct {
	part  string   // part file that the lead code is for
	coils []wound  //
	nodes []string // names, for messages
	leads int      // nodes that have a lead: the first ones
	words []string // where each coil is, unless told otherwise
	// stacked coils are one body: steel is at all of them
	stacked bool
}

// wound is one coil: its nodes, its name in the part file, the pole that it has
// there (+1 north), and its ends' names.
type wound struct {
	up, down      int
	name          string
	pole          int
	start, finish string
}

var twoCoils = []string{"the first coil (choose one: toward the neck, or with the screws)", "the second coil"}

// designs of all makes. A coil wound clockwise over a north pole has its start
// at the end that goes down, over a south pole at the end that goes up (see
// meter's tap).
var designs = map[Make]design{
	Single: {"pickup/single-coil", []wound{{0, 1, "coil", 1, "coil.start", "coil.finish"}}, []string{"up", "down"}, 2, []string{"the coil"}, true},
	TwoLead: {"pickup/twin-coil", []wound{{2, 1, "north", 1, "north.start", "north.finish"}, {0, 2, "south", -1, "south.start", "south.finish"}},
		[]string{"up", "down", "inside"}, 2, twoCoils, false},
	Tapped: {"pickup/tapped-coil", []wound{{2, 1, "lower", 1, "start", "tap"}, {0, 2, "upper", 1, "tap", "finish"}},
		[]string{"up", "down", "tap"}, 3, []string{"the coil", "the coil"}, true},
	Twin: {"pickup/twin-coil", []wound{{0, 1, "north", 1, "north.start", "north.finish"}, {2, 3, "south", -1, "south.start", "south.finish"}},
		[]string{"first up", "first down", "second up", "second down"}, 4, twoCoils, false},
	Three: {"pickup/three-coil", []wound{{0, 1, "north", 1, "north.start", "north.finish"}, {2, 3, "south", -1, "south.start", "south.finish"},
		{4, 5, "single", 1, "single.start", "single.finish"}}, []string{"first up", "first down", "second up", "second down", "single up", "single down"}, 6,
		[]string{"the outer coil of the twin", "the inner coil of the twin", "the single coil"}, false},
}

// Makes lists the makes and how many insulated leads each has.
func Makes() []struct {
	Make  Make
	Leads int
} {
	var out []struct {
		Make  Make
		Leads int
	}
	for _, m := range []Make{Single, TwoLead, Tapped, Twin, Three} {
		out = append(out, struct {
			Make  Make
			Leads int
		}{m, designs[m].leads})
	}
	return out
}

// check says what cannot be as a pickup is described.
func (p *Pickup) check() error {
	d, ok := designs[p.Make]
	if !ok {
		return fmt.Errorf("no make of pickup is called %q", p.Make)
	}
	want := d.leads
	if p.Hidden {
		want++
	}
	if len(p.Leads) != want {
		return fmt.Errorf("a %s has %d leads besides a known shield; %d are named", p.Make, want, len(p.Leads))
	}
	if p.Hidden && p.Bare != "" {
		return fmt.Errorf("the shield is %s or one of the leads, not both", p.Bare)
	}
	all := p.probes()
	for i, name := range all {
		if name == "" || slices.Contains(all[:i], name) {
			return fmt.Errorf("each lead needs a name of its own; %q does not do", name)
		}
	}
	for _, list := range [][]string{p.Coils, p.Names} {
		if len(list) > 0 && len(list) != len(d.coils) {
			return fmt.Errorf("a %s has %d coils; %d are described", p.Make, len(d.coils), len(list))
		}
	}
	if len(p.Names) > 0 && p.Make == Tapped {
		return fmt.Errorf("the parts of a %s are called lower and upper", p.Make)
	}
	return nil
}

// design is how the pickup is wound, with its part's own names.
func (p *Pickup) design() design {
	d := designs[p.Make]
	d.coils = slices.Clone(d.coils)
	if p.Part != "" {
		d.part = p.Part
	}
	for i, name := range p.Names {
		d.coils[i].name, d.coils[i].start, d.coils[i].finish = name, name+".start", name+".finish"
	}
	return d
}

// plate is the probe's name of the baseplate or cover.
const plate = "baseplate"

// probes names all that can be probed: leads, bare, baseplate.
func (p *Pickup) probes() []string {
	out := slices.Clone(p.Leads)
	if p.Bare != "" {
		out = append(out, p.Bare)
	}
	if p.Plate {
		out = append(out, plate)
	}
	return out
}

// coilWords says where a coil is.
func (p *Pickup) coilWords(i int) string {
	if i < len(p.Coils) {
		return p.Coils[i]
	}
	return designs[p.Make].words[i]
}
