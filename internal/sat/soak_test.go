//go:build soak

package sat_test

import (
	"testing"

	"loomwright/internal/oracle"

	. "loomwright/internal/sat"
)

// Thousands of random problems of all families, every verdict checked by CaDiCaL,
// every short refutation by the proof checker.
func TestSoak(t *testing.T) {
	oracle.Need(t, "cadical")
	for seed := range 4000 {
		r := newRand(uint64(1e6 + seed))
		in := instance{name: "soak"}
		switch seed % 5 {
		case 0:
			in.cnf = threeSat(r, 50+r.IntN(150), 4+0.6*r.Float64())
		case 1:
			in.cnf = partition(r, 8+r.IntN(14), 10+r.IntN(50))
		case 2:
			in.cnf = colouring(r, 20+r.IntN(60), 40+r.IntN(150), 3+r.IntN(2))
		case 3:
			in.cnf = parity(r, 5+r.IntN(25), r.IntN(2) == 0)
		case 4:
			in = boundedWiring(r, seed)
		}
		if got := agree(t, "cadical", in); got != Unsat {
			continue
		}
		s, proof, _ := refute(t, in)
		if len(proof) > 50000 {
			continue
		}
		if err := newDratChecker(s.CNF(s.Core()...)).check(proof + "0\n"); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
	}
}
