package proof

import "loomwright/internal/sound"

// The way of the sound is the live elements that it goes through: the heard
// coils, and every other element on which it depends, with some choice of the
// others, whether a coil is heard. What is left out only loads: it takes level
// and brightness, and is no part of what is heard.

// way lists the elements of the way; none where no coil is heard.
func (n *network) way() []element {
	n.findWay()
	return n.through
}

// reduce is the way as one form between hot and ground; a network that is not
// series-parallel is a Mesh of its coils. nil: no coil is heard.
func (n *network) reduce() *form {
	n.findWay()
	return n.form
}

func (n *network) findWay() {
	if n.form != nil || !n.anyLive(coil) {
		return
	}
	keep := make([]bool, len(n.elements))
	for i, e := range n.elements {
		keep[i] = n.live[i] && e.kind == coil
	}
	if !n.hears(keep) { // the coils need other parts: mostly shrinking drops the loads
		if keep = n.live; n.shrink(n.branches(keep)) == nil {
			keep = n.needed()
		}
	}
	if n.form = n.shrink(n.branches(keep)); n.form == nil {
		n.form = n.mesh(keep)
	} else {
		keep = make([]bool, len(n.elements))
		n.form.mark(keep)
	}
	for i, e := range n.elements {
		if keep[i] {
			n.through = append(n.through, e)
		}
	}
}

// mark marks the elements of a form.
func (f *form) mark(elements []bool) {
	if f.op == sound.Name || f.op == sound.Through {
		elements[f.element] = true
	}
	for _, k := range f.kids {
		k.mark(elements)
	}
}

// hears reports whether all heard coils are heard with some elements alone.
func (n *network) hears(keep []bool) bool {
	edges := make([]edge, 0, len(keep)+1)
	var at []int
	for i, e := range n.elements {
		if keep[i] {
			edges, at = append(edges, e.edge), append(at, i)
		}
	}
	edges = append(edges, edge{n.hot, n.ground})
	in := blockOf(n.nets.Count, edges, len(at))
	heard := 0
	for k, i := range at {
		if in[k] && n.elements[i].kind == coil {
			heard++
		}
	}
	return heard == count(n.liveCoils())
}

// needed marks the way of a network that is not series-parallel: elements that
// are needed when all others are there; and where those are not enough,
// elements that are needed when as many others as can be are cut. A network too
// large to try is kept whole.
func (n *network) needed() []bool {
	if len(n.elements) > maxTried {
		return n.live
	}
	out, keep := make([]bool, len(n.elements)), make([]bool, len(n.elements))
	for i, e := range n.elements {
		copy(keep, n.live)
		keep[i] = false
		out[i] = n.live[i] && (e.kind == coil || !n.hears(keep))
	}
	if n.hears(out) {
		return out
	}
	alone := append([]bool(nil), out...)
	for i := range n.elements {
		if n.live[i] && !alone[i] {
			out[i] = n.neededLast(i, alone)
		}
	}
	return out
}

// maxTried bounds the elements that are tried one by one.
const maxTried = 200

func (n *network) neededLast(last int, alone []bool) bool {
	keep := append([]bool(nil), n.live...)
	for i := range keep {
		if i == last || alone[i] || !keep[i] {
			continue
		}
		keep[i] = false
		keep[i] = !n.hears(keep)
	}
	keep[last] = false
	return !n.hears(keep)
}
