package place

import (
	"math"
	"slices"
)

// channels is the room that many wires need between rows and columns of
// controls, beyond what they have anyhow, mm.
type channels struct {
	down   []float64 // below each row
	across []float64 // after each column
}

// Lanes in a channel: their pitch with what crossings and bends take beside it,
// how much of a usual gap is free for lanes, and from how many rows on channels
// are reckoned with.
const (
	lanePitch  = 3.6
	freeDown   = gapDown - 9
	freeAcross = gapAcross - 3
	manyRows   = 3
)

// channels estimates how many wires run side by side between the rows, as the
// density of a channel is taken in channel routing: each link runs level half in
// the gap next to one of its ends, half in that next to the other, and up or
// down past the rows between.
func (l *layout) channels(rows [][]int) channels {
	c := channels{down: make([]float64, len(rows)), across: make([]float64, longest(rows))}
	if len(rows) < manyRows {
		return c
	}
	row := map[int]int{}
	for r, items := range rows {
		for _, i := range items {
			row[i] = r
		}
	}
	level, steep := make([][]run, len(rows)), make([][]float64, len(rows))
	for r := range steep {
		steep[r] = make([]float64, len(c.across)+1)
	}
	for k := range l.links {
		a, b := l.links[k].a.item, l.links[k].b.item
		ra, okA := row[a]
		rb, okB := row[b]
		if !okA || !okB || a == b {
			continue
		}
		if ra > rb {
			a, b, ra, rb = b, a, rb, ra
		}
		xa, xb := l.box(a).Center().X, l.box(b).Center().X
		s := run{min(xa, xb), max(xa, xb)}
		level[ra], level[max(ra, rb-1)] = append(level[ra], s), append(level[max(ra, rb-1)], s)
		for r := ra + 1; r < rb; r++ {
			steep[r][l.gapAt(rows[r], xa)] += 0.5
			steep[r][l.gapAt(rows[r], xb)] += 0.5
		}
	}
	for r := range rows {
		c.down[r] = max(0, lanePitch*density(level[r])/2-freeDown)
		for k := range c.across {
			c.across[k] = max(c.across[k], lanePitch*steep[r][k+1]-freeAcross)
		}
	}
	return c
}

func longest(rows [][]int) int {
	n := 0
	for _, r := range rows {
		n = max(n, len(r))
	}
	return n
}

// run is a level stretch from left to right.
type run struct{ from, to float64 }

// density is how many of some runs lie above one another at most.
func density(runs []run) float64 {
	most := 0
	for _, r := range runs {
		n := 0
		for _, o := range runs {
			n += b2i(o.from <= r.from && r.from < o.to)
		}
		most = max(most, n)
	}
	return float64(most)
}

// gapAt is the gap of a row that is nearest to a place: 0 before the first part.
func (l *layout) gapAt(row []int, x float64) int {
	best, dist := 0, math.Inf(1)
	for k := range len(row) + 1 {
		at := l.box(row[min(k, len(row)-1)])
		edge := at.Min.X
		if k == len(row) {
			edge = at.Max.X
		}
		if d := math.Abs(edge - x); d < dist-1e-9 {
			best, dist = k, d
		}
	}
	return best
}

// none reports whether no channel needs more room.
func (c channels) none() bool {
	some := func(x float64) bool { return x > 0 }
	return !slices.ContainsFunc(c.down, some) && !slices.ContainsFunc(c.across, some)
}

func (c channels) below(row int) float64 {
	if row < 0 || row >= len(c.down) {
		return 0
	}
	return c.down[row]
}

func (c channels) after(column int) float64 {
	if column >= len(c.across) {
		return 0
	}
	return c.across[column]
}
