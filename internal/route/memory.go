package route

import (
	"math"

	"loomwright/internal/scene"
)

// attempt names what improvement tries: a wire alone (a = b), or two in one of
// the ways that pairs are laid anew.
type attempt struct {
	a, b int
	way  way
}

// way is how wires are laid anew: after others are taken up with them, in one
// another's slots, in lanes that others must leave.
type way uint8

const (
	anew way = iota
	swapped
	pushed
)

// failure is where an attempt without gain looked, and how many changes had
// been made then.
type failure struct {
	changes int
	where   scene.Rect
}

// memory is what failed: it is not tried again before something has changed
// where it looked.
type memory struct {
	failed  map[attempt]failure
	changed []scene.Rect
	looked  extent // of searches since an attempt began
}

// extent is columns and rows of the grid.
type extent struct{ left, top, right, bottom int16 }

var nowhere = extent{math.MaxInt16, math.MaxInt16, -1, -1}

func (x *extent) add(i, j int16) {
	x.left, x.top = min(x.left, i), min(x.top, j)
	x.right, x.bottom = max(x.right, i), max(x.bottom, j)
}

// box is an extent in mm.
func (g *grid) box(x extent) scene.Rect {
	if x.right < 0 {
		return scene.Rect{}
	}
	return scene.Rect{Min: scene.Pt(g.xs[x.left], g.ys[x.top]), Max: scene.Pt(g.xs[x.right], g.ys[x.bottom])}
}

// attempt makes an attempt unless it failed before and must fail again.
func (r *router) attempt(a attempt, do func() int32) int32 {
	m := &r.memory
	if f, ok := m.failed[a]; ok && !overlapsAny(m.changed[f.changes:], f.where) {
		return 0
	}
	m.looked = nowhere
	gain := do()
	if gain == 0 {
		m.failed[a] = failure{len(m.changed), r.grid.box(m.looked).Union(r.laneBox(a.a)).Union(r.laneBox(a.b))}
	}
	return gain
}

func overlapsAny(boxes []scene.Rect, with scene.Rect) bool {
	for _, b := range boxes {
		if b.Overlaps(with) {
			return true
		}
	}
	return false
}

// change notes that a wire's lane comes or goes. It is felt about as far off as
// crossings near ends are.
func (r *router) change(w int) {
	r.memory.changed = append(r.memory.changed, r.laneBox(w).Grow(tailLength))
}

// laneBox is where a wire runs.
func (r *router) laneBox(w int) scene.Rect {
	x := nowhere
	for _, n := range r.state[w].nodes {
		x.add(r.grid.col[n], r.grid.row[n])
	}
	return r.grid.box(x).Grow(Spacing)
}
