package fault

import (
	"slices"

	"loomwright/internal/wiring"
)

// edit rewrites some links.
func edit(g *wiring.Graph, which func(wiring.Link) bool, change func(wiring.Link) wiring.Link) {
	g.Links = slices.Clone(g.Links)
	for i, l := range g.Links {
		if which(l) {
			g.Links[i] = change(l)
		}
	}
}

// editCore rewrites the wire of a run and leaves its braid alone.
func editCore(g *wiring.Graph, run int, change func(wiring.Link) wiring.Link) {
	braid := g.Runs[run].Braid
	edit(g, func(l wiring.Link) bool { return l.Run == run && (braid < 0 || l.A != braid && l.B != braid) }, change)
}

// replace puts one terminal for another in a link.
func replace(l wiring.Link, old, new int) wiring.Link {
	switch old {
	case l.A:
		l.A = new
	case l.B:
		l.B = new
	}
	return l
}

// cutEnd puts a new terminal for the place where one end of a run is soldered;
// its braid stays. With To, it is the joint of that braid.
func cutEnd(g *wiring.Graph, f Fault, end int) {
	if f.To < 0 {
		editCore(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, end) })
		return
	}
	edit(g, func(l wiring.Link) bool { return l.Run == f.Run && (l.A == f.To || l.B == f.To) },
		func(l wiring.Link) wiring.Link { return replace(l, f.Term, end) })
}

func dropRun(g *wiring.Graph, f Fault) {
	g.Links = slices.DeleteFunc(slices.Clone(g.Links), func(l wiring.Link) bool { return l.Run == f.Run })
}

// swapEnds exchanges where the far ends of two leads are soldered, or two wires
// on two terminals: Term is an end of Run, To an end of Other.
func swapEnds(g *wiring.Graph, f Fault) {
	editCore(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, f.To) })
	editCore(g, f.Other, func(l wiring.Link) wiring.Link { return replace(l, f.To, f.Term) })
}

// exchange moves all that is soldered to each of two terminals to the other.
func exchange(g *wiring.Graph, a, b int) {
	edit(g, func(l wiring.Link) bool { return l.Run >= 0 }, func(l wiring.Link) wiring.Link {
		for _, end := range []*int{&l.A, &l.B} {
			switch *end {
			case a:
				*end = b
			case b:
				*end = a
			}
		}
		return l
	})
}
