package proof

import (
	"math"
)

// gains returns each heard coil's share at the open output when all coils are
// alike (1 V behind 1 Ω, + at the start) and loads are left out: nodal
// analysis with ground as reference.
func (n *network) gains() map[int]float64 {
	keep := n.withoutLoads()
	size := n.nets.Count
	y := make([][]float64, size)
	for i := range y {
		y[i] = make([]float64, size)
	}
	for i, e := range n.elements {
		if n.live[i] && keep(e) {
			y[e.a][e.a]++
			y[e.b][e.b]++
			y[e.a][e.b]--
			y[e.b][e.a]--
		}
	}
	// Reciprocity: inject 1 A at hot; a coil's share is the voltage across it.
	v := solveGrounded(y, n.hot, n.ground)
	out := map[int]float64{}
	for i, e := range n.elements {
		if gain := v[e.a] - v[e.b]; n.live[i] && e.kind == coil && math.Abs(gain) > 1e-9 {
			out[e.index] = gain
		}
	}
	return out
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
