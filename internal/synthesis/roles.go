package synthesis

import (
	"fmt"
	"slices"
)

// fill fills a section's roles for a pickup (−1: behind the switches).
func (b *binder) fill(s *Section, pickup int) (stretch, bool) {
	st := stretch{section: s, pickup: pickup}
	var taken []int
	for _, r := range s.Roles {
		i := b.choose(&r, pickup)
		if i < 0 && r.Shared {
			i = b.shared(&r)
		}
		if i < 0 && r.Optional {
			continue
		}
		if i < 0 {
			for _, k := range taken {
				b.pool[k].taken = false
			}
			return st, false
		}
		if !b.pool[i].taken {
			b.pool[i].taken = true
			taken = append(taken, i)
		}
		filled := b.pool[i].bound
		filled.role = r.Name
		st.filled = append(st.filled, filled)
	}
	return st, true
}

// choose finds the candidate for a role: the one that the loom asks for, else
// by what its name says of the pickup and of its kind, else the first.
func (b *binder) choose(r *Role, pickup int) int {
	if name, ok := b.askedFor(r, pickup); ok {
		for i, c := range b.pool {
			if c.name == name && !c.taken {
				return i
			}
		}
		b.problem = fmt.Sprintf("%s cannot be the %s", name, r.Name)
		return -1
	}
	best, bestRank := -1, 99
	for i, c := range b.pool {
		if rank := c.rank(r, pickup); !c.taken && !b.isAsked(c.name) && rank < bestRank {
			best, bestRank = i, rank
		}
	}
	if best < 0 {
		b.problem = fmt.Sprintf("there is no part for the %s%s", r.Name, b.forPickup(pickup))
	}
	return best
}

// rank is how well a candidate fits: 99 not at all.
func (c *candidate) rank(r *Role, pickup int) int {
	rank := 0
	switch {
	case c.kind == r.Is:
	case c.kind == "pot" && (r.Is == "volume" || r.Is == "tone"):
		rank = 2
	default:
		return 99
	}
	switch {
	case c.pickup == pickup:
		return rank
	case c.pickup < 0:
		return rank + 1
	case pickup < 0:
		return rank + 4
	}
	return 99
}

// shared finds a taken part that may fill the role once more.
func (b *binder) shared(r *Role) int {
	return slices.IndexFunc(b.pool, func(c candidate) bool { return c.taken && c.kind == r.Is })
}

func (b *binder) askedFor(r *Role, pickup int) (string, bool) {
	if pickup >= 0 {
		if name, ok := b.asked[b.g.Loom.Uses[pickup].Name+" "+r.Name]; ok {
			return name, true
		}
		return "", false
	}
	name, ok := b.asked[r.Name]
	return name, ok
}

func (b *binder) isAsked(name string) bool {
	for _, n := range b.asked {
		if n == name {
			return true
		}
	}
	return false
}

func (b *binder) forPickup(pickup int) string {
	if pickup < 0 {
		return ""
	}
	return " of " + b.g.Loom.Uses[pickup].Name
}
