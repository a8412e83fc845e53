package electrics

import (
	"math"
	"slices"

	"loomwright/internal/linear"
	"loomwright/internal/setting"
)

// wireOhms is where a resistance is a wire: smaller ones merge their nets.
const wireOhms = 1e-3

// circuit is one setting at one turn as nodal equations. Node −1 is ground, or
// stands still with it.
type circuit struct {
	r       *response
	shorted bool // hot and ground are one net: there are no equations
	nodeOf  []int
	plan    *linear.Plan
	out     int
	stamps  []stamp
	terms   []term
	live    []int    // coils in the equations
	ends    [][2]int // nodes of every coil
	entries builder  // what plan, stamps and terms were made of
}

// same reports whether two circuits of a model are the same equations.
func (c *circuit) same(o *circuit) bool {
	return c.out == o.out && c.shorted == o.shorted && slices.Equal(c.live, o.live) && slices.Equal(c.ends, o.ends) &&
		slices.Equal(c.entries.pairs, o.entries.pairs) && slices.Equal(c.entries.g, o.entries.g) &&
		slices.Equal(c.entries.c, o.entries.c) && slices.Equal(c.entries.terms, o.entries.terms)
}

// stamp is one entry of the matrix: g + jωc and terms first…end.
type stamp struct {
	g, c       float64
	first, end int32
}

// term adds k times a table to a stamp.
type term struct {
	slot, table int
	k           float64
}

// element is a conductance and a capacitance between two nets.
type element struct {
	a, b int
	g, c float64
}

// lift lists coils that are looked at as if both of their ends hung free.
type lift []int

func (l lift) has(coil int) bool {
	for _, c := range l {
		if c == coil {
			return true
		}
	}
	return false
}

// circuit merges the nets of a setting and turn and plans the equations.
func (m *Model) circuit(at []int, turn setting.Turn, free lift) *circuit {
	c := &circuit{r: m.ac, ends: make([][2]int, len(m.coils))}
	elements, merged := m.elements(turn)
	nets := m.base.Nets(at, merged...)
	hot, ground := nets.Of[m.g.Hot], nets.Of[m.g.Ground]
	if hot == ground {
		c.shorted = true
		return c
	}
	count := nets.Count
	ends := make([][2]int, len(m.coils))
	for i := range m.coils {
		ends[i] = [2]int{nets.Of[m.coils[i].start], nets.Of[m.coils[i].finish]}
		if free.has(i) {
			ends[i] = [2]int{count, count + 1}
			count += 2
		}
	}
	for i := range elements {
		elements[i].a, elements[i].b = nets.Of[elements[i].a], nets.Of[elements[i].b]
	}
	for i := range m.coils {
		elements = append(elements, element{a: ends[i][0], b: ends[i][1], c: m.coils[i].farads.Typical})
	}
	elements = append(elements, element{a: hot, b: ground, g: 1 / m.input, c: m.cable})
	c.number(count, hot, ground, elements, ends)
	c.equations(hot, elements)
	return c
}

// elements lists what is between terminals besides coils, and the pairs of
// terminals that are as good as joined.
func (m *Model) elements(turn setting.Turn) ([]element, [][2]int) {
	var out []element
	var merged [][2]int
	resistor := func(a, b int, ohms float64) {
		switch {
		case ohms < wireOhms:
			merged = append(merged, [2]int{a, b})
		case !math.IsInf(ohms, 1):
			out = append(out, element{a: a, b: b, g: 1 / ohms})
		}
	}
	for i := range m.tracks {
		t := &m.tracks[i]
		upper, lower := t.halves(turn[t.knob])
		resistor(t.cw, t.wiper, upper.Typical)
		resistor(t.ccw, t.wiper, lower.Typical)
	}
	for _, t := range m.resistors {
		resistor(t.a, t.b, t.value.Typical)
	}
	for _, t := range m.caps {
		out = append(out, element{a: t.a, b: t.b, c: t.value.Typical})
	}
	return out, merged
}

// number gives a node to every net that can matter to the output: what hangs
// together with hot other than through ground, and what coupled coils lead to.
// An island that hangs on nothing but its coils' field has one net tied to
// ground, which changes nothing else.
func (c *circuit) number(count, hot, ground int, elements []element, ends [][2]int) {
	n := newIslands(count, ground)
	for _, e := range elements {
		if e.g != 0 || e.c != 0 {
			n.join(e.a, e.b)
		}
	}
	for i := range ends {
		if c.r.groupOf[i] >= 0 {
			n.join(ends[i][0], ends[i][1])
		}
	}
	c.reach(n, hot, ends)
	c.nodeOf = n.number()
	for i := range ends {
		c.ends[i] = [2]int{c.nodeOf[ends[i][0]], c.nodeOf[ends[i][1]]}
	}
}

// reach marks the islands that count: hot's own, and those that coupled coils
// lead to. It collects the coils that count.
func (c *circuit) reach(n *islands, hot int, ends [][2]int) {
	n.count(hot)
	done := make([]bool, len(c.r.groups))
	for again := true; again; {
		again = false
		for g := range c.r.groups {
			if done[g] || !n.touches(c.r.groups[g].coils, ends) {
				continue
			}
			done[g], again = true, true
			for _, k := range c.r.groups[g].coils {
				c.live = append(c.live, k)
				n.count(ends[k][0])
				n.count(ends[k][1])
			}
		}
	}
}

// equations makes the plan and the entries of the matrix.
func (c *circuit) equations(hot int, elements []element) {
	c.out = c.nodeOf[hot]
	b := &c.entries
	for _, e := range elements {
		b.element(c.nodeOf[e.a], c.nodeOf[e.b], e.g, e.c)
	}
	for at, i := range c.live {
		for _, j := range c.live[:at+1] {
			b.coils(c, i, j)
		}
	}
	nodes := 0
	for _, n := range c.nodeOf {
		nodes = max(nodes, n+1)
	}
	c.plan = linear.NewPlan(nodes, b.pairs, c.out)
	c.stamps = make([]stamp, c.plan.Slots())
	for i, p := range b.pairs {
		s := &c.stamps[c.plan.Slot(p[0], p[1])]
		s.g, s.c = s.g+b.g[i], s.c+b.c[i]
	}
	c.sortTerms(c.entries.terms)
}

// sortTerms puts the terms of each slot together, those of one table added up.
func (c *circuit) sortTerms(terms []pairTerm) {
	tables := 0
	for _, g := range c.r.groups {
		tables += len(g.coils) * (len(g.coils) + 1) / 2
	}
	sums := make([]float64, len(c.stamps)*tables)
	for _, t := range terms {
		sums[c.plan.Slot(t.i, t.j)*tables+t.table] += t.k
	}
	for slot := range c.stamps {
		c.stamps[slot].first = int32(len(c.terms))
		for table, k := range sums[slot*tables : (slot+1)*tables] {
			if k != 0 {
				c.terms = append(c.terms, term{slot, table, k})
			}
		}
		c.stamps[slot].end = int32(len(c.terms))
	}
}
