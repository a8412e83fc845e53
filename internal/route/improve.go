package route

import (
	"cmp"
	"slices"
)

// Improvement: wires are taken up and laid again, alone, in crossing pairs and
// with swapped slots, and the change is kept only when the whole gets cheaper.
const (
	passes  = 4
	repairs = 60
)

func (r *router) improve() {
	if r.free() < 2 {
		return // it lies as well as it can
	}
	for range passes {
		before := r.effort
		gain := r.alone() + r.pairs() + r.swaps()
		if r.prices.push {
			gain += r.pushes()
		}
		if gain == 0 || r.effort < 0 || before == r.effort {
			break
		}
	}
	r.repair()
	if r.shake() {
		r.alone()
		r.swaps()
	}
}

// kept is a wire's place, to go back to.
type kept struct {
	wire  int
	state wireState
}

// group is wires with all that end on them, each after what it ends on.
func (r *router) group(wires ...int) []int {
	var out []int
	add := func(w int) {
		if !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	for _, w := range wires {
		for _, e := range []*End{&r.wires[w].A, &r.wires[w].B} {
			if e.Kind == OnWire {
				add(e.Index)
			}
		}
		add(w)
	}
	for _, w := range slices.Clone(out) {
		for _, d := range r.on[w] {
			add(d)
		}
	}
	return slices.DeleteFunc(out, func(w int) bool { return r.wires[w].Fix != nil })
}

// take lifts a group and returns what it cost and where it lay. What is
// unrouted costs as much as a long conflict.
func (r *router) take(group []int) (cost int32, was []kept) {
	for i := len(group) - 1; i >= 0; i-- {
		w := group[i]
		was = append(was, kept{w, r.state[w]})
		r.put(w, -1)
		cost += r.costOf(w)
		r.state[w].routed = false
	}
	return cost, was
}

// unrouted is what a wire without a path costs.
const unrouted = 5000 * unit

// restore lays a group as it was.
func (r *router) restore(was []kept) {
	for i := len(was) - 1; i >= 0; i-- {
		r.state[was[i].wire] = was[i].state
		r.put(was[i].wire, 1)
	}
}

// again lays a lifted group in order, and reports the gain over a cost; when
// there is none, the group is lifted again.
func (r *router) again(group []int, cost int32) (int32, bool) {
	sum := int32(0)
	for i, w := range group {
		c, ok := r.lay(w, cost-sum-1)
		if sum += c; !ok || sum >= cost {
			for _, done := range slices.Backward(group[:i+1]) {
				r.lift(done)
			}
			return 0, false
		}
	}
	return cost - sum, true
}

// try lays a group anew in each of some orders and keeps the best.
func (r *router) try(group []int, orders ...[]int) int32 {
	cost, was := r.take(group)
	best, gain := was, int32(0)
	for _, order := range orders {
		g, ok := r.again(order, cost-gain)
		if !ok {
			continue
		}
		gain += g
		best = nil
		for i := len(order) - 1; i >= 0; i-- {
			best = append(best, kept{order[i], r.state[order[i]]})
			r.lift(order[i])
		}
	}
	if gain > 0 {
		r.changes(was, best)
	}
	r.restore(best)
	return gain
}

// changes notes that lanes were replaced by others.
func (r *router) changes(lanes ...[]kept) {
	for _, l := range lanes {
		for _, k := range l {
			r.state[k.wire] = k.state
			r.change(k.wire)
		}
	}
}

// alone lays every wire anew, the dearest first.
func (r *router) alone() (gain int32) {
	order := r.byCost()
	for _, w := range order {
		if g := r.group(w); len(g) > 0 {
			gain += r.attempt(attempt{a: w, b: w}, func() int32 { return r.try(g, g) })
		}
	}
	return gain
}

func (r *router) byCost() []int {
	cost := make([]int32, len(r.wires))
	order := make([]int, len(r.wires))
	for w := range r.wires {
		order[w] = w
		r.without(w, func() { cost[w] = r.costOf(w) })
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(cost[b], cost[a]) })
	return order
}

// pairs lays every two wires that cross anew, in both orders.
func (r *router) pairs() (gain int32) {
	for _, p := range r.crossingPairs() {
		a, b := r.group(p[0], p[1]), r.group(p[1], p[0])
		if len(a) < 2 || r.effort < 0 {
			continue // one that may move has been laid alone
		}
		gain += r.attempt(attempt{a: p[0], b: p[1]}, func() int32 { return r.try(a, a, b) })
	}
	return gain
}

// crossingPairs lists the wires that cross, each pair once.
func (r *router) crossingPairs() [][2]int {
	across := map[int32][]int{}
	r.eachThrough(func(w int, n int32, d Dir) {
		if d.upright() {
			across[n] = append(across[n], w)
		}
	})
	var out [][2]int
	seen := map[[2]int]bool{}
	r.eachThrough(func(w int, n int32, d Dir) {
		if d.upright() {
			return
		}
		for _, v := range across[n] {
			if key := [2]int{min(v, w), max(v, w)}; !seen[key] && v != w {
				seen[key] = true
				out = append(out, key)
			}
		}
	})
	return out
}

// eachThrough calls do for every node that a wire passes straight.
func (r *router) eachThrough(do func(w int, n int32, d Dir)) {
	for w := range r.wires {
		nodes := r.state[w].nodes
		for k := 1; r.state[w].routed && k+1 < len(nodes); k++ {
			if d := r.heading(nodes[k-1], nodes[k]); d == r.heading(nodes[k], nodes[k+1]) {
				do(w, nodes[k], d)
			}
		}
	}
}

// swaps exchanges the slots of every two leads of a fan.
func (r *router) swaps() (gain int32) {
	for f := range r.board.Fans {
		leads := r.leadsOf(f)
		for i := range leads {
			for k := i + 1; k < len(leads) && r.effort > 0; k++ {
				a := attempt{leads[i], leads[k], swapped}
				gain += r.attempt(a, func() int32 { return r.swap(a.a, a.b) })
			}
		}
	}
	return gain
}

func (r *router) leadsOf(fan int) []int {
	var out []int
	for w := range r.wires {
		if r.wires[w].A.Kind == InFan && r.wires[w].A.Index == fan && r.wires[w].Fix == nil {
			out = append(out, w)
		}
	}
	return out
}

func (r *router) swap(a, b int) int32 {
	group := r.group(a, b)
	cost, was := r.take(group)
	r.state[a].slot, r.state[b].slot = r.state[b].slot, r.state[a].slot
	for _, order := range [][]int{group, r.group(b, a)} {
		if g, ok := r.again(order, cost); ok {
			r.moved(was)
			return g
		}
	}
	r.restore(was)
	return 0
}

// moved notes where lanes lay before, and where they lie now.
func (r *router) moved(was []kept) {
	for _, k := range was {
		now := r.state[k.wire]
		r.change(k.wire)
		r.changes([]kept{k})
		r.state[k.wire] = now
	}
}
