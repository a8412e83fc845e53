// Package place lays the parts of a loom out in millimetres, seen from the
// solder side: pickups, then switches and pots, then the jack, as they lie in
// the guitar, each part turned so that its lugs face what they are joined to.
package place

import (
	"loomwright/internal/scene"
)

// Plan is every part in its place. Parts of the loom come first, by their
// index, then the splices that joined leads need.
type Plan struct {
	Parts   []Part
	Spots   []Spot // by terminal of the graph
	Strands []Strand
	Splices []Splice
	Panels  []Panel
	Box     scene.Rect // all of it, with room for lanes around
	Left    bool
	Cost    float64 // estimate: mm of wire and their like
	Awkward float64 // what its looks alone cost, in the same unit: turned pots, size
}

// Part is one part in its place. Shapes are in the order of painting.
type Part struct {
	Use    int // −1: a splice
	Splice int // −1: a part of the loom
	At     scene.Point
	Turn   int     // quarter turns clockwise
	Scale  float64 // 1, or how much larger than it is the part is drawn
	Shapes []Shape
	Box    scene.Rect // with its lugs
	Name   []Line
	Case   *Case
	Fan    *Fan
	Tips   []Spot // of a sleeve: where wires enter it
}

// Shape is a drawn shape in its place.
type Shape struct {
	Kind   string // circle, rect, path, line, text
	Box    scene.Rect
	Round  float64
	Points []scene.Point
	Text   string
	Fill   string
	Stem   bool // the metal of a lug
}

// Sleeve reports whether the part lies over the wires that enter it.
func (p *Part) Sleeve() bool { return len(p.Tips) > 0 }

// Line is one line of a part's name.
type Line struct {
	Text string
	At   scene.Point // its middle
	Size float64
	Bold bool
	Dark bool // stands on dark ground
	Soft bool // wires may cross it if they must
}

// Box is the place that the words take.
func (l Line) Box() scene.Rect {
	w := scene.TextWidth(l.Text, l.Size, scene.Style{Bold: l.Bold})
	return scene.Box(l.At.X-w/2, l.At.Y-l.Size*0.5, w, l.Size)
}

// Case is metal that can be soldered to anywhere near its edge.
type Case struct {
	Term  int // of the graph
	Box   scene.Rect
	Round bool
	Holes []scene.Rect
	Exits Exits
}

// Fan is a pickup's cable: leads fan out from the mouth to slots.
type Fan struct {
	Mouth scene.Point
	Slots []scene.Point
	Out   int   // heading in quarter turns clockwise from right
	Leads []int // terminals of the graph, in the order of the part file
}

// Exits is a set of headings: bit q is the heading q quarter turns clockwise
// from right.
type Exits uint8

// Turned is the set after quarter turns clockwise.
func (e Exits) Turned(quarters int) Exits {
	q := quarters & 3
	return (e<<q | e>>(4-q)) & 15
}

var exitBits = map[string]Exits{"right": 1, "down": 2, "left": 4, "up": 8}

// Spot is a terminal in its place.
type Spot struct {
	Part   int // index in Plan.Parts; −1: nowhere (a braid)
	Kind   string
	At     scene.Point
	Far    scene.Point // inner end of its lug
	Pin    scene.Point
	HasPin bool
	Exits  Exits
	Inside bool // lies on its part's body
	InFan  bool
	InCase bool
	Label  string // its name beside it; "": the part's name says it
	Words  Label  // where its name is kept room; without lines: nowhere
}

// Panel is what parts sit in: a cavity or a plate.
type Panel struct {
	Box   scene.Rect
	Round float64
	Label string
}

// Hints are places that joints on the case should be possible at: in the middle
// of the metal that is left at each side.
func (c *Case) Hints() []scene.Point {
	var out []scene.Point
	mid := c.Box.Center()
	for q := range 4 {
		if c.Exits&(1<<q) == 0 {
			continue
		}
		d := scene.Toward(90 * float64(q))
		reach := abs(d.X)*c.Box.Width()/2 + abs(d.Y)*c.Box.Height()/2
		out = append(out, mid.Add(d.Mul(reach-c.rim(d, mid, reach)/2)))
		for _, side := range []float64{-6.8, -3.4, 3.4, 6.8} {
			out = append(out, mid.Add(d.Perp().Mul(side)))
		}
	}
	return out
}

// rim is how much metal is left at a side, at most that of a pot's case.
func (c *Case) rim(d, mid scene.Point, reach float64) float64 {
	rim := 5.0
	for _, h := range c.Holes {
		if (d.X == 0 && (h.Min.X > mid.X || h.Max.X < mid.X)) || (d.Y == 0 && (h.Min.Y > mid.Y || h.Max.Y < mid.Y)) {
			continue
		}
		far := max(d.X*h.Max.X, d.X*h.Min.X) + max(d.Y*h.Max.Y, d.Y*h.Min.Y) - d.X*mid.X - d.Y*mid.Y
		if far < reach {
			rim = min(rim, reach-far)
		}
	}
	return rim
}
