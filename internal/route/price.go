package route

// Prices in mm.
const (
	bendCost   = 6
	shortBend  = 5   // more for a bend less than jog after the last one
	jog        = 4.9 // mm
	tailCross  = 30  // more for a crossing near an end of either wire
	bendCross  = 25  // more for a crossing near a bend of either wire
	bendRoom   = 3.0 // mm that is near
	crossRoom  = 2.4 // mm from crossing to crossing
	stubBend   = 40  // more for a bend less than stub after the last one
	stub       = 2.2 // mm
	nodeLength = 3   // mm of conflict that a shared node counts for
)

// Prices are what wires pay while they look for their lanes. Boards are
// compared at the usual prices, whatever they were routed at.
type Prices uint8

// The prices: the usual; or crossings so dear that a wire goes a long way round
// rather than over another, and wires that may push others out of their lanes.
const (
	Usual Prices = iota
	Detours
)

// prices are the figures.
type prices struct {
	cross int32   // of a crossing, mm
	first float64 // of a conflict in the first round of negotiation, mm per mm
	push  bool    // wires are tried in lanes that others must leave
}

func (p Prices) figures() prices {
	if p == Detours {
		return prices{cross: 120, first: 0.9, push: true}
	}
	return prices{cross: 30, first: 1.5}
}

// lastPiece is what it costs to come to a port with a bend close before it.
func lastPiece(run int32) int32 {
	if run < stub*unit {
		return stubBend * unit
	}
	return 0
}

// edgeCost is what an edge costs among the wires that are laid.
func (r *router) edgeCost(e, length int32) int32 {
	cost := length + r.terrain.cost[e]
	if c := r.crowd[e]; c > 0 {
		cost += int32(c) * (r.pressure*length/unit + r.history[e])
	}
	return cost
}

// nodeCost is what passing a node costs: a bend, crossings, conflicts. run is
// the length since the last bend.
func (r *router) nodeCost(w int, n int32, in, out Dir, run int32) int32 {
	if in != out {
		cost := int32(bendCost * unit)
		if run < jog*unit {
			cost += shortBend * unit
		}
		if run < stub*unit {
			cost += stubBend * unit
		}
		cost += r.crossingBefore(n, in, bendRoom)
		if c := r.through[0][n] + r.through[1][n] + r.stops[n]; c > 0 {
			cost += int32(c) * r.pressure * nodeLength
		}
		return cost
	}
	cost := int32(r.stops[n]) * r.pressure * nodeLength
	if c := int32(r.through[1-b2i(in.upright())][n]); c > 0 {
		cost += c * r.prices.cross * unit
		if r.tail[n] > 0 || r.nearEnd(w, n) {
			cost += c * tailCross * unit
		}
		if r.elbow[n] > 0 || run < bendRoom*unit {
			cost += c * bendCross * unit
		}
		cost += r.crossingBefore(n, in, crossRoom)
	}
	return cost
}

// crossingBefore is what a bend or a crossing costs for lying just behind a
// crossing.
func (r *router) crossingBefore(n int32, in Dir, room float64) int32 {
	before, _, length, ok := r.grid.step(n, in.Back())
	if !ok || float64(length) >= room*unit {
		return 0
	}
	return int32(r.through[1-b2i(in.upright())][before]) * bendCross * unit
}

// nearEnd reports whether a node lies near an end of the wire.
func (r *router) nearEnd(w int, n int32) bool {
	p := r.grid.at(n)
	for _, box := range r.state[w].reach {
		if p.X > box.Min.X && p.X < box.Max.X && p.Y > box.Min.Y && p.Y < box.Max.Y {
			return true
		}
	}
	return false
}
