package synthesis

import (
	"loomwright/internal/sat"
)

// neighbours looks for fewer joins near the best solution: some nodes are free
// to move, the others keep their nets among each other (large neighbourhood
// search: Shaw, "Using Constraint Programming and Local Search Methods to Solve
// Vehicle Routing Problems", 1998). It spends about the given conflicts and
// reports whether it got better.
func (e *encoding) neighbours(out *outcome, f *effort, conflicts int64) bool {
	better := false
	rng := random(uint64(f.spent)*2 + 1)
	for spent := int64(0); spent < conflicts && !f.out(); {
		before := f.spent
		share := 25 + int(rng.next()%36) // percent of the nodes that are free
		fixed := e.keep(out.best, share, &rng)
		if e.solve(f, max(neighbourhood, conflicts/40), append(fixed, e.more(out.joins-1).Not())...) == sat.Sat {
			e.take(out, f)
			better = true
		}
		spent += max(f.spent-before, 20)
	}
	return better
}

// keep lists the literals that hold all but a share of the nodes where they are.
func (e *encoding) keep(best solution, percent int, rng *random) []sat.Lit {
	var held []int
	for x := range best {
		if int(rng.next()%100) >= percent {
			held = append(held, x)
		}
	}
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
