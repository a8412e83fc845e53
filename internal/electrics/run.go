package electrics

import (
	"math"

	"loomwright/internal/linear"
)

// runner solves circuits one after the other in the same memory.
type runner struct {
	work linear.Work
	h    []linear.Lane // by coil: V at hot for an EMF of 1 V
}

// block solves one block of frequencies. Afterwards r.h holds the response from
// every coil, and r.zout the impedance at hot.
func (r *runner) block(c *circuit, tables [][]linear.Lane, hz []float64, at int) {
	r.assemble(c, tables, hz, at)
	c.plan.Solve(&r.work)
	for i := range r.h {
		r.h[i] = linear.Lane{}
	}
	for _, i := range c.live {
		r.response(c, tables, i, at)
	}
}

// fit makes the memory large enough.
func (r *runner) fit(c *circuit) {
	if c.plan != nil {
		r.work.Fit(c.plan)
	}
	if len(r.h) != len(c.ends) {
		r.h = make([]linear.Lane, len(c.ends))
	}
}

func (r *runner) assemble(c *circuit, tables [][]linear.Lane, hz []float64, at int) {
	hz = hz[at*linear.Lanes : (at+1)*linear.Lanes]
	for slot := range c.stamps {
		s, a := &c.stamps[slot], &r.work.A[slot]
		for i, f := range hz {
			a.Re[i], a.Im[i] = s.g, 2*math.Pi*f*s.c
		}
		for _, t := range c.terms[s.first:s.end] {
			a.AddTimes(t.k, &tables[t.table][at])
		}
	}
}

// response is Σ Y(i,j)·(x(start of j) − x(finish of j)): the current that 1 V in
// coil i drives through the shorted coils of its group, times what each of them
// does to hot.
func (r *runner) response(c *circuit, tables [][]linear.Lane, i, at int) {
	g := &c.r.groups[c.r.groupOf[i]]
	var across linear.Lane
	for place, j := range g.coils {
		start, finish := c.ends[j][0], c.ends[j][1]
		if start == finish {
			continue
		}
		across = linear.Lane{}
		if start >= 0 {
			across.AddTimes(1, &r.work.X[start])
		}
		if finish >= 0 {
			across.AddTimes(-1, &r.work.X[finish])
		}
		r.h[i].AddProduct(&tables[g.entry(c.r.inGroup[i], place)][at], &across)
	}
}

// zout is the impedance at hot in the block just solved.
func (r *runner) zout(c *circuit) *linear.Lane { return &r.work.X[c.out] }
