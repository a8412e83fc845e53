package place

// around is what one item costs as it stands: its links, what they cross, the
// links that cut it.
func (l *layout) around(i int) float64 {
	segs := make([]segment, len(l.links))
	for k := range l.links {
		segs[k] = l.segment(k)
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
	best, cost := was, l.around(i)
	for _, t := range it.turns {
		it.turn = t
		if c := l.around(i); c < cost-1e-9 {
			best, cost = t, c
		}
	}
	it.turn = best
	return best != was
}
