package meter

import (
	"cmp"
	"math/bits"
	"slices"
)

// set is a set of small numbers.
type set []uint64

func newSet(n int) set { return make(set, (n+63)/64) }

func (s set) add(i int)      { s[i/64] |= 1 << (i % 64) }
func (s set) has(i int) bool { return s[i/64]>>(i%64)&1 == 1 }

func (s set) count() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// common counts what two sets share.
func (s set) common(o set) int {
	n := 0
	for i, w := range s {
		n += bits.OnesCount64(w & o[i])
	}
	return n
}

func (s set) within(o set) bool { return s.common(o) == s.count() }

func (s set) without(o set) set {
	out := slices.Clone(s)
	for i := range out {
		out[i] &^= o[i]
	}
	return out
}

// coverBudget bounds the search for a shortest list.
const coverBudget = 20000

// cover finds few of the sets that together hold all of need; the first of
// equals is taken. proved tells that no fewer can. What some set must be in and
// what others make needless is settled first (row and column dominance, Garfinkel
// and Nemhauser, Integer Programming, 1972; from memory), the rest by branch and
// bound.
func cover(sets []set, need set) (chosen []int, proved bool) {
	c := &covering{sets: sets, budget: coverBudget}
	var usable []int
	for i, s := range sets {
		if s.common(need) > 0 {
			usable = append(usable, i)
		}
	}
	c.best = c.greedy(usable, need)
	c.search(usable, need, nil)
	c.easier(need)
	slices.Sort(c.best)
	return c.best, c.budget > 0
}

type covering struct {
	sets   []set
	best   []int
	budget int
}

// greedy takes the set that holds most, again and again.
func (c *covering) greedy(usable []int, need set) []int {
	var out []int
	for need.count() > 0 {
		best, most := -1, 0
		for _, i := range usable {
			if n := c.sets[i].common(need); n > most {
				best, most = i, n
			}
		}
		if best < 0 {
			return nil
		}
		out = append(out, best)
		need = need.without(c.sets[best])
	}
	return out
}

// search looks for a shorter cover than the best so far.
func (c *covering) search(usable []int, need set, taken []int) {
	if c.budget--; c.budget <= 0 {
		return
	}
	usable, need, taken = c.reduce(usable, need, slices.Clone(taken))
	if len(taken)+c.least(usable, need) >= len(c.best) {
		return
	}
	if need.count() == 0 {
		c.best = taken
		return
	}
	item, holders := c.rarest(usable, need)
	slices.SortStableFunc(holders, func(a, b int) int {
		return cmp.Compare(c.sets[b].common(need), c.sets[a].common(need))
	})
	for at, h := range holders {
		rest := slices.DeleteFunc(slices.Clone(usable), func(i int) bool { return slices.Contains(holders[:at+1], i) && c.sets[i].has(item) })
		c.search(rest, need.without(c.sets[h]), append(taken, h))
	}
}

// reduce takes what must be taken and drops what another makes needless, until
// nothing changes.
func (c *covering) reduce(usable []int, need set, taken []int) ([]int, set, []int) {
	for {
		usable = c.dominant(usable, need)
		need = c.hardest(usable, need)
		item, holders := c.rarest(usable, need)
		if item < 0 || len(holders) != 1 {
			return usable, need, taken
		}
		taken = append(taken, holders[0])
		need = need.without(c.sets[holders[0]])
	}
}

// dominant keeps the sets that hold something which no other set holds all of.
func (c *covering) dominant(usable []int, need set) []int {
	live := make([]set, len(usable))
	for k, i := range usable {
		live[k] = slices.Clone(c.sets[i])
		for w := range live[k] {
			live[k][w] &= need[w]
		}
	}
	var out []int
	for k := range usable {
		size := live[k].count()
		beaten := size == 0
		for j := range usable {
			if beaten || j == k {
				continue
			}
			other := live[j].count()
			beaten = live[k].within(live[j]) && (other > size || other == size && j < k)
		}
		if !beaten {
			out = append(out, usable[k])
		}
	}
	return out
}

// hardest drops items that are held wherever another one is.
func (c *covering) hardest(usable []int, need set) set {
	holders := map[int]set{}
	var items []int
	for i := range 64 * len(need) {
		if !need.has(i) {
			continue
		}
		h := newSet(len(usable))
		for k, u := range usable {
			if c.sets[u].has(i) {
				h.add(k)
			}
		}
		holders[i] = h
		items = append(items, i)
	}
	out := newSet(64 * len(need))
	for _, i := range items {
		easy := slices.ContainsFunc(items, func(j int) bool {
			return j != i && holders[j].within(holders[i]) && (holders[j].count() < holders[i].count() || j < i)
		})
		if !easy {
			out.add(i)
		}
	}
	return out
}

// rarest is the item with the fewest holders, and they; −1 when there is none.
func (c *covering) rarest(usable []int, need set) (item int, holders []int) {
	item = -1
	for i := range 64 * len(need) {
		if !need.has(i) {
			continue
		}
		var h []int
		for _, u := range usable {
			if c.sets[u].has(i) {
				h = append(h, u)
			}
		}
		if item < 0 || len(h) < len(holders) {
			item, holders = i, h
		}
	}
	return item, holders
}

// least is how many more sets are needed at least: items no two of which share
// a set.
func (c *covering) least(usable []int, need set) int {
	used := map[int]bool{}
	n := 0
	for i := range 64 * len(need) {
		if !need.has(i) {
			continue
		}
		free := true
		var h []int
		for _, u := range usable {
			if c.sets[u].has(i) {
				h = append(h, u)
				free = free && !used[u]
			}
		}
		if free && len(h) > 0 {
			n++
			for _, u := range h {
				used[u] = true
			}
		}
	}
	return n
}

// easier puts earlier sets for later ones where the cover stays whole: sets are
// in order of ease.
func (c *covering) easier(need set) {
	for k := range c.best {
		rest := slices.Clone(need)
		for j, i := range c.best {
			if j != k {
				rest = rest.without(c.sets[i])
			}
		}
		for i := range c.best[k] {
			if !slices.Contains(c.best, i) && rest.within(c.sets[i]) {
				c.best[k] = i
				break
			}
		}
	}
}
