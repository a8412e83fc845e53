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
				b.ReportMetric(float64(len(g.Runs)), "joins")
			}
		})
	}
}

// manyJoins is a loom of pots in a chain, five joins for each; no lug has more
// than three wires, for which there are three ways out.
func manyJoins(n int) string {
	var parts, joins strings.Builder
	used := map[string]int{}
	join := func(a, b string) {
		if a == b || used[a] == 3 || used[b] == 3 {
			return
		}
		for _, t := range []string{a, b} {
			if !strings.HasSuffix(t, ".case") {
				used[t]++
			}
		}
		fmt.Fprintf(&joins, "  - %s -- %s\n", a, b)
	}
	join("pot0.wiper", "jack.tip")
	join("pot0.case", "jack.sleeve")
	for i := range n / 5 {
		fmt.Fprintf(&parts, "  pot%d: {is: pot/standard, track: 500k audio}\n", i)
		pot, next, far := fmt.Sprintf("pot%d", i), fmt.Sprintf("pot%d", (i+1)%(n/5)), fmt.Sprintf("pot%d", (i*7+3)%(n/5))
		join(pot+".ccw", pot+".case")
		join(pot+".wiper", next+".cw")
		join(pot+".case", next+".case")
		if pot != far {
			join(pot+".cw", far+".ccw")
			join(pot+".wiper", far+".wiper")
		}
	}
	return "loomwright: 1\nparts:\n" + parts.String() + "  jack: {is: jack/mono}\njoins:\n" + joins.String()
}
