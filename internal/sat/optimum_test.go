package sat_test

import (
	"testing"

	"loomwright/internal/oracle"

	. "loomwright/internal/sat"
)

// optimum lowers the bound until nothing is left. It returns the fewest wires, or
// -1 when the sounds cannot be had.
func (e *wiringCNF) optimum() int {
	best := -1
	for e.s.Solve() == Sat {
		best = e.wireCount()
		if best == 0 {
			break
		}
		e.s.AddClause(e.cost[best-1].Not())
	}
	return best
}

// nets is a partition of the terminals: terminal → number of its net.
type nets []int

// merged returns the nets after the contacts of a setting have closed.
func (n nets) merged(w wiring, setting int) nets {
	out := append(nets(nil), n...)
	for p := range w.poles {
		from, to := out[w.throw(p, setting)], out[w.common(p)]
		for t, net := range out {
			if net == from {
				out[t] = to
			}
		}
	}
	return out
}

// sounds reports whether the nets of a setting are a realisation of its sound, in
// a polarity, with the other coils shorted or dangling: each lead that is on hot,
// or in a net of the sound that is not ground, belongs to a shorted coil.
func (n nets) sounds(w wiring, setting, polarity int) bool {
	fresh := 2
	top, bottom := hot, ground
	if polarity == 1 {
		top, bottom = ground, hot
	}
	active := w.activePorts(setting)
	return n.quiet(w, active) && matchesAny(n, active, w.sounds[setting].realisations(top, bottom, &fresh))
}

func matchesAny(n nets, active []int, ways []map[int]int) bool {
	for _, way := range ways {
		way[hot], way[ground] = hot, ground
		ok := true
		for i, p := range active {
			for _, q := range active[:i] {
				ok = ok && (n[p] == n[q]) == (way[p] == way[q])
			}
		}
		if ok {
			return true
		}
	}
	return false
}

func (n nets) quiet(w wiring, active []int) bool {
	sounding := map[int]bool{}
	for _, p := range active {
		if n[p] != n[ground] {
			sounding[n[p]] = true
		}
	}
	for c := range w.coils {
		a, b := n[start(c)], n[start(c)+1]
		inSound := false
		for _, p := range active[2:] {
			inSound = inSound || p == start(c)
		}
		if !inSound && a != b && (sounding[a] || sounding[b]) {
			return false
		}
	}
	return true
}

// exhaustive tries all partitions of the terminals.
func exhaustive(w wiring) int {
	best := -1
	n := make(nets, w.terminals())
	var fill func(t, count int)
	fill = func(t, count int) {
		if t < len(n) {
			for net := range count + 1 {
				n[t] = net
				fill(t+1, max(count, net+1))
			}
			return
		}
		wires := len(n) - count
		if n[hot] != n[ground] && (best < 0 || wires < best) && (n.works(w, 0) || n.works(w, 1)) {
			best = wires
		}
	}
	fill(0, 0)
	return best
}

func (n nets) works(w wiring, polarity int) bool {
	for k := range w.sounds {
		if !n.merged(w, k).sounds(w, k, polarity) {
			return false
		}
	}
	return true
}

// Gates, counts, assumptions and search together find the true optimum: on small
// switches all partitions of the terminals are tried, and the encoding without
// its rules for dominance and symmetry agrees.
func TestOptimumAgreesWithExhaustiveSearch(t *testing.T) {
	possible, impossible := 0, 0
	for seed := range 40 {
		r := newRand(uint64(seed))
		shape := [][3]int{{2, 1, 2}, {1, 1, 3}, {2, 1, 1}, {1, 2, 2}}[seed%4]
		w := randomWiring(r, shape[0], shape[1], shape[2])
		want := exhaustive(w)
		got := w.encode(Options{}).optimum()
		w.plain = true
		if plain := w.encode(Options{}).optimum(); got != want || plain != want {
			t.Errorf("%+v: %d wires, without rules %d, exhaustive search %d", w, got, plain, want)
		}
		if want < 0 {
			impossible++
		} else {
			possible++
		}
	}
	if possible < 10 || impossible < 3 {
		t.Errorf("lopsided sample: %d possible, %d impossible", possible, impossible)
	}
}

func TestRulesKeepTheOptimum(t *testing.T) {
	for seed := range uint64(12) {
		w := randomWiring(newRand(100+seed), 2+int(seed%2), 2, 3)
		got := w.encode(Options{}).optimum()
		w.plain = true
		if want := w.encode(Options{}).optimum(); got != want {
			t.Errorf("%+v: %d wires, without rules %d", w, got, want)
		}
	}
}

// Four coils on a switch of four poles and five throws, beyond exhaustive search:
// CaDiCaL agrees that the optimum can be had and that one wire less cannot.
func TestOptimumAgreesWithCadical(t *testing.T) {
	oracle.Need(t, "cadical")
	for _, name := range []string{"easy", "medium"} {
		w := wiringProblems()[name]
		best := w.encode(Options{}).optimum()
		e := w.encode(Options{})
		if got := outside(t, "cadical", e.s.CNF(e.cost[best].Not())); got != Sat {
			t.Errorf("%s: %d wires: %v", name, best, got)
		}
		if got := outside(t, "cadical", e.s.CNF(e.cost[best-1].Not())); got != Unsat {
			t.Errorf("%s: %d wires: %v", name, best-1, got)
		}
		t.Logf("%s: %d wires", name, best)
	}
}
