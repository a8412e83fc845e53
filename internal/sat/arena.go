package sat

// ref is the place of a clause in the arena.
type ref uint32

const noRef = ^ref(0)

// The clauses lie one after the other in one slice of words: three words of
// header, then the literals. Word 0 is the number of literals, word 1 the marks
// below and, above them, the number of levels (LBD) of a learned clause, word 2
// where propagation found its latest watch. The words are of type Lit because
// nearly all of them are.
const headerWords = 3

const (
	markLearned uint32 = 1 << iota // may be forgotten: it follows from the others
	markGarbage                    // forgotten; leaves at the next collection
	markMoved                      // during a collection: word 0 is the new place
	shiftUsed   = 3                // two bits: reductions that it will survive
	shiftLBD    = 8
	maskUsed    = 3 << shiftUsed
	maskMarks   = 1<<shiftLBD - 1
)

type arena struct {
	words  []Lit
	wasted int // words that belong to no living clause
}

// alloc stores a clause and returns its place.
func (a *arena) alloc(lits []Lit, marks, lbd uint32) ref {
	at := ref(len(a.words))
	a.words = append(a.words, Lit(len(lits)), Lit(marks|lbd<<shiftLBD), 2)
	a.words = append(a.words, lits...)
	return at
}

func (a *arena) size(c ref) int { return int(a.words[c]) }

// lits returns the clause's literals, which can be changed in place.
func (a *arena) lits(c ref) []Lit {
	first := c + headerWords
	return a.words[first : first+ref(a.words[c])]
}

func (a *arena) has(c ref, mark uint32) bool { return uint32(a.words[c+1])&mark != 0 }
func (a *arena) mark(c ref, mark uint32)     { a.words[c+1] |= Lit(mark) }

func (a *arena) lbd(c ref) uint32 { return uint32(a.words[c+1]) >> shiftLBD }

func (a *arena) setLBD(c ref, lbd uint32) {
	a.words[c+1] = a.words[c+1]&maskMarks | Lit(lbd)<<shiftLBD
}

func (a *arena) used(c ref) uint32 { return uint32(a.words[c+1]&maskUsed) >> shiftUsed }

func (a *arena) setUsed(c ref, used uint32) {
	a.words[c+1] = a.words[c+1]&^maskUsed | Lit(used)<<shiftUsed
}

// discard marks a clause as garbage.
func (a *arena) discard(c ref) {
	a.mark(c, markGarbage)
	a.wasted += a.size(c) + headerWords
}

// move copies a clause to another arena, once, and returns its place there.
func (a *arena) move(c ref, to *arena) ref {
	if a.has(c, markMoved) {
		return ref(a.words[c])
	}
	at := ref(len(to.words))
	to.words = append(to.words, a.words[c:int(c)+headerWords+a.size(c)]...)
	a.words[c] = Lit(at)
	a.mark(c, markMoved)
	return at
}
