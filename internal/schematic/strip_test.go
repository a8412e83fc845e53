package schematic

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// A strip shows every coil of the loom once, heard or not.
func TestStripShowsEveryCoil(t *testing.T) {
	eachExample(t, func(t *testing.T, g *wiring.Graph) {
		for _, row := range proof.Prove(g).Rows {
			if row.Unsure {
				continue
			}
			s := Strip(&row)
			checkWords(t, s)
			var got, want []string
			for _, p := range textsOf(s.Items, scene.Transform{}) {
				if p.text.Style.Bold {
					got = append(got, p.text.Content)
				}
			}
			for i := range g.Coils {
				want = append(want, strings.Split(g.Coils[i].Name, ".")...)
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Errorf("%s shows %v, the coils are %v", row.Name, got, want)
			}
		}
	})
}

// marks counts the arrows of a strip.
func marks(t *testing.T, text string) map[string]int {
	t.Helper()
	e, _, err := sound.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]int{}
	for _, p := range textsOf(Strip(&proof.Row{Output: proof.Sounding, Sound: e}).Items, scene.Transform{}) {
		if !p.text.Style.Bold {
			out[p.text.Content]++
		}
	}
	return out
}

func TestStripMarks(t *testing.T) {
	for text, want := range map[string]map[string]int{
		"a series b":                           {"▶": 2},
		"a parallel reversed b":                {"▶": 1, "◀": 1},
		"(a series reversed b) parallel c":     {"▶": 2, "◀": 1},
		"a through 4k7":                        {"▶": 1, "4k7": 1},
		"a parallel (b through 1n)":            {"▶": 2, "1n": 1},
		"reversed (a series b) parallel c":     {"▶": 1, "◀": 2},
		"(a parallel b) series (c parallel d)": {"▶": 4},
	} {
		if got := marks(t, text); !equal(got, want) {
			t.Errorf("%s is marked %v, want %v", text, got, want)
		}
	}
}

func equal(a, b map[string]int) bool {
	for k, v := range a {
		if b[k] != v {
			return false
		}
	}
	return len(a) == len(b)
}

// Series runs along, parallel stacks.
func TestStripGrowsAsItShould(t *testing.T) {
	strip := func(text string) scene.Scene {
		e, _, err := sound.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		return Strip(&proof.Row{Output: proof.Sounding, Sound: e})
	}
	one, row, stack := strip("a"), strip("a series b"), strip("a parallel b")
	if row.Height != one.Height || row.Width <= one.Width || stack.Height <= row.Height || stack.Width >= row.Width {
		t.Errorf("one %gx%g, series %gx%g, parallel %gx%g", one.Width, one.Height, row.Width, row.Height, stack.Width, stack.Height)
	}
}

func TestStripSilences(t *testing.T) {
	for out, want := range map[proof.Output]string{proof.Shorted: "shorted", proof.Open: "open", proof.Held: "track only"} {
		s := Strip(&proof.Row{Output: out, Sound: sound.Expr{Op: sound.Silent}, Off: []string{"a"}, Shorted: []string{"b"}, Hanging: []string{"c"}})
		checkWords(t, s)
		if !slices.ContainsFunc(textsOf(s.Items, scene.Transform{}), func(p placed) bool { return p.text.Content == want }) {
			t.Errorf("%s is not said", want)
		}
	}
}
