package route

import "slices"

// shakes is how often a wire is taken up with those that it crosses, and shaken
// how many of them at most.
const (
	shakes = 40
	shaken = 4
)

// shake takes up wires that cross others, with those that they cross, and lays
// them in random orders.
func (r *router) shake() (changed bool) {
	for k := 0; k < shakes && r.effort > 0 && r.free() > 1; k++ {
		pairs := r.crossingPairs()
		if len(pairs) == 0 {
			break
		}
		w := pairs[r.roll(len(pairs))][r.roll(2)]
		wires := []int{w}
		for _, p := range pairs {
			if p[0] == w || p[1] == w {
				wires = append(wires, p[0]+p[1]-w)
			}
		}
		r.shuffle(wires[1:])
		wires = wires[:min(len(wires), 1+shaken)]
		r.shuffle(wires)
		if g := r.group(wires...); len(g) > 1 && r.try(g, g) > 0 {
			changed = true
		}
	}
	return changed
}

// free counts the wires that may move.
func (r *router) free() int {
	n := 0
	for w := range r.wires {
		n += b2i(r.wires[w].Fix == nil)
	}
	return n
}

func (r *router) shuffle(wires []int) {
	for i := len(wires) - 1; i > 0; i-- {
		k := r.roll(i + 1)
		wires[i], wires[k] = wires[k], wires[i]
	}
}

// repair takes up a wire in conflict with those in its way and lays them in
// random orders.
func (r *router) repair() {
	for range repairs {
		bad := slices.DeleteFunc(r.order(), func(w int) bool { return !r.bad(w) })
		if len(bad) == 0 || r.effort < 0 {
			return
		}
		w := bad[r.roll(len(bad))]
		wires := append(r.near(w), w)
		r.shuffle(wires)
		g := r.group(wires...)
		r.try(g, g)
	}
}

func (r *router) bad(w int) bool {
	return !r.state[w].routed || r.conflicted(w)
}

// near lists up to four wires that a wire conflicts with, or any four when it
// has no path.
func (r *router) near(w int) []int {
	var out []int
	for v := range r.wires {
		if v == w || r.wires[v].Fix != nil || !r.state[v].routed {
			continue
		}
		before := r.conflicts(w)
		r.put(v, -1)
		after := r.conflicts(w)
		r.put(v, 1)
		if after < before || !r.state[w].routed && r.roll(3) == 0 {
			out = append(out, v)
		}
		if len(out) == 4 {
			break
		}
	}
	return out
}

// roll is a number below n (xorshift, Marsaglia 2003); the same every run.
func (r *router) roll(n int) int {
	r.random ^= r.random << 13
	r.random ^= r.random >> 7
	r.random ^= r.random << 17
	return int(r.random % uint64(n))
}
