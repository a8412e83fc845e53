package synthesis

// way is one way to make a sound: Class says, for each node of a list, which
// electrical node of the sound it must be. Class 0 is hot, 1 is ground.
type way struct {
	flip  int // +1 as wished, −1 the other common polarity, 0 either
	class []int
}

// demandOf lists the nodes that matter to a wish and the ways to make it. The
// ways of a sound that no order of its nodes allows are left out.
func (p *puzzle) demandOf(w *wish) (nodes []int, ways []way) {
	nodes = p.nodesOf(w)
	if w.never {
		return nodes, nil
	}
	index := map[int]int{}
	for i, n := range nodes {
		index[n] = i
	}
	flips := []int{1, -1}
	if w.free {
		flips = []int{0}
	}
	for _, flip := range flips {
		m := maker{p: p, wish: w, flip: flip, index: index, class: make([]int, len(nodes)), fresh: 2}
		m.clear()
		m.make(w.tree, 0, 1, func() {
			if !w.humOf || p.humCancels(w.tree, m.order) {
				ways = append(ways, way{flip, append([]int(nil), m.class...)})
			}
		})
	}
	return nodes, ways
}

// nodesOf lists the nodes that matter to a wish: hot, ground, the ends of its
// elements, pickups' own pots and tones that the switches hang on hot.
func (p *puzzle) nodesOf(w *wish) []int {
	nodes := []int{hot, ground}
	put := func(n int) {
		if !contains(nodes, n) {
			nodes = append(nodes, n)
		}
	}
	for _, e := range w.tree.elements() {
		put(p.elements[e].a)
		put(p.elements[e].b)
	}
	for _, q := range p.portsIn(w.tree) {
		put(q.in)
	}
	for _, l := range p.loads {
		if overlap(l.elements, w.tree.elements()) {
			put(l.node)
		}
	}
	return nodes
}

// portsIn lists the ports whose elements are in a sound.
func (p *puzzle) portsIn(t *tree) []port {
	var out []port
	in := t.elements()
	for _, q := range p.ports {
		if overlap(q.elements, in) {
			out = append(out, q)
		}
	}
	return out
}

func overlap(a, b []int) bool {
	for _, x := range a {
		for _, y := range b {
			if x == y {
				return true
			}
		}
	}
	return false
}

// maker walks through all ways of a sound. class[i] is −1 while node i is open.
type maker struct {
	p     *puzzle
	wish  *wish
	flip  int
	index map[int]int
	class []int
	fresh int
	order []int // element → orientation chosen, for hum
}

func (m *maker) clear() {
	for i := range m.class {
		m.class[i] = -1
	}
	m.class[0], m.class[1] = 0, 1
	for _, l := range m.p.loads {
		if i, in := m.index[l.node]; in && i > 1 {
			m.class[i] = 0
		}
	}
	m.order = make([]int, len(m.p.elements))
}

// with gives a node a class while next runs; a node that has another already
// ends this way.
func (m *maker) with(n, class int, next func()) {
	i := m.index[n]
	switch m.class[i] {
	case class:
		next()
	case -1:
		m.class[i] = class
		next()
		m.class[i] = -1
	}
}

// make lays a sound between two classes in every way and calls next for each.
func (m *maker) make(t *tree, top, bottom int, next func()) {
	next = m.withPort(t, top, next)
	switch {
	case t.leaf():
		m.leaf(t, top, bottom, next)
	case t.series:
		first := m.fresh
		m.fresh += len(t.kids) - 1
		m.chain(t, make([]bool, len(t.kids)), 0, first, top, bottom, next)
		m.fresh = first
	default:
		m.beside(t.kids, top, bottom, next)
	}
}

// withPort puts the in of a pickup's own pot at the top of its sound.
func (m *maker) withPort(t *tree, top int, next func()) func() {
	for _, q := range m.p.ports {
		if m.isWhole(t, q) {
			inner := next
			next = func() { m.with(q.in, top, inner) }
		}
	}
	return next
}

// isWhole reports whether a sound is all that a wish holds of a port's
// elements, and nothing else.
func (m *maker) isWhole(t *tree, q port) bool {
	n := 0
	for _, e := range m.wish.tree.elements() {
		if overlap([]int{e}, q.elements) {
			n++
		}
	}
	own := t.elements()
	for _, e := range own {
		if !overlap([]int{e}, q.elements) {
			return false
		}
	}
	return n > 0 && len(own) == n
}

func (m *maker) leaf(t *tree, top, bottom int, next func()) {
	e := m.p.elements[t.element]
	try := func(order int) {
		a, b := top, bottom
		if order < 0 {
			a, b = bottom, top
		}
		m.order[t.element] = order
		m.with(e.a, a, func() { m.with(e.b, b, next) })
	}
	if e.either || m.flip == 0 {
		try(1)
		try(-1)
		return
	}
	try(t.sign * e.sign * m.flip)
}

// beside lays the kids between the same two classes.
func (m *maker) beside(kids []*tree, top, bottom int, next func()) {
	if len(kids) == 0 {
		next()
		return
	}
	m.make(kids[0], top, bottom, func() { m.beside(kids[1:], top, bottom, next) })
}

// chain lays the kids in series, in every order. first is the class of the
// first junction.
func (m *maker) chain(t *tree, done []bool, n, first, top, bottom int, next func()) {
	if n == len(t.kids) {
		next()
		return
	}
	from, to := top, bottom
	if n > 0 {
		from = first + n - 1
	}
	if n < len(t.kids)-1 {
		to = first + n
	}
	for i, kid := range t.kids {
		if done[i] {
			continue
		}
		done[i] = true
		m.make(kid, from, to, func() { m.chain(t, done, n+1, first, top, bottom, next) })
		done[i] = false
	}
}
