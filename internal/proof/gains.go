package proof

import (
	"math"
)

// gains returns the share that each heard coil of the graph has at the open
// output, + at its start, when all coils are alike: nodal analysis with ground
// as reference.
func (n *network) gains() []float64 {
	y := make([][]float64, n.nets.Count)
	cells := make([]float64, len(y)*len(y))
	for i := range y {
		y[i] = cells[i*len(y) : (i+1)*len(y)]
	}
	for _, e := range n.way() {
		g := n.admittance(e)
		y[e.a][e.a] += g
		y[e.b][e.b] += g
		y[e.a][e.b] -= g
		y[e.b][e.a] -= g
	}
	// Reciprocity: inject 1 A at hot; a coil's share is the voltage across it.
	v := solveGrounded(y, n.hot, n.ground)
	out := make([]float64, len(n.g.Coils))
	for _, e := range n.way() {
		if gain := v[e.a] - v[e.b]; e.kind == coil && math.Abs(gain) > 1e-9 {
			out[e.index] = gain
		}
	}
	return out
}

// admittance weighs what the sound goes through: a coil is 1, other parts by
// their value against a coil of 6 kΩ, capacitors at 100 Hz. It decides whether
// hum cancels in full, for which only equal parts matter.
func (n *network) admittance(e element) float64 {
	const typicalCoil, hertz = 6e3, 100
	x := n.value(e)
	switch {
	case x == 0:
		return 1
	case e.kind == capacitor:
		x = 1 / (2 * math.Pi * hertz * x)
	}
	return min(max(typicalCoil/x, 1e-3), 1e3)
}

// solveGrounded solves the nodal equations y·v = i with 1 A into node hot and
// v[ground] = 0; nodes without any element stay at 0. Gaussian elimination with
// partial pivoting; sizes are small.
func solveGrounded(y [][]float64, hot, ground int) []float64 {
	var nodes []int
	for i := range y {
		if i != ground && y[i][i] > 0 {
			nodes = append(nodes, i)
		}
	}
	m := len(nodes)
	a := make([][]float64, m)
	for r, i := range nodes {
		a[r] = make([]float64, m+1)
		for c, k := range nodes {
			a[r][c] = y[i][k]
		}
		if i == hot {
			a[r][m] = 1
		}
	}
	x := eliminate(a)
	v := make([]float64, len(y))
	for r, i := range nodes {
		v[i] = x[r]
	}
	return v
}

// eliminate solves an augmented system in place; a singular column gives 0.
func eliminate(a [][]float64) []float64 {
	m := len(a)
	for c := range m {
		pivot := c
		for r := c; r < m; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[pivot][c]) {
				pivot = r
			}
		}
		a[c], a[pivot] = a[pivot], a[c]
		if math.Abs(a[c][c]) < 1e-12 {
			continue
		}
		for r := range m {
			if f := a[r][c] / a[c][c]; r != c && f != 0 {
				for k := c; k <= m; k++ {
					a[r][k] -= f * a[c][k]
				}
			}
		}
	}
	x := make([]float64, m)
	for c := range m {
		if math.Abs(a[c][c]) >= 1e-12 {
			x[c] = a[c][m] / a[c][c]
		}
	}
	return x
}
