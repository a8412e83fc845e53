package electrics

import (
	"math"
	"testing"

	"loomwright/internal/part"
	"loomwright/internal/setting"
)

// Level and brightness of one coil over a place on the string, worked out here
// again from the closed form of the loaded coil and the sums as they are
// defined: strings of equal temperament plucked 0.1 m from the bridge, velocity
// pickup, aperture, A-weighting from its poles.
func TestLevelFromClosedForm(t *testing.T) {
	const r, l, farads, load, x, length = 6e3, 2.5, 600e-12, 200e3, 0.042, 0.6477
	g := straight(t, r, l, 100e-12, farads-100e-12, load)
	g.Loom.Uses[0].FromBridge = x
	row := modelOf(t, g, Options{NoEddy: true}).Table([]setting.Setting{{}}, nil, -1)[0]
	gain2 := func(f float64) float64 {
		w := 2 * math.Pi * f
		re, im := 1+r/load-w*w*l*farads, w*(l/load+r*farads)
		return 1 / (re*re + im*im)
	}
	weight2 := func(f float64) float64 {
		f2 := f * f
		a := 12194.217 * 12194.217 * f2 * f2 / ((f2 + 20.598997*20.598997) * math.Sqrt((f2+107.65265*107.65265)*(f2+737.86223*737.86223)) * (f2 + 12194.217*12194.217))
		return a * a * math.Pow(10, 0.199966)
	}
	all, bright := 0.0, 0.0
	for _, semitones := range []float64{-29, -24, -19, -14, -10, -5} {
		open := 440 * math.Pow(2, semitones/12)
		for n := 1.0; n*open <= 10e3; n++ {
			f := n * open
			slit := math.Pi * f * 0.010 / (2 * length * open)
			amp := math.Sin(n*math.Pi*0.1/length) / n * math.Sin(n*math.Pi*x/length) * math.Sin(slit) / slit
			p := weight2(f) * amp * amp * gain2(f)
			all += p
			if f > 2000 {
				bright += p
			}
		}
	}
	if want := 10 * math.Log10(all); math.Abs(row.Level-want) > 1e-3 {
		t.Errorf("level %.4f dB, want %.4f dB", row.Level, want)
	}
	if want := 10 * math.Log10(bright/all); math.Abs(row.Brightness-want) > 1e-3 {
		t.Errorf("brightness %.4f dB, want %.4f dB", row.Brightness, want)
	}
	if want := 10 * math.Log10(gain2(82.4069)); math.Abs(row.Low-want) > 1e-6 {
		t.Errorf("low %.6f dB, want %.6f dB", row.Low, want)
	}
	if len(row.Heard) != 1 || row.Heard[0].Level != 0 {
		t.Errorf("heard: %+v", row.Heard)
	}
}

// Coils of one shape have EMF as the square root of their inductance: twice the
// turns, four times the inductance, twice the volts (6.02 dB).
func TestGainFollowsTurns(t *testing.T) {
	g := twoCoils(t, seriesOpposing, 0)
	g.Coils[1].Henries.Typical = 4 * g.Coils[0].Henries.Typical
	m := modelOf(t, g, Options{NoEddy: true})
	rows := m.Table([]setting.Setting{{}}, nil, -1)
	if d := rows[0].Heard[0].Level - rows[0].Heard[1].Level; rows[0].Heard[0].Coil != "bridge.south" || math.Abs(d-6.0206) > 0.01 {
		t.Errorf("%+v: %.3f dB apart", rows[0].Heard, d)
	}
}

// Stated sensitivities take the place of the inductance. Without load, two coils
// in phase give s₁+s₂, so that their level over coil one by itself is
// 20·log((s₁+s₂)/s₁); hum goes by turns as before: what unevenness m leaves, m·√(L
// over 2.5 H) of an ordinary coil's hum, over the signal's s₁+s₂ of an ordinary
// coil's; one coil by itself is √(L over 2.5 H)/s₁ (closed forms).
func TestStatedSensitivity(t *testing.T) {
	const m = 0.02
	row := func(joins string, s1, s2 float64) Row {
		g := twoCoils(t, joins, 0)
		for i := range g.Coils {
			g.Coils[i].Winding, g.Coils[i].Pole = 1, part.Sign(1-2*i)
			g.Coils[i].Mismatch, g.Coils[i].Sensitivity = m, []float64{s1, s2}[i]
		}
		return modelOf(t, g, Options{NoEddy: true}).Table([]setting.Setting{{}}, nil, -1)[0]
	}
	for _, s := range [][2]float64{{1, 1}, {1, 0.1}, {0.6, 1.4}, {2, 0.001}} {
		both, one := row(seriesOpposing, s[0], s[1]), row(oneCoil, s[0], s[1])
		if got, want := both.Level-one.Level, 20*math.Log10((s[0]+s[1])/s[0]); math.Abs(got-want) > 0.02 {
			t.Errorf("%v: %.3f dB over coil one, want %.3f dB", s, got, want)
		}
		turns := math.Sqrt(twoCoils(t, oneCoil, 0).Coils[0].Henries.Typical / 2.5)
		want := 20 * math.Log10(m*turns/(s[0]+s[1]))
		if math.Abs(both.Hum.Index-want) > 0.05 || !both.Hum.Limited {
			t.Errorf("%v: hum index %.3f dB, want %.3f dB", s, both.Hum.Index, want)
		}
		if want := 20 * math.Log10(turns/s[0]); math.Abs(one.Hum.Index-want) > 0.05 || one.Hum.Verdict != HumFull {
			t.Errorf("%v: coil one by itself %+v, want %.3f dB", s, one.Hum, want)
		}
		if n := len(both.Heard); (s[1]/s[0] < 0.01) != (n == 1) {
			t.Errorf("%v: heard %+v", s, both.Heard)
		}
	}
	// One is an ordinary coil of 2.5 H, whatever else the loom has.
	g := twoCoils(t, seriesOpposing, 0)
	g.Coils[0].Henries.Typical, g.Coils[1].Sensitivity = 2.5, 0.5
	heard := modelOf(t, g, Options{NoEddy: true}).Table([]setting.Setting{{}}, nil, -1)[0].Heard
	if got := heard[0].Level - heard[1].Level; math.Abs(got-6.0206) > 0.05 {
		t.Errorf("half the voltage is %.3f dB less", got)
	}
}
