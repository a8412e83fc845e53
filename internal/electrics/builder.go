package electrics

// builder collects the entries of a nodal matrix.
type builder struct {
	pairs [][2]int
	g, c  []float64
	terms []pairTerm
}

// pairTerm adds k times a table at entry (i, j).
type pairTerm struct {
	i, j, table int
	k           float64
}

func (b *builder) add(i, j int, g, c float64) {
	if i >= 0 && j >= 0 {
		b.pairs = append(b.pairs, [2]int{i, j})
		b.g, b.c = append(b.g, g), append(b.c, c)
	}
}

// element stamps a conductance and a capacitance between two nodes.
func (b *builder) element(i, j int, g, c float64) {
	if i == j {
		return
	}
	b.add(i, i, g, c)
	b.add(j, j, g, c)
	b.add(i, j, -g, -c)
}

// coils stamps what two live coils' voltages do to their currents: entry (i, j)
// of the admittance matrix of their group, if they are in one.
func (b *builder) coils(c *circuit, i, j int) {
	r := c.r
	if r.groupOf[i] != r.groupOf[j] {
		return
	}
	table := r.groups[r.groupOf[i]].entry(r.inGroup[i], r.inGroup[j])
	for from, sign := range [2]float64{1, -1} {
		for to, other := range [2]float64{1, -1} {
			b.term(c.ends[i][from], c.ends[j][to], table, sign*other, i == j)
		}
	}
}

// term adds k times a table at entry (i, j) of the symmetric matrix. The stamp
// of a coil with itself has both of its off-diagonal halves already; that of
// two coils stands for its mirror image too.
func (b *builder) term(i, j, table int, k float64, self bool) {
	if i < 0 || j < 0 {
		return
	}
	b.add(i, j, 0, 0)
	switch {
	case self && i != j:
		k /= 2 // visited once from each end
	case !self && i == j:
		k *= 2
	}
	b.terms = append(b.terms, pairTerm{i, j, table, k})
}
