package electrics

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// note reads "* key: value" of a deck.
func note(deck, key string) string {
	for _, l := range strings.Split(deck, "\n") {
		if v, ok := strings.CutPrefix(l, "* "+key+": "); ok {
			return strings.TrimSpace(v)
		}
	}
	return ""
}

// handSetting finds the setting and turn that a deck was written for.
func handSetting(t *testing.T, g *wiring.Graph, deck string) (setting.Setting, setting.Turn) {
	t.Helper()
	turn := setting.FullUp(g)
	for _, k := range strings.Split(note(deck, "knobs"), ",") {
		name, at, ok := strings.Cut(strings.TrimSpace(k), " ")
		if !ok {
			continue
		}
		found := false
		for i := range g.Knobs {
			if g.Knobs[i].Name == name {
				x, err := strconv.ParseFloat(at, 64)
				turn, found = turn.With(i, x), err == nil
			}
		}
		if !found {
			t.Fatalf("no knob %q at %q", name, at)
		}
	}
	for s := range setting.All(g) {
		if s.Name == note(deck, "with") {
			return s, turn
		}
	}
	t.Fatalf("no setting %q", note(deck, "with"))
	return setting.Setting{}, nil
}

// Decks written by hand from the wiring itself, node by node, without our graph:
// each coil's response within 1e-6 dB, ohms within 1e-9.
func TestHandWrittenDecks(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "decks", "*.cir"))
	if err != nil || len(files) < 12 {
		t.Fatalf("%d decks, at least 12 are wanted (%v)", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".cir"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			deck := string(text)
			g := loomFile(t, note(deck, "loom"))
			s, turn := handSetting(t, g, deck)
			if pair := note(deck, "ohms"); pair != "" {
				handOhms(t, g, s, turn, deck, strings.Fields(pair))
				return
			}
			handResponse(t, g, s, turn, deck)
		})
	}
}

var emfLine = regexp.MustCompile(`(?m)^(v_\w+ .* ac) 0$`)

// handResponse gives each coil of the deck one volt in turn.
func handResponse(t *testing.T, g *wiring.Graph, s setting.Setting, turn setting.Turn, deck string) {
	t.Helper()
	curve := modelOf(t, g, Options{Points: 40}).Curve(s.At, turn)
	sources := emfLine.FindAllString(deck, -1)
	if len(sources) == 0 {
		t.Fatal("no coil in the deck")
	}
	worst := 0.0
	for _, source := range sources {
		one := strings.Replace(deck, source, strings.TrimSuffix(source, "0")+"1", 1)
		one = strings.Replace(one, "\n", "\n.options noopac\n", 1)
		want := spice(t, one)["hot"]
		word, _, _ := strings.Cut(strings.TrimPrefix(source, "v_"), " ")
		coil := strings.ReplaceAll(word, "_", ".")
		if g.CoilIndex(coil) < 0 {
			t.Fatalf("the loom has no coil %q", coil)
		}
		got := gainOf(&curve, coil, len(want))
		for i := range want {
			if size := math.Hypot(real(want[i]), imag(want[i])); size > 1e-3 {
				worst = max(worst, 20*math.Log10(1+math.Hypot(real(got[i]-want[i]), imag(got[i]-want[i]))/size))
			}
			if off(got[i], want[i]) > 1e-6 {
				t.Fatalf("%s at %.1f Hz: %v, by hand %v", coil, curve.Hz[i], got[i], want[i])
			}
		}
	}
	t.Logf("%d coils, at most %.1e dB off above -60 dB", len(sources), worst)
}

func handOhms(t *testing.T, g *wiring.Graph, s setting.Setting, turn setting.Turn, deck string, pair []string) {
	t.Helper()
	a, okA := g.Find(pair[0])
	b, okB := g.Find(pair[1])
	if !okA || !okB {
		t.Fatalf("no terminals %v", pair)
	}
	r := modelOf(t, g, Options{}).DC(s.At, turn).Ohms(a, b)
	for _, v := range spice(t, deck) {
		want := real(v[0])
		if math.Abs(r.Ohms/want-1) > 1e-9 {
			t.Errorf("%.12g Ω, by hand %.12g Ω", r.Ohms, want)
		}
		t.Logf("%.6f Ω, %.1e off; %s", r.Ohms, r.Ohms/want-1, r.Words)
	}
}
