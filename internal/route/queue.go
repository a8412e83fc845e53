package route

import "math/bits"

// queue gives states out by cost. It is a radix heap (Ahuja, Mehlhorn, Orlin
// and Tarjan 1990): costs must not fall below the last that came out, which is
// what a search with a consistent bound gives; one that does is taken for that
// last. Equal costs come out last in, first out, whatever dearer ones are in.
type queue struct {
	last    int32
	size    int
	buckets [32][]entry
}

type entry struct{ cost, state int32 }

func (q *queue) len() int { return q.size }

// clear empties the queue and keeps its room.
func (q *queue) clear() {
	for i := range q.buckets {
		q.buckets[i] = q.buckets[i][:0]
	}
	q.last, q.size = 0, 0
}

func (q *queue) push(cost, state int32) {
	cost = max(cost, q.last)
	b := &q.buckets[bits.Len32(uint32(cost^q.last))]
	*b = append(*b, entry{cost, state})
	q.size++
}

func (q *queue) pop() (cost, state int32) {
	if len(q.buckets[0]) == 0 {
		q.deal()
	}
	b := q.buckets[0]
	top := b[len(b)-1]
	q.buckets[0] = b[:len(b)-1]
	q.size--
	return top.cost, top.state
}

// deal spreads the first bucket that holds anything over those before it.
func (q *queue) deal() {
	k := 1
	for len(q.buckets[k]) == 0 {
		k++
	}
	from := q.buckets[k]
	q.last = from[0].cost
	for _, e := range from[1:] {
		q.last = min(q.last, e.cost)
	}
	for _, e := range from {
		b := &q.buckets[bits.Len32(uint32(e.cost^q.last))]
		*b = append(*b, e)
	}
	q.buckets[k] = from[:0]
}
