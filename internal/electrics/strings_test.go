package electrics

import (
	"math"
	"testing"
)

const scale = 0.6477 // m

// Open strings: A4 = 440 Hz (ISO 16), equal temperament.
func TestOpenStrings(t *testing.T) {
	for i, semitones := range []int{-29, -24, -19, -14, -10, -5} {
		if want := 440 * math.Pow(2, float64(semitones)/12); math.Abs(openStrings[i]-want) > 5e-5 {
			t.Errorf("string %d: %g Hz, want %g Hz", i, openStrings[i], want)
		}
	}
	if lowHz != openStrings[0] {
		t.Error("low is not the low E")
	}
}

// Position factors |sin(nπd/L)| and the spectrum of a plucked ideal string at a
// velocity pickup (ideal string, worked out).
func TestPlaceAndPluck(t *testing.T) {
	for d, want := range map[float64][]float64{
		0.160: {0.7005, 0.9998, 0.7266, 0.0373, 0.6733, 0.9984},
		0.040: {0.1928, 0.3784, 0.5497, 0.7005, 0.8249, 0.9184},
	} {
		for i, w := range want {
			if got := math.Abs(place(i+1, d, scale)); math.Abs(got-w) > 6e-5 {
				t.Errorf("harmonic %d at %g m: %.4f, want %.4f", i+1, d, got, w)
			}
		}
	}
	partials := map[int]partial{}
	for _, p := range chord(0.100, scale) {
		if p.open == openStrings[0] {
			partials[p.n] = p
		}
	}
	level := func(n int) float64 {
		p := partials[n]
		return 20 * math.Log10(math.Abs(p.amp/aWeight(p.hz)*place(n, 0.160, scale)))
	}
	for i, want := range []float64{0, 2.03, -2.65, -31.48, -11.35, -18.65, -21.67, -34.32} {
		if got := level(i+1) - level(1); math.Abs(got-want) > 6e-3 {
			t.Errorf("harmonic %d: %.2f dB, want %.2f dB", i+1, got, want)
		}
	}
}

// First nulls: a point pickup c/(2d) hears the harmonics there not at all; an
// aperture w has its first null at c/w and is 3 dB down at 0.4429 c/w (ideal
// string, uniform window).
func TestNulls(t *testing.T) {
	c := speed(openStrings[0], scale)
	for d, want := range map[float64]float64{0.040: 1334.4, 0.160: 333.6} {
		if hz := c / (2 * d); math.Abs(hz-want) > 0.06 {
			t.Errorf("first null at %g m: %.1f Hz, want %.1f Hz", d, hz, want)
		}
		n := c / (2 * d) / openStrings[0] // not a whole number: the factor vanishes there all the same
		if f := math.Sin(n * math.Pi * d / scale * 2); math.Abs(f) > 1e-9 {
			t.Errorf("no null: %g", f)
		}
	}
	if null := window(c/0.0254, 0.0254, c); math.Abs(null) > 1e-12 || math.Abs(c/0.0254-4202.8) > 0.1 {
		t.Errorf("aperture null %g at %.1f Hz, want 4202.8 Hz", null, c/0.0254)
	}
	if half := window(1861.6, 0.0254, c); math.Abs(20*math.Log10(half)+3.0103) > 2e-3 {
		t.Errorf("aperture at 1861.6 Hz: %.3f dB, want -3.010 dB", 20*math.Log10(half))
	}
}

// A-weighting at the third-octave frequencies 1000·10^(k/10): IEC 61672-1 Table 3,
// by the poles of Annex E within 0.05 dB.
func TestAWeighting(t *testing.T) {
	table := []float64{-70.4, -63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8,
		-3.2, -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3}
	for i, want := range table {
		f := 1000 * math.Pow(10, float64(i-20)/10)
		if got := 20 * math.Log10(aWeight(f)); math.Abs(got-want) > 0.0501 {
			t.Errorf("%.1f Hz: %.3f dB, want %.1f dB", f, got, want)
		}
	}
	if got := 20 * math.Log10(aWeight(1000)); math.Abs(got) > 1e-4 {
		t.Errorf("1 kHz: %g dB", got)
	}
}
