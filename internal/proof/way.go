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

// maxTried and maxTogether bound the elements that are tried one by one and in
// every choice.
const (
	maxTried    = 200
	maxTogether = 10
)

// needed marks the way of a network that is not series-parallel: elements that
// are needed when all others are there; and where those are not enough, every
// element on which it depends, with some choice of the rest, whether all is
// heard. A network too large to try is kept whole.
func (n *network) needed() []bool {
	if len(n.elements) > maxTried {
		return n.live
	}
	out, keep := make([]bool, len(n.elements)), make([]bool, len(n.elements))
	var rest []int
	for i, e := range n.elements {
		copy(keep, n.live)
		keep[i] = false
		out[i] = n.live[i] && (e.kind == coil || !n.hears(keep))
		if n.live[i] && !out[i] {
			rest = append(rest, i)
		}
	}
	switch {
	case n.hears(out):
		return out
	case len(rest) > maxTogether:
		return n.live
	}
	for at, on := range n.decisive(out, rest) {
		out[rest[at]] = on
	}
	return out
}

// decisive marks the elements of rest that make the difference with some choice
// of the others of rest, on top of what is there anyway.
func (n *network) decisive(always []bool, rest []int) []bool {
	heard := make([]bool, 1<<len(rest))
	keep := append([]bool(nil), always...)
	for choice := range heard {
		for at, i := range rest {
			keep[i] = choice>>at&1 == 1
		}
		heard[choice] = n.hears(keep)
	}
	out := make([]bool, len(rest))
	for choice, h := range heard {
		for at := range rest {
			out[at] = out[at] || !h && heard[choice|1<<at]
		}
	}
	return out
}
