package linear

import "math/bits"

// rows is a symmetric 0/1 matrix as one bit set for each row.
type rows struct {
	n, words int
	bits     []uint64
}

func newRows(n int) *rows {
	words := (n + 63) / 64
	return &rows{n: n, words: words, bits: make([]uint64, n*words)}
}

func (r *rows) row(i int) []uint64 { return r.bits[i*r.words : (i+1)*r.words] }

func (r *rows) set(i, j int) {
	r.bits[i*r.words+j/64] |= 1 << (j % 64)
	r.bits[j*r.words+i/64] |= 1 << (i % 64)
}

func (r *rows) clear(i, j int) {
	r.bits[i*r.words+j/64] &^= 1 << (j % 64)
	r.bits[j*r.words+i/64] &^= 1 << (i % 64)
}

func (r *rows) degree(i int) int {
	n := 0
	for _, w := range r.row(i) {
		n += bits.OnesCount64(w)
	}
	return n
}

// members lists row i in order.
func (r *rows) members(i int) []int {
	out := make([]int, 0, r.degree(i))
	for at, w := range r.row(i) {
		for ; w != 0; w &= w - 1 {
			out = append(out, at*64+bits.TrailingZeros64(w))
		}
	}
	return out
}

// eliminate joins the neighbours of k among themselves, takes k out, and
// returns the neighbours.
func (r *rows) eliminate(k int) []int {
	near := r.members(k)
	for at, i := range near {
		r.clear(k, i)
		for _, j := range near[:at] {
			r.set(i, j)
		}
	}
	return near
}

// minimumDegree chooses an order of elimination: always the node with the
// fewest neighbours left (Markowitz 1957; Tinney and Walker 1967), the smaller
// index among equals, and the nodes of last at the end. near[k] are the
// neighbours of order[k] when its turn comes.
func minimumDegree(adjacent *rows, last int) (order []int, near [][]int) {
	done := make([]bool, adjacent.n)
	order, near = make([]int, 0, adjacent.n), make([][]int, 0, adjacent.n)
	for range adjacent.n {
		best, fewest := -1, adjacent.n+1
		for i := range adjacent.n {
			if done[i] {
				continue
			}
			d := adjacent.degree(i)
			if i == last {
				d = adjacent.n
			}
			if d < fewest {
				best, fewest = i, d
			}
		}
		done[best] = true
		order = append(order, best)
		near = append(near, adjacent.eliminate(best))
	}
	return order, near
}
