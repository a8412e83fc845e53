package synthesis

import (
	"bytes"

	"loomwright/internal/sat"
)

// Refutation is why there is no wiring with fewer joins, or none at all, in a
// form that any checker of such proofs can follow: clauses, and the lemmas from
// them to a contradiction. That the clauses say what is meant lies outside it.
type Refutation struct {
	Part string  // what was searched: the switching, or one pickup's
	CNF  sat.CNF // "all wishes are met, with fewer joins"
	DRAT []byte  // lemmas and deletions, as text
}

// refutation refutes afresh what the search has refuted, and writes it down: a
// wiring with fewer joins than n, or any when n is negative. Its conflicts count
// too; nil when the effort runs out.
func (s *solved) refutation(part string, n int, f *effort) *Refutation {
	e := encode(s.p, allRules().settle(s.p), sat.Options{})
	demands := e.everything()
	if n >= 0 {
		demands = append(demands, e.more(n-1).Not())
	}
	r := &Refutation{Part: part, CNF: e.s.CNF(demands...)}
	var proof bytes.Buffer
	again := &encoding{s: r.CNF.Solver(sat.Options{Proof: &proof, Steady: true})}
	if again.solve(f, f.left) != sat.Unsat {
		return nil
	}
	r.DRAT = proof.Bytes()
	return r
}
