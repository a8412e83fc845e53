package units

import "math"

// The preferred numbers of IEC 60063: tables, not rounded powers of ten.
var (
	e12 = []float64{10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82}
	e24 = []float64{10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91}
)

// PreferredE12 returns the value of the E12 series nearest to x in ratio. A
// value that is not positive and finite is returned as it is.
func PreferredE12(x float64) float64 { return preferred(x, e12) }

// PreferredE24 returns the value of the E24 series nearest to x in ratio. A
// value that is not positive and finite is returned as it is.
func PreferredE24(x float64) float64 { return preferred(x, e24) }

func preferred(x float64, series []float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return x
	}
	decade := int(math.Floor(math.Log10(x))) - 1
	best := math.NaN()
	for d := decade - 1; d <= decade+1; d++ {
		for _, n := range series {
			if c := decimal(n, d); !(math.Abs(math.Log(c/x)) >= math.Abs(math.Log(best/x))) {
				best = c
			}
		}
	}
	return best
}

// decimal is n·10^exp, rounded once.
func decimal(n float64, exp int) float64 {
	x, _ := scaled(printScaled(n, 0), exp)
	return x
}
