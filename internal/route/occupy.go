package route

import "loomwright/internal/scene"

// wireState is where a wire lies: grid nodes from port to port.
type wireState struct {
	nodes  []int32
	a, b   port
	slot   int // of a fan; −1
	routed bool
	fixed  [2][]port
	own    []covered     // what it need not pay; nil: not yet known
	reach  [2]scene.Rect // where its ends may be, for crossings near them
}

// joint is a place on a zone that a wire ends at.
type joint struct {
	wire int
	at   scene.Point
}

// traffic is what lies on the grid. crowd counts, for each edge, the wires that
// it would share or come too near to; use those that run on it; through those
// that pass a node without a bend, by axis; stops those that bend or end there;
// tails those whose end is near, elbow those whose bend is.
type traffic struct {
	crowd, use  []int16
	through     [2][]int16
	stops, tail []int16
	elbow       []int16
	history     []int32
}

func newTraffic(nodes int) traffic {
	return traffic{
		crowd: make([]int16, 2*nodes), use: make([]int16, 2*nodes), history: make([]int32, 2*nodes),
		through: [2][]int16{make([]int16, nodes), make([]int16, nodes)},
		stops:   make([]int16, nodes), tail: make([]int16, nodes), elbow: make([]int16, nodes),
	}
}

// tailLength is how far from its end a crossing of a wire is bad, mm.
const tailLength = 5.5

// put lays a routed wire on the grid (+1) or takes it off (−1).
func (r *router) put(w int, by int16) {
	s := &r.state[w]
	if !s.routed || len(s.nodes) == 0 {
		return
	}
	r.putSegments(s.nodes, by)
	r.putNodes(s.nodes, by)
	r.putTails(s.nodes, by)
	for i, p := range []*port{&s.a, &s.b} {
		for _, e := range p.near {
			r.crowd[e] += by
		}
		end := [2]*End{&r.wires[w].A, &r.wires[w].B}[i]
		if p.joint {
			r.putJoint(w, end.Index, p.node, by)
		}
	}
}

func (r *router) putJoint(w, zone int, n int32, by int16) {
	for _, e := range r.jointEdges(n) {
		r.crowd[e] += by
	}
	if by > 0 {
		r.joints[zone] = append(r.joints[zone], joint{w, r.grid.at(n)})
		return
	}
	for i, j := range r.joints[zone] {
		if j.wire == w && j.at == r.grid.at(n) {
			r.joints[zone] = append(r.joints[zone][:i:i], r.joints[zone][i+1:]...)
			return
		}
	}
}

// jointEdges are the edges too near to a joint, but for those at it.
func (r *router) jointEdges(n int32) []int32 {
	if edges, ok := r.nearJoint[n]; ok {
		return edges
	}
	at := r.grid.at(n)
	edges := []int32{}
	r.grid.eachEdge(around(at, at).Grow(2*lane), func(e int32, _ scene.Point, _ int32) {
		a, b := r.grid.edgeEnds(e)
		if !leadsTo(at, a, b) && pointSegment(at, a, b) < Spacing-1e-6 {
			edges = append(edges, e)
		}
	})
	r.nearJoint[n] = edges
	return edges
}

// putSegments marks the straight stretches of a path and all that runs beside
// them too near.
func (r *router) putSegments(nodes []int32, by int16) {
	for from := 0; from+1 < len(nodes); {
		d, to := r.heading(nodes[from], nodes[from+1]), from+1
		for to+1 < len(nodes) && r.heading(nodes[to], nodes[to+1]) == d {
			to++
		}
		lo, hi := nodes[from], nodes[to]
		before, after := from > 0, to+1 < len(nodes) // bends at its ends
		if hi < lo {
			lo, hi, before, after = hi, lo, after, before
		}
		r.crowdBeside(lo, hi, d.upright(), reachOf(before), reachOf(after), by)
		for k := from; k < to; k++ {
			_, e, _, _ := r.grid.step(nodes[k], d)
			r.use[e] += by
		}
		from = to
	}
}

// reachOf is how far beyond its end a stretch keeps others off, mm.
func reachOf(bend bool) float64 {
	if bend {
		return Spacing - 0.4
	}
	return 0
}

// crowdBeside marks the edges parallel to the stretch from node lo to hi.
func (r *router) crowdBeside(lo, hi int32, upright bool, before, after float64, by int16) {
	g := &r.grid
	i0, j0 := g.ij(lo)
	i1, j1 := g.ij(hi)
	const eps = 1e-6
	if upright {
		for i := first(g.xs, g.xs[i0]-Spacing+eps); i < g.nx && g.xs[i] < g.xs[i0]+Spacing-eps; i++ {
			for j := firstEdge(g.ys, g.ys[j0]-before+eps); j+1 < g.ny && g.ys[j] < g.ys[j1]+after-eps; j++ {
				r.crowd[2*g.node(i, j)+1] += by
			}
		}
		return
	}
	for j := first(g.ys, g.ys[j0]-Spacing+eps); j < g.ny && g.ys[j] < g.ys[j0]+Spacing-eps; j++ {
		for i := firstEdge(g.xs, g.xs[i0]-before+eps); i+1 < g.nx && g.xs[i] < g.xs[i1]+after-eps; i++ {
			r.crowd[2*g.node(i, j)] += by
		}
	}
}

// first is the first line at or after v; firstEdge the first whose next line is.
func first(lines []float64, v float64) int {
	lo, hi := 0, len(lines)
	for lo < hi {
		if m := (lo + hi) / 2; lines[m] < v {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
}

func firstEdge(lines []float64, v float64) int { return max(first(lines, v)-1, 0) }

func (r *router) putNodes(nodes []int32, by int16) {
	last := len(nodes) - 1
	r.stops[nodes[0]] += by
	r.stops[nodes[last]] += by
	for k := 1; k < last; k++ {
		d := r.heading(nodes[k-1], nodes[k])
		if d == r.heading(nodes[k], nodes[k+1]) {
			r.through[b2i(d.upright())][nodes[k]] += by
		} else {
			r.stops[nodes[k]] += by
			r.putElbow(nodes, k, by)
		}
	}
}

// putElbow marks the nodes of a path near one of its bends.
func (r *router) putElbow(nodes []int32, k int, by int16) {
	at := r.grid.at(nodes[k])
	for i := k + 1; i < len(nodes) && r.grid.at(nodes[i]).Dist(at) < bendRoom; i++ {
		r.elbow[nodes[i]] += by
	}
	for i := k - 1; i >= 0 && r.grid.at(nodes[i]).Dist(at) < bendRoom; i-- {
		r.elbow[nodes[i]] += by
	}
}

func (r *router) putTails(nodes []int32, by int16) {
	last := len(nodes) - 1
	for k := 0; k <= last && r.grid.at(nodes[k]).Dist(r.grid.at(nodes[0])) < tailLength; k++ {
		r.tail[nodes[k]] += by
	}
	for k := last; k >= 0 && r.grid.at(nodes[k]).Dist(r.grid.at(nodes[last])) < tailLength; k-- {
		r.tail[nodes[k]] += by
	}
}
