package drawing

import (
	"loomwright/internal/scene"
)

// Mark is a ground mark: one end of a wire that is drawn no farther.
type Mark struct {
	Run, Step int
	Term      int
	At        scene.Point // where it is soldered
	Out       int         // heading in quarter turns clockwise from right
	Touching  bool        // metal on metal: nothing is soldered
	To        string      // the other end
}

// Box is the place that a mark takes, with its words.
func (m *Mark) Box() scene.Rect {
	out := scene.Toward(90 * float64(m.Out))
	return scene.Rect{Min: m.At, Max: m.At}.Union(around(m.At.Add(out.Mul(5)), 2))
}

// markBoxes finds room for the ground marks before wires are routed.
func (b *board) markBoxes() {}
