package sat

import (
	"bufio"
	"io"
	"strconv"
)

// proof writes lemmas and deletions as DRAT text (Wetzler, Heule and Hunt,
// "DRAT-trim", 2014): one clause a line, ended by 0, deletions after a d. A nil
// proof writes nothing.
type proof struct {
	out  *bufio.Writer
	line []byte
	err  error
}

func newProof(w io.Writer) *proof {
	if w == nil {
		return nil
	}
	return &proof{out: bufio.NewWriter(w)}
}

// lemma writes a clause that follows from those before it by unit propagation.
func (p *proof) lemma(lits []Lit) {
	if p != nil {
		p.write(p.line[:0], lits)
	}
}

// unit writes a lemma of one literal.
func (p *proof) unit(l Lit) {
	if p != nil {
		p.write(p.line[:0], []Lit{l})
	}
}

// forget writes the deletion of a clause.
func (p *proof) forget(lits []Lit) {
	if p != nil {
		p.write(append(p.line[:0], "d "...), lits)
	}
}

func (p *proof) write(line []byte, lits []Lit) {
	p.line = append(appendClause(line, lits), '\n')
	if _, err := p.out.Write(p.line); err != nil && p.err == nil {
		p.err = err
	}
}

func (p *proof) flush() {
	if p == nil {
		return
	}
	if err := p.out.Flush(); err != nil && p.err == nil {
		p.err = err
	}
}

// ProofError returns the first error of writing the proof, if any.
func (s *Solver) ProofError() error {
	if s.proof == nil {
		return nil
	}
	return s.proof.err
}

// appendClause writes a clause as DIMACS and DRAT files do, without line end.
func appendClause(line []byte, lits []Lit) []byte {
	for _, l := range lits {
		line = strconv.AppendInt(line, int64(l.Signed()), 10)
		line = append(line, ' ')
	}
	return append(line, '0')
}
