package electrics

import (
	"math"

	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Typical values of what a loom file and its part files leave unknown, from
// memory unless a source is named. H. E. W. Lemme (article on guitar pickups,
// 2003, as quoted) gives 1–10 H and 80–200 pF for most pickups.
var (
	typicalOhms   = part.Range{Typical: 6500, Lo: 5000, Hi: 8000}
	typicalOfTwin = part.Range{Typical: 4200, Lo: 3500, Hi: 7500} // one of several coils of a pickup
	typicalHenry  = part.Range{Typical: 2.5, Lo: 1.5, Hi: 4}
	typicalFarads = part.Range{Typical: 100e-12, Lo: 60e-12, Hi: 200e-12}
	typicalTrack  = part.Range{Typical: 500e3, Lo: 200e3, Hi: 1.2e6}
	typicalTone   = part.Range{Typical: 22e-9, Lo: 10e-9, Hi: 100e-9}
	typicalBleed  = part.Range{Typical: 1e-9, Lo: 470e-12, Hi: 2.2e-9}
	typicalFixed  = part.Range{Typical: 150e3, Lo: 47e3, Hi: 470e3}
)

// The loss branch of a coil that states none: half of the inductance has
// 100 kΩ for every henry of it across it, from half to twice as much. A
// judgement: it brings the peak of an ordinary coil down to the ×1…×4 that
// Lemme gives; the model is R + jωL₁ + (jωL₂ ∥ Re) of Zollner (Physics of the
// Electric Guitar, ch. 5) and Paiva, Pakarinen, Välimäki (JAES 60(10), 2012).
const (
	typicalEddyPart  = 0.5
	typicalEddyOhms  = 1e5
	typicalEddyRatio = 2
)

// copperPerKelvin is the rise of copper's resistance from its value at 20 °C
// (NBS Handbook 100).
const copperPerKelvin = 0.00393

// typicalMismatch is how far a coil's sensitivity is from its like where the
// part does not say: a judgement.
const typicalMismatch = 0.05

// fixedTolerance is a resistor's or capacitor's where nobody says; from memory.
const fixedTolerance = 0.10

// coil is one coil with every value filled in. An infinite resistance is a
// broken wire.
type coil struct {
	name          string
	use           int
	start, finish int
	ohms          part.Range
	henries       part.Range
	farads        part.Range
	eddy          part.Range // across eddyPart of the inductance
	eddyPart      float64    // 0: no loss branch
	winding, pole part.Sign
	mismatch      float64
	sensitivity   float64 // over an ordinary coil; 0: not stated
}

// track is a pot's track with every value filled in.
type track struct {
	name           string
	cw, wiper, ccw int
	knob           int
	ohms           part.Range // whole
	end            part.Range // at either end of the turn
	taper          taper
	law            part.Track // for setting.Travelled
	noLoad         bool
	cut            float64 // share of the way at which a no-load track is cut: 1, or 0
}

// two is a capacitor or resistor with its value filled in.
type two struct {
	name  string
	use   int
	a, b  int
	value part.Range
}

func (m *Model) coil(c *wiring.Coil) coil {
	out := coil{name: c.Name, use: c.Use, start: c.Start, finish: c.Finish, winding: c.Winding, pole: c.Pole,
		mismatch: usual(c.Mismatch, typicalMismatch), sensitivity: c.Sensitivity}
	ohms := typicalOhms
	if m.coilsOf(c.Use) > 1 {
		ohms = typicalOfTwin
	}
	out.ohms = filled(c.Ohms, ohms)
	out.henries = filled(c.Henries, typicalHenry)
	out.farads = filled(c.Farads, typicalFarads)
	if m.opts.NoEddy {
		return out
	}
	out.eddyPart = usual(c.EddyPart, typicalEddyPart)
	re := typicalEddyOhms * out.eddyPart * out.henries.Typical
	out.eddy = filled(c.Eddy, part.Range{Typical: re, Lo: re / typicalEddyRatio, Hi: re * typicalEddyRatio})
	return out
}

func (m *Model) coilsOf(use int) int {
	n := 0
	for i := range m.g.Coils {
		if m.g.Coils[i].Use == use {
			n++
		}
	}
	return n
}

// filled takes what is stated, or else what is typical.
func filled(r, typical part.Range) part.Range {
	switch {
	case r.Typical == 0 && !r.Known:
		typical.Known = false
		return typical
	case r.Lo == 0 && r.Hi == 0:
		r.Lo, r.Hi = r.Typical, r.Typical
	}
	return r
}

func (m *Model) track(t *wiring.Track) track {
	out := track{name: m.nameOf(t.Use), cw: t.CW, wiper: t.Wiper, ccw: t.CCW, knob: t.Knob, law: t.Track, noLoad: t.NoLoad, cut: t.Cut}
	if t.Use >= 0 && len(m.g.Loom.Uses[t.Use].Part.Tracks) > 1 && t.Name != "" {
		out.name += "." + t.Name
	}
	out.ohms = filled(tolerated(t.Value.Ohms, max(t.Tolerance, t.Value.Ohms.Tol)), typicalTrack)
	out.end = endOf(t.End, out.ohms.Typical)
	out.taper = taperOf(t)
	return out
}

// endOf is the resistance left at the end of a turn: up to twice what the part
// states; where it states nothing none, up to a ten-thousandth of the track
// (from memory).
func endOf(end, ohms float64) part.Range {
	if end > 0 {
		return part.Range{Typical: end, Hi: 2 * end}
	}
	return part.Range{Hi: 1e-4 * min(ohms, typicalTrack.Hi)}
}

// tolerated is a stated value as a range; a value without text or size is unknown.
func tolerated(v units.Value, tolerance float64) part.Range {
	if v.X == 0 && v.Text == "" {
		return part.Range{}
	}
	if math.IsInf(v.X, 1) {
		return part.Range{Typical: v.X, Lo: v.X, Hi: v.X, Known: true}
	}
	low := tolerance
	if v.TolLow != 0 {
		low = v.TolLow
	}
	return part.Range{Typical: v.X, Lo: v.X * max(0, 1-low), Hi: v.X * (1 + tolerance), Known: true}
}

func (m *Model) two(t *wiring.Two, typical part.Range) two {
	tolerance := usual(max(t.Tolerance, t.Value.Tol), fixedTolerance)
	return two{name: m.nameOf(t.Use), use: t.Use, a: t.A, b: t.B, value: filled(tolerated(t.Value, tolerance), typical)}
}

// typicalCapacitor is what a capacitor of no stated value is taken for.
func (m *Model) typicalCapacitor(t *wiring.Two) part.Range {
	if t.Use >= 0 && m.g.Loom.Uses[t.Use].Part.Class == "bleed" {
		return typicalBleed
	}
	return typicalTone
}

func (m *Model) nameOf(use int) string {
	if use < 0 {
		return "an added part"
	}
	return m.g.Loom.Uses[use].Name
}

// copper is the factor of a coil's resistance at a temperature in °C.
func copper(celsius float64) float64 { return 1 + copperPerKelvin*(celsius-20) }
