package route

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"testing"

	"loomwright/internal/scene"
)

// randomBoard is a board of lugs, bodies and labels at random, and wires
// between the lugs.
func randomBoard(seed uint64, wires int) (Board, []Wire) {
	r := rand.New(rand.NewPCG(seed, 3))
	b := Board{Box: scene.Box(0, 0, 90, 70)}
	for i := range 3 {
		b.Bodies = append(b.Bodies, Body{Part: 100 + i, Box: scene.Box(r.Float64()*70, r.Float64()*50, 12, 10), Round: i == 0})
	}
	b.Labels = append(b.Labels, Label{Box: scene.Box(r.Float64()*70, r.Float64()*60, 14, 3), Hard: true})
	var out []Wire
	place := func(id int) End {
		x, y := 8+8*float64(r.IntN(10)), 8+7*float64(r.IntN(8))
		b.Lugs = append(b.Lugs, Lug{id, scene.Pt(x, y), scene.Pt(x, y)})
		return term(id, x, y, Dirs(1+r.IntN(15)))
	}
	for i := range wires {
		out = append(out, Wire{A: place(2 * i), B: place(2*i + 1)})
	}
	return b, out
}

// TestSearchIsShortest holds A* against Dijkstra's algorithm, which needs no
// bound of what is left: on boards without price for short bends, whose price
// depends on the way taken and which neither can see ahead.
func TestSearchIsShortest(t *testing.T) {
	compared := 0
	for seed := range uint64(40) {
		b, wires := randomBoard(seed, 6)
		r := newRouter(&b, wires)
		r.first, r.pressure = true, hard
		for w := range wires {
			f, ok := r.find(w, noLimit)
			least, reached := dijkstra(r, w)
			if ok != reached {
				t.Fatalf("board %d, wire %d: found %v, Dijkstra %v", seed, w, ok, reached)
			}
			if !ok {
				continue
			}
			compared++
			// the price of a short bend hangs on the way here: A* may pay it where
			// Dijkstra, on the same states, does not
			if slack := int32((shortBend + stubBend) * unit); f.cost > least+slack || f.cost < least-slack {
				t.Errorf("board %d, wire %d: %d, Dijkstra %d", seed, w, f.cost, least)
			}
			r.lay(w, noLimit)
		}
	}
	if compared < 150 {
		t.Errorf("only %d ways were compared", compared)
	}
}

// dijkstra is the cheapest way of a wire by plain relaxation to a fixed point.
func dijkstra(r *router, w int) (int32, bool) {
	wire := &r.wires[w]
	starts, goals := r.ports(w, &wire.A, false), r.ports(w, &wire.B, true)
	r.ease(w, -1)
	defer r.ease(w, 1)
	s := search{r: r, wire: w}
	n := 4 * r.grid.nx * r.grid.ny
	cost, run := make([]int32, n), make([]int32, n)
	for i := range cost {
		cost[i] = noLimit
	}
	var h sorted
	reach := func(at int32, d Dir, c, length int32) {
		if st := stateOf(at, d); c < cost[st] {
			cost[st], run[st] = c, length
			h.push(c, st)
		}
	}
	for i := range starts {
		p := &starts[i]
		if next, e, length, ok := r.grid.step(p.node, p.dir); ok {
			reach(next, p.dir, s.endCost(p)+r.edgeCost(e, length), length)
		}
	}
	for h.len() > 0 {
		c, st := h.pop()
		at, d := st/4, Dir(st%4)
		if c > cost[st] {
			continue
		}
		for nd := range Dir(4) {
			next, e, length, ok := r.grid.step(at, nd)
			if !ok || nd == d.Back() {
				continue
			}
			more := length
			if nd == d {
				more += run[st]
			}
			reach(next, nd, c+r.edgeCost(e, length)+r.nodeCost(w, at, d, nd, run[st]), more)
		}
	}
	best := int32(noLimit)
	for i := range goals {
		p := &goals[i]
		if st := stateOf(p.node, p.dir.Back()); cost[st] < noLimit {
			best = min(best, cost[st]+s.endCost(p)+lastPiece(run[st]))
		}
	}
	return best, best < noLimit
}

// TestTakenUpLeavesNothing: wires that are laid and taken up again leave no
// trace, and lifting in any order gives the same.
func TestTakenUpLeavesNothing(t *testing.T) {
	for seed := range uint64(10) {
		b, wires := randomBoard(seed, 12)
		r := newRouter(&b, wires)
		clean := append([]int32{}, r.terrain.cost...)
		r.negotiate(rounds)
		r.improve()
		for w := range wires {
			r.lift(w)
		}
		for e := range r.crowd {
			if r.crowd[e] != 0 || r.use[e] != 0 {
				t.Fatalf("board %d: edge %d is still in use", seed, e)
			}
		}
		for n := range r.stops {
			if r.stops[n] != 0 || r.tail[n] != 0 || r.elbow[n] != 0 || r.through[0][n] != 0 || r.through[1][n] != 0 {
				t.Fatalf("board %d: node %d is still in use", seed, n)
			}
		}
		for e, c := range r.terrain.cost {
			if c != clean[e] {
				t.Fatalf("board %d: the price of edge %d has changed", seed, e)
			}
		}
	}
}

// TestImprovementNeverHarms: with improvement the sum of costs is no higher
// than after negotiation alone.
func TestImprovementNeverHarms(t *testing.T) {
	better := 0
	for seed := range uint64(12) {
		b, wires := randomBoard(seed, 14)
		r := newRouter(&b, wires)
		r.negotiate(rounds)
		before := r.result()
		r.improve()
		after := r.result()
		if after.Cost > before.Cost+0.5 {
			t.Errorf("board %d: %.1f mm, %.1f before improvement", seed, after.Cost, before.Cost)
		}
		if after.Cost < before.Cost-1 {
			better++
		}
	}
	if better < 4 {
		t.Errorf("only %d of 12 boards got better", better)
	}
}

// TestSameEveryTime: the same board gives the same paths.
func TestSameEveryTime(t *testing.T) {
	b, wires := randomBoard(5, 14)
	one, two := Route(&b, wires, Options{}), Route(&b, wires, Options{})
	if one.Cost != two.Cost || one.Crossings != two.Crossings {
		t.Error("two routings of one board differ")
	}
}

// sorted is a queue as plain as can be: a list in order of cost.
type sorted []entry

func (s *sorted) len() int { return len(*s) }

func (s *sorted) push(cost, state int32) {
	i, _ := slices.BinarySearchFunc(*s, cost, func(e entry, c int32) int { return cmp.Compare(e.cost, c) })
	*s = slices.Insert(*s, i, entry{cost, state})
}

func (s *sorted) pop() (cost, state int32) {
	e := (*s)[0]
	*s = (*s)[1:]
	return e.cost, e.state
}

// TestQueueSorts holds the queue against a sorted list: pushes and pops at
// random, never below the last that came out.
func TestQueueSorts(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	var q queue
	var plain sorted
	for round := range 20 {
		q.clear()
		plain = plain[:0]
		last := int32(0)
		for i := range 500 {
			if r.IntN(3) > 0 || q.len() == 0 {
				c := last + int32(r.IntN(1<<(1+round%20)))
				q.push(c, int32(i))
				plain.push(c, int32(i))
				continue
			}
			got, _ := q.pop()
			want, _ := plain.pop()
			if last = want; got != want || q.len() != plain.len() {
				t.Fatalf("%d came out, the least is %d", got, want)
			}
		}
	}
}
