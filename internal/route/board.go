// Package route finds lanes for wires on a board of fixed things: upright
// paths that keep apart, go round what they must not cover and cross seldom.
// It knows places, boxes and wires, and no guitar.
//
// The method: an adaptive grid through every place that a wire can end at; A*
// over node and heading (Hart, Nilsson and Raphael 1968); wires that get in
// each other's way negotiate (McMurchie and Ebeling 1995, PathFinder: pressure
// and history); then rip-up and re-route as long as the drawing gets better.
package route

import "loomwright/internal/scene"

// Dir is a heading on the page.
type Dir uint8

// The headings, clockwise.
const (
	Right Dir = iota
	Down
	Left
	Up
)

// Vector is the unit vector of the heading.
func (d Dir) Vector() scene.Point { return scene.Toward(90 * float64(d)) }

// Back is the opposite heading.
func (d Dir) Back() Dir { return (d + 2) % 4 }

func (d Dir) upright() bool { return d == Down || d == Up }

// Dirs is a set of headings.
type Dirs uint8

// Of is the set of some headings.
func Of(dirs ...Dir) Dirs {
	var s Dirs
	for _, d := range dirs {
		s |= 1 << d
	}
	return s
}

// All are the four headings.
const All Dirs = 15

// Has reports whether the set holds a heading.
func (s Dirs) Has(d Dir) bool { return s&(1<<d) != 0 }

// Turned is the set after quarter turns clockwise.
func (s Dirs) Turned(quarters int) Dirs {
	var out Dirs
	for d := range Dir(4) {
		if s.Has(d) {
			out |= 1 << ((int(d) + quarters) & 3)
		}
	}
	return out
}

// Board is all that stands still, in mm.
type Board struct {
	Box    scene.Rect // lanes stay inside
	Bodies []Body
	Lugs   []Lug
	Labels []Label
	Zones  []Zone
	Fans   []Fan
	Lines  []scene.Point // further places that grid lines go through
}

// Body is a stretch of a part's body, a box or the ellipse in it. Part numbers
// are the caller's.
type Body struct {
	Part  int
	Box   scene.Rect
	Round bool
}

// Lug is the metal of a terminal with its stem, from the terminal inward;
// foreign wires keep away from it.
type Lug struct {
	Term     int
	Tip, Far scene.Point
}

// Label is a place of words. Wires keep off a hard one, and rather off a soft
// one.
type Label struct {
	Box  scene.Rect
	Hard bool
}

// Zone is metal that can be soldered to anywhere near its edge: a pot's case.
// Holes are covered or to be kept free; Exits are the headings in which a wire
// may leave.
type Zone struct {
	Part  int
	Box   scene.Rect
	Round bool
	Holes []scene.Rect
	Exits Dirs
}

// Fan is a cable's end: leads go from the mouth to the slots, one each, and on
// from there in one heading.
type Fan struct {
	Mouth scene.Point
	Slots []scene.Point
	Out   Dir
}

// EndKind says how a wire may end.
type EndKind uint8

// The ends: at a terminal; anywhere in a zone; in a slot of a fan, which the
// router chooses; on an earlier wire, near one of its ends; nowhere (a lead
// that stays in its slot).
const (
	AtTerm EndKind = iota
	InZone
	InFan
	OnWire
	Nowhere
)

// Tip is a place of a terminal and the headings in which a wire may leave it.
type Tip struct {
	At    scene.Point
	Exits Dirs
	Dear  Dirs // further headings, at a price
	Lead  bool // of a component: no wire slants back beside it
}

// End is one end of a wire. Over allows it to run over the bodies of Part: the
// terminal lies inside its part's outline.
type End struct {
	Kind  EndKind
	Term  int   // of AtTerm and InZone
	Tips  []Tip // of AtTerm: one or several places to choose from
	Index int   // zone, fan or wire
	Far   bool  // of OnWire: near that wire's B end
	Part  int
	Over  bool
}

// Wire is one run to be routed. An OnWire end refers to a wire before it.
type Wire struct {
	A, B End
	Fix  []scene.Point // a path to keep, from an earlier drawing
}

// Path is a routed wire, from A to B. Slot is the slot of a fan's lead, else
// −1. Conflict says that it shares a lane or comes too near another wire.
type Path struct {
	Points   []scene.Point
	Slot     int
	Routed   bool
	Conflict bool
}

// Result is a routed board.
type Result struct {
	Paths     []Path
	Cost      float64 // mm and their like: length, bends, crossings, what is passed
	Crossings int
	Conflicts int
	Effort    int // grid nodes that were looked at
}

// Spacing is the least distance of two parallel wires, mm.
const Spacing = 2.2

// Options bound the work.
type Options struct {
	Effort int // grid nodes that may be looked at after each wire has a first path; 0: the usual
	Prices Prices
	Quick  bool // no improvement: for choosing among boards
}
