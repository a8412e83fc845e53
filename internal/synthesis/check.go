package synthesis

import (
	"slices"
)

// meets checks a solution without the solver: every setting's nets by merging,
// every wish by its ways. It guards solutions that are put together from parts,
// and everything that is handed out.
func (p *puzzle) meets(s solution) bool {
	if p.limited && p.crowded(s) > 0 {
		return false
	}
	for _, flip := range []int{1, -1} {
		if p.fixed && flip < 0 {
			continue
		}
		ok := true
		for i := range p.settings {
			if ok = ok && p.met(i, p.nets(s, p.contacts(p.settings[i].at)), flip); !ok {
				break
			}
		}
		if ok {
			return p.throughPorts(s)
		}
	}
	return false
}

// nets merges a solution's nets by groups of contacts.
func (p *puzzle) nets(s solution, groups [][]int) []int {
	out := slices.Clone(s)
	for _, g := range groups {
		for _, x := range g[1:] {
			mergeBlocks(out, out[g[0]], out[x])
		}
	}
	return out
}

func (p *puzzle) met(i int, net []int, flip int) bool {
	set := &p.settings[i]
	switch {
	case set.wish == anything:
		return true
	case set.wish == nothing:
		return net[hot] != net[ground]
	}
	w := &p.wishes[set.wish]
	if w.tree == nil {
		return p.quiet(w, net)
	}
	if p.countWays(w) > 1000*mostWays {
		return false // too many to look through: not held to be met
	}
	nodes, ways := p.demandOf(w)
	fits := slices.ContainsFunc(ways, func(v way) bool { return v.flip != -flip && v.holds(nodes, net) })
	return fits && p.apartFromRest(w, nodes, net) && p.unloaded(w, net)
}

func (v *way) holds(nodes, net []int) bool {
	for i, x := range nodes {
		for k, y := range nodes[:i] {
			if (v.class[i] == v.class[k]) != (net[x] == net[y]) {
				return false
			}
		}
	}
	return true
}

// quiet reports whether nothing is heard, and hot not shorted where that must
// not be.
func (p *puzzle) quiet(w *wish, net []int) bool {
	if net[hot] == net[ground] {
		return !w.open
	}
	return p.allQuiet(nil, nil, net) && p.unloaded(w, net)
}

// allQuiet reports whether all elements but the heard ones stay out of the sound.
func (p *puzzle) allQuiet(heard, active, net []int) bool {
	for i, x := range p.elements {
		switch {
		case slices.Contains(heard, i) || net[x.a] == net[x.b]:
		case x.part:
			if !p.cleanEnd(x.a, net) && !p.cleanEnd(x.b, net) {
				return false
			}
		case p.touchesSound(x.a, active, net) || p.touchesSound(x.b, active, net):
			return false
		}
	}
	return true
}

func (p *puzzle) touchesSound(lead int, active, net []int) bool {
	return net[lead] == net[hot] || slices.ContainsFunc(active, func(q int) bool {
		return q > ground && net[lead] == net[q] && net[q] != net[ground]
	})
}

func (p *puzzle) cleanEnd(lead int, net []int) bool {
	return !slices.ContainsFunc(p.coilNodes(), func(q int) bool { return q != lead && net[q] == net[lead] })
}

// apartFromRest reports whether the elements that are not wished for stay out.
func (p *puzzle) apartFromRest(w *wish, active, net []int) bool {
	heard := w.tree.elements()
	if p.hanging {
		through := slices.Clone(net)
		for i, x := range p.elements {
			if !slices.Contains(heard, i) {
				mergeBlocks(through, through[x.a], through[x.b])
			}
		}
		return samePairs(active, net, through)
	}
	return p.allQuiet(heard, active, net)
}

// unloaded reports whether the tones of pickups that are not heard stay off.
func (p *puzzle) unloaded(w *wish, net []int) bool {
	for _, l := range p.loads {
		if overlap(l.elements, w.tree.elements()) {
			continue
		}
		for _, q := range p.coilNodes() {
			if net[l.node] == net[q] {
				return false
			}
		}
	}
	return true
}

func samePairs(nodes, a, b []int) bool {
	for i, x := range nodes {
		for _, y := range nodes[:i] {
			if (a[x] == a[y]) != (b[x] == b[y]) {
				return false
			}
		}
	}
	return true
}

// throughPorts reports whether every pickup with a pot of its own is heard
// through that pot alone.
func (p *puzzle) throughPorts(s solution) bool {
	for i := range p.settings {
		if p.settings[i].wish < 0 {
			continue
		}
		for _, q := range p.portsIn(p.wishes[p.settings[i].wish].tree) {
			if q.in != q.out && !p.alone(q, p.nets(s, withoutGroup(p.contacts(p.settings[i].at), q.in, q.out))) {
				return false
			}
		}
	}
	return true
}

// alone reports whether a port's in meets no port but its own coils' ends.
func (p *puzzle) alone(q port, net []int) bool {
	for x, n := range p.nodes {
		if n.role == portNode && net[x] == net[q.in] && !p.owns(q, x) {
			return false
		}
	}
	return true
}

func (p *puzzle) owns(q port, x int) bool {
	return x == q.in || slices.ContainsFunc(q.elements, func(i int) bool { return p.elements[i].a == x || p.elements[i].b == x })
}

func withoutGroup(groups [][]int, a, b int) [][]int {
	return slices.DeleteFunc(slices.Clone(groups), func(g []int) bool { return len(g) == 2 && g[0] == a && g[1] == b })
}
