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
	if len(branches) == 1 {
		branches[0].single(hz, out[0])
	} else {
		coupled(branches, g.k, hz, out)
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

func set(lanes []linear.Lane, i int, y complex128) {
	l := &lanes[i/linear.Lanes]
	l.Re[i%linear.Lanes], l.Im[i%linear.Lanes] = real(y), imag(y)
}

// coupled inverts the branch impedances of two coils and more.
func coupled(b []branch, k [][]float64, hz []float64, out [][]linear.Lane) {
	z := newImpedances(b, k)
	for i, f := range hz {
		z.at(2 * math.Pi * f)
		linear.Invert(z.z)
		for r := range b {
			for c := range r + 1 {
				set(out[r*(r+1)/2+c], i, z.z[r][c])
			}
		}
	}
}

// impedances is Z of a group, in memory of its own.
type impedances struct {
	b      []branch
	m1, m2 [][]float64 // inductances without and with loss
	z, sum [][]complex128
}

func newImpedances(b []branch, k [][]float64) *impedances {
	n := len(b)
	z := &impedances{b: b, m1: unit(n), m2: unit(n), z: make([][]complex128, n), sum: make([][]complex128, n)}
	for i := range b {
		z.z[i], z.sum[i] = make([]complex128, n), make([]complex128, n)
		for j := range b {
			z.m1[i][j] = k[i][j] * math.Sqrt(b[i].l1*b[j].l1)
			z.m2[i][j] = k[i][j] * math.Sqrt(b[i].l2*b[j].l2)
		}
	}
	return z
}

// at sets z.z to the impedances at w rad/s.
func (z *impedances) at(w float64) {
	for i := range z.b {
		for j := range z.b {
			z.z[i][j] = complex(0, w*z.m1[i][j])
			z.sum[i][j] = complex(0, w*z.m2[i][j])
		}
		z.z[i][i] += complex(z.b[i].r, 0)
		z.sum[i][i] += complex(z.b[i].re, 0)
	}
	linear.Invert(z.sum)
	for i := range z.b {
		for j := range z.b {
			sum := complex128(0)
			for n := range z.b {
				x := w * z.m2[i][n]
				sum += complex(-x*imag(z.sum[n][j]), x*real(z.sum[n][j])) // j·x times it
			}
			z.z[i][j] += complex(real(sum)*z.b[j].re, imag(sum)*z.b[j].re)
		}
	}
}
