package diagnosis

import (
	"cmp"
	"slices"

	"loomwright/internal/fault"
	"loomwright/internal/meter"
)

// Pair is two faults that together explain every reading.
type Pair struct {
	First  []string `json:"first"` // the same to every probe
	Second []string `json:"second"`
	Common bool     `json:"common,omitempty"` // every pair that was found has First
}

func (p *Pair) words() string { return either(p.First) + ", and " + either(p.Second) }

// Bounds of the search for pairs: how many cases are tried as the first of a
// pair, and how many pairs are listed.
const (
	pairFirsts = 24
	maxPairs   = 30
)

// pairs looks for two faults that explain all readings. The first of a pair is
// one of the cases that explain most by themselves.
func (j *judge) pairs() []Pair {
	type scored struct{ c, not int }
	var firsts []scored
	fit := make([][]bool, len(j.b.t.Cases))
	for c := 1; c < len(j.b.t.Cases); c++ {
		not := 0
		for i := range j.answers {
			ok := j.explains(c, i)
			fit[c] = append(fit[c], ok)
			if !ok {
				not++
			}
		}
		firsts = append(firsts, scored{c, not})
	}
	slices.SortStableFunc(firsts, func(a, b scored) int { return cmp.Compare(a.not, b.not) })
	var found [][2]int
	seen := map[[2]int]bool{}
	for _, f := range firsts[:min(len(firsts), pairFirsts)] {
		for c := 1; c < len(j.b.t.Cases); c++ {
			p := [2]int{min(f.c, c), max(f.c, c)}
			if c == f.c || seen[p] || !j.canHelp(fit, f.c, c) {
				continue
			}
			seen[p] = true
			if j.together(p) {
				found = append(found, p)
			}
		}
	}
	return j.pairWords(found)
}

func (j *judge) explains(c, i int) bool {
	a := &j.answers[i]
	return a.Doubt || j.b.can(&a.ask, j.b.t.Find(&a.ask), c).Fits(a.seen)
}

// canHelp leaves out pairs that have no hope: a reading that neither fault by
// itself explains, and that neither moves from what a right loom shows.
func (j *judge) canHelp(fit [][]bool, a, b int) bool {
	for i := range j.answers {
		if !fit[a][i] && !fit[b][i] && !j.moves(a, i) && !j.moves(b, i) {
			return false
		}
	}
	return true
}

// moves reports whether a case can change a reading at all.
func (j *judge) moves(c, i int) bool {
	a := &j.answers[i]
	at := j.b.t.Find(&a.ask)
	return j.b.can(&a.ask, at, c) != j.b.can(&a.ask, at, 0)
}

// together reports whether two faults explain all readings.
func (j *judge) together(p [2]int) bool {
	first, second := j.b.t.Cases[p[0]].Faults[0], j.b.t.Cases[p[1]].Faults[0]
	c, ok := meter.NewCircuit(fault.ApplyAll(j.b.t.Graph, first, second), j.b.t.Options)
	if !ok {
		return false
	}
	for i := range j.answers {
		if a := &j.answers[i]; !a.Doubt && !c.Shown(&a.ask).Fits(a.seen) {
			return false
		}
	}
	return true
}

func (j *judge) pairWords(found [][2]int) []Pair {
	var out []Pair
	common := j.inAll(found)
	prior := func(p [2]int) float64 { return j.b.t.Cases[p[0]].Prior() * j.b.t.Cases[p[1]].Prior() }
	slices.SortStableFunc(found, func(a, b [2]int) int { return cmp.Compare(prior(b), prior(a)) })
	for _, p := range found[:min(len(found), maxPairs)] {
		if p[1] == common {
			p[0], p[1] = p[1], p[0]
		}
		out = append(out, Pair{j.names(p[0]), j.names(p[1]), p[0] == common})
	}
	return out
}

// inAll is a case that all pairs share, or −1.
func (j *judge) inAll(found [][2]int) int {
	if len(found) == 0 {
		return -1
	}
	for _, c := range found[0] {
		if !slices.ContainsFunc(found, func(p [2]int) bool { return p[0] != c && p[1] != c }) {
			return c
		}
	}
	return -1
}

func (j *judge) names(c int) []string {
	var out []string
	for _, f := range j.b.t.Cases[c].Faults {
		out = append(out, f.Words)
	}
	return out
}
