package proof

import "slices"

// edge joins two nodes of a small multigraph.
type edge struct{ a, b int }

// blockOf returns, for every edge, whether it lies on a simple cycle with edge
// root; with root drawn from hot to ground that means: on a simple path from
// hot to ground. Biconnected components by depth-first search (Hopcroft and
// Tarjan, CACM 16(6), 1973), iterative, linear in the edges.
func blockOf(nodes int, edges []edge, root int) []bool {
	return new(search).block(nodes, edges, root, nil)
}

// search is the storage of blockOf, which may be used again.
type search struct {
	edges      []edge
	ints       []int // what the next five are cut from
	start      []int // first slot of each node in slots
	slots      []int // edge ids around each node
	order, low []int // 0: not seen
	next       []int
	clock      int
	stack      []int // edges of open components
	path       []frame
}

func (s *search) reset(nodes int, edges []edge) {
	size := 4*nodes + 1 + 2*len(edges)
	s.ints = slices.Grow(s.ints[:0], size)[:size]
	clear(s.ints)
	rest := s.ints
	take := func(n int) []int { t := rest[:n:n]; rest = rest[n:]; return t }
	s.start, s.order, s.low, s.next = take(nodes+1), take(nodes), take(nodes), take(nodes)
	s.slots = take(2 * len(edges))
	s.edges, s.clock, s.stack, s.path = edges, 0, s.stack[:0], s.path[:0]
	for _, e := range edges {
		s.start[e.a+1]++
		s.start[e.b+1]++
	}
	for i := range nodes {
		s.start[i+1] += s.start[i]
		s.next[i] = s.start[i]
	}
	for id, e := range edges {
		s.slots[s.next[e.a]] = id
		s.next[e.a]++
		s.slots[s.next[e.b]] = id
		s.next[e.b]++
	}
	copy(s.next, s.start[:nodes])
}

type frame struct{ node, parent int } // parent is the edge that led here

// block is blockOf with the answer in the storage of in.
func (s *search) block(nodes int, edges []edge, root int, in []bool) []bool {
	s.reset(nodes, edges)
	in = slices.Grow(in[:0], len(edges))[:len(edges)]
	clear(in)
	start := s.edges[root].a
	s.clock++
	s.order[start], s.low[start] = s.clock, s.clock
	path := append(s.path, frame{start, -1})
	for len(path) > 0 {
		f := path[len(path)-1]
		if s.next[f.node] < s.start[f.node+1] {
			id := s.slots[s.next[f.node]]
			s.next[f.node]++
			path = s.follow(path, f, id)
			continue
		}
		path = path[:len(path)-1]
		if len(path) > 0 {
			s.leave(path[len(path)-1].node, f, root, in)
		}
	}
	s.path = path
	return in
}

// follow walks one edge from a node: down to a new node, or back to an old one.
func (s *search) follow(path []frame, f frame, id int) []frame {
	e := s.edges[id]
	to := e.a + e.b - f.node
	if id == f.parent || e.a == e.b {
		return path
	}
	if s.order[to] == 0 {
		s.clock++
		s.order[to], s.low[to] = s.clock, s.clock
		s.stack = append(s.stack, id)
		return append(path, frame{to, id})
	}
	if s.order[to] < s.order[f.node] {
		s.stack = append(s.stack, id)
		s.low[f.node] = min(s.low[f.node], s.order[to])
	}
	return path
}

// leave returns from a child to its parent and closes a component there.
func (s *search) leave(parent int, child frame, root int, in []bool) {
	s.low[parent] = min(s.low[parent], s.low[child.node])
	if s.low[child.node] < s.order[parent] {
		return
	}
	at := len(s.stack) - 1
	for s.stack[at] != child.parent {
		at--
	}
	part := s.stack[at:]
	s.stack = s.stack[:at]
	hasRoot := false
	for _, id := range part {
		hasRoot = hasRoot || id == root
	}
	for _, id := range part {
		in[id] = hasRoot
	}
}
