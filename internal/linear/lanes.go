package linear

// Lanes is the number of frequencies that go through a plan together.
const Lanes = 16

// Lane holds one complex number for each of Lanes frequencies.
type Lane struct{ Re, Im [Lanes]float64 }

// Work is the memory of one solution; it may be used again for any plan.
type Work struct {
	A       []Lane // the matrix by slots; overwritten
	X       []Lane // the solution by nodes
	scratch []Lane
}

// Fit makes the memory large enough for a plan; what is in it is lost.
func (w *Work) Fit(p *Plan) {
	w.A = fit(w.A, p.slots)
	w.X = fit(w.X, p.n)
	w.scratch = fit(w.scratch, p.widest)
}

func fit(lanes []Lane, n int) []Lane {
	if cap(lanes) < n {
		return make([]Lane, n)
	}
	return lanes[:n]
}

// Solve factors w.A in place and leaves in w.X the solution of A·x = e, e being
// 1 at the plan's last node: by symmetry both the response at every node to a
// unit current there and the response there to a unit current at every node.
func (p *Plan) Solve(w *Work) {
	for i := range p.steps {
		p.eliminate(&p.steps[i], w)
	}
	last := &p.steps[p.n-1]
	w.X[last.node] = w.A[last.diagonal] // already its reciprocal
	for i := p.n - 2; i >= 0; i-- {
		p.substitute(&p.steps[i], w)
	}
}

// eliminate takes one node out. It leaves 1/d in the diagonal's slot and l in
// the entries.
func (p *Plan) eliminate(s *step, w *Work) {
	d := &w.A[s.diagonal]
	d.reciprocal()
	entries := p.entry[s.first:s.end]
	for at, e := range entries {
		w.scratch[at].product(&w.A[e], d)
	}
	targets := p.target[s.target:]
	for at := range entries {
		for k, e := range entries[:at+1] {
			w.A[targets[k]].lessProduct(&w.scratch[at], &w.A[e])
		}
		targets = targets[at+1:]
	}
	for at, e := range entries {
		w.A[e] = w.scratch[at]
	}
}

// substitute finds the solution at one node from those eliminated after it.
func (p *Plan) substitute(s *step, w *Work) {
	x := &w.X[s.node]
	*x = Lane{}
	for at := s.first; at < s.end; at++ {
		x.lessProduct(&w.A[p.entry[at]], &w.X[p.near[at]])
	}
}

// reciprocal sets z to 1/z.
func (z *Lane) reciprocal() {
	for i := range Lanes {
		re, im := z.Re[i], z.Im[i]
		q := 1 / (re*re + im*im)
		z.Re[i], z.Im[i] = re*q, -im*q
	}
}

// product sets z to a·b.
func (z *Lane) product(a, b *Lane) {
	for i := range Lanes {
		z.Re[i] = a.Re[i]*b.Re[i] - a.Im[i]*b.Im[i]
		z.Im[i] = a.Re[i]*b.Im[i] + a.Im[i]*b.Re[i]
	}
}

// lessProduct takes a·b from z.
func (z *Lane) lessProduct(a, b *Lane) {
	for i := range Lanes {
		ar, ai, br, bi := a.Re[i], a.Im[i], b.Re[i], b.Im[i]
		z.Re[i] -= ar*br - ai*bi
		z.Im[i] -= ar*bi + ai*br
	}
}

// AddProduct adds a·b to z.
func (z *Lane) AddProduct(a, b *Lane) {
	for i := range Lanes {
		ar, ai, br, bi := a.Re[i], a.Im[i], b.Re[i], b.Im[i]
		z.Re[i] += ar*br - ai*bi
		z.Im[i] += ar*bi + ai*br
	}
}

// AddTimes adds k·a to z.
func (z *Lane) AddTimes(k float64, a *Lane) {
	for i := range Lanes {
		z.Re[i] += k * a.Re[i]
		z.Im[i] += k * a.Im[i]
	}
}
