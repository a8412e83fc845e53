package linear

import (
	"errors"
	"math/cmplx"
)

var errSingular = errors.New("the equations have no single solution")

// solve solves A·X = B by Gaussian elimination with partial pivoting; A is n×n,
// B is n×m. Neither is changed. It is the plain path that Plan and Invert are
// checked against.
func solve(a, b [][]complex128) ([][]complex128, error) {
	n := len(a)
	m := make([][]complex128, n)
	for i := range m {
		m[i] = append(append([]complex128(nil), a[i]...), b[i]...)
	}
	for k := range n {
		pivot := k
		for i := k + 1; i < n; i++ {
			if cmplx.Abs(m[i][k]) > cmplx.Abs(m[pivot][k]) {
				pivot = i
			}
		}
		m[k], m[pivot] = m[pivot], m[k]
		if m[k][k] == 0 || cmplx.IsNaN(m[k][k]) {
			return nil, errSingular
		}
		for i := k + 1; i < n; i++ {
			subtract(m[i][k:], m[k][k:], m[i][k]/m[k][k])
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := n; j < len(m[k]); j++ {
			m[k][j] /= m[k][k]
		}
		for i := range k {
			subtract(m[i][n:], m[k][n:], m[i][k])
		}
	}
	for i := range m {
		m[i] = m[i][n:]
	}
	return m, nil
}

// subtract takes f·from from a row.
func subtract(row, from []complex128, f complex128) {
	if f == 0 {
		return
	}
	for j := range row {
		row[j] -= f * from[j]
	}
}
