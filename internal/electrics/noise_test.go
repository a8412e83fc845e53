package electrics

import (
	"math"
	"strings"
	"testing"

	"loomwright/internal/setting"
)

// 10 kΩ, 20 kHz, 300 K: 1.8203 µV; 1 kΩ: 4.07 nV/√Hz; 100 Ω over 1 kHz: 40.70 nV
// (Johnson–Nyquist, k = 1.380649e-23).
func TestJohnson(t *testing.T) {
	for _, c := range []struct{ ohms, hz, want, within float64 }{
		{10e3, 20e3, 1.8203e-6, 5e-11}, {1e3, 1, 4.07e-9, 5e-12}, {100, 1e3, 40.70e-9, 5e-12},
	} {
		d := johnson(300, c.ohms)
		if got := rootOfArea([]float64{0, c.hz}, []float64{d, d}); math.Abs(got-c.want) > c.within {
			t.Errorf("%g Ω over %g Hz: %g V, want %g V", c.ohms, c.hz, got, c.want)
		}
	}
}

// The noise of a whole circuit, every resistance in it, against ngspice's .noise,
// which adds up its resistors one by one.
func TestNoiseAgainstNgspice(t *testing.T) {
	g := loomFile(t, "five-way")
	m := modelOf(t, g, Options{Points: 40, Room: Room{26.85, 26.85, 26.85}})
	turn := setting.FullUp(g).With(0, 0.5)
	s := setting.Nth(g, 1)
	var d decker
	d.ac(g, s.At, turn, 0)
	deck := strings.Replace(d.deck("noise", ".noise v("+d.prefix+"OUT) vx1_0 dec 13 20 20k"), "noopac noacct", "noopac noacct temp=26.85", 1)
	deck = strings.Replace(deck, "OUT", strings.Fields(deck[strings.Index(deck, "rx1_0 "):])[1], 1)
	want := spice(t, deck)["onoise_spectrum"]
	c := m.circuit(s.At, turn, nil)
	m.ac.prepare()
	r := &runner{}
	r.fit(c)
	hz, density := m.noiseDensity(c, r)
	if len(want) != len(hz) {
		t.Fatalf("ngspice gave %d points", len(want))
	}
	for i, f := range hz {
		off := 10*math.Log10(density[i]) - 20*math.Log10(real(want[i]))
		if math.Abs(off) > 1e-4 {
			t.Errorf("%.1f Hz: %g V²/Hz, ngspice %g V/√Hz: %.2g dB off", f, density[i], real(want[i]), off)
		}
	}
}
