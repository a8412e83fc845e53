package proof

// way lists the live elements that the sound goes through: the heard coils, and
// every other element on which it depends, with some choice of the others,
// whether a coil is heard. What is left out only loads: it takes level and
// brightness, and is no part of what is heard.
func (n *network) way() []element {
	if n.through != nil || !n.anyLive(coil) {
		return n.through
	}
	w := wayFinder{n: n, keep: make([]bool, len(n.elements))}
	for i, in := range w.needed() {
		if in {
			n.through = append(n.through, n.elements[i])
		}
	}
	return n.through
}

// wayFinder tries which elements can be left out.
type wayFinder struct {
	n    *network
	keep []bool
}

// needed marks the elements of the way. Mostly the coils need nothing else, or
// each other element is needed or not by itself; only where parts lie side by
// side does it depend on the others.
func (w *wayFinder) needed() []bool {
	n := w.n
	out := make([]bool, len(n.elements))
	var others []int
	for i, e := range n.elements {
		out[i] = n.live[i] && e.kind == coil
		if n.live[i] && e.kind != coil {
			others = append(others, i)
		}
	}
	if w.hears(out) {
		return out
	}
	for _, i := range others {
		out[i] = !w.hearsBut(i)
	}
	if w.hears(out) {
		return out
	}
	alone := append([]bool(nil), out...)
	for _, i := range others {
		out[i] = out[i] || w.neededLast(i, others, alone)
	}
	return out
}

// hears reports whether all heard coils are heard with some elements alone.
func (w *wayFinder) hears(keep []bool) bool {
	edges := make([]edge, 0, len(keep)+1)
	var at []int
	for i, e := range w.n.elements {
		if keep[i] {
			edges, at = append(edges, e.edge), append(at, i)
		}
	}
	edges = append(edges, edge{w.n.hot, w.n.ground})
	for k, in := range blockOf(w.n.nets.Count, edges, len(edges)-1)[:len(at)] {
		if !in && w.n.elements[at[k]].kind == coil {
			return false
		}
	}
	return true
}

// hearsBut reports whether all are heard with one element cut.
func (w *wayFinder) hearsBut(cut int) bool {
	copy(w.keep, w.n.live)
	w.keep[cut] = false
	return w.hears(w.keep)
}

// neededLast cuts as many others as can be, and reports whether then an element
// is needed.
func (w *wayFinder) neededLast(last int, others []int, alone []bool) bool {
	copy(w.keep, w.n.live)
	for _, i := range others {
		if i == last || alone[i] {
			continue
		}
		w.keep[i] = false
		if !w.hears(w.keep) {
			w.keep[i] = true
		}
	}
	w.keep[last] = false
	return !w.hears(w.keep)
}
