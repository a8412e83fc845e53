package electrics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// straight is one coil straight into a cable and an input.
func straight(t testing.TB, ohms, henries, farads, cable, input float64) *wiring.Graph {
	t.Helper()
	g := graphOf(t, "straight", `loomwright: 1
parts:
  bridge: {is: pickup/single-coil}
  jack:   {is: jack/mono}
joins:
  - bridge.coil.start  -- jack.tip
  - bridge.coil.finish -- jack.sleeve
`)
	c := &g.Coils[0]
	c.Ohms.Typical, c.Ohms.Lo, c.Ohms.Hi = ohms, ohms, ohms
	c.Henries.Typical, c.Henries.Lo, c.Henries.Hi = henries, henries, henries
	c.Farads.Typical, c.Farads.Lo, c.Farads.Hi = farads, farads, farads
	g.Loom.Cable.X, g.Loom.Input.X = cable, input
	return g
}

// Second-order model loaded by RL: peak over DC (circuit theory, closed form;
// ngspice 39 agrees with the first row).
func TestPeakOfLoadedCoil(t *testing.T) {
	for _, c := range []struct{ r, l, c, load, hz, db float64 }{
		{6e3, 2.5, 600e-12, 200e3, 3991.79, 7.939},
		{6e3, 2.5, 600e-12, 1e6, 4096.19, 16.107},
		{6e3, 2.5, 600e-12, 1e6 / 9, 3736.88, 4.151},
		{8e3, 4.5, 600e-12, 200e3, 2908.96, 6.059},
	} {
		g := straight(t, c.r, c.l, 100e-12, c.c-100e-12, c.load)
		m := modelOf(t, g, Options{NoEddy: true, From: 0.01})
		curve := m.Curve(nil, nil)
		low := m.Table([]setting.Setting{{}}, nil, -1)[0].Low - curve.DB[0] // the open low E over DC
		if p := curve.Peak; p == nil || math.Abs(p.Hz-c.hz) > 0.01 || math.Abs(p.DB+low-c.db) > 0.0006 {
			t.Errorf("%v: %+v and %.4f dB, want %.2f Hz and %.3f dB", c, p, low, c.hz, c.db)
		}
	}
}

// The same closed form for any coil: w² = (2ab − D²)/(2b²) with a = 1+R/RL,
// b = LC, D = L/RL + RC; a peak exists only if 2ab > D² (circuit theory).
func TestPeakFormula(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 32))
	peaks, none := 0, 0
	for range 200 {
		r, l := 2e3+1e4*random.Float64(), 1+6*random.Float64()
		farads, load := 200e-12+2e-9*random.Float64(), math.Pow(10, 4+2.5*random.Float64())
		a, b, d := 1+r/load, l*farads, l/load+r*farads
		w2 := (2*a*b - d*d) / (2 * b * b)
		rise := func(w2 float64) float64 {
			return 10 * math.Log10(a*a/((a-b*w2)*(a-b*w2)+d*d*w2))
		}
		p := modelOf(t, straight(t, r, l, farads/2, farads/2, load), Options{NoEddy: true}).Curve(nil, nil).Peak
		low := rise(math.Pow(2*math.Pi*lowHz, 2))
		switch {
		case w2 <= 0 || rise(w2)-low < 0.11:
			none++
			if p != nil && p.DB > 0.15 {
				t.Errorf("no peak by the formula, but %+v", p)
			}
		case p == nil:
			t.Errorf("no peak found; by the formula %g Hz, %g dB", math.Sqrt(w2)/2/math.Pi, rise(w2))
		default:
			peaks++
			if hz := math.Sqrt(w2) / 2 / math.Pi; math.Abs(p.Hz/hz-1) > 1e-6 || math.Abs(p.DB-rise(w2)+low) > 1e-5 {
				t.Errorf("%.3f Hz %.5f dB, by the formula %.3f Hz %.5f dB", p.Hz, p.DB, hz, rise(w2)-low)
			}
		}
	}
	if peaks < 50 || none < 5 {
		t.Errorf("%d peaks and %d without: the draw says nothing", peaks, none)
	}
}

// 2.4 H with 300 pF 5931 Hz, with 2400 pF 2097 Hz: 1/(2π√LC); a published
// article gives about 6000 Hz and a little over 2000 Hz.
func TestResonanceOfCoilAndCable(t *testing.T) {
	for farads, hz := range map[float64]float64{300e-12: 5931, 2400e-12: 2097} {
		p := modelOf(t, straight(t, 100, 2.4, 50e-12, farads-50e-12, 1e8), Options{NoEddy: true}).Curve(nil, nil).Peak
		if p == nil || math.Abs(p.Hz-hz) > 1 {
			t.Errorf("%g F: %+v, want %g Hz", farads, p, hz)
		}
	}
}

// Two coils on the bench: joined in one way, nothing else on them.
func twoCoils(t testing.TB, joins string, k float64) *wiring.Graph {
	t.Helper()
	g := graphOf(t, "two coils", `loomwright: 1
parts:
  bridge: {is: pickup/twin-coil, ohms: {north: 4k, south: 4k}, henries: {north: 2H, south: 2H}}
  jack:   {is: jack/mono}
joins:
`+joins)
	g.Couplings[0].K = k
	g.Loom.Cable.X, g.Loom.Input.X = 0, 1e11
	for i := range g.Coils {
		g.Coils[i].Farads.Typical = 1e-18
	}
	return g
}

const (
	seriesAiding = `  - bridge.north.start -- jack.tip
  - bridge.north.finish -- bridge.south.start
  - bridge.south.finish -- jack.sleeve
`
	seriesOpposing = `  - bridge.north.start -- jack.tip
  - bridge.north.finish -- bridge.south.finish
  - bridge.south.start -- jack.sleeve
`
	parallelAiding = `  - bridge.north.start, bridge.south.start -- jack.tip
  - bridge.north.finish, bridge.south.finish -- jack.sleeve
`
	parallelOpposing = `  - bridge.north.start, bridge.south.finish -- jack.tip
  - bridge.north.finish, bridge.south.start -- jack.sleeve
`
	oneCoil = `  - bridge.north.start -- jack.tip
  - bridge.north.finish -- jack.sleeve
`
)

// Coupled coils: 2 H, 2 H, k 0.2 make 4.8, 3.2, 1.2, 0.8 H (circuit theory;
// ngspice agrees). A side-by-side pair wound alike has k < 0, so that its
// ordinary series, finish to finish, aids.
func TestInductanceOfCoupledCoils(t *testing.T) {
	for _, c := range []struct {
		joins   string
		k       float64
		henries float64
	}{
		{seriesAiding, 0.2, 4.8}, {seriesOpposing, 0.2, 3.2}, {parallelAiding, 0.2, 1.2}, {parallelOpposing, 0.2, 0.8},
		{seriesOpposing, -0.2, 4.8}, {parallelOpposing, -0.2, 1.2},
	} {
		m := modelOf(t, twoCoils(t, c.joins, c.k), Options{NoEddy: true, From: 1000, To: 2000, Points: 2})
		r := &runner{}
		circuit := m.circuit(nil, nil, nil)
		m.ac.prepare()
		r.fit(circuit)
		r.block(circuit, m.ac.tables, m.ac.grid.hz, 0)
		if got := r.zout(circuit).Im[0] / (2 * math.Pi * 1000); math.Abs(got-c.henries) > 1e-6 {
			t.Errorf("%.6f H, want %g H of %+v", got, c.henries, c)
		}
	}
}

// Equal coils without load: parallel and split are 6.02 dB below series; R and L
// of parallel are a quarter, R of split a half (circuit theory).
func TestLevelsOfEqualCoils(t *testing.T) {
	level := func(joins string) (low, ohms float64) {
		g := twoCoils(t, joins, 0)
		m := modelOf(t, g, Options{NoEddy: true})
		row := m.Table([]setting.Setting{{}}, nil, -1)[0]
		return row.Low, row.Ohms.Ohms
	}
	series, r := level(seriesOpposing)
	for _, c := range []struct {
		joins string
		part  float64
	}{{parallelOpposing, 0.25}, {oneCoil, 0.5}} {
		low, ohms := level(c.joins)
		if math.Abs(low-series+6.0206) > 1e-3 || math.Abs(ohms/r-c.part) > 1e-12 {
			t.Errorf("%.4f dB and %g of the ohms, want -6.0206 dB and %g", low-series, ohms/r, c.part)
		}
	}
}

// A loss branch lowers the peak (Zollner, Physics of the Electric Guitar, ch. 5;
// Paiva, Pakarinen, Välimäki, JAES 60(10) 2012), and leaves low frequencies alone.
func TestEddyLossLowersThePeak(t *testing.T) {
	g := straight(t, 6e3, 2.5, 100e-12, 500e-12, 1e6)
	plain := modelOf(t, g, Options{NoEddy: true}).Curve(nil, nil)
	lossy := modelOf(t, g, Options{}).Curve(nil, nil)
	if lossy.Peak.DB > plain.Peak.DB-1.5 || math.Abs(lossy.DB[0]-plain.DB[0]) > 1e-3 {
		t.Errorf("peak %.2f dB with loss, %.2f without; at 20 Hz %.4f and %.4f dB", lossy.Peak.DB, plain.Peak.DB, lossy.DB[0], plain.DB[0])
	}
}

// The order of most pickups: resonance in circuit 2–5 kHz, peak ×1–4 (H. E. W.
// Lemme, article on guitar pickups, 2003, as quoted), with values that nobody
// stated.
func TestTypicalPickupIsOrdinary(t *testing.T) {
	for _, pickup := range []string{"single-coil", "twin-coil"} {
		ends := map[string]string{"single-coil": "coil.start coil.finish", "twin-coil": "north.start south.start"}[pickup]
		var hot, ground string
		if _, err := fmt.Sscan(ends, &hot, &ground); err != nil {
			t.Fatal(err)
		}
		text := fmt.Sprintf("loomwright: 1\nparts:\n  p: {is: pickup/%s}\n  volume: {is: pot/standard, track: 500k audio}\n  jack: {is: jack/mono}\njoins:\n  - p.%s -- volume.cw\n  - p.%s, volume.ccw -- jack.sleeve\n  - volume.wiper -- jack.tip\n", pickup, hot, ground)
		if pickup == "twin-coil" {
			text += "  - p.north.finish -- p.south.finish\n"
		}
		g := graphOf(t, pickup, text)
		p := modelOf(t, g, Options{}).Curve(nil, setting.FullUp(g)).Peak
		if p == nil || p.Hz < 2000 || p.Hz > 5000 || p.DB < 0 || p.DB > 20*math.Log10(4) {
			t.Errorf("%s: %+v", pickup, p)
		}
	}
}
