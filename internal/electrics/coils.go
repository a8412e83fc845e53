package electrics

import (
	"math"

	"loomwright/internal/linear"
	"loomwright/internal/wiring"
)

// group is a set of coils that are magnetically coupled, directly or through
// others, or a single coil. k holds the couplings, with 1 on the diagonal.
type group struct {
	coils []int
	k     [][]float64
	table int // first of its tables: entry (i, j), j ≤ i, is table + i(i+1)/2 + j
}

// entry is the table of one entry of the group's admittance matrix.
func (g *group) entry(i, j int) int {
	if j > i {
		i, j = j, i
	}
	return g.table + i*(i+1)/2 + j
}

// groups sorts unbroken coils into coupled groups, in order of their first coil.
func groups(coils []coil, couplings []wiring.Coupling) []group {
	forest := make([]int, len(coils))
	for i := range forest {
		forest[i] = i
	}
	for _, c := range couplings {
		if c.K != 0 && !coils[c.A].broken() && !coils[c.B].broken() {
			unite(forest, c.A, c.B)
		}
	}
	var out []group
	place := make([]int, len(coils)) // within its group
	at := map[int]int{}
	for i := range coils {
		if coils[i].broken() {
			continue
		}
		root := root(forest, i)
		if _, ok := at[root]; !ok {
			at[root] = len(out)
			out = append(out, group{})
		}
		g := &out[at[root]]
		place[i] = len(g.coils)
		g.coils = append(g.coils, i)
	}
	tables := 0
	for i := range out {
		out[i].table = tables
		tables += len(out[i].coils) * (len(out[i].coils) + 1) / 2
		out[i].k = unit(len(out[i].coils))
	}
	for _, c := range couplings {
		if g, ok := at[root(forest, c.A)]; ok && root(forest, c.A) == root(forest, c.B) && !coils[c.A].broken() && c.A != c.B {
			out[g].k[place[c.A]][place[c.B]], out[g].k[place[c.B]][place[c.A]] = c.K, c.K
		}
	}
	return out
}

func (c *coil) broken() bool { return math.IsInf(c.ohms.Typical, 1) }

func unit(n int) [][]float64 {
	k := make([][]float64, n)
	for i := range k {
		k[i] = make([]float64, n)
		k[i][i] = 1
	}
	return k
}

// root and unite are Tarjan's disjoint sets with path halving.
func root(forest []int, i int) int {
	for forest[i] != i {
		forest[i] = forest[forest[i]]
		i = forest[i]
	}
	return i
}

func unite(forest []int, a, b int) {
	a, b = root(forest, a), root(forest, b)
	forest[max(a, b)] = min(a, b)
}

// branch is one coil as a branch: R + jωL₁ + (jωL₂ ∥ Re), in SI units.
type branch struct{ r, l1, l2, re float64 }

func (c *coil) branch(ohms float64) branch {
	b := branch{r: ohms, l1: c.henries.Typical * (1 - c.eddyPart), l2: c.henries.Typical * c.eddyPart, re: c.eddy.Typical}
	if c.eddyPart == 0 {
		b.re = 1 // across no inductance: any value does
	}
	return b
}

// admittances tabulates the admittance matrix of a group's branches over
// frequency, entry by entry. In a group, coils are coupled by k in both parts
// of their inductance, the lossy part behind the loss resistors:
//
//	Z = R + jωM₁ + (jωM₂)·(jωM₂ + Re)⁻¹·Re,  M(i,j) = k(i,j)·√(L(i)·L(j))
func (g *group) admittances(coils []coil, hz []float64) [][]linear.Lane {
	branches := make([]branch, len(g.coils))
	for i, c := range g.coils {
		branches[i] = coils[c].branch(coils[c].ohms.Typical)
	}
	out := make([][]linear.Lane, len(branches)*(len(branches)+1)/2)
	for i := range out {
		out[i] = make([]linear.Lane, len(hz)/linear.Lanes)
	}
	switch len(branches) {
	case 1:
		branches[0].single(hz, out[0])
	case 2:
		pair(branches, g.k[0][1], hz, out)
	default:
		several(branches, g.k, hz, out)
	}
	return out
}

func (b branch) single(hz []float64, out []linear.Lane) {
	for i, f := range hz {
		w := 2 * math.Pi * f
		x2 := w * b.l2
		q := x2 / (x2*x2 + b.re*b.re)
		re, im := b.r+x2*b.re*q, w*b.l1+b.re*b.re*q
		d := 1 / (re*re + im*im)
		l := &out[i/linear.Lanes]
		l.Re[i%linear.Lanes], l.Im[i%linear.Lanes] = re*d, -im*d
	}
}

// pair is the closed form for two coils, with 2×2 matrices written out.
func pair(b []branch, k float64, hz []float64, out [][]linear.Lane) {
	m1, m2 := k*math.Sqrt(b[0].l1*b[1].l1), k*math.Sqrt(b[0].l2*b[1].l2)
	for i, f := range hz {
		w := 2 * math.Pi * f
		z := symmetric{complex(b[0].r, w*b[0].l1), complex(b[1].r, w*b[1].l1), complex(0, w*m1)}
		x := symmetric{complex(0, w*b[0].l2), complex(0, w*b[1].l2), complex(0, w*m2)}
		r0, r1 := complex(b[0].re, 0), complex(b[1].re, 0)
		q := symmetric{x.a + r0, x.d + r1, x.b}.inverse()
		z.a += (x.a*q.a + x.b*q.b) * r0
		z.d += (x.b*q.b + x.d*q.d) * r1
		z.b += (x.a*q.b + x.b*q.d) * r1
		y := z.inverse()
		set(out[0], i, y.a)
		set(out[1], i, y.b)
		set(out[2], i, y.d)
	}
}

// symmetric is the matrix (a b; b d).
type symmetric struct{ a, d, b complex128 }

func (s symmetric) inverse() symmetric {
	det := s.a*s.d - s.b*s.b
	re, im := real(det), imag(det)
	q := 1 / (re*re + im*im)
	f := complex(re*q, -im*q)
	return symmetric{s.d * f, s.a * f, -s.b * f}
}

func set(lanes []linear.Lane, i int, y complex128) {
	l := &lanes[i/linear.Lanes]
	l.Re[i%linear.Lanes], l.Im[i%linear.Lanes] = real(y), imag(y)
}

// several inverts the branch impedances of three coils and more.
func several(b []branch, k [][]float64, hz []float64, out [][]linear.Lane) {
	for i, f := range hz {
		y := inverted(impedances(b, k, 2*math.Pi*f))
		for r := range b {
			for c := range r + 1 {
				set(out[r*(r+1)/2+c], i, y[r][c])
			}
		}
	}
}

func impedances(b []branch, k [][]float64, w float64) [][]complex128 {
	n := len(b)
	x, z, loss, sum := square(n), square(n), square(n), square(n)
	for i := range b {
		for j := range b {
			x[i][j] = complex(0, w*k[i][j]*math.Sqrt(b[i].l2*b[j].l2))
			z[i][j] = complex(0, w*k[i][j]*math.Sqrt(b[i].l1*b[j].l1))
			sum[i][j] = x[i][j]
		}
		loss[i][i] = complex(b[i].re, 0)
		sum[i][i] += loss[i][i]
		z[i][i] += complex(b[i].r, 0)
	}
	lossy, err := linear.Solve(sum, loss) // (jωM₂ + Re)⁻¹·Re
	if err != nil {
		return z
	}
	for i := range b {
		for j := range b {
			for n := range b {
				z[i][j] += x[i][n] * lossy[n][j]
			}
		}
	}
	return z
}

func square(n int) [][]complex128 {
	a := make([][]complex128, n)
	for i := range a {
		a[i] = make([]complex128, n)
	}
	return a
}

// inverted inverts a matrix whose real part is positive definite: all of them
// here are, by the checks of New.
func inverted(z [][]complex128) [][]complex128 {
	y, err := linear.Inverse(z)
	if err != nil {
		return square(len(z))
	}
	return y
}
