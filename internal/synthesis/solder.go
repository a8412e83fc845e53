package synthesis

import (
	"cmp"
	"math"
	"slices"
)

// solder turns a solution's nets into runs: the lugs of a net in a chain,
// switch by switch, and every lead to a lug that has room.
func (t *task) solder(terms [][]int, s solution) {
	nets := map[int][]int{}
	for n, first := range s {
		nets[first] = append(nets[first], n)
	}
	for n := range s {
		if members := nets[n]; len(members) > 1 {
			t.solderNet(terms, members)
		}
	}
}

func (t *task) solderNet(terms [][]int, net []int) {
	var posts, tails []int
	for _, n := range net {
		if slices.ContainsFunc(terms[n], func(x int) bool { return t.isLug(x) && t.solderable(x) }) {
			posts = append(posts, n)
		} else {
			tails = append(tails, n)
		}
	}
	if len(posts) == 0 {
		t.inTheAir(terms, tails)
		return
	}
	chain := t.chain(terms, posts)
	for i := 1; i < len(chain); i++ {
		a, b := t.closest(terms[chain[i-1]], terms[chain[i]])
		t.join(a, b, t.wireBetween(a, b))
	}
	for _, n := range tails {
		lead := t.leadOf(terms[n])
		t.join(lead, t.postFor(lead, terms, posts), t.wireOf(lead))
	}
}

// inTheAir joins leads that meet no lug: on a splice of the loom that is still
// free, else to one another.
func (t *task) inTheAir(terms [][]int, tails []int) {
	to := t.leadOf(terms[tails[0]])
	rest := tails[1:]
	if s := t.freeSplice(); s >= 0 {
		to, rest = s, tails
		t.splices++
	}
	for _, n := range rest {
		t.join(t.leadOf(terms[n]), to, "")
	}
}

func (t *task) freeSplice() int {
	for u := range t.g.Loom.Uses {
		if p := t.g.Loom.Uses[u].Part; p.Class == "splice" && len(p.Terminals) == 1 {
			if x := t.g.Term(u, 0); t.wires[x] == 0 && t.solderable(x) {
				return x
			}
		}
	}
	return -1
}

// chain orders posts: those that are no lugs of switches first, then part by
// part, each lug next to the one nearest to it.
func (t *task) chain(terms [][]int, posts []int) []int {
	part := func(n int) int {
		if len(terms[n]) > 1 || t.g.Terms[terms[n][0]].Use < 0 {
			return -1
		}
		return t.g.Terms[terms[n][0]].Use
	}
	rest := slices.Clone(posts)
	slices.SortStableFunc(rest, func(a, b int) int {
		return cmp.Or(cmp.Compare(part(a), part(b)), cmp.Compare(terms[a][0], terms[b][0]))
	})
	out := []int{rest[0]}
	for rest = rest[1:]; len(rest) > 0; {
		last, best := out[len(out)-1], 0
		for i, n := range rest {
			if part(n) == part(rest[0]) && t.gap(terms[last], terms[n]) < t.gap(terms[last], terms[rest[best]]) {
				best = i
			}
		}
		out = append(out, rest[best])
		rest = slices.Delete(rest, best, best+1)
	}
	return out
}

// gap is the shortest way between two nodes in mm; far when they are of
// different parts.
func (t *task) gap(a, b []int) float64 {
	x, y := t.closest(a, b)
	return t.distance(x, y)
}

// far stands for the way between two parts, in mm.
const far = 1000

func (t *task) distance(x, y int) float64 {
	a, b := &t.g.Terms[x], &t.g.Terms[y]
	if a.Use != b.Use || a.Use < 0 {
		return far
	}
	p, q := t.g.Loom.Uses[a.Use].Part.Terminals[a.Terminal], t.g.Loom.Uses[b.Use].Part.Terminals[b.Terminal]
	return math.Hypot(p.At[0]-q.At[0], p.At[1]-q.At[1])
}

// closest chooses the terminals at which two nodes are joined: a lug that has
// room before one that is full, then the shortest way, then the hub.
func (t *task) closest(a, b []int) (int, int) {
	bestX, bestY, best := -1, -1, math.Inf(1)
	for _, x := range a {
		for _, y := range b {
			if !t.solderable(x) || !t.solderable(y) {
				continue
			}
			if cost := t.distance(x, y) + t.crowd(x) + t.crowd(y); cost < best {
				bestX, bestY, best = x, y, cost
			}
		}
	}
	return bestX, bestY
}

// crowd is how unwelcome one more wire is at a terminal.
func (t *task) crowd(x int) float64 {
	switch {
	case x == t.hub && t.roomy(x):
		return 0
	case t.roomy(x):
		return 1
	case !t.isLug(x):
		return 50 * far
	case t.wires[x] >= t.wiresPerLug():
		return 10 * far * float64(t.wires[x])
	}
	return 10 + float64(t.wires[x])
}

// postFor chooses where a lead goes.
func (t *task) postFor(lead int, terms [][]int, posts []int) int {
	best, cost := -1, math.Inf(1)
	for _, n := range posts {
		for _, x := range terms[n] {
			if !t.solderable(x) || !t.isLug(x) {
				continue
			}
			c := t.crowd(x)
			if t.ownGround(lead, x) {
				c = -1
			}
			if c < cost {
				best, cost = x, c
			}
		}
	}
	return best
}

// ownGround reports whether a terminal is the case of the lead's own control.
func (t *task) ownGround(lead, x int) bool {
	return t.roomy(x) && t.nearestGround(lead) == x && x != t.hub
}

// leadOf is the terminal by which a node of leads is soldered.
func (t *task) leadOf(terms []int) int {
	for _, x := range terms {
		if t.solderable(x) {
			return x
		}
	}
	return terms[0]
}

// wireBetween says what a run between two lugs is made of.
func (t *task) wireBetween(a, b int) string {
	if t.g.Terms[a].Use != t.g.Terms[b].Use {
		return ""
	}
	if t.distance(a, b) <= 1.2*t.pitch(t.g.Terms[a].Use) {
		return "bare"
	}
	return "sleeved"
}

// pitch is the least distance between two placed lugs of a part, in mm.
func (t *task) pitch(use int) float64 {
	least := math.Inf(1)
	p := t.g.Loom.Uses[use].Part
	for i := range p.Terminals {
		for k := range p.Terminals[:i] {
			if d := t.distance(t.g.Term(use, i), t.g.Term(use, k)); d > 0 {
				least = min(least, d)
			}
		}
	}
	return least
}

// wireOf says what a lead's run is made of: a component has leads of its own.
func (t *task) wireOf(lead int) string {
	switch t.classOf(lead) {
	case "capacitor", "resistor", "bleed":
		return "lead"
	}
	return ""
}
