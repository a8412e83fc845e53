package linear

import "math"

// Resistor is one resistor between two nodes, in siemens. Zero siemens is a
// broken one.
type Resistor struct {
	A, B    int
	Siemens float64
}

// Resistances holds the resistance between any two nodes of a network.
type Resistances struct {
	n    int
	ohms []float64 // n×n; +Inf where no path is
}

// Network is which nodes resistors join, with an order of elimination that
// serves for any values.
type Network struct {
	n     int
	ends  [][2]int
	order []int
	near  [][]int // neighbours of order[k] when its turn comes
	total int     // of all neighbours
}

// NewNetwork plans for n nodes and resistors between pairs of them.
func NewNetwork(n int, ends [][2]int) *Network {
	w := &Network{n: n, ends: ends}
	adjacent := newRows(n)
	for _, e := range ends {
		if e[0] != e[1] {
			adjacent.set(e[0], e[1])
		}
	}
	w.order, w.near = minimumDegree(adjacent, -1)
	for _, near := range w.near {
		w.total += len(near)
	}
	return w
}

// NewResistances finds the resistance between all pairs of n nodes.
func NewResistances(n int, parts []Resistor) *Resistances {
	var ends [][2]int
	var siemens []float64
	for _, p := range parts {
		if p.Siemens > 0 {
			ends, siemens = append(ends, [2]int{p.A, p.B}), append(siemens, p.Siemens)
		}
	}
	return NewNetwork(n, ends).Resistances(siemens)
}

// Resistances finds the resistance between all pairs of nodes for one set of
// values, all above zero, in the order of the network's ends.
//
// Nodes are eliminated one by one by the star-mesh transform (Rosen 1924) and
// put back in the opposite order. A node k that was joined to its neighbours i
// by shares l of its whole conductance s sits, without current, at the mean of
// their potentials, so that for every node j present
//
//	R(k,j) = 1/s + Σ l(i)·R(i,j) − ½·Σ l(i)·l(m)·R(i,m).
//
// Conductances are only ever added, so that values far apart (a joint of
// milliohms beside a track of megohms) cost no digits.
func (w *Network) Resistances(siemens []float64) *Resistances {
	r := &Resistances{n: w.n, ohms: make([]float64, w.n*w.n)}
	for i := range r.ohms {
		r.ohms[i] = math.Inf(1)
	}
	stars := w.stars(siemens)
	for at := len(stars) - 1; at >= 0; at-- {
		r.putBack(&stars[at], stars[at+1:])
	}
	return r
}

// star is a node with the conductances it had when it was eliminated.
type star struct {
	node  int
	near  []int
	share []float64 // of the sum
	sum   float64
}

// stars takes out all nodes in the network's order.
func (w *Network) stars(siemens []float64) []star {
	n := w.n
	g := make([]float64, n*n)
	for i, e := range w.ends {
		if e[0] != e[1] {
			g[e[0]*n+e[1]] += siemens[i]
			g[e[1]*n+e[0]] += siemens[i]
		}
	}
	shares := make([]float64, w.total)
	stars := make([]star, n)
	for at, k := range w.order {
		s := &stars[at]
		s.node, s.near = k, w.near[at]
		s.share, shares = shares[:len(s.near)], shares[len(s.near):]
		for _, i := range s.near {
			s.sum += g[k*n+i]
		}
		for a, i := range s.near {
			s.share[a] = g[k*n+i] / s.sum
			for b, j := range s.near[:a] {
				more := g[k*n+i] * s.share[b]
				g[i*n+j] += more
				g[j*n+i] += more
			}
		}
	}
	return stars
}

// putBack finds the resistances from a node to those put back before it.
func (r *Resistances) putBack(s *star, before []star) {
	n := r.n
	r.ohms[s.node*n+s.node] = 0
	if len(s.near) == 0 {
		return
	}
	alone := 1 / s.sum
	for a, i := range s.near {
		for b, j := range s.near[:a] {
			alone -= s.share[a] * s.share[b] * r.ohms[i*n+j]
		}
	}
	for at := range before {
		j := before[at].node
		sum := alone
		for a, i := range s.near {
			sum += s.share[a] * r.ohms[i*n+j]
		}
		r.ohms[s.node*n+j], r.ohms[j*n+s.node] = sum, sum
	}
}

// Ohms is the resistance between two nodes; +Inf where no path is.
func (r *Resistances) Ohms(a, b int) float64 { return r.ohms[a*r.n+b] }

// Transfer is the potential of p over q, in volts, when one ampere enters at a
// and leaves at b. It is 0 where the two pairs do not share a network.
func (r *Resistances) Transfer(a, b, p, q int) float64 {
	v := r.Ohms(a, q) + r.Ohms(b, p) - r.Ohms(a, p) - r.Ohms(b, q)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v / 2
}

// Bridged is the resistance between a and b once a resistor of ohms (0: a
// bridge of solder) joins p and q, without solving anew.
func (r *Resistances) Bridged(a, b, p, q int, ohms float64) float64 {
	loop := ohms + r.Ohms(p, q)
	plain := r.Ohms(a, b)
	switch {
	case loop == 0:
		return plain
	case math.IsInf(loop, 1): // p and q were apart: the bridge is the only way
		return min(plain, r.Ohms(a, p)+ohms+r.Ohms(q, b), r.Ohms(a, q)+ohms+r.Ohms(p, b))
	case math.IsInf(plain, 1):
		return plain
	}
	v := r.Transfer(a, b, p, q)
	return max(0, plain-v*v/loop)
}

// TwoPoint is the resistance between two nodes found by eliminating all others
// (star-mesh), without any table.
func TwoPoint(n int, parts []Resistor, a, b int) float64 {
	if a == b {
		return 0
	}
	g := make([][]float64, n)
	for i := range g {
		g[i] = make([]float64, n)
	}
	for _, p := range parts {
		if p.A != p.B {
			g[p.A][p.B] += p.Siemens
			g[p.B][p.A] += p.Siemens
		}
	}
	for k := range n {
		if k != a && k != b {
			starMesh(g, k)
		}
	}
	return 1 / g[a][b]
}

// starMesh replaces the star at k by the mesh of its neighbours.
func starMesh(g [][]float64, k int) {
	sum := 0.0
	for i := range g {
		if i != k {
			sum += g[k][i]
		}
	}
	if sum == 0 {
		return
	}
	for i := range g {
		for j := range i {
			if i != k && j != k {
				more := g[k][i] * (g[k][j] / sum)
				g[i][j] += more
				g[j][i] += more
			}
		}
	}
	for i := range g {
		g[k][i], g[i][k] = 0, 0
	}
}
