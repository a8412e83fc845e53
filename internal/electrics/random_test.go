package electrics

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// randomLoom draws parts from the library and solders their terminals into a
// few nets at random: most are wirings that nobody would build, with islands,
// shorted coils, coils on one end.
func randomLoom(random *rand.Rand) string {
	var parts, terminals []string
	add := func(text string, terms ...string) {
		name := fmt.Sprintf("p%d", len(parts))
		parts = append(parts, fmt.Sprintf("  %s: {%s}", name, text))
		for _, t := range terms {
			terminals = append(terminals, name+"."+t)
		}
	}
	pick := func(of ...string) string { return of[random.IntN(len(of))] }
	for range 1 + random.IntN(3) {
		switch random.IntN(4) {
		case 0:
			add(fmt.Sprintf("is: pickup/single-coil, ohms: %d", 4000+random.IntN(6000)), "coil.start", "coil.finish")
		case 1:
			add("is: pickup/tapped-coil", "start", "tap", "finish")
		case 2:
			add("is: pickup/three-coil", "north.start", "north.finish", "south.finish", "south.start", "single.start", "single.finish")
		default:
			add(fmt.Sprintf("is: pickup/twin-coil, henries: %dmH", 2000+random.IntN(8000)), "north.start", "north.finish", "south.finish", "south.start")
		}
	}
	for range 1 + random.IntN(3) {
		track := pick("250k", "500k", "1M") + " " + pick("audio", "linear", "audio 12%", "reverse audio")
		switch random.IntN(4) {
		case 0:
			add("is: pot/no-load, track: "+track, "cw", "wiper", "ccw")
		case 1:
			add("is: pot/blend, track: "+track, "front.cw", "front.wiper", "front.ccw", "rear.cw", "rear.wiper", "rear.ccw")
		default:
			add("is: pot/standard, track: "+track, "cw", "wiper", "ccw")
		}
	}
	for range 1 + random.IntN(2) {
		add("is: capacitor/film, value: "+pick("1n", "10n", "22n", "47n"), "a", "b")
	}
	if random.IntN(2) == 0 {
		add("is: resistor/quarter-watt, value: "+pick("4k7", "150k", "1M"), "a", "b")
	}
	if random.IntN(2) == 0 {
		add("is: bleed/series, capacitor: 1n, resistor: 130k", "a", "b")
	}
	add("is: switch/dpdt-on-on-on", "a", "a.up", "a.down", "b", "b.up", "b.down")
	var joins []string
	rails := []string{"jack.tip", "jack.sleeve"}
	random.Shuffle(len(terminals), func(i, j int) { terminals[i], terminals[j] = terminals[j], terminals[i] })
	for i, t := range terminals {
		switch {
		case random.IntN(12) == 0: // left free
		case i < 5:
			rails = append(rails, t)
		default:
			joins = append(joins, "  - "+t+" -- "+rails[random.IntN(len(rails))])
		}
	}
	hand := pick("right", "right", "left with pot ends swapped")
	return "loomwright: 1\nhand: " + hand + "\nparts:\n" + strings.Join(parts, "\n") + "\n  jack: {is: jack/mono}\njoins:\n" + strings.Join(joins, "\n") + "\n"
}

// randomGraph is a random loom as a graph.
func randomGraph(t testing.TB, random *rand.Rand) *wiring.Graph {
	t.Helper()
	text := randomLoom(random)
	l, list := loom.Read(diag.NewText("random", text), shipped)
	if list.HasErrors() {
		t.Fatalf("%+v\n%s", list, text)
	}
	g, list := wiring.Build(l)
	if list.HasErrors() {
		t.Fatalf("%+v\n%s", list, text)
	}
	return g
}

// randomTurn puts knobs at their ends, in the middle, or anywhere.
func randomTurn(random *rand.Rand, g *wiring.Graph) setting.Turn {
	turn := setting.FullUp(g)
	for i := range turn {
		switch random.IntN(4) {
		case 0:
			turn[i] = float64(random.IntN(3)) / 2
		case 1:
			turn[i] = random.Float64()
		}
	}
	return turn
}
