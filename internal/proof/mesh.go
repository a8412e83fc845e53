package proof

import "loomwright/internal/sound"

// mesh is the form of a network that is not series-parallel: its coils, each
// with the way round in which the sound passes it. A coil that is passed both
// ways, like the middle of a bridge, has no sign: it depends on ohms.
func (n *network) mesh(keep []bool) *form {
	w := walker{n: n, keep: keep, seen: make([]bool, n.nets.Count), budget: maxSteps}
	w.forward, w.back = make([]bool, len(keep)), make([]bool, len(keep))
	w.seen[n.hot] = true
	w.walk(n.hot)
	out := &form{op: sound.Mesh}
	for i, e := range n.elements {
		if !keep[i] || e.kind != coil {
			continue
		}
		leaf := &form{op: sound.Name, element: i}
		switch {
		case w.budget < 0:
		case w.forward[i] && !w.back[i]:
			leaf.order = 1
		case w.back[i] && !w.forward[i]:
			leaf.order = -1
		}
		out.kids = append(out.kids, leaf)
	}
	return out
}

// maxSteps bounds the walk through a mesh; past it nothing is told of signs.
const maxSteps = 20000

// walker goes every simple path from hot to ground and marks which way each
// element is passed.
type walker struct {
	n             *network
	keep          []bool
	seen          []bool
	path          []step
	forward, back []bool
	budget        int
}

type step struct {
	at      int // element
	forward bool
}

func (w *walker) walk(net int) {
	if w.budget--; w.budget < 0 {
		return
	}
	if net == w.n.ground {
		for _, s := range w.path {
			w.forward[s.at] = w.forward[s.at] || s.forward
			w.back[s.at] = w.back[s.at] || !s.forward
		}
		return
	}
	for i, e := range w.n.elements {
		to := e.a + e.b - net
		if !w.keep[i] || e.a != net && e.b != net || w.seen[to] {
			continue
		}
		w.seen[to] = true
		w.path = append(w.path, step{i, e.a == net})
		w.walk(to)
		w.path = w.path[:len(w.path)-1]
		w.seen[to] = false
	}
}
