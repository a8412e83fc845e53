package synthesis

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"loomwright/internal/sat"
)

// rup checks refutations by unit propagation: every lemma, its literals made
// false, must lead to a conflict (Goldberg and Novikov, "Verification of Proofs of
// Unsatisfiability for CNF Formulas", 2003). Deletions are left aside, which makes
// no lemma follow that does not. Two literals of each clause are watched.
type rup struct {
	clauses [][]int
	watch   [][]int // literal + vars → clauses that watch it
	value   []bool  // literal + vars → true
	vars    int
	trail   []int
	fixed   int // trail that holds for good
	broken  bool
}

func newRup(f sat.CNF) *rup {
	c := &rup{watch: make([][]int, 2*f.Vars+1), value: make([]bool, 2*f.Vars+1), vars: f.Vars}
	for _, clause := range f.Clauses {
		var lits []int
		for _, l := range clause {
			lits = append(lits, l.Signed())
		}
		c.add(lits)
	}
	return c
}

// add takes a clause in, with its consequences for good.
func (c *rup) add(lits []int) {
	open := slices.DeleteFunc(slices.Clone(lits), func(l int) bool { return c.value[c.vars-l] })
	switch {
	case slices.ContainsFunc(lits, func(l int) bool { return c.value[c.vars+l] }):
		return
	case len(open) == 0:
		c.broken = true
		return
	case len(open) == 1:
		c.set(open[0])
		c.broken = c.broken || !c.propagate(len(c.trail)-1)
		c.fixed = len(c.trail)
		return
	}
	c.watch[c.vars+open[0]] = append(c.watch[c.vars+open[0]], len(c.clauses))
	c.watch[c.vars+open[1]] = append(c.watch[c.vars+open[1]], len(c.clauses))
	c.clauses = append(c.clauses, open)
}

func (c *rup) set(l int) {
	c.value[c.vars+l] = true
	c.trail = append(c.trail, l)
}

// propagate follows the trail from a place; false on a conflict.
func (c *rup) propagate(from int) bool {
	for ; from < len(c.trail); from++ {
		falsified := -c.trail[from]
		list := c.watch[c.vars+falsified]
		kept := list[:0]
		for n, i := range list {
			lits := c.clauses[i]
			if lits[0] == falsified {
				lits[0], lits[1] = lits[1], lits[0]
			}
			k := 2
			for k < len(lits) && c.value[c.vars-lits[k]] {
				k++
			}
			switch {
			case c.value[c.vars+lits[0]]:
				kept = append(kept, i)
			case k < len(lits):
				lits[1], lits[k] = lits[k], lits[1]
				c.watch[c.vars+lits[1]] = append(c.watch[c.vars+lits[1]], i)
			case c.value[c.vars-lits[0]]:
				c.watch[c.vars+falsified] = append(append(kept, i), list[n+1:]...)
				return false
			default:
				kept = append(kept, i)
				c.set(lits[0])
			}
		}
		c.watch[c.vars+falsified] = kept
	}
	return true
}

// follows reports whether a lemma follows by unit propagation.
func (c *rup) follows(lits []int) bool {
	if c.broken {
		return true
	}
	conflict := false
	for _, l := range lits {
		switch {
		case c.value[c.vars+l]:
			conflict = true
		case !c.value[c.vars-l]:
			c.set(-l)
		}
	}
	conflict = conflict || !c.propagate(c.fixed)
	for _, l := range c.trail[c.fixed:] {
		c.value[c.vars+l] = false
	}
	c.trail = c.trail[:c.fixed]
	return conflict
}

// accepts reads a proof; it returns the first line that does not follow, or −1
// when the proof ends in a contradiction.
func (c *rup) accepts(drat string) int {
	lines := strings.Split(strings.TrimSpace(drat), "\n")
	for i, text := range lines {
		if strings.HasPrefix(text, "d ") {
			continue
		}
		var lits []int
		for _, w := range strings.Fields(text) {
			if n, err := strconv.Atoi(w); err == nil && n != 0 {
				lits = append(lits, n)
			}
		}
		if !c.follows(lits) {
			return i + 1
		}
		c.add(lits)
	}
	if !c.broken {
		return len(lines) + 1
	}
	return -1
}

// refutedBenches is how many of the benchmarks have their refutations checked.
var refutedBenches = 7

// TestRefutationsCheck has the refutations of "fewer joins", and of impossible
// wishes, checked by other code than the solver's.
func TestRefutationsCheck(t *testing.T) {
	lemmas, checked := 0, 0
	for _, c := range slices.Concat(possible[:refutedBenches], refuted, small) {
		l := read(t, c.name, c.text)
		r, list := Find(l, Options{Schemes: shipped(t), Refute: true, Brief: true, Conflicts: 1 << 30})
		if len(r.Refutations) == 0 {
			t.Fatalf("%s: %v, no refutation: %v", c.name, r.Status, list)
		}
		for _, x := range r.Refutations {
			if line := newRup(x.CNF).accepts(string(x.DRAT)); line >= 0 {
				t.Errorf("%s, %s: line %d of the refutation does not follow", c.name, x.Part, line)
			}
			lemmas += strings.Count(string(x.DRAT), "\n")
			checked++
		}
	}
	t.Logf("%d refutations of %d lines accepted", checked, lemmas)
}

// TestCheckerRefuses holds the checker itself to account: it must not take a
// refutation with a literal turned, nor one of clauses that have a model.
func TestCheckerRefuses(t *testing.T) {
	p := wholePuzzle(t, possible[5].text)
	s := solved{p: p}
	r := s.refutation("", 15, &effort{left: 1 << 40})
	if newRup(r.CNF).accepts(string(r.DRAT)) >= 0 {
		t.Fatal("the refutation itself is not accepted")
	}
	e := encode(p, allRules().settle(p), sat.Options{})
	loose := e.s.CNF(append(e.everything(), e.more(15).Not())...)
	if newRup(loose).accepts(string(r.DRAT)) < 0 {
		t.Error("a refutation of clauses that have a model was accepted")
	}
}
