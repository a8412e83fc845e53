package electrics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/internal/linear"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// dc adds a copy of a setting's resistors with one ampere through two
// terminals, b at 0 V, and returns the node whose voltage is the resistance in
// ohms. Nets that no resistor leads to from there are left out.
func (d *decker) dc(g *wiring.Graph, at []int, turn setting.Turn, a, b int) string {
	d.count++
	p := fmt.Sprintf("%sy%d", d.prefix, d.count)
	nets := setting.NewBase(g).Nets(at)
	name := func(net int) string {
		if net == nets.Of[b] {
			return "0"
		}
		return fmt.Sprintf("%sn%d", p, net)
	}
	type resistor struct {
		a, b int
		ohms float64
	}
	var all []resistor
	for _, c := range g.Coils {
		all = append(all, resistor{nets.Of[c.Start], nets.Of[c.Finish], c.Ohms.Typical})
	}
	for i := range g.Tracks {
		t := &g.Tracks[i]
		upper, lower := halvesOf(g, t, turn[t.Knob])
		all = append(all, resistor{nets.Of[t.CW], nets.Of[t.Wiper], upper}, resistor{nets.Of[t.CCW], nets.Of[t.Wiper], lower})
	}
	for _, r := range g.Resistors {
		all = append(all, resistor{nets.Of[r.A], nets.Of[r.B], r.Value.X})
	}
	reached := map[int]bool{nets.Of[b]: true}
	for range all {
		for _, r := range all {
			if !math.IsInf(r.ohms, 1) && (reached[r.a] || reached[r.b]) {
				reached[r.a], reached[r.b] = true, true
			}
		}
	}
	for i, r := range all {
		if reached[r.a] && r.a != r.b && !math.IsInf(r.ohms, 1) {
			line(&d.b, "r%s_%d %s %s %s", p, i, name(r.a), name(r.b), number(r.ohms))
		}
	}
	if !reached[nets.Of[a]] || nets.Of[a] == nets.Of[b] {
		return ""
	}
	line(&d.b, "i%s 0 %s dc 1", p, name(nets.Of[a]))
	return name(nets.Of[a])
}

// The resistance between any two terminals against ngspice's operating point:
// within 1e-9 of it.
func TestOhmsAgainstNgspice(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	type point struct {
		ohms float64
		node string
		text string
	}
	var points []point
	var d decker
	apart, settings := 0, 0
	for settings < 210 {
		g := randomGraph(t, random)
		m := modelOf(t, g, Options{})
		for s := range setting.All(g) {
			settings++
			turn := randomTurn(random, g)
			dc := m.DC(s.At, turn)
			for range 3 {
				a, b := random.IntN(len(g.Terms)), random.IntN(len(g.Terms))
				node := d.dc(g, s.At, turn, a, b)
				r := dc.Ohms(a, b)
				if (node != "") != (r.Verdict == Path) {
					t.Fatalf("%s to %s, %s: %+v, but by a walk along the resistors %v", r.A, r.B, s.Name, r, node != "")
				}
				if node == "" {
					apart++
					continue
				}
				d.saved = append(d.saved, "v("+node+")")
				points = append(points, point{r.Ohms, node, r.A + " to " + r.B + ", " + s.Name})
			}
		}
	}
	results := spice(t, d.deck("two-point resistances", ".op"))
	worst := 0.0
	for _, p := range points {
		want := real(results[p.node][0])
		worst = max(worst, math.Abs(p.ohms/want-1))
		if math.Abs(p.ohms/want-1) > 1e-9 {
			t.Errorf("%s: %.12g Ω, ngspice %.12g Ω", p.text, p.ohms, want)
		}
	}
	t.Logf("%d settings, %d readings: at most %.1e off; %d without a path", settings, len(points), worst, apart)
}

// Any values within the parts' bounds give a reading within the interval: random
// values solved by plain star-mesh elimination.
func TestIntervalIsRigorous(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 24))
	tried := 0
	for range 60 {
		g := randomGraph(t, random)
		m := modelOf(t, g, Options{})
		s := setting.Nth(g, random.IntN(setting.Count(g)))
		dc := m.DC(s.At, randomTurn(random, g))
		for range 20 {
			parts := make([]linear.Resistor, len(dc.parts))
			for i, r := range dc.parts {
				x := r.ohms.Lo + random.Float64()*(r.ohms.Hi-r.ohms.Lo)
				if random.IntN(3) == 0 {
					x = [2]float64{r.ohms.Lo, r.ohms.Hi}[random.IntN(2)]
				}
				parts[i] = linear.Resistor{A: dc.node[r.a], B: dc.node[r.b], Siemens: 1 / max(x, tinyOhms)}
			}
			a, b := random.IntN(len(g.Terms)), random.IntN(len(g.Terms))
			_, lo, hi := dc.Interval(a, b)
			na, nb := dc.node[dc.nets.Of[a]], dc.node[dc.nets.Of[b]]
			if math.IsInf(hi, 1) || na < 0 || nb < 0 {
				continue
			}
			tried++
			if x := linear.TwoPoint(dc.nodes, parts, na, nb); x < lo*(1-1e-12) || x > hi*(1+1e-12) {
				t.Fatalf("%g Ω is outside %g…%g Ω", x, lo, hi)
			}
		}
	}
	if tried < 300 {
		t.Errorf("only %d readings tried", tried)
	}
}

// Shares of a reading add up to one, and are its relative change for that of
// the part.
func TestSharesAddUp(t *testing.T) {
	g := loomFile(t, "two-twins")
	m := modelOf(t, g, Options{})
	dc := m.DC(setting.Nth(g, 1).At, setting.FullUp(g))
	a, b := dc.nets.Of[g.Hot], dc.nets.Of[g.Ground]
	sum := 0.0
	for i := range dc.parts {
		share := dc.share(&dc.parts[i], a, b)
		sum += share
		parts := make([]linear.Resistor, len(dc.parts))
		for k, r := range dc.parts {
			ohms := r.ohms.Typical
			if k == i {
				ohms *= 1 + 1e-6
			}
			parts[k] = linear.Resistor{A: dc.node[r.a], B: dc.node[r.b], Siemens: 1 / ohms}
		}
		moved := linear.TwoPoint(dc.nodes, parts, dc.node[a], dc.node[b])/dc.between(nominal, a, b) - 1
		if math.Abs(moved/1e-6-share) > 1e-5 {
			t.Errorf("%s: share %g, moves the reading by %g", dc.parts[i].label(m.tracks), share, moved/1e-6)
		}
	}
	if math.Abs(sum-1) > 1e-12 {
		t.Errorf("shares add up to %g", sum)
	}
}
