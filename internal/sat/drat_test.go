package sat_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	. "loomwright/internal/sat"
)

// dratChecker accepts refutations. It shares nothing with the solver but the
// numbers: clauses are lists of signed ints and propagation goes over all of them
// until nothing changes. Deletions are obeyed to the letter. The rules are those
// of Wetzler, Heule and Hunt, "DRAT-trim", 2014.
type dratChecker struct {
	clauses [][]int
	keys    []string // of the clauses: their sorted literals
	value   []bool   // literal + vars → is true
	vars    int
}

func newDratChecker(f CNF) *dratChecker {
	d := &dratChecker{vars: f.Vars, value: make([]bool, 2*f.Vars+1)}
	for _, c := range f.Clauses {
		var lits []int
		for _, l := range c {
			lits = append(lits, l.Signed())
		}
		d.add(lits)
	}
	return d
}

func clauseKey(lits []int) string {
	sorted := slices.Clone(lits)
	slices.Sort(sorted)
	return fmt.Sprint(slices.Compact(sorted))
}

func (d *dratChecker) add(lits []int) {
	d.clauses = append(d.clauses, slices.Clone(lits))
	d.keys = append(d.keys, clauseKey(lits))
}

func (d *dratChecker) remove(lits []int) error {
	i := slices.Index(d.keys, clauseKey(lits))
	if i < 0 {
		return fmt.Errorf("deletes a clause that is not there")
	}
	d.clauses = slices.Delete(d.clauses, i, i+1)
	d.keys = slices.Delete(d.keys, i, i+1)
	return nil
}

func (d *dratChecker) isTrue(l int) bool { return d.value[l+d.vars] }
func (d *dratChecker) makeTrue(l int)    { d.value[l+d.vars] = true }

// conflicts reports whether making these literals false leads to a false clause
// by unit propagation.
func (d *dratChecker) conflicts(falsified []int) bool {
	clear(d.value)
	for _, l := range falsified {
		if d.isTrue(l) {
			return true // it holds a literal and its negation
		}
		d.makeTrue(-l)
	}
	for changed := true; changed; {
		changed = false
		for _, c := range d.clauses {
			unit, open := d.status(c)
			if open == 0 {
				return true
			}
			if open == 1 && !d.isTrue(unit) {
				d.makeTrue(unit)
				changed = true
			}
		}
	}
	return false
}

// status returns how many literals of a clause are not false, and the last one.
func (d *dratChecker) status(lits []int) (last, open int) {
	for _, l := range lits {
		if !d.isTrue(-l) {
			last = l
			if open++; open > 1 {
				break
			}
		}
	}
	return last, open
}

// implied checks RUP, or RAT on the first literal.
func (d *dratChecker) implied(lits []int) bool {
	if d.conflicts(lits) {
		return true
	}
	if len(lits) == 0 {
		return false
	}
	pivot := lits[0]
	for _, other := range d.clauses {
		if !slices.Contains(other, -pivot) {
			continue
		}
		resolvent := slices.Clone(lits)
		for _, l := range other {
			if l != -pivot {
				resolvent = append(resolvent, l)
			}
		}
		if !d.conflicts(resolvent) {
			return false
		}
	}
	return true
}

// check reads a proof and returns an error unless it ends in a contradiction.
func (d *dratChecker) check(proof string) error {
	for i, line := range strings.Split(strings.TrimSpace(proof), "\n") {
		lits, deletion, err := parseProofLine(line)
		switch {
		case err != nil:
		case deletion:
			err = d.remove(lits)
		case !d.implied(lits):
			err = fmt.Errorf("%v does not follow", lits)
		default:
			d.add(lits)
		}
		if err != nil {
			return fmt.Errorf("proof line %d: %w", i+1, err)
		}
	}
	if !d.conflicts(nil) {
		return fmt.Errorf("the proof ends without a contradiction")
	}
	return nil
}

func parseProofLine(line string) (lits []int, deletion bool, err error) {
	rest, deletion := strings.CutPrefix(line, "d ")
	for _, w := range strings.Fields(rest) {
		var n int
		if _, err := fmt.Sscanf(w, "%d", &n); err != nil {
			return nil, false, err
		}
		lits = append(lits, n)
	}
	if len(lits) == 0 || lits[len(lits)-1] != 0 {
		return nil, false, fmt.Errorf("%q does not end with 0", line)
	}
	return lits[:len(lits)-1], deletion, nil
}

// refute solves with a proof and returns it.
func refute(t testing.TB, in instance) (s *Solver, proof string, status Status) {
	t.Helper()
	var out bytes.Buffer
	s = in.cnf.Solver(Options{Proof: &out})
	status = s.Solve(in.assumed...)
	if err := s.ProofError(); err != nil {
		t.Fatal(err)
	}
	return s, out.String(), status
}

func TestRefutationsPassTheChecker(t *testing.T) {
	checked, lemmas, deletions := 0, 0, 0
	for _, in := range instances() {
		s, proof, status := refute(t, in)
		if status != Unsat || strings.Count(proof, "\n") > 1000 {
			continue
		}
		f := s.CNF(s.Core()...)
		if err := newDratChecker(f).check(proof + "0\n"); err != nil {
			t.Fatalf("%s: %v", in.name, err)
		}
		checked++
		lemmas += strings.Count(proof, "\n")
		deletions += strings.Count(proof, "d ")
	}
	if checked < 100 {
		t.Errorf("only %d proofs were short enough to check", checked)
	}
	t.Logf("%d proofs of %d lines, %d of them deletions", checked, lemmas, deletions)
}

// Longer ones, with reductions of the clause store and literals fixed on the way.
func TestLongRefutationsPassTheChecker(t *testing.T) {
	for seed := range uint64(4) {
		in := instance{cnf: threeSat(newRand(seed), 150, 4.8)}
		s, proof, status := refute(t, in)
		if st := s.Stats(); status != Unsat || st.Forgotten < 20 {
			t.Fatalf("seed %d is too easy for this test: %v, %+v", seed, status, st)
		}
		if err := newDratChecker(s.CNF()).check(proof); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
}

func TestCheckerRejectsCorruptedProofs(t *testing.T) {
	in := instance{cnf: pigeonhole(5, 4)}
	_, proof, status := refute(t, in)
	if status != Unsat {
		t.Fatal(status)
	}
	lines := strings.SplitAfter(proof, "\n")
	lines = lines[:len(lines)-1]
	corrupted := map[string]string{
		"unjustified unit first":    "1 0\n" + proof,
		"an original clause lost":   "d -1 -5 0\n" + proof,
		"deletion of nothing":       "d 1 2 0\n" + proof,
		"half a line":               strings.TrimSuffix(proof, "0\n0\n"),
		"no lemma but the last":     lines[len(lines)-1],
		"a lemma with a sign wrong": flipFirstSign(lines),
	}
	for name, text := range corrupted {
		if err := newDratChecker(in.cnf).check(text); err == nil {
			t.Errorf("%s: accepted", name)
		} else {
			t.Logf("%s: %v", name, err)
		}
	}
	if err := newDratChecker(in.cnf).check(proof); err != nil {
		t.Errorf("the proof itself: %v", err)
	}
	if err := newDratChecker(pigeonhole(4, 4)).check("0\n"); err == nil {
		t.Error("a problem with a model was refuted")
	}
}

// flipFirstSign negates the first literal of the first lemma.
func flipFirstSign(lines []string) string {
	first := lines[0]
	if rest, ok := strings.CutPrefix(first, "-"); ok {
		first = rest
	} else {
		first = "-" + first
	}
	return first + strings.Join(lines[1:], "")
}

// RAT: the definition of a new variable does not follow, but costs no model.
func TestCheckerKnowsRAT(t *testing.T) {
	d := newDratChecker(CNF{Vars: 3, Clauses: [][]Lit{{FromSigned(-1), FromSigned(-2)}}})
	for _, lits := range [][]int{{3, -1}, {3, -2}, {-3, 1, 2}} { // 3 is "1 or 2"
		if !d.implied(lits) {
			t.Errorf("%v was rejected", lits)
		}
		d.add(lits)
	}
	for _, lits := range [][]int{{-3}, {1}, {3, 1}} {
		if d.implied(lits) {
			t.Errorf("%v was accepted, but restricts what 3 means", lits)
		}
	}
}
