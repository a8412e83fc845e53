package electrics

import (
	"fmt"
	"math"
	"strings"

	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// decker writes circuits as ngspice decks straight from a graph, without any
// code of this package: values from the parts, one node for each net.
type decker struct {
	prefix string
	b      strings.Builder
	saved  []string
	count  int
}

// ac adds a copy of a setting's circuit for the EMF of one coil, every value
// typical, and returns the name of its output node.
func (d *decker) ac(g *wiring.Graph, at []int, turn setting.Turn, emf int) string {
	d.count++
	p := fmt.Sprintf("%sx%d", d.prefix, d.count)
	nets := setting.NewBase(g).Nets(at)
	ground := nets.Of[g.Ground]
	name := func(term int) string {
		if nets.Of[term] == ground {
			return "0"
		}
		return fmt.Sprintf("%sn%d", p, nets.Of[term])
	}
	links := [][2]string{{name(g.Hot), "0"}}
	two := func(kind string, i int, a, b string, x float64) {
		if a != b {
			line(&d.b, "%s%s_%d %s %s %s", kind, p, i, a, b, number(x))
			links = append(links, [2]string{a, b})
		}
	}
	out := name(g.Hot)
	two("r", 0, out, "0", g.Loom.Input.X)
	two("c", 0, out, "0", g.Loom.Cable.X)
	for i := range g.Coils {
		c := &g.Coils[i]
		s, f := name(c.Start), name(c.Finish)
		d.coil(p, i, c, s, f, i == emf)
		links = append(links, [2]string{s, f})
	}
	for i, k := range g.Couplings {
		line(&d.b, "k%s_%da l%s_%da l%s_%da %s", p, i, p, k.A, p, k.B, number(k.K))
		line(&d.b, "k%s_%db l%s_%db l%s_%db %s", p, i, p, k.A, p, k.B, number(k.K))
	}
	for i := range g.Tracks {
		t := &g.Tracks[i]
		upper, lower := halvesOf(g, t, turn[t.Knob])
		if !math.IsInf(upper, 1) {
			two("r", 1000+2*i, name(t.CW), name(t.Wiper), upper)
		}
		if !math.IsInf(lower, 1) {
			two("r", 1001+2*i, name(t.CCW), name(t.Wiper), lower)
		}
	}
	for i, t := range g.Resistors {
		two("r", 2000+i, name(t.A), name(t.B), t.Value.X)
	}
	for i, t := range g.Caps {
		two("c", 2000+i, name(t.A), name(t.B), t.Value.X)
	}
	d.tie(p, links)
	return out
}

// coil writes EMF, R, the lossless and the lossy part of the inductance, and C.
func (d *decker) coil(p string, i int, c *wiring.Coil, s, f string, emf bool) {
	ac := 0
	if emf {
		ac = 1
	}
	line(&d.b, "v%s_%d %s %se%d dc 0 ac %d", p, i, s, p, i, ac)
	line(&d.b, "r%s_%dw %se%d %sf%d %s", p, i, p, i, p, i, number(c.Ohms.Typical))
	line(&d.b, "l%s_%da %sf%d %sg%d %s", p, i, p, i, p, i, number(c.Henries.Typical*(1-c.EddyPart)))
	line(&d.b, "l%s_%db %sg%d %s %s", p, i, p, i, f, number(c.Henries.Typical*c.EddyPart))
	line(&d.b, "r%s_%de %sg%d %s %s", p, i, p, i, f, number(c.Eddy.Typical))
	if s != f {
		line(&d.b, "c%s_%dw %s %s %s", p, i, s, f, number(c.Farads.Typical))
	}
}

// tie gives every island that hangs apart one ohm to ground.
func (d *decker) tie(p string, links [][2]string) {
	seen := map[string]bool{}
	var grow func(at string)
	grow = func(at string) {
		seen[at] = true
		for _, l := range links {
			for k := range l {
				if l[k] == at && !seen[l[1-k]] {
					grow(l[1-k])
				}
			}
		}
	}
	grow("0")
	for i, l := range links {
		if !seen[l[0]] {
			line(&d.b, "r%s_tie%d %s 0 1", p, i, l[0])
			grow(l[0])
		}
	}
}

// halvesOf is a pot's two resistances, wiper to its full-up end and to the
// other, worked out from the pot on the bench: one whose ends are swapped is the
// same pot turned the other way.
func halvesOf(g *wiring.Graph, t *wiring.Track, turn float64) (upper, lower float64) {
	for _, pot := range g.Loom.Uses[t.Use].Part.Tracks {
		switch {
		case pot.Name != t.Name:
		case g.Loom.EndsSwapped:
			lower, upper = potHalves(&pot, 1-turn)
		default:
			upper, lower = potHalves(&pot, turn)
		}
	}
	return upper, lower
}

// potHalves are the resistances of a pot from wiper to cw and to ccw: the law of
// its taper is the smooth one through its share at half turn.
func potHalves(t *part.Track, turn float64) (upper, lower float64) {
	x := turn
	switch t.Law {
	case part.FirstHalf:
		x = math.Min(1, 2*turn)
	case part.SecondHalf:
		x = math.Max(0, 2*turn-1)
	}
	share := x
	half := 0.15
	if t.Value.Half != 0 {
		half = t.Value.Half
	}
	base := math.Pow((1-half)/half, 2)
	switch t.Value.Taper {
	case units.Audio:
		share = (math.Pow(base, x) - 1) / (base - 1)
	case units.ReverseAudio:
		share = 1 - (math.Pow(base, 1-x)-1)/(base-1)
	}
	r := t.Value.Ohms.X - 2*t.End
	upper, lower = t.End+(1-share)*r, t.End+share*r
	if t.NoLoad && x == 1 {
		lower = math.Inf(1)
	}
	return upper, lower
}

// acDeck is the whole deck for a sweep that saves the given nodes.
func (d *decker) acDeck(title, sweep string) string {
	return d.deck(title, ".ac "+sweep)
}

func (d *decker) deck(title, analysis string) string {
	var b strings.Builder
	line(&b, "* %s", title)
	line(&b, ".options noopac noacct")
	b.WriteString(d.b.String())
	for i := 0; i < len(d.saved); i += 10 {
		line(&b, ".save %s", strings.Join(d.saved[i:min(i+10, len(d.saved))], " "))
	}
	line(&b, "%s", analysis)
	line(&b, ".end")
	return b.String()
}
