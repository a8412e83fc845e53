package synthesis

import (
	"loomwright/internal/sat"
)

// encoding is a puzzle as clauses. same[x][y] says that two nodes are soldered
// together; everything else follows from that.
type encoding struct {
	p      *puzzle
	rules  rules
	s      *sat.Solver
	g      *sat.Gates
	same   [][]sat.Lit
	used   []sat.Lit  // node → soldered to another
	alive  []sat.Lit  // node → used, or several lugs
	flip   sat.Lit    // the common polarity: true as wished
	wanted []sat.Lit  // wish → it is met; an assumption
	upon   sat.Lit    // no setting that is not silent shorts hot; an assumption
	demand []demanded // setting → what its wish demands

	columns map[string][]sat.Lit // throws closed together → count of those alive
	joins   []sat.Lit            // joins[k]: more than k joins
	offset  int                  // joins that joins[] counts beside
	floor   int                  // joins that are known to be needed
	meets   [][]int              // node → nodes it can meet
}

// demanded is what a setting's wish demands of its nodes.
type demanded struct {
	nodes []int
	ways  []way
	need  int // fewest merges of those nodes
}

// encode turns a puzzle into clauses under the given rules.
func encode(p *puzzle, r rules, o sat.Options) *encoding {
	o.Steady = len(p.settings) <= manySettings
	e := &encoding{p: p, rules: r, s: sat.New(o), columns: map[string][]sat.Lit{}, meets: p.mates()}
	e.g = sat.NewGates(e.s)
	e.nets()
	e.usage()
	e.flip = e.s.NewVar()
	e.s.Prefer(e.flip)
	if p.fixed {
		e.s.AddClause(e.flip)
	}
	e.upon = e.s.NewVar()
	e.wanted = e.s.NewVars(len(p.wishes))
	for i := range p.settings {
		e.setting(i)
	}
	if p.limited {
		for _, l := range e.crowdedLits() {
			e.s.AddClause(l.Not())
		}
	}
	e.apply()
	e.count()
	return e
}

// nets makes "soldered together" an equivalence.
func (e *encoding) nets() {
	n := len(e.p.nodes)
	e.same = make([][]sat.Lit, n)
	for x := range e.same {
		e.same[x] = make([]sat.Lit, n)
		e.same[x][x] = sat.True
	}
	for y := range n {
		for x := range y {
			l := sat.False
			if !e.apart(x, y) {
				l = e.s.NewVar()
			}
			e.same[x][y], e.same[y][x] = l, l
		}
	}
	for z := range n {
		for y := range z {
			for x := range y {
				xy, yz, xz := e.same[x][y], e.same[y][z], e.same[x][z]
				e.s.AddClause(xy.Not(), yz.Not(), xz)
				e.s.AddClause(xy.Not(), xz.Not(), yz)
				e.s.AddClause(xz.Not(), yz.Not(), xy)
			}
		}
	}
}

// apart reports whether two nodes can never be soldered together.
func (e *encoding) apart(x, y int) bool {
	if x == hot && y == ground || e.p.nodes[x].sealed || e.p.nodes[y].sealed {
		return true
	}
	return e.rules.own && (e.p.alwaysWith(x, y) || e.p.alwaysWith(y, x))
}

// alwaysWith reports whether a movable node never meets anything without
// meeting y as well: soldering it to y does nothing.
func (p *puzzle) alwaysWith(x, y int) bool {
	if !p.movable(x) {
		return false
	}
	met := false
	for _, s := range p.switches {
		for _, groups := range s.closed {
			for _, g := range groups {
				has, with := contains(g, x), contains(g, y)
				if has && !with {
					return false
				}
				met = met || has
			}
		}
	}
	for _, g := range p.always {
		if contains(g, x) {
			return false
		}
	}
	return met
}

func contains(list []int, x int) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// usage defines used and alive.
func (e *encoding) usage() {
	n := len(e.p.nodes)
	e.used, e.alive = make([]sat.Lit, n), make([]sat.Lit, n)
	for x := range n {
		e.used[x] = e.g.Or(e.others(x, n)...)
		e.alive[x] = e.used[x]
		if e.p.nodes[x].several || e.p.nodes[x].role == portNode {
			e.alive[x] = sat.True
		}
	}
}

// others lists the literals that join a node to one below a limit.
func (e *encoding) others(x, limit int) []sat.Lit {
	var out []sat.Lit
	for y := range limit {
		if y != x {
			out = append(out, e.same[x][y])
		}
	}
	return out
}

// ports counts the nodes that are no lugs; they come first.
func (e *encoding) ports() int { return e.first(commonNode) }

// first is the index of the first node of a role, or of a later one.
func (e *encoding) first(r role) int {
	for i, n := range e.p.nodes {
		if n.role >= r {
			return i
		}
	}
	return len(e.p.nodes)
}
