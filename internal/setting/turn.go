package setting

import (
	"fmt"
	"strings"

	"loomwright/internal/part"
	"loomwright/internal/wiring"
)

// Turn is where each knob stands, 0 (full counterclockwise) to 1, by index in
// Graph.Knobs.
type Turn []float64

// FullUp is every knob at 10, blends in the middle.
func FullUp(g *wiring.Graph) Turn {
	t := make(Turn, len(g.Knobs))
	for i := range t {
		t[i] = 1
	}
	for _, tr := range g.Tracks {
		if tr.Law != part.WholeTurn {
			t[tr.Knob] = 0.5
		}
	}
	return t
}

// With returns a copy with one knob elsewhere.
func (t Turn) With(knob int, at float64) Turn {
	out := append(Turn(nil), t...)
	out[knob] = at
	return out
}

// Travelled is how far the wiper of a track has come from ccw, as a fraction of
// the turn over which the track works.
func Travelled(t *part.Track, turn float64) float64 {
	switch t.Law {
	case part.FirstHalf:
		turn *= 2
	case part.SecondHalf:
		turn = 2*turn - 1
	}
	return min(max(turn, 0), 1)
}

// Ends returns the pairs of terminals that pots at the ends of their turn join:
// wiper and cw at 1, wiper and ccw at 0 (end resistance is left aside).
func Ends(g *wiring.Graph, turn Turn) [][2]int { return AppendEnds(nil, g, turn) }

// AppendEnds appends Ends to pairs.
func AppendEnds(out [][2]int, g *wiring.Graph, turn Turn) [][2]int {
	for i := range g.Tracks {
		t := &g.Tracks[i]
		switch Travelled(&t.Track, turn[t.Knob]) {
		case 1:
			out = append(out, [2]int{t.Wiper, t.CW})
		case 0:
			out = append(out, [2]int{t.Wiper, t.CCW})
		}
	}
	return out
}

// Knobs turns the named knobs of FullUp, in marks from 0 to 10.
func Knobs(g *wiring.Graph, marks map[string]float64) (Turn, error) {
	turn := FullUp(g)
	for name, mark := range marks {
		at := -1
		var names []string
		for i, k := range g.Knobs {
			names = append(names, k.Name)
			if k.Name == name {
				at = i
			}
		}
		if at < 0 {
			return nil, fmt.Errorf("this loom has no knob %q: it has %s", name, strings.Join(names, ", "))
		}
		if !(mark >= 0 && mark <= 10) {
			return nil, fmt.Errorf("%s at %g: knobs go from 0 to 10", name, mark)
		}
		turn[at] = mark / 10
	}
	return turn, nil
}
