package linear

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// admittances is a nodal matrix: rand picks conductances, capacitances and
// lossy coils as a guitar has them.
type admittances struct {
	n     int
	pairs [][2]int
	value []complex128 // of each pair; a pair (i, i) goes to ground
}

func randomCircuit(random *rand.Rand, n int) admittances {
	c := admittances{n: n}
	add := func(i, j int) {
		c.pairs = append(c.pairs, [2]int{i, j})
		w := 2 * math.Pi * 20 * math.Pow(10, 3*random.Float64())
		switch random.IntN(3) {
		case 0:
			c.value = append(c.value, complex(1/math.Pow(10, 6*random.Float64()), 0))
		case 1:
			c.value = append(c.value, complex(0, w*1e-10*math.Pow(10, 2*random.Float64())))
		default:
			c.value = append(c.value, 1/complex(5e3*(0.5+random.Float64()), w*2*random.Float64()))
		}
	}
	for i := range n {
		add(i, random.IntN(i+1))
	}
	for range n {
		add(random.IntN(n), random.IntN(n))
	}
	c.pairs = append(c.pairs, [2]int{n - 1, n - 1})
	c.value = append(c.value, 1e-6)
	return c
}

func (c admittances) dense() [][]complex128 {
	a := make([][]complex128, c.n)
	for i := range a {
		a[i] = make([]complex128, c.n)
	}
	for k, p := range c.pairs {
		i, j := p[0], p[1]
		a[i][i] += c.value[k]
		if i != j {
			a[j][j] += c.value[k]
			a[i][j] -= c.value[k]
			a[j][i] -= c.value[k]
		}
	}
	return a
}

// fill hands a matrix over by slots, the same in every lane but for a factor.
func fill(p *Plan, w *Work, a [][]complex128) {
	w.Fit(p)
	for i := range w.A {
		w.A[i] = Lane{}
	}
	for i := range a {
		for j := range i + 1 {
			if s := p.Slot(i, j); s >= 0 {
				for lane := range Lanes {
					w.A[s].Re[lane] = real(a[i][j]) * float64(lane+1)
					w.A[s].Im[lane] = imag(a[i][j]) * float64(lane+1)
				}
			}
		}
	}
}

// The planned factors, without pivoting, against dense elimination with
// pivoting, on circuits as guitars have them.
func TestPlanAgainstDense(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	worst := 0.0
	var w Work
	for range 2000 {
		n := 1 + random.IntN(20)
		c := randomCircuit(random, n)
		last := random.IntN(n)
		p := NewPlan(n, c.pairs, last)
		a := c.dense()
		fill(p, &w, a)
		p.Solve(&w)
		e := make([][]complex128, n)
		for i := range e {
			e[i] = []complex128{0}
		}
		e[last][0] = 1
		x, err := solve(a, e)
		if err != nil {
			t.Fatal(err)
		}
		for i := range x {
			for lane := range Lanes {
				got := complex(w.X[i].Re[lane], w.X[i].Im[lane]) * complex(float64(lane+1), 0)
				worst = max(worst, cmplx.Abs(got-x[i][0])/(1e-300+cmplx.Abs(x[last][0])))
			}
		}
	}
	if worst > 1e-9 {
		t.Errorf("off by %g of the output", worst)
	}
	t.Logf("2000 circuits: at most %.1e of the output", worst)
}

// A·A⁻¹ is one, and the inverse is that of elimination with pivoting, for
// matrices whose real part is positive definite.
func TestInvert(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		value := rapid.Float64Range(-1, 1)
		a, inv, one := make([][]complex128, n), make([][]complex128, n), make([][]complex128, n)
		for i := range a {
			a[i], one[i] = make([]complex128, n), make([]complex128, n)
			one[i][i] = 1
			for j := range a[i] {
				a[i][j] = complex(value.Draw(t, "re"), 100*value.Draw(t, "im"))
			}
			a[i][i] += complex(float64(n)+1, 0)
		}
		for i := range a {
			for j := range i {
				a[i][j] = a[j][i] // complex symmetric
			}
			inv[i] = append([]complex128(nil), a[i]...)
		}
		for i := range a {
			copy(inv[i], a[i])
		}
		Invert(inv)
		want, err := solve(a, one)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a {
			for j := range a {
				if cmplx.Abs(inv[i][j]-want[i][j]) > 1e-9 {
					t.Fatalf("entry %d, %d: %v, with pivoting %v", i, j, inv[i][j], want[i][j])
				}
			}
		}
	})
}

func TestSolveSingular(t *testing.T) {
	if _, err := solve([][]complex128{{1, 2}, {2, 4}}, [][]complex128{{1}, {1}}); err != errSingular {
		t.Errorf("a singular matrix: %v", err)
	}
}

func BenchmarkPlan8(b *testing.B) {
	random := rand.New(rand.NewPCG(9, 10))
	c := randomCircuit(random, 8)
	p := NewPlan(8, c.pairs, 7)
	var w Work
	fill(p, &w, c.dense())
	keep := append([]Lane(nil), w.A...)
	for b.Loop() {
		for range 25 { // 400 points
			copy(w.A, keep)
			p.Solve(&w)
		}
	}
	b.ReportMetric(float64(len(p.target)), "products")
}
