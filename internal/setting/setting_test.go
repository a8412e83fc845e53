package setting

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loomwright/internal/part"
	"loomwright/internal/wiring"
)

// genGraph draws terminals, links and switches; no loom is behind it.
func genGraph(t *rapid.T) *wiring.Graph {
	n := rapid.IntRange(1, 12).Draw(t, "terminals")
	term := rapid.IntRange(0, n-1)
	g := &wiring.Graph{Terms: make([]wiring.Term, n)}
	for range rapid.IntRange(0, 10).Draw(t, "links") {
		g.Links = append(g.Links, wiring.Link{A: term.Draw(t, "a"), B: term.Draw(t, "b"), Run: -1})
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "switches") {
		s := wiring.Switch{Name: string(rune('p' + i)), Proved: -1}
		positions := rapid.IntRange(2, 4).Draw(t, "positions")
		for k := range positions {
			s.Positions = append(s.Positions, part.Position{Name: string(rune('1' + k))})
		}
		if rapid.IntRange(0, 4).Draw(t, "fixed") == 0 {
			s.Proved = rapid.IntRange(0, positions-1).Draw(t, "proved")
		}
		for range rapid.IntRange(1, 2).Draw(t, "poles") {
			pole := make([][][]int, positions)
			for k := range pole {
				for range rapid.IntRange(0, 2).Draw(t, "groups") {
					pole[k] = append(pole[k], rapid.SliceOfN(term, 2, 3).Draw(t, "group"))
				}
			}
			s.Contacts = append(s.Contacts, pole)
		}
		g.Switches = append(g.Switches, s)
	}
	return g
}

// TestNetsAreWhatIsJoined holds nets against a walk over the same pairs, and
// asks for numbers in order of first terminals.
func TestNetsAreWhatIsJoined(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := genGraph(t)
		base := NewBase(g)
		var again Nets
		for s := range All(g) {
			extra := [][2]int{{0, len(g.Terms) - 1}}
			nets := base.Nets(s.At, extra...)
			again.Refill(base, base.Contacts(s.At), extra)
			if !slices.Equal(nets.Of, again.Of) || nets.Count != again.Count {
				t.Fatalf("refilled storage gives %v, new storage %v", again, nets)
			}
			joined := pairs(g, s.At, extra)
			next := 0
			for a := range g.Terms {
				if nets.Of[a] > next {
					t.Fatalf("%v is not numbered by first terminals", nets.Of)
				}
				next = max(next, nets.Of[a]+1)
				seen := reach(len(g.Terms), joined, a)
				for b := range g.Terms {
					if seen[b] != (nets.Of[a] == nets.Of[b]) {
						t.Fatalf("%v: terminals %d and %d: %v by a walk", nets.Of, a, b, seen[b])
					}
				}
			}
			if next != nets.Count {
				t.Fatalf("%d nets counted, %d there", nets.Count, next)
			}
		}
	})
}

func pairs(g *wiring.Graph, at []int, extra [][2]int) [][2]int {
	out := slices.Clone(extra)
	for _, l := range g.Links {
		out = append(out, [2]int{l.A, l.B})
	}
	for i, s := range g.Switches {
		for _, pole := range s.Contacts {
			for _, group := range pole[at[i]] {
				for k := 1; k < len(group); k++ {
					out = append(out, [2]int{group[k-1], group[k]})
				}
			}
		}
	}
	return out
}

func reach(n int, pairs [][2]int, from int) []bool {
	seen := make([]bool, n)
	seen[from] = true
	for range n {
		for _, p := range pairs {
			seen[p[0]] = seen[p[0]] || seen[p[1]]
			seen[p[1]] = seen[p[1]] || seen[p[0]]
		}
	}
	return seen
}

func TestSettingsAreCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := genGraph(t)
		seen := map[string]bool{}
		i := 0
		for s := range All(g) {
			if s.Index != i || Index(g, s.At) != i || seen[s.Name] {
				t.Fatalf("setting %d is %+v, its index %d", i, s, Index(g, s.At))
			}
			for k, sw := range g.Switches {
				if sw.Proved >= 0 && s.At[k] != sw.Proved {
					t.Fatalf("switch %d is proved in %d and stands in %d", k, sw.Proved, s.At[k])
				}
			}
			seen[s.Name] = true
			i++
		}
		if i != Count(g) {
			t.Fatalf("%d settings, counted %d", i, Count(g))
		}
	})
}

func TestCountStopsAboveTheMost(t *testing.T) {
	g := &wiring.Graph{}
	for range 200 { // 2^200 does not fit in any integer
		g.Switches = append(g.Switches, wiring.Switch{Positions: make([]part.Position, 2), Proved: -1})
	}
	if got := Count(g); got != Max+1 {
		t.Errorf("Count = %d, want %d", got, Max+1)
	}
}

func TestNamesOfSettings(t *testing.T) {
	g := &wiring.Graph{}
	if got := Nth(g, 0).Name; got != "as wired" {
		t.Errorf("without a switch: %q", got)
	}
	g.Switches = []wiring.Switch{
		{Name: "lever", Positions: []part.Position{{Name: "bridge"}, {Name: "neck"}}, Proved: -1},
		{Name: "jack", Positions: []part.Position{{Name: "out"}, {Name: "in"}}, Proved: 1},
		{Name: "volume", Positions: []part.Position{{Name: "pushed"}, {Name: "pulled"}}, Proved: -1},
	}
	var names []string
	for s := range All(g) {
		names = append(names, s.Name)
	}
	want := []string{"lever bridge, volume pushed", "lever bridge, volume pulled", "lever neck, volume pushed", "lever neck, volume pulled"}
	if !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
}

func TestRedundantLinks(t *testing.T) {
	g := &wiring.Graph{Terms: make([]wiring.Term, 4), Links: []wiring.Link{{A: 0, B: 1}, {A: 1, B: 2}, {A: 2, B: 0}, {A: 3, B: 3}, {A: 2, B: 3}}}
	if got, want := Redundant(g), []bool{false, false, true, true, false}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// TestTracks: a pot is wiper at cw at 10 and at ccw at 0; the two gangs of a
// blend are both metal in the middle, and each only works over its own half.
func TestTracks(t *testing.T) {
	g := &wiring.Graph{
		Knobs: []wiring.Knob{{Name: "volume"}, {Name: "blend"}},
		Tracks: []wiring.Track{
			{CW: 0, Wiper: 1, CCW: 2, Knob: 0},
			{CW: 3, Wiper: 4, CCW: 5, Knob: 1, Track: part.Track{Law: part.FirstHalf}},
			{CW: 6, Wiper: 7, CCW: 8, Knob: 1, Track: part.Track{Law: part.SecondHalf}},
		},
	}
	full := FullUp(g)
	for _, c := range []struct {
		turn Turn
		want [][2]int
	}{
		{full, [][2]int{{1, 0}, {4, 3}, {7, 8}}},
		{full.With(0, 0), [][2]int{{1, 2}, {4, 3}, {7, 8}}},
		{full.With(0, 0.4), [][2]int{{4, 3}, {7, 8}}},
		{full.With(1, 0), [][2]int{{1, 0}, {4, 5}, {7, 8}}},
		{full.With(1, 0.2), [][2]int{{1, 0}, {7, 8}}},
		{full.With(1, 0.8), [][2]int{{1, 0}, {4, 3}}},
		{full.With(1, 1), [][2]int{{1, 0}, {4, 3}, {7, 6}}},
	} {
		if got := Ends(g, c.turn); !slices.Equal(got, c.want) {
			t.Errorf("turned to %v: %v, want %v", c.turn, got, c.want)
		}
	}
	if full[0] != 1 {
		t.Error("With changed its receiver")
	}
}
