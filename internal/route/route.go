package route

import (
	"cmp"
	"math"
	"slices"

	"loomwright/internal/scene"
)

// router is a board with the wires on it.
type router struct {
	board     *Board
	wires     []Wire
	grid      grid
	terrain   *terrain
	zones     [][]port
	joints    [][]joint
	nearJoint map[int32][]int32
	state     []wireState
	on        [][]int // wires that end on each wire
	traffic
	prices   prices
	pressure int32 // of a conflict, units per mm
	effort   int   // nodes that may still be looked at
	looked   int   // nodes that have been
	first    bool  // every wire gets a first path, whatever it takes
	random   uint64
	// scratch of find
	visits []visit
	goal   []int32
	bound  bound
	epoch  int32
	queue  queue
	memory memory
}

// usualEffort is how many nodes are looked at before the best so far is taken,
// on a board with up to usualWires; with more wires, as many more.
const (
	usualEffort = 3_000_000
	usualWires  = 40
)

// hard is the pressure of a conflict when drawings are compared, mm per mm.
const hard = 100 * unit

// Route finds a path for every wire. A wire for which there is none, or only
// one that conflicts, says so in its Path.
func Route(b *Board, wires []Wire, o Options) Result {
	r := newRouter(b, wires)
	if o.Effort > 0 {
		r.effort = o.Effort
	}
	r.prices = o.Prices.figures()
	r.keepFixed()
	if o.Quick {
		r.negotiate(quickRounds)
	} else {
		r.negotiate(rounds)
		r.improve()
	}
	r.prices = Usual.figures()
	out := r.result()
	out.Effort = r.looked
	return out
}

func newRouter(b *Board, wires []Wire) *router {
	r := &router{board: b, wires: slices.Clone(wires), effort: usualEffort * max(len(wires), usualWires) / usualWires, prices: Usual.figures(), random: 0x9e3779b97f4a7c15, nearJoint: map[int32][]int32{}, memory: memory{failed: map[attempt]failure{}}}
	r.grid = newGrid(b.Box, r.places())
	r.terrain = newTerrain(&r.grid, b)
	n := r.grid.nx * r.grid.ny
	r.traffic = newTraffic(n)
	r.visits, r.goal = make([]visit, 4*n), make([]int32, 4*n)
	r.bound = newBound(&r.grid)
	for i := range b.Zones {
		r.zones = append(r.zones, r.zonePorts(&b.Zones[i]))
	}
	r.joints = make([][]joint, len(b.Zones))
	r.state, r.on = make([]wireState, len(wires)), make([][]int, len(wires))
	for w := range wires {
		r.state[w].slot = -1
		for _, e := range []*End{&wires[w].A, &wires[w].B} {
			if e.Kind == OnWire {
				r.on[e.Index] = append(r.on[e.Index], w)
			}
		}
	}
	r.dealSlots()
	return r
}

// places are where lines of the grid must go through.
func (r *router) places() []scene.Point {
	out := slices.Clone(r.board.Lines)
	for _, f := range r.board.Fans {
		out = append(out, f.Slots...)
	}
	for _, w := range r.wires {
		for _, e := range []*End{&w.A, &w.B} {
			for _, t := range e.Tips {
				out = append(out, t.At)
			}
		}
		out = append(out, w.Fix...)
	}
	for _, z := range r.board.Zones {
		out = append(out, z.Box.Center())
	}
	return out
}

// dealSlots gives the leads of each fan their slots, in the order of where they
// go, so that few cross.
func (r *router) dealSlots() {
	for f := range r.board.Fans {
		fan := &r.board.Fans[f]
		var leads []int
		for w := range r.wires {
			if r.wires[w].A.Kind == InFan && r.wires[w].A.Index == f {
				leads = append(leads, w)
			}
		}
		across := fan.Out.Vector().Perp()
		key := func(w int) float64 {
			to := r.goalPlace(w, fan.Mouth)
			return (to.X-fan.Mouth.X)*across.X + (to.Y-fan.Mouth.Y)*across.Y
		}
		slices.SortStableFunc(leads, func(a, b int) int { return cmp.Compare(key(a), key(b)) })
		slots := fan.order(across)
		for i, w := range leads {
			r.state[w].slot = slots[i%len(slots)]
		}
	}
}

// order is the slots sorted across the fan.
func (f *Fan) order(across scene.Point) []int {
	out := make([]int, len(f.Slots))
	for i := range out {
		out[i] = i
	}
	at := func(i int) float64 { return f.Slots[i].X*across.X + f.Slots[i].Y*across.Y }
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(at(a), at(b)) })
	return out
}

// goalPlace is about where a wire goes; a lead that stays where it is goes far
// to the end of its fan.
func (r *router) goalPlace(w int, from scene.Point) scene.Point {
	switch e := &r.wires[w].B; e.Kind {
	case AtTerm:
		return e.Tips[0].At
	case InZone:
		return r.board.Zones[e.Index].Box.Center()
	case InFan:
		return r.board.Fans[e.Index].Mouth
	case OnWire:
		return from
	}
	return from.Add(scene.Pt(0, 1e4))
}

// order is the wires, short ones first, each after the one that it ends on.
func (r *router) order() []int {
	out := make([]int, 0, len(r.wires))
	for w := range r.wires {
		out = append(out, w)
	}
	span := make([]float64, len(r.wires))
	for w := range r.wires {
		span[w] = r.span(w)
	}
	for w := range r.wires {
		for _, e := range []*End{&r.wires[w].A, &r.wires[w].B} {
			if e.Kind == OnWire {
				span[w] = math.Nextafter(span[e.Index], math.Inf(1))
			}
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(span[a], span[b]) })
	return out
}

func (r *router) span(w int) float64 {
	d := r.startPlace(w).Sub(r.goalPlace(w, r.startPlace(w)))
	return math.Abs(d.X) + math.Abs(d.Y)
}

func (r *router) startPlace(w int) scene.Point {
	switch e := &r.wires[w].A; e.Kind {
	case InZone:
		return r.board.Zones[e.Index].Box.Center()
	case InFan:
		return r.board.Fans[e.Index].Slots[r.state[w].slot]
	case AtTerm:
		return e.Tips[0].At
	}
	return scene.Point{}
}

// lay routes a wire that is off the grid and puts it on; false when there is no
// way below the limit.
func (r *router) lay(w int, limit int32) (int32, bool) {
	if r.wires[w].B.Kind == Nowhere {
		return r.layStub(w)
	}
	f, ok := r.find(w, limit)
	if !ok {
		return 0, false
	}
	s := &r.state[w]
	s.nodes, s.a, s.b, s.routed = f.nodes, f.a, f.b, true
	r.put(w, 1)
	return f.cost, true
}

// stubLength is how far a lead that goes nowhere comes out of its slot, mm.
const stubLength = 4.0

// layStub lays a lead that stays beside its slot.
func (r *router) layStub(w int) (int32, bool) {
	s, fan := &r.state[w], &r.board.Fans[r.wires[w].A.Index]
	n, ok := r.grid.find(fan.Slots[s.slot])
	if !ok {
		return 0, false
	}
	s.nodes = []int32{n}
	for dist := 0.0; dist < stubLength; {
		next, _, length, ok := r.grid.step(n, fan.Out)
		if !ok {
			break
		}
		n, dist = next, dist+float64(length)/unit
		s.nodes = append(s.nodes, n)
	}
	s.a, s.b, s.routed = port{node: s.nodes[0], slot: s.slot}, port{node: n, slot: -1}, true
	cost := r.costOf(w)
	r.put(w, 1)
	return cost, true
}

// lift takes a wire off the grid.
func (r *router) lift(w int) {
	r.put(w, -1)
	r.state[w].routed = false
}

const noLimit = math.MaxInt32 / 2
