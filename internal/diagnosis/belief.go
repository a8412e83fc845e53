package diagnosis

import (
	"cmp"
	"math"
	"slices"

	"loomwright/internal/meter"
)

// Judgements (no source). How likely the kinds of fault are beside one another
// is meter.Options' to say.
const (
	wholeShare = 0.1  // how likely the loom is whole beside all faults together
	doubtLeft  = 0.05 // what a doubted reading leaves to a case that it speaks against
	leastGain  = 0.03 // bits below which a reading is not worth its trouble
)

// belief is what readings leave of the cases of a table.
type belief struct {
	t    *meter.Table
	p    []float64 // by case: sums to one, zero where excluded
	done []bool    // by ask: taken already, or cannot be
}

func newBelief(t *meter.Table) *belief {
	b := &belief{t: t, p: make([]float64, len(t.Cases)), done: make([]bool, len(t.Asks))}
	sum := 0.0
	for i := range t.Cases {
		b.p[i] = t.Cases[i].Prior()
		sum += b.p[i]
	}
	if b.p[0] = wholeShare * sum / (1 - wholeShare); sum == 0 {
		b.p[0] = 1
	}
	b.normalise()
	return b
}

func (b *belief) normalise() {
	sum := 0.0
	for _, x := range b.p {
		sum += x
	}
	for i := range b.p {
		if sum > 0 {
			b.p[i] /= sum
		}
	}
}

// left lists the cases that are not excluded.
func (b *belief) left() []int {
	var out []int
	for i, x := range b.p {
		if x > 0 {
			out = append(out, i)
		}
	}
	return out
}

// see takes a reading into account: excludes what does not fit, and weighs the
// rest by how surely each would have shown it.
func (b *belief) see(a *meter.Ask, seen meter.Shown, doubt bool) {
	at := b.t.Find(a)
	if at >= 0 {
		b.done[at] = true
	}
	for i, x := range b.p {
		if x == 0 {
			continue
		}
		l := likelihood(a.Kind, b.can(a, at, i), seen)
		if doubt {
			l = (1-doubtLeft)*l + doubtLeft*background(a.Kind)
		}
		b.p[i] *= l
	}
	b.normalise()
}

// can is what a reading can show for a case; at is its place in the table or −1.
func (b *belief) can(a *meter.Ask, at, c int) meter.Shown {
	if at >= 0 && a.Kind != meter.Darkens {
		return b.t.Column(at).Shown(c)
	}
	return b.t.Shown(a, c)
}

// background is the likelihood of a reading about which nothing is known.
func background(k meter.Kind) float64 {
	if n := len(bitsOf(k.Answers())); n > 0 {
		return 1 / float64(n)
	}
	return leastWidth / 16
}

// likelihood is how probable it is that a case which can show s shows what was
// seen, spread evenly; 0 where it cannot.
func likelihood(k meter.Kind, s, seen meter.Shown) float64 {
	if !s.Fits(seen) {
		return 0
	}
	if s.May != 0 {
		return 1 / float64(len(bitsOf(s.May)))
	}
	can := stretchOf(k, s)
	return leastWidth / (can.hi - can.lo)
}

// advice is the reading that tells most, and how many bits; −1 where none
// surely splits the cases left. Where likelihoods leave nothing to gain all
// cases left count the same.
func (b *belief) advice() (int, float64) {
	left := b.left()
	if best, bits := b.best(left, b.p); bits >= leastGain {
		return best, bits
	}
	even := make([]float64, len(b.p))
	for _, c := range left {
		even[c] = 1 / float64(len(left))
	}
	if best, bits := b.best(left, even); bits >= leastGain {
		return best, bits
	}
	return -1, 0
}

// candidate is a reading that could be next: what it can show for the cases
// left, how likely each is, and a bound of its gain.
type candidate struct {
	ask      int
	outcomes []meter.Shown
	weights  []float64
	most     float64
}

// fewCases is how many cases may be left for a reading that is listened to,
// which is costly to foresee.
const fewCases = 10

// best finds the ask of the largest gain, or an easier one that is nearly as
// good. What the outcomes themselves tell bounds what a reading tells of the
// cases, and is quickly worked out.
func (b *belief) best(left []int, p []float64) (int, float64) {
	var list []candidate
	pool := make([]float64, 0, 1<<14)
	for i := range b.t.Asks {
		if a := &b.t.Asks[i]; !b.done[i] && b.tells(i, left) {
			c := b.candidate(i, left, p, &pool)
			if c.most = (1 - effort(a.Kind)) * Entropy(c.weights...); c.most > leastGain/2 {
				list = append(list, c)
			}
		}
	}
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(list[y].most, list[x].most) })
	return b.easiest(list, order)
}

// nearly is the part of the largest gain for which an easier reading is taken.
const nearly = 0.97

func (b *belief) easiest(list []candidate, order []int) (int, float64) {
	at, most, gained := -1, 0.0, 0.0
	for _, i := range order {
		c := &list[i]
		if c.most <= nearly*most {
			break
		}
		if k := b.t.Asks[c.ask].Kind; splits(c.outcomes, c.weights) {
			bits := (1 - effort(k)) * gain(k, c.outcomes, c.weights)
			if bits >= most/nearly || bits >= nearly*most && c.ask < at {
				at, gained = c.ask, bits
			}
			most = max(most, bits)
		}
	}
	return at, gained
}

// tells reports whether a reading can show different things for the cases left.
func (b *belief) tells(i int, left []int) bool {
	if b.t.Asks[i].Kind == meter.Darkens {
		return len(left) <= fewCases
	}
	of := b.t.Column(i).Of
	for _, k := range left[1:] {
		if of[k] != of[left[0]] {
			return true
		}
	}
	return false
}

func (b *belief) candidate(i int, left []int, p []float64, pool *[]float64) candidate {
	if b.t.Asks[i].Kind == meter.Darkens {
		return b.heard(i, left, p)
	}
	col := b.t.Column(i)
	n := len(col.Outcomes)
	if len(*pool)+n > cap(*pool) {
		*pool = make([]float64, 0, max(n, 1<<14))
	}
	*pool = (*pool)[:len(*pool)+n]
	c := candidate{ask: i, outcomes: col.Outcomes, weights: (*pool)[len(*pool)-n : len(*pool) : len(*pool)]}
	for _, k := range left {
		c.weights[col.Of[k]] += p[k]
	}
	return c
}

// heard is a candidate whose column is worked out case by case.
func (b *belief) heard(i int, left []int, p []float64) candidate {
	c := candidate{ask: i}
	for _, k := range left {
		s := b.t.Shown(&b.t.Asks[i], k)
		at := slices.Index(c.outcomes, s)
		if at < 0 {
			at = len(c.outcomes)
			c.outcomes, c.weights = append(c.outcomes, s), append(c.weights, 0)
		}
		c.weights[at] += p[k]
	}
	return c
}

// splits reports whether a reading surely tells some of the outcomes with any
// weight apart.
func splits(outcomes []meter.Shown, weights []float64) bool {
	all, lo, hi := ^meter.Answer(0), 0.0, math.Inf(1)
	for i, o := range outcomes {
		if weights[i] > 0 {
			lo, hi, all = max(lo, o.Lo), min(hi, o.Hi), all&o.May
			if o.May == 0 && lo > hi || o.May != 0 && all == 0 {
				return true
			}
		}
	}
	return false
}

// effort is what part of a reading's worth its trouble eats up (judgements): a
// capacitor's lead must be lifted, steel found, ears trusted.
func effort(k meter.Kind) float64 {
	switch k {
	case meter.Farads:
		return 0.5
	case meter.Tap, meter.Darkens:
		return 0.05
	}
	return 0
}

// confirm is an easy reading which surely tells a case from the whole loom and
// was not taken; −1 when there is none.
func (b *belief) confirm(c int) int {
	for i := range b.t.Asks {
		if a := &b.t.Asks[i]; !b.done[i] && a.Kind != meter.Farads && !b.can(a, i, c).Fits(b.can(a, i, 0)) {
			return i
		}
	}
	return -1
}
