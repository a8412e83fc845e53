package fault

import (
	"fmt"
	"math"
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/wiring"
)

// nextDoor is how near two terminals of a part lie for a blob of solder to join
// them or a wire to land on the wrong one, mm (judgement: pot lugs stand 5 mm
// apart, toggle lugs 4.7 mm).
const nextDoor = 6.0

// Neighbours lists the pairs of terminals of one part that lie next door by
// the geometry of the part file, pads and pins included. Leads in the air have
// no neighbours; metal has its own list.
func Neighbours(g *wiring.Graph) [][2]int {
	return pairs(g, func(a, b int) bool {
		return g.Terms[a].Kind != "case" && g.Terms[b].Kind != "case" && distance(places(g, a), places(g, b)) <= nextDoor
	})
}

// NearMetal lists the terminals that can be bent or blobbed against the metal
// of their own part: lug first, metal second.
func NearMetal(g *wiring.Graph) [][2]int {
	out := pairs(g, func(a, b int) bool {
		if g.Terms[a].Kind == "case" {
			a, b = b, a
		}
		if g.Terms[b].Kind != "case" || g.Terms[a].Kind == "case" {
			return false
		}
		return toShape(places(g, a), metalAround(g, b)) <= nextDoor
	})
	for i, p := range out {
		if g.Terms[p[0]].Kind == "case" {
			out[i] = [2]int{p[1], p[0]}
		}
	}
	return out
}

func pairs(g *wiring.Graph, near func(a, b int) bool) [][2]int {
	var out [][2]int
	for a := range g.Terms {
		for b := a + 1; b < len(g.Terms) && g.Terms[b].Use == g.Terms[a].Use && g.Terms[a].Use >= 0; b++ {
			if near(a, b) {
				out = append(out, [2]int{a, b})
			}
		}
	}
	return out
}

// places lists where a terminal can be soldered, mm; none for a lead, a braid, a
// plate, or a wire's end in the air.
func places(g *wiring.Graph, t int) [][2]float64 {
	term := g.Terms[t]
	if term.Use < 0 || term.Terminal < 0 || slices.Contains([]string{"lead", "plate", "point"}, term.Kind) {
		return nil
	}
	p := g.Loom.Uses[term.Use].Part.Terminals[term.Terminal]
	var out [][2]float64
	if p.Placed {
		out = append(out, p.At)
	}
	if p.HasPin {
		out = append(out, p.Pin)
	}
	return out
}

func distance(a, b [][2]float64) float64 {
	d := math.Inf(1)
	for _, p := range a {
		for _, q := range b {
			d = min(d, math.Hypot(p[0]-q[0], p[1]-q[1]))
		}
	}
	return d
}

// metalAround is the drawn metal that a case terminal is the middle of.
func metalAround(g *wiring.Graph, t int) *part.Shape {
	term := g.Terms[t]
	p := g.Loom.Uses[term.Use].Part
	for i := range p.Outline {
		if s := &p.Outline[i]; s.Fill == "metal" && s.At == p.Terminals[term.Terminal].At {
			return s
		}
	}
	return nil
}

// toShape is how far places lie outside a circle or rectangle, mm.
func toShape(from [][2]float64, s *part.Shape) float64 {
	d := math.Inf(1)
	if s == nil {
		return d
	}
	for _, p := range from {
		x, y := math.Abs(p[0]-s.At[0]), math.Abs(p[1]-s.At[1])
		if s.Shape == "circle" {
			d = min(d, max(0, math.Hypot(x, y)-s.Size[0]/2))
		} else {
			d = min(d, math.Hypot(max(0, x-s.Size[0]/2), max(0, y-s.Size[1]/2)))
		}
	}
	return d
}

// neighbours: bridges between terminals that lie next door, lugs against their
// case, and wires on the terminal next door.
func (l *lister) neighbours() {
	next := Neighbours(l.g)
	for _, p := range next {
		f := none(Bridge, fmt.Sprintf("solder bridge between %s and %s", l.name(p[0]), l.name(p[1])))
		f.Term, f.To = p[0], p[1]
		l.add(f)
	}
	for _, p := range NearMetal(l.g) {
		f := none(LeadToMetal, fmt.Sprintf("%s touches %s", l.name(p[0]), l.name(p[1])))
		f.Term, f.To = p[0], p[1]
		l.add(f)
	}
	in := l.soldered()
	for i := range l.g.Runs {
		if in[i] && l.g.Runs[i].Wire.Kind != loom.Touching {
			l.nextDoor(i, next)
		}
	}
}

func (l *lister) nextDoor(run int, next [][2]int) {
	r := &l.g.Runs[run]
	for _, t := range []int{r.A, r.B} {
		for _, p := range next {
			to := p[0] + p[1] - t
			if p[0] != t && p[1] != t || to == r.A || to == r.B {
				continue
			}
			f := none(WireNextDoor, fmt.Sprintf("the wire %s sits on %s instead of %s", l.run(run), l.name(to), l.name(t)))
			f.Run, f.Term, f.To = run, t, to
			l.add(f)
		}
	}
}

// end is one end of a run.
type end struct{ run, term int }

// leads: two leads of a pickup exchanged.
func (l *lister) leads() {
	for u := range l.g.Loom.Uses {
		if len(l.g.Loom.Uses[u].Part.Coils) == 0 {
			continue
		}
		l.swapped(LeadsSwapped, "%s and %s are swapped", l.ends(func(t int) bool {
			return l.g.Terms[t].Use == u && (l.g.Terms[t].Kind == "lead" || l.g.Terms[t].Kind == "point")
		}), func(a, b int) bool { return true })
	}
}

// wires: the wires on two throws of one switch, or on two lugs next door,
// exchanged.
func (l *lister) wires() {
	next := Neighbours(l.g)
	throws := l.throws()
	l.swapped(WiresSwapped, "the wires on %s and %s are swapped", l.ends(func(t int) bool { return len(places(l.g, t)) > 0 }),
		func(a, b int) bool {
			p := [2]int{min(a, b), max(a, b)}
			return slices.Contains(next, p) || throws[p]
		})
}

// ends lists the ends of soldered runs on terminals that are wanted.
func (l *lister) ends(want func(t int) bool) []end {
	in := l.soldered()
	var out []end
	for i, r := range l.g.Runs {
		for _, t := range []int{r.A, r.B} {
			if in[i] && r.Wire.Kind != loom.Touching && want(t) {
				out = append(out, end{i, t})
			}
		}
	}
	return out
}

func (l *lister) swapped(kind Kind, words string, ends []end, may func(a, b int) bool) {
	seen := map[[2]int]bool{}
	for i, a := range ends {
		for _, b := range ends[i+1:] {
			p := [2]int{min(a.term, b.term), max(a.term, b.term)}
			if a.run == b.run || a.term == b.term || !may(a.term, b.term) || l.farEnd(a) == l.farEnd(b) || seen[p] && kind == LeadsSwapped {
				continue
			}
			seen[p] = true
			f := none(kind, fmt.Sprintf(words, l.name(a.term), l.name(b.term)))
			if kind == WiresSwapped {
				f.Words = fmt.Sprintf("the wires %s and %s are swapped at %s and %s", l.run(a.run), l.run(b.run), l.name(a.term), l.name(b.term))
			}
			f.Run, f.Term, f.Other, f.To = a.run, a.term, b.run, b.term
			l.add(f)
		}
	}
}

func (l *lister) farEnd(e end) int { return l.g.Runs[e.run].A + l.g.Runs[e.run].B - e.term }

// throws lists the pairs of terminals of one switch's pole that never meet.
func (l *lister) throws() map[[2]int]bool {
	out := map[[2]int]bool{}
	for i := range l.g.Switches {
		for _, pole := range l.g.Switches[i].Contacts {
			for p := range l.contactPairs(pole) {
				for q := range l.contactPairs(pole) {
					if p[0] == q[0] && p[1] < q[1] {
						out[[2]int{p[1], q[1]}] = true
					}
				}
			}
		}
	}
	return out
}

// contactPairs lists what of a pole can meet: first terminal of a group (the
// common by custom of the part files) and each other one.
func (l *lister) contactPairs(pole [][][]int) map[[2]int]bool {
	out := map[[2]int]bool{}
	for _, groups := range pole {
		for _, group := range groups {
			for _, t := range group[1:] {
				out[[2]int{group[0], t}] = true
			}
		}
	}
	return out
}
