package swap

import (
	"math/rand/v2"
	"slices"
	"testing"

	"loomwright/internal/part"
)

// randomSwitch draws contact tables of two poles over some positions.
func randomSwitch(rng *rand.Rand, lugs, positions int) *part.Part {
	p := &part.Part{Terminals: make([]part.Terminal, lugs)}
	for i := range p.Terminals {
		p.Terminals[i].Name = string(rune('a' + i))
	}
	sw := part.Switch{Proved: -1, Positions: make([]part.Position, positions)}
	for range 2 {
		pole := part.Pole{Contacts: make([][][]int, positions)}
		for pos := range positions {
			if rng.IntN(4) > 0 {
				a, b := rng.IntN(lugs), rng.IntN(lugs)
				if a != b {
					pole.Contacts[pos] = [][]int{{a, b}}
				}
			}
		}
		sw.Poles = append(sw.Poles, pole)
	}
	p.Switches = []part.Switch{sw}
	return p
}

// meets reports whether two lugs meet in a position, looked up in the table.
func meets(p *part.Part, pos, a, b int) bool {
	for _, pole := range p.Switches[0].Poles {
		for _, g := range pole.Contacts[pos] {
			if slices.Contains(g, a) && slices.Contains(g, b) {
				return true
			}
		}
	}
	return false
}

// bruteForce tries every way to place the used lugs.
func bruteForce(old, next *part.Part, used []int) bool {
	var place func(chosen []int) bool
	place = func(chosen []int) bool {
		if len(chosen) == len(used) {
			for i := range used {
				for k := range used[:i] {
					for pos := range old.Switches[0].Positions {
						if meets(old, pos, used[i], used[k]) != meets(next, pos, chosen[i], chosen[k]) {
							return false
						}
					}
				}
			}
			return true
		}
		for t := range next.Terminals {
			if !slices.Contains(chosen, t) && place(append(chosen[:len(chosen):len(chosen)], t)) {
				return true
			}
		}
		return false
	}
	return place(nil)
}

// The search finds a mapping when, and only when, trying all of them does, and
// what it finds is one.
func TestMatchAgainstBruteForce(t *testing.T) {
	found, missed := 0, 0
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 5))
		old, next := randomSwitch(rng, 5, 3), randomSwitch(rng, 6, 3)
		used := rng.Perm(5)[:1+rng.IntN(4)]
		slices.Sort(used)
		m := matcher{old: newRelations(old), next: newRelations(next), used: used, to: map[int]int{}}
		got, want := m.match(0), bruteForce(old, next, used)
		if got != want {
			t.Fatalf("seed %d: found %v, brute force %v", seed, got, want)
		}
		if !got {
			missed++
			continue
		}
		found++
		for i, a := range used {
			for _, b := range used[:i] {
				for pos := range 3 {
					if meets(old, pos, a, b) != meets(next, pos, m.to[a], m.to[b]) {
						t.Fatalf("seed %d: %d and %d meet otherwise at %d", seed, a, b, pos)
					}
				}
			}
		}
	}
	if found < 30 || missed < 30 {
		t.Errorf("%d found, %d not: the draw tells nothing", found, missed)
	}
}
