package electrics

import (
	"math"

	"loomwright/internal/linear"
)

// heardBy is what a pass over the plucked strings and the mains' harmonics
// leaves: for every pair of coils the power that they have in common at the
// jack, so that the sum for any choice of signs is at hand without solving
// again. Entry (i, j), j ≤ i, is at i(i+1)/2 + j.
type heardBy struct {
	coils   int
	dark    []float64 // strings up to 2 kHz, A-weighted
	bright  []float64 // strings above
	mains   []float64 // A-weighted
	uneven  float64   // least hum power that coils which are not quite alike leave
	low     []complex128
	loudest float64 // largest |H| met
}

// listen solves a circuit at every partial of the strings and every harmonic of
// the mains.
func (m *Model) listen(c *circuit, r *runner) *heardBy {
	n := len(m.coils)
	h := &heardBy{coils: n, dark: make([]float64, n*(n+1)/2), bright: make([]float64, n*(n+1)/2),
		mains: make([]float64, n*(n+1)/2), low: make([]complex128, n)}
	m.ac.strings(c, r, h)
	m.ac.hums(c, r, h)
	return h
}

// strings adds up all partials.
func (a *response) strings(c *circuit, r *runner, h *heardBy) {
	weighted := make([]linear.Lane, len(r.h))
	for b := a.grid.chord.first; b < a.grid.chord.end; b++ {
		r.block(c, a.tables, a.grid.hz, b)
		first := (b - a.grid.chord.first) * linear.Lanes
		n := min(linear.Lanes, len(a.partials)-first)
		for _, k := range c.live {
			h.loudest = max(h.loudest, largest(&r.h[k]))
			weigh(&weighted[k], &r.h[k], a.heard[k][first:first+n])
		}
		split := min(max(a.brightAt-first, 0), n)
		h.common(h.dark, c.live, weighted, 0, split)
		h.common(h.bright, c.live, weighted, split, n)
	}
}

// hums adds up the mains' harmonics: a uniform field whose flux falls as 1/n,
// so that its EMF is the same at each of them.
func (a *response) hums(c *circuit, r *runner, h *heardBy) {
	weighted := make([]linear.Lane, len(r.h))
	harmonics := len(a.humAt)
	for b := a.grid.mains.first; b < a.grid.mains.end; b++ {
		r.block(c, a.tables, a.grid.hz, b)
		first := (b - a.grid.mains.first) * linear.Lanes
		n := min(linear.Lanes, max(0, harmonics-first))
		var uneven [linear.Lanes]float64
		for _, k := range c.live {
			weigh(&weighted[k], &r.h[k], a.humAt[min(first, harmonics):min(first+n, harmonics)])
			for i := range n {
				size := math.Hypot(weighted[k].Re[i], weighted[k].Im[i])
				uneven[i] += a.turns[k] * a.m.coils[k].mismatch / 2 * size
			}
			h.low[k] = complex(r.h[k].Re[linear.Lanes-1], r.h[k].Im[linear.Lanes-1])
		}
		for i := range n {
			h.uneven += uneven[i] * uneven[i]
		}
		h.common(h.mains, c.live, weighted, 0, n)
	}
}

// weigh sets out to h times real weights, lane by lane.
func weigh(out, h *linear.Lane, weights []float64) {
	for i, w := range weights {
		out.Re[i], out.Im[i] = w*h.Re[i], w*h.Im[i]
	}
}

func largest(h *linear.Lane) float64 {
	most := 0.0
	for i := range linear.Lanes {
		most = max(most, h.Re[i]*h.Re[i]+h.Im[i]*h.Im[i])
	}
	return math.Sqrt(most)
}

// common adds lanes from…end of every pair of live coils to a table.
func (h *heardBy) common(table []float64, live []int, weighted []linear.Lane, from, end int) {
	for at, i := range live {
		for _, j := range live[:at+1] {
			a, b, sum := &weighted[i], &weighted[j], 0.0
			for lane := from; lane < end; lane++ {
				sum += a.Re[lane]*b.Re[lane] + a.Im[lane]*b.Im[lane]
			}
			table[pairAt(i, j)] += sum
		}
	}
}

func pairAt(i, j int) int {
	if j > i {
		i, j = j, i
	}
	return i*(i+1)/2 + j
}

// together is the power of all coils with the given factors, and apart the sum
// of each coil's by itself.
func together(table, factors []float64) float64 {
	sum := 0.0
	for i, x := range factors {
		for j, y := range factors[:i] {
			sum += 2 * x * y * table[pairAt(i, j)]
		}
		sum += x * x * table[pairAt(i, i)]
	}
	return max(0, sum)
}

func apart(table, factors []float64) float64 {
	sum := 0.0
	for i, x := range factors {
		sum += x * x * table[pairAt(i, i)]
	}
	return sum
}
