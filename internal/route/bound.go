package route

import "loomwright/internal/scene"

// bound tells the least that is left of a way: the distance to the box of the
// goals, and the bends that no way there avoids.
type bound struct {
	hx, hy   []int32 // distance of each line to the goals; outside beyond the window
	sx, sy   []int8  // side of the box that each line is on: 0 before, 1 within, 2 after
	bends    [4][9]int32
	gx, gy   [2]int // lines of the box
	arrivals Dirs
	least    int32 // that ending costs
}

// outside marks what lies beyond the window.
const outside = -1

func newBound(g *grid) bound {
	return bound{hx: make([]int32, g.nx), hy: make([]int32, g.ny), sx: make([]int8, g.nx), sy: make([]int8, g.ny)}
}

// aim fills the tables for some goals.
func (b *bound) aim(g *grid, goals []port) {
	i, j := g.ij(goals[0].node)
	b.gx, b.gy, b.arrivals, b.least = [2]int{i, i}, [2]int{j, j}, 0, goals[0].cost
	for _, p := range goals {
		i, j := g.ij(p.node)
		b.gx = [2]int{min(b.gx[0], i), max(b.gx[1], i)}
		b.gy = [2]int{min(b.gy[0], j), max(b.gy[1], j)}
		b.arrivals |= Of(p.dir.Back())
		b.least = min(b.least, p.cost)
	}
	b.fill(g.xs, b.gx, b.hx, b.sx)
	b.fill(g.ys, b.gy, b.hy, b.sy)
	for d := range Dir(4) {
		for k := range b.bends[d] {
			b.bends[d][k] = b.least + bendCost*unit*leastBends(d, b.arrivals, k%3-1, k/3-1)
		}
	}
}

func (*bound) fill(lines []float64, goal [2]int, dist []int32, side []int8) {
	for i, v := range lines {
		dist[i] = int32(max(lines[goal[0]]-v, v-lines[goal[1]], 0) * unit)
		side[i] = int8(b2i(i >= goal[0]) + b2i(i > goal[1]))
	}
}

// within leaves out what lies outside a box.
func (b *bound) within(g *grid, box scene.Rect) {
	narrowTo(b.hx, g.xs, box.Min.X, box.Max.X)
	narrowTo(b.hy, g.ys, box.Min.Y, box.Max.Y)
}

func narrowTo(h []int32, lines []float64, lo, hi float64) {
	for i, v := range lines {
		if v < lo || v > hi {
			h[i] = outside
		}
	}
}

// of is the bound at a node with a heading, or outside.
func (b *bound) of(g *grid, n int32, d Dir) int32 {
	i, j := g.col[n], g.row[n]
	hx, hy := b.hx[i], b.hy[j]
	if hx < 0 || hy < 0 {
		return outside
	}
	return hx + hy + b.bends[d][b.sx[i]+3*b.sy[j]]
}

// leastBends is how many bends lie before a goal at least, of which the box is
// passed in x and y: −1 not reached, 0 within, 1 passed.
func leastBends(d Dir, arrivals Dirs, x, y int) int32 {
	ahead, side := -x, -y // +1: the goal is ahead, or to the right hand
	switch d {
	case Down:
		ahead, side = -y, x
	case Left:
		ahead, side = x, y
	case Up:
		ahead, side = y, -x
	}
	least := int32(4)
	for k, n := range [4]int32{straightOn(ahead, side), quarterTurn(ahead, side), 2, quarterTurn(ahead, -side)} {
		if arrivals.Has((d + Dir(k)) % 4) {
			least = min(least, n)
		}
	}
	return least
}

// straightOn is the bends before a goal that is entered in the heading held.
func straightOn(ahead, side int) int32 {
	switch {
	case ahead < 0:
		return 4
	case side != 0:
		return 2
	}
	return 0
}

// quarterTurn is the bends before a goal that is entered toward a side, with
// the goal on that side (1) or on the other (−1).
func quarterTurn(ahead, side int) int32 {
	if ahead < 0 || side < 0 {
		return 3
	}
	return 1
}
