package sat

import (
	"math/rand/v2"
	"testing"
)

// A182105, the sequence of Luby, Sinclair and Zuckerman (OEIS).
func TestLubySequence(t *testing.T) {
	l := luby{u: 1, v: 1}
	for i, want := range []int64{1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8, 1} {
		if got := l.next(); got != want {
			t.Errorf("term %d is %d, want %d", i, got, want)
		}
	}
}

// The average of equal values is that value from the first one on.
func TestAverageHasNoBias(t *testing.T) {
	a := average{rate: 0.03}
	for range 50 {
		if a.add(7); a.value < 6.999999 || a.value > 7.000001 {
			t.Fatal(a.value)
		}
	}
	for range 1000 {
		a.add(3)
	}
	if a.value < 2.99 || a.value > 3.01 {
		t.Errorf("it does not follow: %v", a.value)
	}
}

// The heap gives variables in the order of their scores, found by a plain search
// too, also after scores were scaled down.
func TestScoreHeapOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	h := scoreHeap{bump: 1e149}
	const n = 60
	for v := range int32(n) {
		h.grow(v, 0)
	}
	for range 3000 {
		switch v := int32(r.IntN(n)); r.IntN(4) {
		case 0:
			h.use(v)
		case 1:
			h.decay()
		case 2:
			h.push(v)
		default:
			if len(h.heap) > 0 {
				checkTop(t, &h)
				h.pop()
			}
		}
	}
	if h.bump > 1e149 {
		t.Error("the scores were never scaled")
	}
}

func checkTop(t *testing.T, h *scoreHeap) {
	t.Helper()
	for _, v := range h.heap {
		if h.before(v, h.heap[0]) {
			t.Fatalf("%d ranks before the top %d", v, h.heap[0])
		}
	}
}

// Whatever is used and assigned, the search that starts at the queue's pointer
// finds the unassigned variable that was used last.
func TestUseQueueFindsTheLastUsed(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	q := useQueue{first: -1, last: -1, search: -1}
	const n = 40
	assigned := make([]bool, n)
	for v := range int32(n) {
		q.grow(v)
	}
	for range 5000 {
		v := int32(r.IntN(n))
		switch {
		case !assigned[v]:
			assigned[v] = true
		case r.IntN(2) == 0:
			q.use(v)
		default:
			assigned[v] = false
			q.unassigned(v)
		}
		got := q.search
		for got >= 0 && assigned[got] {
			got = q.prev[got]
		}
		want := q.last
		for want >= 0 && assigned[want] {
			want = q.prev[want]
		}
		if got != want {
			t.Fatalf("found %d, want %d", got, want)
		}
	}
}

// Clauses keep their literals and marks through collections that move them.
func TestArenaMovesClauses(t *testing.T) {
	var from, to arena
	a := from.alloc([]Lit{2, 4, 6}, markLearned, 5)
	from.alloc([]Lit{8, 10}, 0, 0)
	b := from.alloc([]Lit{3, 5}, 0, 0)
	from.setUsed(a, 2)
	from.setLBD(a, 4)
	a1, b1, again := from.move(a, &to), from.move(b, &to), from.move(a, &to)
	if a1 != again || to.size(a1) != 3 || to.lits(a1)[2] != 6 || to.lbd(a1) != 4 || to.used(a1) != 2 || !to.has(a1, markLearned) {
		t.Error("the first clause was damaged")
	}
	if to.size(b1) != 2 || to.lits(b1)[1] != 5 || to.has(b1, markLearned|markMoved) {
		t.Error("the second clause was damaged")
	}
}

// Reductions leave two watches to every clause, and never forget one that an
// assignment rests on, however poor it looks.
func TestReductionsKeepReasonsAndWatches(t *testing.T) {
	s := threeSatSolver(200, 840)
	s.MaxConflicts = 8000
	s.PollEvery = 500
	s.Stop = func() bool { return !watched(t, s) }
	s.Solve()
	if s.stats.Forgotten < 1000 {
		t.Fatalf("too easy: %+v", s.stats)
	}
	s.simplify()
	for s.propagate() == noRef && s.decide() {
	}
	reasons := 0
	for _, l := range s.trail {
		if c := s.vars[l>>1].reason; c != noRef && s.arena.has(c, markLearned) {
			s.arena.setUsed(c, 0)
			s.arena.setLBD(c, 100)
			reasons++
		}
	}
	s.reduce()
	for _, l := range s.trail {
		if c := s.vars[l>>1].reason; c != noRef && s.arena.has(c, markGarbage) {
			t.Errorf("the reason of %v is gone", l)
		}
	}
	if !watched(t, s) || reasons < 10 {
		t.Errorf("%d reasons were learned", reasons)
	}
}

func threeSatSolver(vars, clauses int) *Solver {
	r := rand.New(rand.NewPCG(1, 1))
	s := New(Options{})
	s.NewVars(vars)
	for range clauses {
		p := r.Perm(vars)
		s.AddClause(Lit(2*p[0]+2+r.IntN(2)), Lit(2*p[1]+2+r.IntN(2)), Lit(2*p[2]+2+r.IntN(2)))
	}
	return s
}

func watched(t *testing.T, s *Solver) bool {
	t.Helper()
	count := map[ref]int{}
	for l, ws := range s.watches {
		for _, w := range ws {
			first := s.arena.lits(w.ref())[:2]
			if Lit(l) != first[0] && Lit(l) != first[1] {
				t.Errorf("%v watches %v", Lit(l), s.arena.lits(w.ref()))
			}
			count[w.ref()]++
		}
	}
	for _, list := range [][]ref{s.original, s.learned} {
		for _, c := range list {
			if count[c] != 2 {
				t.Errorf("%v has %d watches", s.arena.lits(c), count[c])
			}
		}
	}
	return !t.Failed()
}
