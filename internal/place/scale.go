package place

import (
	"math"

	"loomwright/internal/part"
)

// Crowded lugs are drawn larger than they are: those with neighbours nearer
// than crowded in their row and in their column, by as much as makes the block
// roomy; lugs amid others on all sides need the most room, pads with pins some.
const (
	crowded   = 6.7
	roomy     = 8.2
	roomiest  = 8.9
	boardPads = 1.6
)

// scaleOf is 1, or more for a part whose lugs stand in a dense block.
func (l *layout) scaleOf(u int) float64 {
	terms := l.g.Loom.Uses[u].Part.Terminals
	scale := 1.0
	for i := range terms {
		across, down, sides := neighbours(terms, i)
		if across >= crowded || down >= crowded {
			continue
		}
		room := roomy
		if sides == 4 {
			room = roomiest
		}
		scale = max(scale, room/math.Sqrt(across*down))
	}
	for _, t := range terms {
		if t.HasPin {
			scale = max(scale, boardPads)
		}
	}
	return math.Round(scale*20) / 20
}

// neighbours is how near the next terminals in a terminal's row and column are, and
// on how many sides of it there is one.
func neighbours(terms []part.Terminal, i int) (across, down float64, sides int) {
	across, down = crowded, crowded
	seen := [4]bool{}
	for k, o := range terms {
		dx, dy := o.At[0]-terms[i].At[0], o.At[1]-terms[i].At[1]
		switch {
		case k == i || o.Kind == "case":
		case abs(dy) < 0.1 && abs(dx) < crowded:
			across = min(across, abs(dx))
			seen[b2i(dx > 0)] = true
		case abs(dx) < 0.1 && abs(dy) < crowded:
			down = min(down, abs(dy))
			seen[2+b2i(dy > 0)] = true
		}
	}
	for _, s := range seen {
		sides += b2i(s)
	}
	return across, down, sides
}
