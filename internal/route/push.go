package route

import "slices"

// softly is the pressure of a conflict while a wire looks for the lane that it
// would have if others made room, mm per mm; mostPushed is how many may have to.
const (
	softly     = 1.2 * unit
	mostPushed = 4
)

// pushes lets every wire, the dearest first, take the lane that it wants, and
// lays those that are in its way anew.
func (r *router) pushes() (gain int32) {
	for _, w := range r.byCost() {
		if r.effort < 0 {
			break
		}
		if g := r.group(w); len(g) > 0 {
			gain += r.attempt(attempt{a: w, b: w, way: pushed}, func() int32 { return r.push(g) })
		}
	}
	return gain
}

// push lays a group where it would like to lie, and what is in its way after it.
func (r *router) push(group []int) int32 {
	_, was := r.take(group)
	r.pressure = softly
	_, ok := r.again(group, noLimit)
	r.pressure = hard
	if !ok {
		r.restore(was)
		return 0
	}
	others := r.inTheWayOf(group)
	for _, w := range slices.Backward(group) {
		r.lift(w)
	}
	want := r.lanes(group)
	r.restore(was)
	if len(others) == 0 || len(others) > mostPushed {
		return 0
	}
	all := r.group(append(slices.Clone(group), others...)...)
	return r.give(group, want, all)
}

// lanes are where a group lies, in its order.
func (r *router) lanes(group []int) []kept {
	out := make([]kept, len(group))
	for i, w := range group {
		out[i] = kept{w, r.state[w]}
	}
	return out
}

// give lays a group in given lanes and the rest of all after it, if that is
// cheaper.
func (r *router) give(group []int, lanes []kept, all []int) int32 {
	cost, was := r.take(all)
	sum := int32(0)
	for _, k := range lanes {
		r.state[k.wire] = k.state
		r.state[k.wire].routed = true
		sum += r.costOf(k.wire)
		r.put(k.wire, 1)
	}
	rest := slices.DeleteFunc(slices.Clone(all), func(w int) bool { return slices.Contains(group, w) })
	left, ok := r.again(rest, cost-sum)
	if !ok {
		for _, w := range slices.Backward(group) {
			r.lift(w)
		}
		r.restore(was)
		return 0
	}
	r.moved(was)
	return left
}

// inTheWayOf lists the wires that some laid wires conflict with, each without
// those that end on it.
func (r *router) inTheWayOf(group []int) []int {
	var out []int
	for _, w := range group {
		for v := range r.wires {
			if r.wires[v].Fix != nil || !r.state[v].routed || slices.Contains(group, v) || slices.Contains(out, v) {
				continue
			}
			before := r.conflicts(w)
			if before == 0 {
				break
			}
			r.put(v, -1)
			if r.conflicts(w) < before {
				out = append(out, v)
			}
			r.put(v, 1)
		}
	}
	return out
}
