package meter

import (
	"slices"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// TestTurnedNamesEachKnob: nobody is told of other knobs where there are none.
func TestTurnedNamesEachKnob(t *testing.T) {
	knobs := func(names ...string) *wiring.Graph {
		g := &wiring.Graph{}
		for _, n := range names {
			g.Knobs = append(g.Knobs, wiring.Knob{Name: n})
		}
		return g
	}
	for _, c := range []struct {
		g    *wiring.Graph
		turn setting.Turn
		want []string
	}{
		{knobs(), nil, []string{"nothing to turn"}},
		{knobs("volume"), setting.Turn{1}, []string{"volume at 10"}},
		{knobs("volume"), setting.Turn{0.5}, []string{"volume at 5"}},
		{knobs("volume", "tone"), setting.Turn{0, 1}, []string{"volume at 0", "tone at 10"}},
		{knobs("volume", "tone"), setting.Turn{1, 1}, []string{"knobs at 10"}},
		{knobs("volume", "tone", "bass"), setting.Turn{0, 1, 1}, []string{"volume at 0", "the other knobs at 10"}},
	} {
		a := Ask{Kind: Ohms, Turn: c.turn}
		if got := a.turned(c.g); !slices.Equal(got, c.want) {
			t.Errorf("%v: %q, want %q", c.turn, got, c.want)
		}
	}
}
