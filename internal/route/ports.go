package route

import "loomwright/internal/scene"

// port is one way for a wire to leave its end: from node in heading dir, after
// a straight slant from its terminal where from is set.
type port struct {
	node  int32
	dir   Dir
	cost  int32
	from  *scene.Point // a slant: the terminal that node is reached from
	near  []int32      // edges that the slant comes too near to
	joint bool         // node is a joint in a zone
	slot  int
	alone bool // one of several tips: a wire each
}

// What ways to leave cost, in mm.
const (
	slantCost = 3.0
	dearCost  = 9
	jointRim  = 5.4 // farthest way from a joint out of its zone
	jointIn   = 1.5 // least distance of a joint from its zone's edge
	jointHole = 1.6 // and from a hole
	jointGap  = 3.2 // of two joints on one zone
	tapFrom   = 4.5 // of a braid's end from the cable's end, at least
	tapTo     = 16.0
)

// termPorts are the ways from a terminal: straight in every allowed heading,
// and slanting into the lanes beside it.
func (r *router) termPorts(e *End) []port {
	var out []port
	for _, t := range e.Tips {
		if n, ok := r.grid.find(t.At); ok {
			out = r.tipPorts(out, n, t, len(e.Tips) == 1)
		}
	}
	for i := range out {
		out[i].alone = len(e.Tips) > 1
	}
	return out
}

func (r *router) tipPorts(out []port, n int32, t Tip, slants bool) []port {
	for d := range Dir(4) {
		if !t.Exits.Has(d) {
			if t.Dear.Has(d) {
				out = append(out, port{node: n, dir: d, slot: -1, cost: dearCost * unit})
			}
			continue
		}
		out = append(out, port{node: n, dir: d, slot: -1})
		for _, side := range []Dir{(d + 1) % 4, (d + 3) % 4} {
			if inward := t.Lead && !t.Exits.Has(side) && t.Exits.Has(side.Back()); inward {
				continue // back beside the component: a spike
			}
			if p, ok := r.slant(n, d, side); ok && slants {
				out = append(out, p)
			}
		}
	}
	return out
}

// slant leaves a terminal at about 45 degrees toward the lane beside it.
func (r *router) slant(n int32, d, side Dir) (port, bool) {
	at, beside := r.grid.at(n), n
	for across := 0.0; ; {
		next, _, length, ok := r.grid.step(beside, side)
		if !ok {
			return port{}, false
		}
		beside = next
		if across += float64(length) / unit; across > 4.2 {
			return port{}, false
		}
		if across < 1.8 {
			continue
		}
		if end, ok := r.along(beside, d, across*0.75, across*1.9); ok {
			p := port{node: end, dir: d, from: &at, slot: -1}
			p.cost = int32((slantCost + r.grid.at(end).Dist(at)) * unit)
			p.near = r.nearSegment(at, r.grid.at(end), n)
			return p, true
		}
		return port{}, false
	}
}

// along walks from a node in a heading to the first node in a range of distances.
func (r *router) along(n int32, d Dir, lo, hi float64) (int32, bool) {
	for dist := 0.0; ; {
		next, _, length, ok := r.grid.step(n, d)
		if !ok {
			return 0, false
		}
		n = next
		if dist += float64(length) / unit; dist > hi {
			return 0, false
		}
		if dist >= lo {
			return n, true
		}
	}
}

// nearSegment lists the edges nearer to a slant than the spacing, but for those
// that lead straight to its terminal.
func (r *router) nearSegment(a, b scene.Point, terminal int32) []int32 {
	var out []int32
	at := r.grid.at(terminal)
	r.grid.eachEdge(around(a, b).Grow(Spacing+lane), func(e int32, _ scene.Point, _ int32) {
		p, q := r.grid.edgeEnds(e)
		if leadsTo(at, p, q) {
			return
		}
		if segmentDistance(a, b, p, q) < Spacing-0.1 {
			out = append(out, e)
		}
	})
	return out
}

// meetRoom is how near to a common end two wires may be near one another, mm.
const meetRoom = 4.4

// leadsTo reports whether an edge lies on a straight way to a place, close by.
func leadsTo(at, p, q scene.Point) bool {
	inLine := p.X == at.X && q.X == at.X || p.Y == at.Y && q.Y == at.Y
	return inLine && min(p.Dist(at), q.Dist(at)) < meetRoom
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// heading is the direction from a node to a neighbour.
func (r *router) heading(a, b int32) Dir {
	switch {
	case b == a+1:
		return Right
	case b == a-1:
		return Left
	case b > a:
		return Down
	}
	return Up
}

// ports lists the ways from one end of a wire.
func (r *router) ports(w int, e *End, far bool) []port {
	switch e.Kind {
	case AtTerm:
		return r.cachedPorts(w, e, far)
	case InZone:
		return r.openJoints(w, e)
	case InFan:
		f := &r.board.Fans[e.Index]
		slot := r.state[w].slot
		if n, ok := r.grid.find(f.Slots[slot]); ok {
			return []port{{node: n, dir: f.Out, slot: slot}}
		}
	case OnWire:
		if r.state[e.Index].routed {
			return r.tapPorts(e)
		}
	}
	return nil
}

func (r *router) cachedPorts(w int, e *End, far bool) []port {
	cache := &r.state[w].fixed[b2i(far)]
	if *cache == nil {
		*cache = r.termPorts(e)
	}
	return *cache
}
