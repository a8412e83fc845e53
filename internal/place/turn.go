package place

// vicinity is an item with the links of the others, which stay as they are
// while it is turned and moved.
type vicinity struct {
	l    *layout
	i    int
	segs []segment
}

func (l *layout) vicinity(i int) vicinity {
	v := vicinity{l, i, make([]segment, len(l.links))}
	for k := range l.links {
		v.segs[k] = l.segment(k)
	}
	return v
}

// cost is what the item costs as it stands: its links, what they cross, the
// links that cut it.
func (v *vicinity) cost() float64 {
	l, i, segs := v.l, v.i, v.segs
	for k := range l.links {
		if l.links[k].a.item == i || l.links[k].b.item == i {
			segs[k] = l.segment(k)
		}
	}
	it := &l.items[i]
	sum, box := it.pose(), it.box()
	for k, s := range segs {
		if s.a != i && s.b != i {
			if it.role != roleSmall && cuts(box, s) {
				sum += perBodyCut
			}
			continue
		}
		sum += l.alone(k, s)
		for m, o := range segs {
			if m != k && (m < k || o.a != i && o.b != i) && crosses(s, o) {
				sum += perCrossing
			}
		}
	}
	return sum
}

// turnAll turns parts, one after the other, while that helps (coordinate
// descent).
func (l *layout) turnAll() {
	for range 3 {
		changed := false
		for i := range l.items {
			it := &l.items[i]
			if it.fixed || it.role == roleSmall || it.role == roleGround || len(it.turns) < 2 {
				continue
			}
			changed = l.turnOne(i) || changed
		}
		if !changed {
			return
		}
	}
}

func (l *layout) turnOne(i int) bool {
	it := &l.items[i]
	was := it.turn
	near := l.vicinity(i)
	best, cost := was, near.cost()
	for _, t := range it.turns {
		it.turn = t
		if c := near.cost(); c < cost-1e-9 {
			best, cost = t, c
		}
	}
	it.turn = best
	return best != was
}
