package linear

// Plan is the order of steps that factors every complex symmetric matrix of
// one pattern as L·D·Lᵀ, without pivoting, and solves for one right-hand side
// that is 1 at the last node. That order is safe where the real part of the
// matrix is positive definite on what the imaginary part leaves singular, as
// in nodal analysis of resistors, capacitors and lossy coils.
//
// The matrix is handed over as slots, one for each entry of the lower half that
// is or becomes other than zero.
type Plan struct {
	n, slots int
	slot     []int32 // n×n; −1 where the entry stays zero
	steps    []step
	near     []int32 // node of each off-diagonal entry of each step
	entry    []int32 // its slot
	target   []int32 // slots that the step changes: row by row of the lower half
	widest   int     // most off-diagonal entries of a step
}

// step eliminates one node.
type step struct {
	node, diagonal int32
	first, end     int32 // range in near and entry
	target         int32 // first of (end−first)(end−first+1)/2 in target
}

// NewPlan plans for n nodes, n > 0, with an entry for every pair (order within
// a pair does not matter, diagonals are always there). The node last is
// eliminated last: the solution there costs nothing.
func NewPlan(n int, pairs [][2]int, last int) *Plan {
	adjacent := newRows(n)
	for _, p := range pairs {
		if p[0] != p[1] {
			adjacent.set(p[0], p[1])
		}
	}
	order, near := minimumDegree(adjacent, last)
	p := &Plan{n: n, slot: make([]int32, n*n)}
	for i := range p.slot {
		p.slot[i] = -1
	}
	for k, node := range order {
		p.newSlot(node, node)
		for _, i := range near[k] {
			p.newSlot(node, i)
		}
	}
	for k, node := range order {
		p.step(node, near[k])
	}
	return p
}

func (p *Plan) newSlot(i, j int) {
	if p.slot[i*p.n+j] < 0 {
		p.slot[i*p.n+j], p.slot[j*p.n+i] = int32(p.slots), int32(p.slots)
		p.slots++
	}
}

func (p *Plan) step(node int, near []int) {
	s := step{node: int32(node), diagonal: p.slot[node*p.n+node], first: int32(len(p.near)), target: int32(len(p.target))}
	for at, i := range near {
		p.near = append(p.near, int32(i))
		p.entry = append(p.entry, p.slot[node*p.n+i])
		for _, j := range near[:at+1] {
			p.target = append(p.target, p.slot[i*p.n+j])
		}
	}
	s.end = int32(len(p.near))
	p.steps = append(p.steps, s)
	p.widest = max(p.widest, len(near))
}

// Nodes is the number of unknowns.
func (p *Plan) Nodes() int { return p.n }

// Slots is the number of entries that a matrix is handed over in.
func (p *Plan) Slots() int { return p.slots }

// Slot is the slot of entry (i, j), or −1 where the plan keeps it zero.
func (p *Plan) Slot(i, j int) int { return int(p.slot[i*p.n+j]) }
