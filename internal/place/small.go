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

// Lattice on which places are tried, mm around each goal.
const (
	reach = 44.0
	step  = 4.0
)

// hanger holds what stands still while one item is hung.
type hanger struct {
	l     *layout
	i     int
	it    *item
	links [][2]*linkEnd // of the item, its own end first
	still []segment     // links of others
	boxes []scene.Rect  // of placed others
	rooms []scene.Rect  // with the place that leads need
	all   scene.Rect
}

func (l *layout) newHanger(i int) *hanger {
	h := &hanger{l: l, i: i, it: &l.items[i], links: l.linksOf(i), all: l.bounds()}
	for k := range l.links {
		if lk := &l.links[k]; lk.a.item != i && lk.b.item != i {
			h.still = append(h.still, l.segment(k))
		}
	}
	for k := range l.items {
		o := &l.items[k]
		if k == i || !o.placed() {
			continue
		}
		h.boxes, h.rooms = append(h.boxes, o.box()), append(h.rooms, o.room())
	}
	return h
}

// hang finds the cheapest free place for an item.
func (l *layout) hang(i int) {
	h := l.newHanger(i)
	it := h.it
	if len(h.links) == 0 {
		l.park(i)
		return
	}
	best, turn, cost := it.at, it.turn, 1e18
	for _, t := range it.turns {
		it.turn = t
		for _, e := range h.links {
			goal := l.where(e[1], l.items[e[1].item].at).Sub(turnPoint(e[0].at, t))
			for dy := -reach; dy <= reach; dy += step {
				for dx := -reach; dx <= reach; dx += step {
					it.at = goal.Add(scene.Pt(dx, dy))
					if c, ok := h.cost(cost); ok {
						best, turn, cost = it.at, t, c
					}
				}
			}
		}
	}
	it.at, it.turn = best, turn
	if cost >= 1e18 {
		l.park(i)
	}
}

// cost is what the item costs where it is, if it is free there and costs less
// than a limit. The cheap parts come first.
func (h *hanger) cost(limit float64) (float64, bool) {
	sum := 0.0
	segs := make([]segment, 0, 8)
	for _, e := range h.links {
		p := h.it.world(e[0].at)
		s := segment{p, h.l.where(e[1], p), h.i, e[1].item}
		segs = append(segs, s)
		sum += abs(s.q.X-s.p.X) + abs(s.q.Y-s.p.Y)
	}
	if sum >= limit || !h.free() {
		return 0, false
	}
	sum += h.crowd()
	for k, s := range segs {
		e := h.links[k]
		d := s.q.Sub(s.p)
		sum += perBackward * (away(e[0].exits.Turned(h.it.turn), d) + away(e[1].exits.Turned(h.l.items[s.b].turn), d.Mul(-1)))
		sum += h.meets(s)
		for _, o := range segs[:k] {
			if crosses(s, o) {
				sum += perCrossing
			}
		}
	}
	return sum, sum < limit-1e-9
}

// meets is what a link of the item costs for crossing others and cutting bodies.
func (h *hanger) meets(s segment) float64 {
	sum := 0.0
	for _, o := range h.still {
		if crosses(s, o) {
			sum += perCrossing
		}
	}
	for k := range h.l.items {
		if k != s.a && k != s.b && h.l.items[k].solid() && cuts(h.l.items[k].box(), s) {
			sum += perBodyCut
		}
	}
	return sum
}

// free reports whether the item touches no other.
func (h *hanger) free() bool {
	box := h.it.box().Grow(h.it.apart())
	for _, r := range h.rooms {
		if r.Overlaps(box) {
			return false
		}
	}
	return true
}

// apart is the least distance of an item from others, mm.
func (it *item) apart() float64 {
	if it.role == roleGround {
		return 2*clear - 2
	}
	return clear - 2
}

// crowd is what standing close to others costs, and outside of them all.
func (h *hanger) crowd() float64 {
	box := h.it.box()
	sum := 0.0
	for _, b := range h.boxes {
		near := b.Grow(clear + 4).Intersect(box)
		sum += (near.Width() + near.Height()) * 0.5
	}
	out := max(0, h.all.Min.X-box.Min.X, box.Max.X-h.all.Max.X) + max(0, h.all.Min.Y-box.Min.Y, box.Max.Y-h.all.Max.Y)
	return sum + out*1.5
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
func (l *layout) free(i int) bool { return l.newHanger(i).free() }

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
	switch it.role {
	case roleGroundwork:
		return false
	case roleSmall, roleGround:
		return it.fixed || it.at != scene.Point{}
	}
	return true
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
