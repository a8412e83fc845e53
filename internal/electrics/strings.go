package electrics

import (
	"cmp"
	"math"
	"slices"
)

// Open strings of a guitar in standard tuning, Hz: equal temperament from
// A4 = 440 Hz (ISO 16).
var openStrings = [6]float64{82.4069, 110, 146.8324, 195.9977, 246.9417, 329.6276}

// lowHz is where "level at low frequency" is taken: the open low E.
const lowHz = 82.4069

// chordTop is the highest harmonic that counts, Hz.
const chordTop = 10e3

// brightFrom is where brightness begins, Hz.
const brightFrom = 2e3

// aperture is the length of string, in m, that one coil hears; a judgement.
const aperture = 0.010

// partial is one harmonic of one open string.
type partial struct {
	n    int
	open float64 // Hz, of the string
	hz   float64
	amp  float64 // of its EMF at a velocity pickup over an antinode, A-weighted
}

// chord lists the partials of all open strings plucked at one place, by
// frequency: an ideal string plucked at p has velocity amplitudes
// (1/n)·sin(nπp/L).
func chord(pluck, scale float64) []partial {
	var out []partial
	for _, f := range openStrings {
		for n := 1; float64(n)*f <= chordTop; n++ {
			hz := float64(n) * f
			out = append(out, partial{n, f, hz, aWeight(hz) * math.Sin(float64(n)*math.Pi*pluck/scale) / float64(n)})
		}
	}
	slices.SortStableFunc(out, func(a, b partial) int { return cmp.Compare(a.hz, b.hz) })
	return out
}

// place is how a pickup at x m from the bridge hears harmonic n of a string:
// sin(nπx/L). Where x is not stated (0), every place is as good: the root mean
// square, the same for all.
func place(n int, x, scale float64) float64 {
	if x <= 0 {
		return math.Sqrt2 / 2
	}
	return math.Sin(float64(n) * math.Pi * x / scale)
}

// window is how a coil that hears w m of a string of wave speed c m/s hears
// f Hz: a sinc with its first null at c/w.
func window(f, w, c float64) float64 {
	x := math.Pi * f * w / c
	if x < 1e-6 {
		return 1
	}
	return math.Sin(x) / x
}

// speed is the wave speed of an open string, m/s.
func speed(open, scale float64) float64 { return 2 * scale * open }
