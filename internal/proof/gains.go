package proof

import (
	"math"

	"loomwright/internal/sound"
)

// gains returns the share that each heard coil of the graph has at the open
// output, + at its start, when all coils are alike. ok is false for a mesh that
// is too large to solve.
func (n *network) gains() (shares []float64, ok bool) {
	shares = make([]float64, len(n.g.Coils))
	f := n.reduce()
	if f == nil {
		return shares, true
	}
	if f.op == sound.Mesh {
		return shares, n.meshGains(shares)
	}
	n.divide(f, 1, shares)
	return shares, true
}

// divide gives the coils of a form their shares of what the form has itself:
// all of it in series, by admittance in parallel.
func (n *network) divide(f *form, share float64, out []float64) {
	if f.op == sound.Name {
		out[n.elements[f.element].index] = share * float64(f.order)
	}
	whole := n.admits(f)
	for _, k := range f.kids {
		if f.op == sound.Parallel {
			n.divide(k, share*n.admits(k)/whole, out)
		} else {
			n.divide(k, share, out)
		}
	}
}

// admits is the admittance of a form.
func (n *network) admits(f *form) float64 {
	sum := 0.0
	switch f.op {
	case sound.Series:
		for _, k := range f.kids {
			sum += 1 / n.admits(k)
		}
		return 1 / sum
	case sound.Parallel:
		for _, k := range f.kids {
			sum += n.admits(k)
		}
		return sum
	}
	return n.admittance(n.elements[f.element])
}

// maxMesh bounds the nets of a mesh that is solved.
const maxMesh = 100

// meshGains is gains by nodal analysis with ground as reference.
func (n *network) meshGains(out []float64) bool {
	row := map[int]int{}
	for _, e := range n.way() {
		for _, net := range [2]int{e.a, e.b} {
			if _, seen := row[net]; !seen && net != n.ground {
				row[net] = len(row)
			}
		}
	}
	if len(row) > maxMesh {
		return false
	}
	y := make([][]float64, len(row))
	for i := range y {
		y[i] = make([]float64, len(row)+1)
	}
	add := func(a, b int, g float64) {
		if i, inside := row[a]; inside {
			y[i][i] += g
			if k, inside := row[b]; inside {
				y[i][k] -= g
			}
		}
	}
	for _, e := range n.way() {
		g := n.admittance(e)
		add(e.a, e.b, g)
		add(e.b, e.a, g)
	}
	// Reciprocity: inject 1 A at hot; a coil's share is the voltage across it.
	y[row[n.hot]][len(row)] = 1
	v := eliminate(y)
	at := func(net int) float64 {
		if i, inside := row[net]; inside {
			return v[i]
		}
		return 0
	}
	for _, e := range n.way() {
		if gain := at(e.a) - at(e.b); e.kind == coil && math.Abs(gain) > 1e-9 {
			out[e.index] = gain
		}
	}
	return true
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
