package schematic

import (
	"cmp"
	"slices"
)

// The four headings of a wire on the grid, clockwise from right.
var headings = [4]gp{right, down, left, up}

// Prices of a route in grid units.
const (
	routeBend   = 4
	routeCross  = 8
	routeBeside = 1  // runs one unit beside a symbol
	routeBefore = 20 // runs before a foreign pin
)

// router lays wires on the grid. A wire keeps to itself but for crossings at
// right angles.
type router struct {
	w, h    int
	blocked []bool   // by node
	pinNet  []int    // by node: net of the pin there, or −1
	front   []int    // by node: net of the pin that it lies before, or −1
	edges   [2][]int // right, down: net of the wire from a node, or −1
}

func newRouter(l *layout) *router {
	_, hi := l.bounds()
	r := &router{w: hi.x + 6, h: hi.y + 6}
	n := r.w * r.h
	r.blocked, r.pinNet, r.front = make([]bool, n), filled(n), filled(n)
	r.edges = [2][]int{filled(n), filled(n)}
	for _, s := range l.symbols {
		r.block(s.box())
	}
	for _, s := range l.symbols {
		for i, p := range s.pins {
			at := s.at(i)
			r.pinNet[r.node(at)] = p.net
			r.front[r.node(at.add(s.out(i)))] = p.net
			if p.net == l.ground {
				d := s.out(i)
				r.block(at.add(d), at.add(d))
				r.block(at.add(d).add(d), at.add(d).add(d))
			}
		}
	}
	return r
}

func filled(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	return out
}

func (r *router) node(p gp) int { return p.y*r.w + p.x }

func (r *router) at(node int) gp { return gp{node % r.w, node / r.w} }

func (r *router) block(lo, hi gp) {
	for y := max(lo.y, 0); y <= min(hi.y, r.h-1); y++ {
		for x := max(lo.x, 0); x <= min(hi.x, r.w-1); x++ {
			r.blocked[y*r.w+x] = true
		}
	}
}

// edge is where the wire between a node and its neighbour is noted.
func (r *router) edge(node, heading int) *int {
	switch headings[heading] {
	case left:
		return &r.edges[0][node-1]
	case up:
		return &r.edges[1][node-r.w]
	case right:
		return &r.edges[0][node]
	}
	return &r.edges[1][node]
}

// netAt is the net of the wire on a side of a node, or −1.
func (r *router) netAt(node, heading int) int {
	p := r.at(node).add(headings[heading])
	if p.x < 0 || p.y < 0 || p.x >= r.w || p.y >= r.h {
		return -1
	}
	return *r.edge(node, heading)
}

// degree is how many sides of a node a net's wires use.
func (r *router) degree(node, net int) int {
	d := 0
	for h := range 4 {
		if r.netAt(node, h) == net {
			d++
		}
	}
	return d
}

// wanted is one net's pins on the grid, each with the heading that leaves it.
type wanted struct {
	net  int
	pins []int // nodes
	out  []int // headings
}

// route lays all nets, short ones first; a net that finds no way is laid before
// all others in the next attempt. Then each is laid once more with the others in
// place. It returns the pins that found no way.
func (r *router) route(l *layout) (lost []int) {
	nets := r.wanted(l)
	for range 6 {
		r.edges = [2][]int{filled(r.w * r.h), filled(r.w * r.h)}
		if lost = r.layAll(nets, false); len(lost) == 0 {
			break
		}
		first := r.pinNet[lost[0]]
		slices.SortStableFunc(nets, func(a, b wanted) int { return cmp.Compare(r.behind(a, first), r.behind(b, first)) })
	}
	for range 2 {
		lost = r.layAll(nets, true)
	}
	return lost
}

func (r *router) behind(n wanted, first int) int {
	if n.net == first {
		return 0
	}
	return 1
}

func (r *router) layAll(nets []wanted, anew bool) (lost []int) {
	for _, n := range nets {
		if anew {
			r.rip(n.net)
		}
		lost = append(lost, r.lay(n)...)
	}
	return lost
}

func (r *router) wanted(l *layout) []wanted {
	var out []wanted
	for net, ports := range l.ports() {
		if net == l.ground || len(ports) < 2 {
			continue
		}
		n := wanted{net: net}
		for _, p := range ports {
			n.pins = append(n.pins, r.node(p.at))
			n.out = append(n.out, slices.Index(headings[:], p.out))
		}
		out = append(out, n)
	}
	slices.SortStableFunc(out, func(a, b wanted) int { return cmp.Compare(r.size(a), r.size(b)) })
	return out
}

// size is half the girth of a net's box.
func (r *router) size(n wanted) int {
	lo, hi := r.at(n.pins[0]), r.at(n.pins[0])
	for _, p := range n.pins {
		q := r.at(p)
		lo, hi = gp{min(lo.x, q.x), min(lo.y, q.y)}, gp{max(hi.x, q.x), max(hi.y, q.y)}
	}
	return hi.x - lo.x + hi.y - lo.y
}

func (r *router) rip(net int) {
	for _, e := range r.edges {
		for i := range e {
			if e[i] == net {
				e[i] = -1
			}
		}
	}
}

// lay joins the pins of a net one by one to the wire so far; it starts at the
// pin that is nearest to all others.
func (r *router) lay(n wanted) (lost []int) {
	tree := map[int]bool{n.pins[r.central(n)]: true}
	todo := slices.Clone(n.pins)
	todo = slices.DeleteFunc(todo, func(p int) bool { return tree[p] })
	for len(todo) > 0 {
		k, way := r.cheapest(n, todo, tree)
		if way == nil {
			return append(lost, todo...)
		}
		r.mark(way, n.net)
		for _, s := range way {
			tree[s.node] = true
		}
		todo = slices.Delete(todo, k, k+1)
	}
	return lost
}

func (r *router) central(n wanted) int {
	best, least := 0, 1<<30
	for i, p := range n.pins {
		sum := 0
		for _, q := range n.pins {
			a, b := r.at(p), r.at(q)
			sum += abs(a.x-b.x) + abs(a.y-b.y)
		}
		if sum < least {
			best, least = i, sum
		}
	}
	return best
}

// cheapest finds the way of the pin that is cheapest to join.
func (r *router) cheapest(n wanted, todo []int, tree map[int]bool) (int, []step) {
	best, at := []step(nil), 0
	least := 1 << 30
	for k, p := range todo {
		out := n.out[slices.Index(n.pins, p)]
		if way, price := r.search(n, p, out, tree, least); way != nil {
			best, at, least = way, k, price
		}
	}
	return at, best
}

func (r *router) mark(way []step, net int) {
	for _, s := range way[1:] {
		*r.edge(s.node, (s.heading+2)%4) = net
	}
}
