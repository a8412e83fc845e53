package synthesis

import (
	"fmt"
	"slices"
)

// spec is a part of a task that is searched on its own.
type spec struct {
	elements []int // coils of the task
	through  []int // modules whose own switching is searched elsewhere: one element each, from out to ground
	own      []int // modules searched here as a whole: their coils are among the elements
	switches []int // places in the task's list of switches
	hot      int   // terminal
	settings []asked
	fixed    bool
	hum      bool // demands of hum are this spec's: it holds all coils
	flip     int  // −1: all elements upside down
}

// builder turns a spec into a puzzle.
type builder struct {
	t     *task
	spec  *spec
	p     *puzzle
	piece map[int]int // piece of metal → node
	terms [][]int     // node → terminals
}

// build makes the puzzle, and says which terminals each of its nodes is.
func (t *task) build(s *spec) (*puzzle, [][]int) {
	b := &builder{t: t, spec: s, p: &puzzle{fixed: s.fixed, hanging: t.opt.Hanging, limited: t.opt.WiresPerLug > 0}, piece: map[int]int{}}
	b.node(s.hot, portNode)
	b.node(t.g.Ground, portNode)
	b.elements()
	b.ports()
	b.loads()
	b.lugs()
	for _, i := range s.switches {
		b.selector(i)
	}
	b.pots()
	b.describe()
	b.asks()
	return b.p, b.terms
}

// node gives a terminal's piece of metal a node.
func (b *builder) node(term int, r role) int {
	piece := b.t.piece(term)
	if n, ok := b.piece[piece]; ok {
		return n
	}
	n := len(b.p.nodes)
	b.piece[piece] = n
	members := b.t.members(piece)
	b.p.nodes = append(b.p.nodes, node{role: r, sealed: true, alone: len(members) == 1})
	b.terms = append(b.terms, members)
	for _, x := range members {
		if b.t.solderable(x) && b.t.control(x) < 0 {
			b.p.nodes[n].sealed = false
		}
	}
	return n
}

func (b *builder) elements() {
	for _, i := range b.spec.elements {
		c := b.t.coils[i].element
		c.a, c.b = b.node(c.a, portNode), b.node(c.b, portNode)
		c.sign *= b.sign()
		b.p.elements = append(b.p.elements, c)
	}
	for _, m := range b.spec.through {
		mod := &b.t.modules[m]
		b.p.elements = append(b.p.elements, element{name: b.t.g.Loom.Uses[mod.use].Name,
			a: b.node(mod.out, portNode), b: ground, either: true})
	}
}

func (b *builder) sign() int {
	if b.spec.flip < 0 {
		return -1
	}
	return 1
}

// ports adds the pots of pickups that are searched here as a whole.
func (b *builder) ports() {
	for _, m := range b.spec.own {
		mod := &b.t.modules[m]
		q := port{in: b.node(mod.in, portNode), out: b.node(mod.out, portNode)}
		for i, e := range b.spec.elements {
			if b.t.coils[e].use == mod.use {
				q.elements = append(q.elements, i)
			}
		}
		if q.in != q.out {
			b.p.always = append(b.p.always, []int{q.in, q.out})
		}
		b.p.ports = append(b.p.ports, q)
	}
}

// pots joins, in every setting, nodes that are one net with all pots at 10
// because the file has joined something behind a pot. A pickup's own pot is a
// port, and is joined there.
func (b *builder) pots() {
	atTen := b.t.atTen()
	first := map[int]int{}
	for n, members := range b.terms {
		net := atTen.piece(members[0])
		k, met := first[net]
		switch {
		case !met:
			first[net] = n
		case !b.isPort(k, n):
			b.p.always = append(b.p.always, []int{k, n})
		}
	}
}

func (b *builder) isPort(x, y int) bool {
	return slices.ContainsFunc(b.p.ports, func(q port) bool {
		return q.in == min(x, y) && q.out == max(x, y) || q.in == max(x, y) && q.out == min(x, y)
	})
}

// loads adds the tones that the switches hang on hot, where the spec has their
// pickups' coils.
func (b *builder) loads() {
	for _, m := range b.t.hung {
		l := load{node: -1}
		for i, e := range b.spec.elements {
			if b.t.coils[e].use == m.use {
				l.elements = append(l.elements, i)
			}
		}
		if len(l.elements) > 0 {
			l.node = b.node(m.in, portNode)
			b.p.loads = append(b.p.loads, l)
		}
	}
}

// lugs adds the terminals of switches: commons, then throws.
func (b *builder) lugs() {
	var commons, throws []int
	for _, i := range b.spec.switches {
		for _, contacts := range b.t.g.Switches[b.t.switches[i]].Contacts {
			c, rest := splitPole(contacts)
			commons, throws = append(commons, c...), append(throws, rest...)
		}
	}
	// Lugs that are joined already count with the commons.
	several := map[int]bool{}
	for _, x := range append(slices.Clone(commons), throws...) {
		if len(b.t.members(b.t.piece(x))) > 1 {
			several[x] = true
		}
	}
	for _, x := range append(commons, throws...) {
		if several[x] && b.useful(x) {
			b.p.nodes[b.node(x, commonNode)].several = true
		}
	}
	for _, x := range commons {
		if b.useful(x) {
			b.node(x, commonNode)
		}
	}
	for _, x := range throws {
		if b.useful(x) {
			b.node(x, throwNode)
		}
	}
}

// useful reports whether a lug can take part: it can be soldered, or has been.
func (b *builder) useful(x int) bool {
	return b.t.solderable(x) || len(b.t.members(b.t.piece(x))) > 1
}

// splitPole finds the terminals that every group of a pole holds, of which the
// first is its common, and the others.
func splitPole(contacts [][][]int) (common, throws []int) {
	var all []int
	groups := 0
	count := map[int]int{}
	for _, position := range contacts {
		for _, g := range position {
			groups++
			for _, x := range g {
				if count[x]++; count[x] == 1 {
					all = append(all, x)
				}
			}
		}
	}
	for _, x := range all {
		if count[x] == groups && len(common) == 0 {
			common = append(common, x)
		} else {
			throws = append(throws, x)
		}
	}
	slices.Sort(throws)
	return common, throws
}

// selector adds a switch.
func (b *builder) selector(i int) {
	sw := &b.t.g.Switches[b.t.switches[i]]
	s := selector{positions: len(sw.Positions), closed: make([][][]int, len(sw.Positions)), travel: sw.Travel, around: sw.Around, plain: true}
	for _, contacts := range sw.Contacts {
		closed := make([][][]int, len(contacts))
		for pos, groups := range contacts {
			for _, g := range groups {
				if nodes := b.group(g); len(nodes) > 1 {
					closed[pos] = append(closed[pos], nodes)
				}
			}
			s.closed[pos] = append(s.closed[pos], closed[pos]...)
		}
		if p, ok := b.pole(closed); ok {
			s.poles = append(s.poles, p)
		}
	}
	for _, q := range s.poles {
		for _, x := range append([]int{q.common}, q.throws...) {
			if !b.p.movable(x) {
				s.plain = false
			}
		}
	}
	b.p.switches = append(b.p.switches, s)
}

// group turns terminals into nodes, without those that nothing can reach.
func (b *builder) group(terms []int) []int {
	var out []int
	for _, x := range terms {
		if n, ok := b.piece[b.t.piece(x)]; ok && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// pole describes a pole to the rules.
func (b *builder) pole(closed [][][]int) (pole, bool) {
	common, throws := splitPole(closed)
	if len(common)+len(throws) == 0 {
		return pole{}, false
	}
	p := pole{throws: throws, regular: len(common) == 1, common: -1, when: make([][]int, len(throws))}
	if p.regular {
		p.common = common[0]
	}
	for pos, groups := range closed {
		for _, g := range groups {
			for k, x := range throws {
				if slices.Contains(g, x) && !slices.Contains(p.when[k], pos) {
					p.when[k] = append(p.when[k], pos)
				}
			}
		}
	}
	p.table = fmt.Sprint(p.when)
	return p, true
}

// describe counts what each node can take and which parts it is of.
func (b *builder) describe() {
	uses := map[int]bool{}
	for _, i := range b.spec.switches {
		uses[b.t.g.Switches[b.t.switches[i]].Use] = true
	}
	for n, members := range b.terms {
		d := &b.p.nodes[n]
		for _, x := range members {
			term := &b.t.g.Terms[x]
			if uses[term.Use] && !slices.Contains(d.parts, term.Use) {
				d.parts = append(d.parts, term.Use)
			}
			switch {
			case !b.t.solderable(x) || d.spare < 0:
			case b.t.roomy(x):
				d.lugs, d.spare = d.lugs+1, -1
			case b.t.isLug(x):
				d.lugs, d.spare = d.lugs+1, d.spare+max(0, b.t.wiresPerLug()-b.t.wires[x])
			}
		}
	}
}
