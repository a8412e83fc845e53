package linear

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// network draws a random network; some nodes may hang apart.
func network(t *rapid.T, decades int) (int, []Resistor) {
	n := rapid.IntRange(1, 14).Draw(t, "nodes")
	parts := make([]Resistor, rapid.IntRange(0, 30).Draw(t, "parts"))
	for i := range parts {
		parts[i] = Resistor{
			A:       rapid.IntRange(0, n-1).Draw(t, "a"),
			B:       rapid.IntRange(0, n-1).Draw(t, "b"),
			Siemens: math.Pow(10, rapid.Float64Range(-float64(decades)/2, float64(decades)/2).Draw(t, "s")),
		}
	}
	return n, parts
}

func near(got, want, relative float64) bool {
	if math.IsInf(want, 1) {
		return math.IsInf(got, 1)
	}
	return math.Abs(got-want) <= relative*math.Abs(want)
}

// The table and plain star-mesh elimination agree for every pair.
func TestResistancesAgainstTwoPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, parts := network(t, 6)
		table := NewResistances(n, parts)
		for a := range n {
			for b := range n {
				if got, want := table.Ohms(a, b), TwoPoint(n, parts, a, b); !near(got, want, 1e-11) {
					t.Fatalf("R(%d,%d) = %g, star-mesh %g", a, b, got, want)
				}
			}
		}
	})
}

// exact finds R(a,b) in rational arithmetic: Cramer's rule on the grounded
// Laplacian by fraction-free elimination would do as well as this plain one.
func exact(n int, parts []Resistor, a, b int) *big.Rat {
	g := make([][]*big.Rat, n)
	for i := range g {
		g[i] = make([]*big.Rat, n)
		for j := range g[i] {
			g[i][j] = new(big.Rat)
		}
	}
	for _, p := range parts {
		s := new(big.Rat).SetFloat64(p.Siemens)
		g[p.A][p.A].Add(g[p.A][p.A], s)
		g[p.B][p.B].Add(g[p.B][p.B], s)
		g[p.A][p.B].Sub(g[p.A][p.B], s)
		g[p.B][p.A].Sub(g[p.B][p.A], s)
	}
	rhs := make([]*big.Rat, n)
	for i := range rhs {
		rhs[i] = new(big.Rat)
	}
	rhs[a].SetInt64(1)
	for i := range n { // b is grounded
		g[b][i].SetInt64(0)
		g[i][b].SetInt64(0)
	}
	g[b][b].SetInt64(1)
	for k := range n {
		for i := range n {
			if i == k || g[i][k].Sign() == 0 {
				continue
			}
			f := new(big.Rat).Quo(g[i][k], g[k][k])
			for j := range n {
				g[i][j] = new(big.Rat).Sub(g[i][j], new(big.Rat).Mul(f, g[k][j]))
			}
			rhs[i] = new(big.Rat).Sub(rhs[i], new(big.Rat).Mul(f, rhs[k]))
		}
	}
	return new(big.Rat).Quo(rhs[a], g[a][a])
}

// Eighteen decades between the values cost no digits: both paths against exact
// rational arithmetic.
func TestResistancesExactly(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 40 {
		n := 3 + random.IntN(5)
		var parts []Resistor
		for i := 1; i < n; i++ {
			parts = append(parts, Resistor{i, random.IntN(i), math.Pow(10, 18*random.Float64()-9)})
		}
		for range n {
			if a, b := random.IntN(n), random.IntN(n); a != b {
				parts = append(parts, Resistor{a, b, math.Pow(10, 18*random.Float64()-9)})
			}
		}
		table := NewResistances(n, parts)
		for a := range n {
			for b := range a {
				want, _ := exact(n, parts, a, b).Float64()
				if got := table.Ohms(a, b); !near(got, want, 1e-12) {
					t.Errorf("table R(%d,%d) = %.17g, exactly %.17g of %v", a, b, got, want, parts)
				}
				if got := TwoPoint(n, parts, a, b); !near(got, want, 1e-12) {
					t.Errorf("star-mesh R(%d,%d) = %.17g, exactly %.17g", a, b, got, want)
				}
			}
		}
	}
}

// The textbook formula R(a,b) = L⁺aa + L⁺bb − 2·L⁺ab with gonum's pseudo-inverse
// by singular values (Klein and Randić 1993).
func TestResistancesAgainstPseudoInverse(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	n := 9
	laplacian := mat.NewDense(n, n, nil)
	var parts []Resistor
	add := func(a, b int) {
		p := Resistor{a, b, 0.1 + random.Float64()}
		parts = append(parts, p)
		laplacian.Set(a, a, laplacian.At(a, a)+p.Siemens)
		laplacian.Set(b, b, laplacian.At(b, b)+p.Siemens)
		laplacian.Set(a, b, laplacian.At(a, b)-p.Siemens)
		laplacian.Set(b, a, laplacian.At(b, a)-p.Siemens)
	}
	for i := 1; i < n; i++ {
		add(i, random.IntN(i))
		add(i, (i+3)%n)
	}
	var svd mat.SVD
	if !svd.Factorize(laplacian, mat.SVDThin) {
		t.Fatal("no singular values")
	}
	var u, v, pseudo mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	values := svd.Values(nil)
	for i := range values {
		if values[i] > 1e-9 {
			values[i] = 1 / values[i]
		} else {
			values[i] = 0
		}
	}
	pseudo.Product(&v, mat.NewDiagDense(n, values), u.T())
	table := NewResistances(n, parts)
	for a := range n {
		for b := range n {
			want := pseudo.At(a, a) + pseudo.At(b, b) - 2*pseudo.At(a, b)
			if got := table.Ohms(a, b); math.Abs(got-want) > 1e-12 {
				t.Errorf("R(%d,%d) = %g, by pseudo-inverse %g", a, b, got, want)
			}
		}
	}
}

// A bridge worked out from the table is the table of the bridged network.
func TestBridged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, parts := network(t, 4)
		node := rapid.IntRange(0, n-1)
		p, q := node.Draw(t, "p"), node.Draw(t, "q")
		ohms := rapid.Float64Range(0.01, 100).Draw(t, "ohms")
		plain := NewResistances(n, parts)
		bridged := NewResistances(n, append(parts, Resistor{p, q, 1 / ohms}))
		for a := range n {
			for b := range n {
				got, want := plain.Bridged(a, b, p, q, ohms), bridged.Ohms(a, b)
				if !near(got, want, 1e-9) && math.Abs(got-want) > 1e-9 {
					t.Fatalf("R(%d,%d) bridged = %g, solved anew %g", a, b, got, want)
				}
			}
		}
	})
}

// A Wheatstone bridge in balance: no voltage across the middle.
func TestTransferBalanced(t *testing.T) {
	r := NewResistances(4, []Resistor{{0, 1, 1}, {1, 3, 0.5}, {0, 2, 0.1}, {2, 3, 0.05}, {1, 2, 0.2}})
	if v := r.Transfer(0, 3, 1, 2); math.Abs(v) > 1e-15 {
		t.Errorf("across the middle of a balanced bridge: %g V", v)
	}
	if v, want := r.Transfer(0, 3, 0, 1), r.Ohms(0, 3)/3; math.Abs(v-want) > 1e-15 {
		t.Errorf("across the first arm: %g V, want %g", v, want)
	}
}

func BenchmarkResistances12(b *testing.B) {
	random := rand.New(rand.NewPCG(5, 6))
	var parts []Resistor
	for i := 1; i < 12; i++ {
		parts = append(parts, Resistor{i, random.IntN(i), 1}, Resistor{i, random.IntN(12), 1})
	}
	for b.Loop() {
		NewResistances(12, parts)
	}
}
