package sat

// Direction says which way a count is binding.
type Direction uint8

const (
	// Up is the one way: true inputs make outputs true. Enough for upper bounds.
	Up Direction = 1
	// Down is the other: false inputs make outputs false. Enough for lower bounds.
	Down Direction = 2
	// Both makes the outputs equal to the count.
	Both = Up | Down
)

// Totalizer counts true inputs in unary (Bailleux and Boufkhad, "Efficient CNF
// Encoding of Boolean Cardinality Constraints", 2003): output k, from 0, stands
// for "more than k inputs are true", in the direction asked for. There are as
// many outputs as inputs. "At most k" is then the clause outputs[k].Not(), "at
// least k" the clause outputs[k-1].
func Totalizer(s *Solver, dir Direction, inputs ...Lit) []Lit {
	return count(s, dir, len(inputs), inputs)
}

// Merge adds two counts made by Totalizer or Merge in the same direction.
func Merge(s *Solver, dir Direction, a, b []Lit) []Lit {
	return merge(s, dir, len(a)+len(b), a, b)
}

// AtMost demands that at most k of the literals be true.
func AtMost(s *Solver, k int, lits ...Lit) {
	if k < 0 {
		s.AddClause()
		return
	}
	if k < len(lits) {
		s.AddClause(count(s, Up, k+1, lits)[k].Not())
	}
}

// AtLeast demands that at least k of the literals be true.
func AtLeast(s *Solver, k int, lits ...Lit) {
	AtMost(s, len(lits)-k, negated(lits)...)
}

// count is Totalizer with at most limit outputs.
func count(s *Solver, dir Direction, limit int, inputs []Lit) []Lit {
	if len(inputs) <= 1 {
		return inputs[:min(limit, len(inputs)):len(inputs)]
	}
	half := len(inputs) / 2
	a := count(s, dir, limit, inputs[:half])
	b := count(s, dir, limit, inputs[half:])
	return merge(s, dir, limit, a, b)
}

// merge is Merge with at most limit outputs. A summand of limit outputs may
// stand for more.
func merge(s *Solver, dir Direction, limit int, a, b []Lit) []Lit {
	if allFalse(a) {
		a, b = b, a
	}
	out := make([]Lit, min(limit, len(a)+len(b)))
	if allFalse(b) {
		for i := copy(out, a); i < len(out); i++ {
			out[i] = False
		}
		return out
	}
	for i := range out {
		out[i] = s.NewVar()
	}
	for i := 0; i <= len(a); i++ {
		for j := 0; j <= len(b); j++ {
			if dir&Up != 0 && i+j > 0 {
				s.AddClause(out[min(i+j, len(out))-1], beyond(a, i-1).Not(), beyond(b, j-1).Not())
			}
			if dir&Down != 0 && i+j < len(out) {
				s.AddClause(out[i+j].Not(), beyond(a, i), beyond(b, j))
			}
		}
	}
	return out
}

// beyond returns the literal for "the count is more than i".
func beyond(outputs []Lit, i int) Lit {
	switch {
	case i < 0:
		return True
	case i >= len(outputs):
		return False
	}
	return outputs[i]
}

func allFalse(lits []Lit) bool {
	for _, l := range lits {
		if l != False {
			return false
		}
	}
	return true
}
