// Package diagnosis finds what is wrong with a loom from readings: it ranks the
// faults that explain all of them, proposes the next reading that tells most,
// and says when a proposal is proved, when readings contradict one another, and
// when more than one thing must be wrong. A diagnosis is a value: the same
// readings give the same result.
package diagnosis

import (
	"math"
	"slices"

	"loomwright/internal/meter"
)

// Entropy of a distribution in bits (Shannon).
func Entropy(p ...float64) float64 {
	sum, h := 0.0, 0.0
	for _, x := range p {
		if x > 0 {
			sum += x
			h -= x * math.Log2(x)
		}
	}
	if sum == 0 {
		return 0
	}
	return h/sum + math.Log2(sum)
}

// gain is what a reading is expected to tell, in bits: the entropy of what it
// shows, less what remains of that once the case is known. It is the fall of
// the expected entropy over the cases (de Kleer and Williams, Artificial
// Intelligence 32, 1987; from memory). weights are by outcome and sum to one.
func gain(k meter.Kind, outcomes []meter.Shown, weights []float64) float64 {
	if k.Answers() != 0 {
		return gainOfAnswers(outcomes, weights)
	}
	return gainOfNumbers(k, outcomes, weights)
}

// gainOfAnswers takes each answer that a case can give as equally likely.
func gainOfAnswers(outcomes []meter.Shown, weights []float64) float64 {
	var p [16]float64
	known := 0.0
	for i, o := range outcomes {
		bits := bitsOf(o.May)
		if weights[i] == 0 || len(bits) == 0 {
			continue
		}
		for _, b := range bits {
			p[b] += weights[i] / float64(len(bits))
		}
		known += weights[i] * math.Log2(float64(len(bits)))
	}
	return Entropy(p[:]...) - known
}

func bitsOf(a meter.Answer) []int {
	var out []int
	for i := range 16 {
		if a>>i&1 == 1 {
			out = append(out, i)
		}
	}
	return out
}

// stretch is where a number can show, on the scale of meter.Place.
type stretch struct{ lo, hi, weight float64 }

// gainOfNumbers takes a reading as evenly spread over what a case can show. Edges
// of what can be shown cut the scale into pieces; with d the length of a piece,
// a stretch of length w spreads over its pieces with −Σ d/w·log(d/w) =
// log w − Σ d·log d / w, which sums from the left end give at once.
func gainOfNumbers(k meter.Kind, outcomes []meter.Shown, weights []float64) float64 {
	var buf [64]stretch
	list := buf[:0]
	var edgeBuf [128]float64
	edges := edgeBuf[:0]
	for i, o := range outcomes {
		if weights[i] > 0 {
			s := stretchOf(k, o)
			s.weight = weights[i]
			list = append(list, s)
			edges = append(edges, s.lo, s.hi)
		}
	}
	if len(list) < 2 {
		return 0
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	sums, density := make([]float64, len(edges)), make([]float64, len(edges))
	for i := range edges[1:] {
		d := edges[i+1] - edges[i]
		sums[i+1] = sums[i] + d*math.Log2(d)
	}
	known := 0.0
	for _, s := range list {
		w := s.hi - s.lo
		i, _ := slices.BinarySearch(edges, s.lo)
		j, _ := slices.BinarySearch(edges, s.hi)
		known += s.weight * (math.Log2(w) - (sums[j]-sums[i])/w)
		density[i] += s.weight / w
		density[j] -= s.weight / w
	}
	shown, at := 0.0, 0.0
	for i := range edges[1:] {
		at += density[i]
		if p := at * (edges[i+1] - edges[i]); p > 0 {
			shown -= p * math.Log2(p)
		}
	}
	return max(0, shown-known)
}

// leastWidth is how close two readings are told apart on the scale of
// meter.Place.
const leastWidth = 0.01

func stretchOf(k meter.Kind, o meter.Shown) stretch {
	lo, hi := meter.Place(k, o.Lo), meter.Place(k, o.Hi)
	return stretch{lo: lo, hi: max(hi, lo+leastWidth)}
}
