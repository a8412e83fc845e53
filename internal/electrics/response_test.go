package electrics

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// asked is one setting whose response from every coil is asked of ngspice.
type asked struct {
	g    *wiring.Graph
	at   []int
	turn setting.Turn
	outs []string
}

// Every coil's response in at least 200 settings of random looms against
// ngspice: within 1e-6 dB.
func TestResponseAgainstNgspice(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	var all []asked
	results := map[string][]complex128{}
	for len(all) < 220 {
		d := &decker{prefix: fmt.Sprintf("d%d", len(all))}
		for d.count < 60 { // larger decks take longer by the point
			all = append(all, ask(d, randomGraph(t, random), random)...)
		}
		maps.Copy(results, spice(t, d.acDeck("random looms", "dec 13 20 20k")))
	}
	compare40(t, all, results, 200)
}

// ask adds every setting of a loom that has an output to a deck, once for each
// coil.
func ask(d *decker, g *wiring.Graph, random *rand.Rand) []asked {
	var out []asked
	for s := range setting.All(g) {
		a := asked{g: g, at: s.At, turn: randomTurn(random, g)}
		nets := setting.NewBase(g).Nets(s.At)
		if nets.Of[g.Hot] == nets.Of[g.Ground] {
			continue
		}
		for k := range g.Coils {
			node := d.ac(g, s.At, a.turn, k)
			a.outs = append(a.outs, node)
			d.saved = append(d.saved, "v("+node+")")
		}
		out = append(out, a)
	}
	return out
}

// compare40 compares 40 points from 20 Hz to 20 kHz in at least so many settings.
func compare40(t *testing.T, all []asked, results map[string][]complex128, least int) {
	t.Helper()
	worst, sounding, traces := 0.0, 0, 0
	for _, a := range all {
		m := modelOf(t, a.g, Options{Points: 40})
		curve := m.Curve(a.at, a.turn)
		if curve.Output == Sounding {
			sounding++
		}
		for k := range a.g.Coils {
			want := results[a.outs[k]]
			if len(want) != 40 {
				t.Fatalf("ngspice gave %d points of %s", len(want), a.outs[k])
			}
			got := gainOf(&curve, a.g.Coils[k].Name, len(want))
			for i := range want {
				d := off(got[i], want[i])
				worst = max(worst, d)
				if d > 1e-6 {
					t.Fatalf("%s at %.1f Hz, setting %v, knobs %v: %v, ngspice %v (%g dB)", a.g.Coils[k].Name, curve.Hz[i], a.at, a.turn, got[i], want[i], d)
				}
			}
			traces++
		}
	}
	t.Logf("%d settings (%d sounding), %d responses of 40 points: at most %.1e dB off", len(all), sounding, traces, worst)
	if len(all) < least || sounding < len(all)/3 {
		t.Errorf("only %d settings, %d of them sounding", len(all), sounding)
	}
}

// gainOf is a coil's response; zero where the curve says it is not heard.
func gainOf(c *Curve, coil string, points int) []complex128 {
	out := make([]complex128, points)
	for _, g := range c.Coils {
		if g.Coil == coil {
			for i := range out {
				out[i] = complex(g.Re[i], g.Im[i])
			}
		}
	}
	return out
}

// A curve is never NaN or infinite, whatever is soldered to what.
func TestCurveIsFinite(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for range 150 {
		g := randomGraph(t, random)
		m := modelOf(t, g, Options{Points: 20, Noise: true})
		for s := range setting.All(g) {
			turn := randomTurn(random, g)
			c := m.Curve(s.At, turn)
			for i := range c.DB {
				if math.IsNaN(c.DB[i]) || math.IsInf(c.DB[i], 0) {
					t.Fatalf("%s: %g dB", s.Name, c.DB[i])
				}
			}
			r := m.Table([]setting.Setting{s}, turn, 0)[0]
			for _, x := range []float64{r.Low, r.Level, r.LevelLo, r.LevelHi, r.Brightness, r.Hum.Index, r.Hum.Lo, r.Hum.Hi, r.Noise, r.Ohms.Ohms, r.Ohms.Lo, r.Ohms.Hi} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%s: %+v", s.Name, r)
				}
			}
		}
	}
}
