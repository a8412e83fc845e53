package leads

import (
	"math"
	"math/bits"
)

// maxExact is how many guesses may be left for the whole tree of questions to
// be searched.
const maxExact = 24

// best is the question that tells most of what is left; false when none splits
// it. With few guesses every tree of questions is looked at and the least
// average number of questions, then the least worst case, wins.
func (w *wizard) best(guesses []guess) (ask, bool) {
	p := w.planner(guesses)
	if len(guesses) <= maxExact {
		all := uint32(1)<<len(guesses) - 1
		if c := p.tree(all); c.ask >= 0 {
			return p.asks[c.ask], true
		}
		return ask{}, false
	}
	return p.greedy(len(guesses))
}

// planner knows what every guess answers to every question.
type planner struct {
	asks    []ask
	answers [][]outcome // by ask, by guess
	memo    map[uint32]cost
}

// cost of a tree: the sum over guesses of the questions until no more helps,
// the most, and the first question (−1: none helps).
type cost struct{ sum, most, ask int }

func (w *wizard) planner(guesses []guess) *planner {
	p := &planner{memo: map[uint32]cost{}}
	for _, k := range w.asks {
		if w.asked(k) || k.kind == tap && w.notCoil(k) {
			continue
		}
		row := make([]outcome, len(guesses))
		for i := range guesses {
			row[i] = w.d.predict(&guesses[i], k)
		}
		p.asks, p.answers = append(p.asks, k), append(p.answers, row)
	}
	return p
}

// notCoil reports whether the two leads of a tap were read, and are no coil's.
func (w *wizard) notCoil(k ask) bool {
	for _, a := range w.answers {
		if a.kind == ohms && (a.a == k.a && a.b == k.b || a.a == k.b && a.b == k.a) {
			return a.is != coilful
		}
	}
	return false
}

// isCoil reports whether the two leads of a tap were read, and are a coil's.
func (w *wizard) isCoil(k ask) bool {
	return w.asked(ask{kind: ohms, a: k.a, b: k.b}) && !w.notCoil(k)
}

// ohmsOf gives for a tap the same pair's ohms, by guess; nil where those were
// read already.
func (p *planner) ohmsOf(k ask) []outcome {
	for i, o := range p.asks {
		if o.kind == ohms && o.a == k.a && o.b == k.b {
			return p.answers[i]
		}
	}
	return nil
}

// parts splits a set by the answers to one question. A tap is only asked where
// all guesses agree that the two leads are a coil's: an open pair picks up noise.
func (p *planner) parts(set uint32, i int) []uint32 {
	if p.asks[i].kind == tap {
		if ohms := p.ohmsOf(p.asks[i]); ohms != nil {
			for s := set; s != 0; s &= s - 1 {
				if ohms[bits.TrailingZeros32(s)] != coilful {
					return nil
				}
			}
		}
	}
	by := map[outcome]uint32{}
	var order []outcome
	for s := set; s != 0; s &= s - 1 {
		g := bits.TrailingZeros32(s)
		o := p.answers[i][g]
		if by[o] == 0 {
			order = append(order, o)
		}
		by[o] |= 1 << g
	}
	if len(order) < 2 {
		return nil
	}
	var out []uint32
	for _, o := range order {
		out = append(out, by[o])
	}
	return out
}

// tree is the best tree of questions for a set.
func (p *planner) tree(set uint32) cost {
	if bits.OnesCount32(set) == 1 {
		return cost{0, 0, -1}
	}
	if c, ok := p.memo[set]; ok {
		return c
	}
	best := cost{math.MaxInt, math.MaxInt, -1}
	for i := range p.asks {
		parts := p.parts(set, i)
		if parts == nil {
			continue
		}
		c := cost{bits.OnesCount32(set), 0, i}
		for _, part := range parts {
			sub := p.tree(part)
			c.sum += sub.sum
			c.most = max(c.most, sub.most+1)
			if c.sum > best.sum {
				break
			}
		}
		if c.sum < best.sum || c.sum == best.sum && c.most < best.most {
			best = c
		}
	}
	if best.ask < 0 {
		best = cost{0, 0, -1}
	}
	p.memo[set] = best
	return best
}

// greedy is the question of the most even split: the least expected entropy.
func (p *planner) greedy(n int) (ask, bool) {
	at, least := -1, math.Inf(1)
	for i, k := range p.asks {
		if k.kind == tap && !p.allCoil(k, n) {
			continue
		}
		count := map[outcome]int{}
		for _, o := range p.answers[i] {
			count[o]++
		}
		if len(count) < 2 {
			continue
		}
		left := 0.0
		for _, o := range []outcome{joined, coilful, open, up, down, nothing} {
			if c := float64(count[o]); c > 0 {
				left += c / float64(n) * math.Log2(c)
			}
		}
		if left < least-1e-9 {
			at, least = i, left
		}
	}
	if at < 0 {
		return ask{}, false
	}
	return p.asks[at], true
}

func (p *planner) allCoil(k ask, n int) bool {
	row := p.ohmsOf(k)
	for i := range n {
		if row != nil && row[i] != coilful {
			return false
		}
	}
	return true
}
