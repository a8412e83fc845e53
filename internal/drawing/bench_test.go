package drawing

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/place"
	"loomwright/internal/route"
)

// BenchmarkRoute is the router alone, on the best plan.
func BenchmarkRoute(b *testing.B) {
	files := exampleFiles(b)
	for _, name := range []string{"two-twin-coils-tone-at-input", "three-single-coils-5way"} {
		g := graphOf(b, name, files[name])
		d := drawn(b, g, Options{})
		bo := newBoard(&Drawing{Graph: g, Plan: d.Plan, Options: d.Options})
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				route.Route(&bo.board, bo.wires, route.Options{})
			}
		})
	}
}

// BenchmarkDraw is all of it: placement with its search, routing, tags, scene.
func BenchmarkDraw(b *testing.B) {
	files := exampleFiles(b)
	for _, name := range []string{"two-twin-coils-tone-at-input", "three-single-coils-5way"} {
		g := graphOf(b, name, files[name])
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				drawn(b, g, Options{}).Scene()
			}
		})
	}
}

// BenchmarkWarm is a redrawing after one edit: all other lanes are kept.
func BenchmarkWarm(b *testing.B) {
	files := exampleFiles(b)
	for name, join := range edits {
		text := files[name]
		saved := drawn(b, graphOf(b, name, text), Options{}).Save()
		at := indexAfter(text, "joins:\n")
		g := graphOf(b, name, text[:at]+join+text[at:])
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				drawn(b, g, Options{Previous: saved}).Scene()
			}
		})
	}
}

// BenchmarkJoins is the cost against the number of joins.
func BenchmarkJoins(b *testing.B) {
	for _, n := range []int{25, 50, 100, 200, 500} {
		g := graphOf(b, "many", manyJoins(n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				plans, _ := place.Lay(g, place.Options{})
				d, _ := Draw(g, plans, Options{})
				b.ReportMetric(float64(len(Lint(&d))), "flaws")
			}
		})
	}
}

// manyJoins is a loom of pots in a chain, five joins for each.
func manyJoins(n int) string {
	var parts, joins strings.Builder
	for i := range n / 5 {
		fmt.Fprintf(&parts, "  pot%d: {is: pot/standard, track: 500k audio}\n", i)
		k := (i*7 + 3) % (n / 5)
		fmt.Fprintf(&joins, "  - pot%d.ccw -- pot%d.case\n", i, i)
		fmt.Fprintf(&joins, "  - pot%d.wiper -- pot%d.cw\n", i, (i+1)%(n/5))
		fmt.Fprintf(&joins, "  - pot%d.case -- pot%d.case\n", i, (i+1)%(n/5))
		if k != i {
			fmt.Fprintf(&joins, "  - pot%d.cw -- pot%d.ccw\n  - pot%d.wiper -- pot%d.wiper\n", i, k, i, k)
		}
	}
	return "loomwright: 1\nparts:\n" + parts.String() + "  jack: {is: jack/mono}\njoins:\n" + joins.String() +
		"  - pot0.wiper -- jack.tip\n  - pot0.case -- jack.sleeve\n"
}
