package setting

import (
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
func Ends(g *wiring.Graph, turn Turn) [][2]int {
	var out [][2]int
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
