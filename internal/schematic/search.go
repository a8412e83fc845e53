package schematic

import "container/heap"

// step is a node entered in a heading.
type step struct{ node, heading int }

// state of the search: price so far, and the estimate of the whole.
type state struct {
	step
	price, whole int
	from         int // index in the list of closed states
}

type queue []state

func (q queue) Len() int           { return len(q) }
func (q queue) Less(i, k int) bool { return q[i].whole < q[k].whole }
func (q queue) Swap(i, k int)      { q[i], q[k] = q[k], q[i] }
func (q *queue) Push(x any)        { *q = append(*q, x.(state)) }
func (q *queue) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}

// search finds the cheapest way from a pin to a net's tree by A*; nil where
// there is none below the limit.
func (r *router) search(n wanted, pin, out int, tree map[int]bool, limit int) ([]step, int) {
	goal := r.goal(tree)
	best := map[step]int{}
	var closed []state
	q := &queue{{step: step{pin, out}, whole: goal.far(r.at(pin)), from: -1}}
	for q.Len() > 0 {
		s := heap.Pop(q).(state)
		if s.whole >= limit {
			return nil, 0
		}
		if done, seen := best[s.step]; seen && done <= s.price {
			continue
		}
		best[s.step] = s.price
		closed = append(closed, s)
		if tree[s.node] && s.node != pin {
			return trace(closed), s.price
		}
		for turn := range 4 {
			if next, ok := r.next(n, &s, turn, tree, pin); ok {
				next.from = len(closed) - 1
				next.whole = next.price + goal.far(r.at(next.node))
				heap.Push(q, next)
			}
		}
	}
	return nil, 0
}

func trace(closed []state) []step {
	var way []step
	for i := len(closed) - 1; i >= 0; i = closed[i].from {
		way = append(way, closed[i].step)
	}
	for i, k := 0, len(way)-1; i < k; i, k = i+1, k-1 {
		way[i], way[k] = way[k], way[i]
	}
	return way
}

// area is the box of a tree.
type area struct{ lo, hi gp }

func (r *router) goal(tree map[int]bool) area {
	a := area{gp{r.w, r.h}, gp{}}
	for node := range tree {
		p := r.at(node)
		a.lo = gp{min(a.lo.x, p.x), min(a.lo.y, p.y)}
		a.hi = gp{max(a.hi.x, p.x), max(a.hi.y, p.y)}
	}
	return a
}

func (a area) far(p gp) int {
	return max(a.lo.x-p.x, 0, p.x-a.hi.x) + max(a.lo.y-p.y, 0, p.y-a.hi.y)
}

// next goes on from a state in a heading, if the grid allows it.
func (r *router) next(n wanted, s *state, heading int, tree map[int]bool, pin int) (state, bool) {
	turned := heading != s.heading
	if heading == (s.heading+2)%4 || s.node == pin && turned || turned && r.foreign(s.node, n.net) {
		return state{}, false
	}
	p := r.at(s.node).add(headings[heading])
	if p.x < 1 || p.y < 1 || p.x >= r.w-1 || p.y >= r.h-1 || *r.edge(s.node, heading) != -1 {
		return state{}, false
	}
	node := r.node(p)
	price, ok := r.enter(n, node, heading, tree)
	if turned {
		price += routeBend
	}
	return state{step: step{node, heading}, price: s.price + 1 + price}, ok
}

// enter prices a node that is entered in a heading; false: it must not be.
func (r *router) enter(n wanted, node, heading int, tree map[int]bool) (int, bool) {
	if tree[node] {
		return 0, r.joins(n, node, heading)
	}
	if r.blocked[node] || r.pinNet[node] >= 0 {
		return 0, false
	}
	price := 0
	across := r.netAt(node, (heading+1)%4)
	if r.foreign(node, n.net) {
		straight := across >= 0 && across == r.netAt(node, (heading+3)%4)
		if !straight || r.netAt(node, heading) >= 0 || r.degree(node, across) != 2 {
			return 0, false
		}
		price += routeCross
	}
	if f := r.front[node]; f >= 0 && f != n.net {
		price += routeBefore
	}
	for side := 1; side < 4; side += 2 {
		if beside := r.at(node).add(headings[(heading+side)%4]); r.crowded(beside) {
			price += routeBeside
		}
	}
	return price, true
}

func (r *router) crowded(p gp) bool {
	return p.x < 0 || p.y < 0 || p.x >= r.w || p.y >= r.h || r.blocked[r.node(p)]
}

// foreign reports whether another net's wire is at a node.
func (r *router) foreign(node, net int) bool {
	for h := range 4 {
		if e := r.netAt(node, h); e >= 0 && e != net {
			return true
		}
	}
	return false
}

// joins reports whether a wire may end at a node of its tree: a pin from its
// open side, a wire where it makes no crossing of four.
func (r *router) joins(n wanted, node, heading int) bool {
	if r.foreign(node, n.net) {
		return false
	}
	for i, p := range n.pins {
		if p == node {
			return heading == (n.out[i]+2)%4
		}
	}
	return r.degree(node, n.net) < 3
}
