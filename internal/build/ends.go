package build

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// use is the part that a terminal belongs to; nil for a braid.
func use(g *wiring.Graph, term int) *loom.Use {
	if u := g.Terms[term].Use; u >= 0 {
		return &g.Loom.Uses[u]
	}
	return nil
}

// is reports whether a terminal belongs to a part of one of these classes.
func is(g *wiring.Graph, term int, classes ...string) bool {
	u := use(g, term)
	return u != nil && slices.Contains(classes, u.Part.Class)
}

// ends lists the terminals that a run is soldered to: its own two, then those
// of its braid.
func ends(g *wiring.Graph, run int) []End {
	r := &g.Runs[run]
	out := []End{{Term: r.A}, {Term: r.B}}
	for _, l := range g.Loom.Joins[r.Join].Runs {
		if g.Ref(l.A) != r.A || g.Ref(l.B) != r.B || l.Braid == nil || r.Braid < 0 {
			continue
		}
		out = append(out, End{Term: g.Ref(l.Braid.A), Braid: true})
		if l.Braid.B != nil {
			out = append(out, End{Term: g.Ref(*l.Braid.B), Braid: true})
		}
		break
	}
	return out
}

// stays reports whether a terminal is on what stays in the guitar.
func stays(g *wiring.Graph, term int) bool { return is(g, term, "pickup", "ground", "jack") }

// tailed reports whether a terminal of a loom is the free end of a wire: where
// the customer's pickups or jack will be joined.
func tailed(g *wiring.Graph, term int) bool { return is(g, term, "points", "output") }

// small reports whether a run is a lead of a part that heat can hurt.
func small(g *wiring.Graph, run int) bool {
	const a, b, c = "capacitor", "resistor", "bleed"
	return is(g, g.Runs[run].A, a, b, c) || is(g, g.Runs[run].B, a, b, c)
}

// onCase reports whether the metal of a case or a plate is soldered at a
// terminal.
func onCase(g *wiring.Graph, term int) bool {
	k := g.Terms[term].Kind
	return k == "case" || k == "plate"
}

// jumper reports whether a run stays on one part.
func jumper(g *wiring.Graph, run int) bool {
	return g.Terms[g.Runs[run].A].Use == g.Terms[g.Runs[run].B].Use
}
