package route

import (
	"math"
	"slices"

	"loomwright/internal/scene"
)

// lane is the distance of lanes where there is room, narrow where there is
// not: half the pitch of a pot's lugs.
const (
	lane   = 2.9
	narrow = 2.2
)

// grid is the lines that lanes run on: through every place that matters, and
// evenly between. Node (i, j) is j·nx + i; the edge to its right is 2·node, the
// one below 2·node + 1. Lengths are in units of 1/100 mm.
type grid struct {
	xs, ys   []float64
	nx, ny   int
	lens     []int32 // of edges; 0: there is none
	col, row []int16 // of nodes
}

// unit is the cost of a millimetre.
const unit = 100

func newGrid(box scene.Rect, places []scene.Point) grid {
	xs, ys := []float64{box.Min.X, box.Max.X}, []float64{box.Min.Y, box.Max.Y}
	for _, p := range places {
		xs, ys = append(xs, p.X), append(ys, p.Y)
	}
	g := grid{xs: fill(xs), ys: fill(ys)}
	g.nx, g.ny = len(g.xs), len(g.ys)
	g.table()
	return g
}

// table writes down what searches ask of every node and edge.
func (g *grid) table() {
	n := g.nx * g.ny
	lenX, lenY := lengths(g.xs), lengths(g.ys)
	g.lens, g.col, g.row = make([]int32, 2*n), make([]int16, n), make([]int16, n)
	for j := range g.ny {
		for i := range g.nx {
			n := g.node(i, j)
			g.lens[2*n], g.lens[2*n+1] = lenX[i], lenY[j]
			g.col[n], g.row[n] = int16(i), int16(j)
		}
	}
}

// fill sorts lines and puts more between them, evenly.
func fill(lines []float64) []float64 {
	slices.Sort(lines)
	out := lines[:0:0]
	for _, v := range lines {
		if len(out) > 0 {
			last := out[len(out)-1]
			if v-last < 1e-3 {
				continue
			}
			n := parts(v - last)
			for k := 1; k < n; k++ {
				out = append(out, last+(v-last)*float64(k)/float64(n))
			}
		}
		out = append(out, v)
	}
	return out
}

// parts is into how many lanes a gap is cut.
func parts(gap float64) int {
	n := int(gap/lane + 1e-9)
	if n < 2 && gap >= 2*narrow-1e-9 {
		return 2
	}
	return max(n, 1)
}

func lengths(lines []float64) []int32 {
	out := make([]int32, len(lines))
	for i := range lines[1:] {
		out[i] = int32(math.Round((lines[i+1] - lines[i]) * unit))
	}
	return out
}

func (g *grid) node(i, j int) int32    { return int32(j*g.nx + i) }
func (g *grid) ij(n int32) (i, j int)  { return int(g.col[n]), int(g.row[n]) }
func (g *grid) at(n int32) scene.Point { return scene.Pt(g.xs[g.col[n]], g.ys[g.row[n]]) }

// find is the node at a place; false when no two lines meet there.
func (g *grid) find(p scene.Point) (int32, bool) {
	i, j := line(g.xs, p.X), line(g.ys, p.Y)
	if i < 0 || j < 0 {
		return 0, false
	}
	return g.node(i, j), true
}

// line is the index of the line at v, or −1.
func line(lines []float64, v float64) int {
	i, _ := slices.BinarySearch(lines, v-2e-3)
	if i < len(lines) && math.Abs(lines[i]-v) < 2e-3 {
		return i
	}
	return -1
}

// span is the indices of the lines from lo to hi.
func span(lines []float64, lo, hi float64) (first, last int) {
	first, _ = slices.BinarySearch(lines, lo)
	last, _ = slices.BinarySearch(lines, hi)
	return first, last - 1
}

// step is the node and the edge in a heading, and the edge's length; false at
// the board's end.
func (g *grid) step(n int32, d Dir) (next, edge, length int32, ok bool) {
	switch d {
	case Right:
		next, edge = n+1, 2*n
	case Left:
		next, edge = n-1, 2*(n-1)
	case Down:
		next, edge = n+int32(g.nx), 2*n+1
	default:
		next = n - int32(g.nx)
		edge = 2*next + 1
	}
	if edge < 0 {
		return 0, 0, 0, false
	}
	length = g.lens[edge]
	return next, edge, length, length > 0
}

// edgeEnds are the places of an edge's two nodes.
func (g *grid) edgeEnds(e int32) (a, b scene.Point) {
	n := e / 2
	if e%2 == 0 {
		return g.at(n), g.at(n + 1)
	}
	return g.at(n), g.at(n + int32(g.nx))
}

// eachEdge calls do for every edge whose middle lies in a box.
func (g *grid) eachEdge(box scene.Rect, do func(edge int32, mid scene.Point, length int32)) {
	i0, i1 := span(g.xs, box.Min.X-lane*2, box.Max.X+lane*2)
	j0, j1 := span(g.ys, box.Min.Y-lane*2, box.Max.Y+lane*2)
	in := func(p scene.Point) bool {
		return p.X >= box.Min.X && p.X <= box.Max.X && p.Y >= box.Min.Y && p.Y <= box.Max.Y
	}
	for j := j0; j <= j1; j++ {
		for i := i0; i <= i1; i++ {
			n := g.node(i, j)
			if i+1 < g.nx {
				if mid := scene.Pt((g.xs[i]+g.xs[i+1])/2, g.ys[j]); in(mid) {
					do(2*n, mid, g.lens[2*n])
				}
			}
			if j+1 < g.ny {
				if mid := scene.Pt(g.xs[i], (g.ys[j]+g.ys[j+1])/2); in(mid) {
					do(2*n+1, mid, g.lens[2*n+1])
				}
			}
		}
	}
}
