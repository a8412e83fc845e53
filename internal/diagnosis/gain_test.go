package diagnosis_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/internal/diagnosis"
	"loomwright/internal/meter"
)

// apart makes numeric outcomes that never overlap.
func apart(n int) []meter.Shown {
	var out []meter.Shown
	for i := range n {
		lo := 1000 * math.Pow(4, float64(i))
		out = append(out, meter.Shown{Lo: lo, Hi: 2 * lo})
	}
	return out
}

// Worked values (Shannon): 8 equal faults are 3 bits; readings that split them
// 4/4, 1/7 and 2/3/3 gain 1.0, 0.5436 and 1.5613 bits.
func TestEntropyWorkedValues(t *testing.T) {
	equal := make([]float64, 8)
	for i := range equal {
		equal[i] = 1.0 / 8
	}
	if h := diagnosis.Entropy(equal...); math.Abs(h-3) > 1e-12 {
		t.Errorf("8 equal faults: %g bits, 3 are right", h)
	}
	for _, c := range []struct {
		split []float64
		bits  float64
	}{{[]float64{4, 4}, 1}, {[]float64{1, 7}, 0.5436}, {[]float64{2, 3, 3}, 1.5613}} {
		weights := make([]float64, len(c.split))
		for i, n := range c.split {
			weights[i] = n / 8
		}
		numbers := diagnosis.Gain(meter.Ohms, apart(len(weights)), weights)
		answers := diagnosis.Gain(meter.Tap, []meter.Shown{{May: meter.Up}, {May: meter.Down}, {May: meter.Still}}[:len(weights)], weights)
		for _, got := range []float64{numbers, answers} {
			if math.Abs(got-c.bits) > 5e-5 {
				t.Errorf("split %v: %.5f bits, %.4f are right", c.split, got, c.bits)
			}
		}
	}
}

// The gain is the fall of expected entropy over the cases: against a simulation
// that draws cases and readings and judges them by Bayes' rule.
func TestGainIsTheFallOfEntropy(t *testing.T) {
	outcomes := []meter.Shown{{Lo: 1000, Hi: 3000}, {Lo: 2000, Hi: 6000}, {Lo: 2500, Hi: 2600}, {Lo: 9000, Hi: 9100}}
	weights := []float64{0.4, 0.3, 0.2, 0.1}
	place := func(x float64) float64 { return meter.Place(meter.Ohms, x) }
	random := rand.New(rand.NewPCG(5, 6))
	sum, n := 0.0, 200000
	for range n {
		u, c := random.Float64(), 0
		for u > weights[c] {
			u -= weights[c]
			c++
		}
		x := place(outcomes[c].Lo) + random.Float64()*(place(outcomes[c].Hi)-place(outcomes[c].Lo))
		var post []float64
		for i, o := range outcomes {
			if place(o.Lo) <= x && x <= place(o.Hi) {
				post = append(post, weights[i]/(place(o.Hi)-place(o.Lo)))
			}
		}
		sum += diagnosis.Entropy(post...)
	}
	want := diagnosis.Entropy(weights...) - sum/float64(n)
	if got := diagnosis.Gain(meter.Ohms, outcomes, weights); math.Abs(got-want) > 0.01 {
		t.Errorf("gain %.4f bits, simulated %.4f", got, want)
	}
}
