package place

import "loomwright/internal/scene"

// placeSmall hangs the small parts, and what is a ground, near what they are
// joined to: the cheapest free place on a lattice through the places at which
// their ends lie in line with their goals.
func (l *layout) placeSmall() {
	for range 2 {
		for i := range l.items {
			if it := &l.items[i]; !it.fixed && (it.role == roleSmall || it.role == roleGround) {
				l.hang(i)
			}
		}
	}
}

const (
	reach   = 44.0 // mm around each goal
	step    = 4.0
	perNear = 400.0 // a place that is not free
)

func (l *layout) hang(i int) {
	it := &l.items[i]
	was, turn := it.at, it.turn
	best, bestTurn, cost := was, turn, 1e18
	try := func() {
		if c := l.around(i) + l.crowd(i); c < cost-1e-9 {
			best, bestTurn, cost = it.at, it.turn, c
		}
	}
	links := l.linksOf(i)
	if len(links) == 0 {
		l.park(i)
		return
	}
	for _, t := range it.turns {
		it.turn = t
		for _, e := range links {
			own, other := e[0], e[1]
			goal := l.where(other, l.items[other.item].at).Sub(turnPoint(own.at, t))
			for dy := -reach; dy <= reach; dy += step {
				for dx := -reach; dx <= reach; dx += step {
					it.at = goal.Add(scene.Pt(dx, dy))
					if l.free(i) {
						try()
					}
				}
			}
		}
	}
	it.at, it.turn = best, bestTurn
	if cost >= 1e18 {
		l.park(i)
	}
}

// linksOf lists an item's links, its own end first.
func (l *layout) linksOf(i int) [][2]*linkEnd {
	var out [][2]*linkEnd
	for k := range l.links {
		lk := &l.links[k]
		switch i {
		case lk.a.item:
			out = append(out, [2]*linkEnd{&lk.a, &lk.b})
		case lk.b.item:
			out = append(out, [2]*linkEnd{&lk.b, &lk.a})
		}
	}
	return out
}

// clear is the room that a small part keeps around itself, mm.
const clear = 6.5

// free reports whether an item touches no other.
func (l *layout) free(i int) bool {
	box := l.items[i].box().Grow(clear - 2)
	if l.items[i].role == roleGround {
		box = box.Grow(clear)
	}
	for k := range l.items {
		if o := &l.items[k]; k != i && o.placed() && o.room().Overlaps(box) {
			return false
		}
	}
	return true
}

// fanRoom is what a cable's leads need ahead of their slots, mm.
const fanRoom = 9

// room is an item's box with the place that its leads need.
func (it *item) room() scene.Rect {
	box := it.box()
	if it.fan == nil {
		return box
	}
	for _, s := range it.fan.Slots {
		p := it.world(s.Add(scene.Pt(fanRoom, 0)))
		box = box.Union(scene.Rect{Min: p, Max: p}.Grow(0.1))
	}
	return box
}

func (it *item) placed() bool {
	return it.fixed || it.role != roleSmall && it.role != roleGround || it.at != scene.Point{}
}

// crowd is what standing close to others costs, and outside of them all.
func (l *layout) crowd(i int) float64 {
	box := l.items[i].box()
	sum, all := 0.0, l.bounds()
	for k := range l.items {
		if o := &l.items[k]; k != i && o.placed() {
			near := o.box().Grow(clear + 4).Intersect(box)
			sum += (near.Width() + near.Height()) * 0.5
		}
	}
	out := max(0, all.Min.X-box.Min.X, box.Max.X-all.Max.X) + max(0, all.Min.Y-box.Min.Y, box.Max.Y-all.Max.Y)
	return sum + out*1.5
}

// park puts an item that hangs on nothing below all others.
func (l *layout) park(i int) {
	all := l.bounds()
	it := &l.items[i]
	it.turn = it.turns[0]
	b := l.flat(i)
	for x := all.Max.X - b.Width(); ; x -= step {
		it.at = scene.Pt(x-b.Min.X, all.Max.Y+gapDown/2-b.Min.Y)
		if l.free(i) || x < all.Min.X-1000 {
			return
		}
	}
}
