package leads

import "slices"

// guess is one way in which a pickup can be: which node each probe is on, which
// coil is open (−1: none), whether the coils' taps go as the design says.
type guess struct {
	node []int // by probe; nodes from len(design.nodes) on: the shield, the plate
	open int
	tied bool // the shield is one with a coil end
}

// shield and plateNode are nodes beside those of a design.
func (d *design) shield() int    { return len(d.nodes) }
func (d *design) plateNode() int { return len(d.nodes) + 1 }

// healthy lists all ways in which a sound pickup can be.
func healthy(p *Pickup) []guess {
	d := designs[p.Make]
	nodes := make([]int, d.leads)
	for i := range nodes {
		nodes[i] = i
	}
	if p.Hidden {
		nodes = append(nodes, d.shield())
	}
	var out []guess
	permute(nodes, func(order []int) {
		g := guess{node: slices.Clone(order), open: -1}
		if p.Bare != "" {
			g.node = append(g.node, d.shield())
		}
		if p.Plate {
			g.node = append(g.node, d.plateNode())
			if p.Bare != "" || p.Hidden {
				g.node[len(g.node)-1] = d.shield() // one piece with the shield
			}
		}
		out = append(out, g)
	})
	return out
}

// permute visits all orders of a list.
func permute(list []int, visit func([]int)) {
	var walk func(k int)
	walk = func(k int) {
		if k == len(list) {
			visit(list)
			return
		}
		for i := k; i < len(list); i++ {
			list[k], list[i] = list[i], list[k]
			walk(k + 1)
			list[k], list[i] = list[i], list[k]
		}
	}
	walk(0)
}

// unsound lists the ways in which a pickup with something amiss can be: a coil
// open, the shield tied to a coil end, or the baseplate on nothing, or two of
// them.
func unsound(p *Pickup) []guess {
	d := designs[p.Make]
	var out []guess
	for _, g := range healthy(p) {
		for _, t := range append([]guess{g}, tiedOf(p, &d, g)...) {
			for _, loose := range []bool{false, true} {
				l := t
				if loose {
					if !p.Plate || p.Bare == "" && !p.Hidden {
						continue
					}
					l.node = slices.Clone(t.node)
					l.node[len(l.node)-1] = d.plateNode()
				}
				for open := -1; open < len(d.coils); open++ {
					o := l
					o.open = open
					out = append(out, o)
				}
			}
		}
	}
	return out
}

// tiedOf puts the shield, and the plate with it, on each coil end that has a
// lead. Without a shield of its own it is the plate that may be there: a pickup
// of one lead in a braid.
func tiedOf(p *Pickup, d *design, g guess) []guess {
	if p.Hidden || p.Bare == "" && !p.Plate {
		return nil
	}
	var out []guess
	for n := range d.leads {
		t := guess{node: slices.Clone(g.node), open: g.open, tied: true}
		for i, x := range t.node {
			if x >= d.shield() {
				t.node[i] = n
			}
		}
		out = append(out, t)
	}
	return out
}

// between lists the coils on the way from one node to another, in order; none
// where the two are one, ok is false where there is no way.
func (d *design) between(g *guess, a, b int) (coils []int, ok bool) {
	if a == b {
		return nil, true
	}
	from := map[int]int{a: -1} // the coil by which a node was reached
	for queue := []int{a}; len(queue) > 0; queue = queue[1:] {
		for i, c := range d.coils {
			p, q := c.up, c.down
			if q == queue[0] {
				p, q = q, p
			}
			if _, seen := from[q]; i == g.open || p != queue[0] || seen {
				continue
			}
			from[q] = i
			queue = append(queue, q)
		}
	}
	if _, ok := from[b]; !ok {
		return nil, false
	}
	for at := b; at != a; {
		c := d.coils[from[at]]
		coils = append(coils, from[at])
		at = c.up + c.down - at
	}
	slices.Reverse(coils)
	return coils, true
}
