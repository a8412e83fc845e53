package sat

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// CNF is a set of clauses over the variables 1 to Vars, without constants.
type CNF struct {
	Vars    int
	Clauses [][]Lit
}

// CNF returns all clauses added so far, as they were added (without constants,
// repeated literals and tautologies), followed by the literals as clauses of
// their own. A literal False becomes the empty clause.
func (s *Solver) CNF(assumptions ...Lit) CNF {
	f := CNF{Vars: s.NumVars(), Clauses: make([][]Lit, 0, s.clauses+len(assumptions))}
	for rest := s.problem; len(rest) > 0; {
		n := slices.Index(rest, noLit)
		f.Clauses = append(f.Clauses, slices.Clone(rest[:n]))
		rest = rest[n+1:]
	}
	for _, a := range assumptions {
		if clause, trivial := normalise([]Lit{a}); !trivial {
			f.Clauses = append(f.Clauses, clause)
		}
	}
	return f
}

// Solver returns a new solver with these clauses.
func (f CNF) Solver(o Options) *Solver {
	s := New(o)
	s.NewVars(f.Vars)
	for _, c := range f.Clauses {
		s.AddClause(c...)
	}
	return s
}

// WriteDIMACS writes the clauses in the format of the SAT competitions.
func (f CNF) WriteDIMACS(w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "p cnf %d %d\n", f.Vars, len(f.Clauses))
	var line []byte
	for _, c := range f.Clauses {
		line = append(appendClause(line[:0], c), '\n')
		_, _ = out.Write(line)
	}
	return out.Flush()
}

// ReadDIMACS reads the format that WriteDIMACS writes: comments after c, one
// header, clauses that end with 0 and may span lines. It fails on anything else,
// on literals beyond the header's variables and on a wrong number of clauses.
func ReadDIMACS(r io.Reader) (CNF, error) {
	in := bufio.NewScanner(r)
	in.Buffer(nil, 1<<26)
	d := dimacsReader{}
	for in.Scan() {
		d.line++
		if err := d.read(in.Text()); err != nil {
			return CNF{}, fmt.Errorf("line %d: %w", d.line, err)
		}
	}
	if err := in.Err(); err != nil {
		return CNF{}, err
	}
	return d.finish()
}

type dimacsReader struct {
	line   int
	header bool
	want   int // clauses
	cnf    CNF
	clause []Lit // begun
}

func (d *dimacsReader) read(text string) error {
	words := strings.Fields(text)
	switch {
	case len(words) == 0 || words[0] == "c":
		return nil
	case words[0] == "p":
		return d.readHeader(words)
	case !d.header:
		return fmt.Errorf("a clause before the header %q", "p cnf VARIABLES CLAUSES")
	}
	for _, w := range words {
		if err := d.readLit(w); err != nil {
			return err
		}
	}
	return nil
}

func (d *dimacsReader) readHeader(words []string) error {
	if d.header || len(words) != 4 || words[1] != "cnf" {
		return fmt.Errorf("want one header %q", "p cnf VARIABLES CLAUSES")
	}
	vars, err1 := strconv.ParseUint(words[2], 10, 30)
	clauses, err2 := strconv.ParseUint(words[3], 10, 30)
	if err1 != nil || err2 != nil {
		return fmt.Errorf("want two counts in the header, not %q and %q", words[2], words[3])
	}
	d.header, d.cnf.Vars, d.want = true, int(vars), int(clauses)
	return nil
}

func (d *dimacsReader) readLit(word string) error {
	n, err := strconv.ParseInt(word, 10, 32)
	if err != nil || max(n, -n) > int64(d.cnf.Vars) {
		return fmt.Errorf("want a literal from %d to %d, not %q", -d.cnf.Vars, d.cnf.Vars, word)
	}
	if n != 0 {
		d.clause = append(d.clause, FromSigned(int(n)))
		return nil
	}
	d.cnf.Clauses = append(d.cnf.Clauses, d.clause)
	d.clause = nil
	return nil
}

func (d *dimacsReader) finish() (CNF, error) {
	switch {
	case !d.header:
		return CNF{}, fmt.Errorf("no header %q", "p cnf VARIABLES CLAUSES")
	case len(d.clause) > 0:
		return CNF{}, fmt.Errorf("the last clause does not end with 0")
	case len(d.cnf.Clauses) != d.want:
		return CNF{}, fmt.Errorf("%d clauses, but the header says %d", len(d.cnf.Clauses), d.want)
	}
	return d.cnf, nil
}
