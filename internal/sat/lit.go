package sat

import "strconv"

// Lit is a variable or its negation: 2v stands for variable v, 2v+1 for "not
// v". Variable 0 is the constant, so True and False are literals like any
// other and vanish when a clause is added. Variable v prints as v, its negation
// as -v, which are also their numbers in DIMACS files.
type Lit uint32

// The two constants.
const (
	True  Lit = 0
	False Lit = 1
)

// noLit is no literal at all.
const noLit = ^Lit(0)

// Not returns the negation.
func (l Lit) Not() Lit { return l ^ 1 }

// Var returns the number of the variable, 0 for a constant.
func (l Lit) Var() int { return int(l >> 1) }

// Negative reports whether the literal is a negation.
func (l Lit) Negative() bool { return l&1 == 1 }

// Positive returns the literal of the variable itself, without negation.
func (l Lit) Positive() Lit { return l &^ 1 }

// Signed returns +v or -v, the number of the literal in DIMACS files. The
// constants have none there and give 0.
func (l Lit) Signed() int {
	if l.Negative() {
		return -l.Var()
	}
	return l.Var()
}

// FromSigned returns the literal of a DIMACS number, which is not 0.
func FromSigned(n int) Lit {
	if n < 0 {
		return Lit(-n)<<1 | 1
	}
	return Lit(n) << 1
}

// Bool returns the constant of a truth value.
func Bool(b bool) Lit {
	if b {
		return True
	}
	return False
}

// String prints the literal as its DIMACS number, the constants as words.
func (l Lit) String() string {
	switch l {
	case True:
		return "true"
	case False:
		return "false"
	}
	return strconv.Itoa(l.Signed())
}
