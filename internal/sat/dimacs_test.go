package sat_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	. "loomwright/internal/sat"

	"github.com/google/go-cmp/cmp"
)

func TestDIMACSRoundTrip(t *testing.T) {
	for seed := range uint64(50) {
		r := newRand(seed)
		vars := 1 + r.IntN(20)
		s := CNF{Vars: vars, Clauses: randomClauses(r, vars, 30, 4)}.Solver(Options{})
		f := s.CNF(randomLit(r, vars))
		var text bytes.Buffer
		if err := f.WriteDIMACS(&text); err != nil {
			t.Fatal(err)
		}
		back, err := ReadDIMACS(&text)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(f, back); diff != "" {
			t.Fatalf("seed %d: %s", seed, diff)
		}
	}
}

func TestCNFLeavesConstantsOut(t *testing.T) {
	s := New(Options{})
	a, b := s.NewVar(), s.NewVar()
	s.AddClause(b.Not(), False, a, a)
	s.AddClause(True, a)
	s.AddClause(a, b, a.Not())
	s.AddClause(a) // the first clause stays as it was added
	var text bytes.Buffer
	if err := s.CNF(True, b, False).WriteDIMACS(&text); err != nil {
		t.Fatal(err)
	}
	want := "p cnf 2 4\n1 -2 0\n1 0\n2 0\n0\n"
	if diff := cmp.Diff(want, text.String()); diff != "" {
		t.Error(diff)
	}
	if s.NumVars() != 2 || s.NumClauses() != 2 {
		t.Errorf("%d variables, %d clauses", s.NumVars(), s.NumClauses())
	}
}

func TestReadDIMACS(t *testing.T) {
	f, err := ReadDIMACS(strings.NewReader("c comment\n\np cnf 3 2\n1 -2\n3 0 -3 0\n"))
	if err != nil {
		t.Fatal(err)
	}
	want := CNF{Vars: 3, Clauses: [][]Lit{
		{FromSigned(1), FromSigned(-2), FromSigned(3)}, {FromSigned(-3)}}}
	if diff := cmp.Diff(want, f); diff != "" {
		t.Error(diff)
	}
	for text, want := range map[string]string{
		"":                         "no header",
		"1 0\n":                    "line 1: a clause before the header",
		"p cnf 1\n":                "line 1: want one header",
		"p cnf 1 0\np cnf 1 0\n":   "line 2: want one header",
		"p cnf -1 0\n":             "want two counts",
		"p cnf 1 1\n\n2 0\n":       "line 3: want a literal from -1 to 1",
		"p cnf 1 1\nx 0\n":         "not \"x\"",
		"p cnf 1 1\n1\n":           "does not end with 0",
		"p cnf 1 2\n1 0\n":         "1 clauses, but the header says 2",
		"p cnf 9999999999999 0\n":  "want two counts",
		"p cnf 1 1\n-9999999999 0": "want a literal",
	} {
		if _, err := ReadDIMACS(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %q", text, err, want)
		}
	}
}

// broken fails after some bytes.
type broken struct{ left int }

var errFull = errors.New("full")

func (b *broken) Write(p []byte) (int, error) {
	if b.left -= len(p); b.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestWriteErrorsAreReported(t *testing.T) {
	f := pigeonhole(6, 5)
	if err := f.WriteDIMACS(&broken{left: 10}); !errors.Is(err, errFull) {
		t.Errorf("DIMACS: %v", err)
	}
	s := f.Solver(Options{Proof: &broken{left: 10}})
	if s.Solve() != Unsat || !errors.Is(s.ProofError(), errFull) {
		t.Errorf("proof: %v", s.ProofError())
	}
}
