package linear

// Invert replaces a square matrix by its inverse (Gauss-Jordan, in place,
// without pivoting). That is safe where the real part of the matrix is positive
// definite, as with the impedances of lossy coils.
func Invert(a [][]complex128) {
	for k := range a {
		p := reciprocal(a[k][k])
		for i := range a {
			if i == k {
				continue
			}
			f := a[i][k] * p
			for j := range a {
				a[i][j] -= f * a[k][j]
			}
			a[i][k] = -f
		}
		for j := range a {
			a[k][j] *= p
		}
		a[k][k] = p
	}
}

// reciprocal is 1/z without the care for the largest and smallest numbers that
// makes the language's own division slow.
func reciprocal(z complex128) complex128 {
	re, im := real(z), imag(z)
	q := 1 / (re*re + im*im)
	return complex(re*q, -im*q)
}
