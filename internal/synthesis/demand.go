package synthesis

import (
	"slices"

	"loomwright/internal/sat"
)

// setting encodes what one setting demands.
func (e *encoding) setting(i int) {
	set := &e.p.settings[i]
	e.demand = append(e.demand, demanded{})
	if set.wish == anything {
		return
	}
	groups := e.p.contacts(set.at)
	r := e.reach(groups, e.portNodes())
	if set.wish == nothing {
		e.s.AddClause(e.upon.Not(), r[hot][ground].Not())
		return
	}
	e.demand[i] = e.require(groups, r, &e.p.wishes[set.wish], e.wanted[set.wish])
}

func (e *encoding) portNodes() []int {
	out := make([]int, e.ports())
	for i := range out {
		out[i] = i
	}
	return out
}

// require demands, under a guard, that a wish be heard where the nets are r.
func (e *encoding) require(groups [][]int, r relation, w *wish, guard sat.Lit) demanded {
	if w.tree == nil {
		e.silence(w, r, guard)
		return demanded{}
	}
	d := demanded{}
	if e.p.listed(w) {
		d.nodes, d.ways = e.p.demandOf(w)
		e.oneOf(r, d, guard)
	} else {
		d.nodes = e.p.nodesOf(w)
		d.need = len(d.nodes) - e.structured(r, w, d.nodes, guard)
	}
	e.rest(groups, r, w, d.nodes, guard)
	e.unload(r, w, guard)
	for _, q := range e.p.portsIn(w.tree) {
		e.cut(groups, q, guard)
	}
	if len(d.ways) > 0 {
		d.need = len(d.nodes) - classes(d.ways[0].class)
	}
	return d
}

func classes(class []int) int {
	sorted := slices.Clone(class)
	slices.Sort(sorted)
	return len(slices.Compact(sorted))
}

// oneOf demands that the nodes be joined in one of the ways, exactly so.
func (e *encoding) oneOf(r relation, d demanded, guard sat.Lit) {
	choice := make([]sat.Lit, len(d.ways))
	for i, w := range d.ways {
		choice[i] = e.s.NewVar()
		switch w.flip {
		case 1:
			e.s.AddClause(choice[i].Not(), e.flip)
		case -1:
			e.s.AddClause(choice[i].Not(), e.flip.Not())
		}
	}
	e.s.AddClause(append([]sat.Lit{guard.Not()}, choice...)...)
	for i, x := range d.nodes {
		for k, y := range d.nodes[:i] {
			joined, apart := []sat.Lit{guard.Not(), r[x][y].Not()}, []sat.Lit{guard.Not(), r[x][y]}
			for c, w := range d.ways {
				if w.class[i] == w.class[k] {
					joined = append(joined, choice[c])
					e.s.AddClause(choice[c].Not(), r[x][y])
				} else {
					apart = append(apart, choice[c])
					e.s.AddClause(choice[c].Not(), r[x][y].Not())
				}
			}
			e.s.AddClause(joined...)
			e.s.AddClause(apart...)
		}
	}
}

// rest keeps the elements that are not wished for out of what is heard.
func (e *encoding) rest(groups [][]int, r relation, w *wish, active []int, guard sat.Lit) {
	heard := w.tree.elements()
	if e.p.hanging {
		e.apartThroughRest(groups, r, heard, active, guard)
		return
	}
	for i := range e.p.elements {
		if !slices.Contains(heard, i) {
			e.quiet(r, i, active, guard)
		}
	}
}

// quiet keeps one element out of the sound. A coil is shorted, or touches no net
// of the sound but ground, lest it be an aerial. A part is shorted, or has an end
// that nothing else is joined to.
func (e *encoding) quiet(r relation, i int, active []int, guard sat.Lit) {
	x := &e.p.elements[i]
	shorted := r[x.a][x.b]
	if x.part {
		e.s.AddClause(guard.Not(), shorted, e.clean(r, x.a), e.clean(r, x.b))
		return
	}
	for _, lead := range []int{x.a, x.b} {
		e.s.AddClause(guard.Not(), shorted, r[lead][hot].Not())
		for _, q := range active {
			if q > ground {
				e.s.AddClause(guard.Not(), shorted, r[lead][q].Not(), r[q][ground])
			}
		}
	}
}

// clean is a literal that is true when a node meets no other end of an element,
// nor hot, nor ground.
func (e *encoding) clean(r relation, lead int) sat.Lit {
	var meets []sat.Lit
	for _, q := range e.p.coilNodes() {
		if q != lead {
			meets = append(meets, r[lead][q])
		}
	}
	return e.g.Or(meets...).Not()
}

// unload keeps the tones of pickups that are not heard off hot, off every coil
// and off ground: tones may share a capacitor, through which a coil would be
// heard, or the tone at work be loaded.
func (e *encoding) unload(r relation, w *wish, guard sat.Lit) {
	for _, l := range e.p.loads {
		if overlap(l.elements, w.tree.elements()) {
			continue
		}
		for _, q := range e.p.coilNodes() {
			e.s.AddClause(guard.Not(), r[l.node][q].Not())
		}
	}
}

// apartThroughRest lets silent elements hang anywhere as long as they join no
// two nets of the sound, alone or in a row.
func (e *encoding) apartThroughRest(groups [][]int, r relation, heard, active []int, guard sat.Lit) {
	for i, x := range e.p.elements {
		if !slices.Contains(heard, i) && x.a != x.b {
			groups = append(groups[:len(groups):len(groups)], []int{x.a, x.b})
		}
	}
	through := e.reach(groups, e.portNodes())
	for i, x := range active {
		for _, y := range active[:i] {
			e.s.AddClause(guard.Not(), through[x][y].Not(), r[x][y])
		}
	}
}

// silence demands that hot be shorted, or that no coil reach it; hot may have to
// stay open for what else is joined to it.
func (e *encoding) silence(w *wish, r relation, guard sat.Lit) {
	if w.open {
		e.s.AddClause(guard.Not(), r[hot][ground].Not())
	}
	guard = e.g.And(guard, r[hot][ground].Not())
	for i := range e.p.elements {
		e.quiet(r, i, nil, guard)
	}
	e.unload(r, w, guard)
}

// cut demands that a pickup be heard through its own pot alone: with the pot
// cut its hot end meets nothing else.
func (e *encoding) cut(groups [][]int, q port, guard sat.Lit) {
	if q.in == q.out {
		return
	}
	r := e.reach(withoutGroup(groups, q.in, q.out), e.portNodes())
	for _, x := range e.portNodes() {
		if !e.p.owns(q, x) {
			e.s.AddClause(guard.Not(), r[q.in][x].Not())
		}
	}
}
