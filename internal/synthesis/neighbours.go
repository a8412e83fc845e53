package synthesis

import (
	"slices"

	"loomwright/internal/sat"
)

// neighbourhoods looks for fewer joins near the best solution: some nodes are
// free to move, the others keep their nets among each other (large neighbourhood
// search: Shaw, "Using Constraint Programming and Local Search Methods to Solve
// Vehicle Routing Problems", 1998). Which nodes are free is drawn by one of
// several kinds, each as large as the solver can just about search, the more
// successful kinds more often (adaptive: Ropke and Pisinger, "An Adaptive Large
// Neighborhood Search Heuristic", 2006). What the solver learns stays.
type neighbourhoods struct {
	e     *encoding
	rng   random
	kinds []kind
}

// kind is one way to choose free nodes: whole groups of nodes at a time.
type kind struct {
	groups func(best solution) [][]int
	share  int // percent of the nodes that are free
	weight int // how often it is drawn
}

// Percent of the nodes that are free, conflicts that one neighbourhood may take,
// that it counts for at least, and that a drift may take, and how much a success
// weighs.
const (
	leastShare, firstShare, mostShare = 12, 30, 75

	neighbourhoodLimit = 200
	neighbourhoodCost  = 20
	driftLimit         = 50
	successWeight      = 4
	mostWeight         = 20
)

func (e *encoding) newNeighbourhoods() *neighbourhoods {
	n := &neighbourhoods{e: e, rng: 1}
	for _, groups := range []func(solution) [][]int{e.byPole, e.byColumn, e.byNet, e.byCoil, e.byNode} {
		n.kinds = append(n.kinds, kind{groups: groups, share: firstShare, weight: successWeight})
	}
	return n
}

// search spends about the given conflicts and reports whether it got better.
func (n *neighbourhoods) search(out *outcome, f *effort, conflicts int64) bool {
	better := false
	for spent := int64(0); spent < conflicts && !f.out() && out.bound < out.joins; {
		before := f.spent
		k := n.draw()
		held := n.held(k, out.best)
		n.e.start(out.best)
		switch n.e.solve(f, neighbourhoodLimit, append(n.e.keep(out.best, held), n.e.more(out.joins-1).Not())...) {
		case sat.Sat:
			n.e.take(out, f)
			k.weight = min(k.weight+successWeight, mostWeight)
			better = true
		case sat.Unsat:
			k.share = min(k.share+2, mostShare)
		case sat.Unknown:
			k.share = max(k.share-2, leastShare)
			k.weight = max(k.weight-1, 1)
		}
		spent += max(f.spent-before, neighbourhoodCost)
		if len(n.e.p.settings) > manySettings {
			n.drift(out, f)
		}
	}
	return better
}

// drift moves to another solution with as many joins, if one is near: from there
// other neighbourhoods are in reach.
func (n *neighbourhoods) drift(out *outcome, f *effort) {
	held := n.held(n.draw(), out.best)
	for x := range out.best {
		for y := range x {
			if l := n.e.same[x][y]; l != sat.False && l != sat.True {
				n.e.s.Prefer(n.rng.either(l))
			}
		}
	}
	if n.e.solve(f, driftLimit, n.e.keep(out.best, held)...) == sat.Sat {
		n.e.take(out, f)
	}
}

// draw picks a kind by weight.
func (n *neighbourhoods) draw() *kind {
	total := 0
	for i := range n.kinds {
		total += n.kinds[i].weight
	}
	at := int(n.rng.next()) % total
	for i := range n.kinds {
		if at -= n.kinds[i].weight; at < 0 {
			return &n.kinds[i]
		}
	}
	return &n.kinds[0]
}

// held chooses the nodes that keep their nets: all but some groups.
func (n *neighbourhoods) held(k *kind, best solution) []int {
	groups := k.groups(best)
	n.rng.shuffle(groups)
	free := make([]bool, len(best))
	left := len(best) * k.share / 100
	for _, g := range groups {
		if left <= 0 {
			break
		}
		for _, x := range g {
			if !free[x] {
				free[x] = true
				left--
			}
		}
	}
	var out []int
	for x := range best {
		if !free[x] {
			out = append(out, x)
		}
	}
	return out
}

// keep lists the literals that hold nodes in their nets among each other.
func (e *encoding) keep(best solution, held []int) []sat.Lit {
	var out []sat.Lit
	for i, x := range held {
		for _, y := range held[:i] {
			l := e.same[x][y]
			if best[x] != best[y] {
				l = l.Not()
			}
			if l != sat.True {
				out = append(out, l)
			}
		}
	}
	return out
}

// byPole: the lugs of a pole.
func (e *encoding) byPole(solution) [][]int {
	var out [][]int
	for i := range e.p.switches {
		for _, q := range e.p.switches[i].poles {
			g := slices.Clone(q.throws)
			if q.common >= 0 {
				g = append(g, q.common)
			}
			out = append(out, g)
		}
	}
	return out
}

// byColumn: the throws that are closed in the same positions.
func (e *encoding) byColumn(solution) [][]int { return slices.Clone(e.throwColumns()) }

// byNet: what is soldered together.
func (e *encoding) byNet(best solution) [][]int {
	nets := map[int][]int{}
	var out [][]int
	for x, first := range best {
		nets[first] = append(nets[first], x)
	}
	for first := range best {
		if len(nets[first]) > 1 {
			out = append(out, nets[first])
		}
	}
	return out
}

// byCoil: the nets of a coil's ends.
func (e *encoding) byCoil(best solution) [][]int {
	var out [][]int
	for _, c := range e.p.elements {
		var g []int
		for x, first := range best {
			if first > ground && (first == best[c.a] || first == best[c.b]) || x == c.a || x == c.b {
				g = append(g, x)
			}
		}
		out = append(out, g)
	}
	return out
}

// byNode: any nodes.
func (e *encoding) byNode(best solution) [][]int {
	out := make([][]int, len(best))
	for x := range best {
		out[x] = []int{x}
	}
	return out
}

// random is xorshift64* (Vigna, 2016).
type random uint64

func (r *random) next() uint32 {
	x := uint64(*r)
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	*r = random(x)
	return uint32(x * 0x2545F4914F6CDD1D >> 32)
}

// either turns a literal round seven times in eight.
func (r *random) either(l sat.Lit) sat.Lit {
	if r.next()%8 != 0 {
		return l.Not()
	}
	return l
}

// shuffle puts groups in random order (Fisher and Yates, as in Knuth, The Art of
// Computer Programming 2, 3.4.2).
func (r *random) shuffle(groups [][]int) {
	for i := len(groups) - 1; i > 0; i-- {
		k := int(r.next()) % (i + 1)
		groups[i], groups[k] = groups[k], groups[i]
	}
}
