package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// spacing: no two wires share a line or come too near, but for where they end
// together and where they cross.
func (l *linter) spacing() {
	for i := range l.d.Wires {
		for k := range l.d.Wires[:i] {
			if l.related(i, k) {
				continue
			}
			if at, dist, bad := l.tooNear(i, k); bad {
				l.add("spacing", at, "%s runs %.2f mm from %s", l.name(i), dist, l.name(k))
			}
		}
	}
}

// related reports whether a wire is the braid of the other, or of the same cable.
func (l *linter) related(i, k int) bool {
	a, b := l.d.strandOf(&l.d.Wires[i]), l.d.strandOf(&l.d.Wires[k])
	if a == nil || b == nil {
		return false
	}
	return on(a) >= 0 && on(a) == l.d.Wires[k].Strand || on(b) >= 0 && on(b) == l.d.Wires[i].Strand
}

// on is the strand that a tail parts from, or −1.
func on(s *place.Strand) int { return max(s.Core, s.Pair) }

// tooNear samples the straight pieces of two lanes.
func (l *linter) tooNear(i, k int) (scene.Point, float64, bool) {
	a, b := &l.d.Wires[i], &l.d.Wires[k]
	ends := commonEnds(a, b)
	for m := 1; m < len(a.Points); m++ {
		for n := 1; n < len(b.Points); n++ {
			p, q, r, s := a.Points[m-1], a.Points[m], b.Points[n-1], b.Points[n]
			if !segmentBox(p, q).Grow(leastSpacing).Overlaps(segmentBox(r, s).Grow(0.01)) || transverse(p, q, r, s) {
				continue
			}
			for t := 0.0; t <= 1; t += 0.05 {
				at := p.Lerp(q, t)
				if dist := pointSegment(at, r, s); dist < leastSpacing && !nearAny(ends, at) {
					return at, dist, true
				}
			}
		}
	}
	return scene.Point{}, 0, false
}

// transverse reports whether two pieces are square to one another: then they
// cross, or meet at bends, which other rules look at.
func transverse(p, q, r, s scene.Point) bool {
	u, v := q.Sub(p).Unit(), s.Sub(r).Unit()
	return abs(u.X*v.X+u.Y*v.Y) < 0.2
}

func commonEnds(a, b *Wire) []scene.Point {
	var out []scene.Point
	for _, p := range []scene.Point{a.Points[0], a.Points[len(a.Points)-1]} {
		for _, q := range []scene.Point{b.Points[0], b.Points[len(b.Points)-1]} {
			if p.Dist(q) < 3.1 {
				out = append(out, p, q)
			}
		}
	}
	return out
}

func nearAny(points []scene.Point, at scene.Point) bool {
	for _, p := range points {
		if p.Dist(at) < nearEnd {
			return true
		}
	}
	return false
}

func pointSegment(p, a, b scene.Point) float64 {
	ab := b.Sub(a)
	if l := ab.X*ab.X + ab.Y*ab.Y; l > 0 {
		t := ((p.X-a.X)*ab.X + (p.Y-a.Y)*ab.Y) / l
		a = a.Add(ab.Mul(min(max(t, 0), 1)))
	}
	return p.Dist(a)
}

// bodies: a wire does not lie on a part that it has nothing to do with.
func (l *linter) bodies() {
	for i := range l.d.Wires {
		w := &l.d.Wires[i]
		own := l.ownParts(w)
		for p := range l.d.Plan.Parts {
			if own[p] {
				continue
			}
			if at, bad := l.crossesBody(w, p); bad {
				l.add("body", at, "%s lies on %s", l.name(i), l.d.partName(&l.d.Plan.Parts[p]))
			}
		}
	}
}

// ownParts are the parts at a wire's ends.
func (l *linter) ownParts(w *Wire) map[int]bool {
	own := map[int]bool{}
	if s := l.d.strandOf(w); s != nil {
		strands := []int{w.Strand}
		if on(s) >= 0 {
			strands = append(strands, on(s))
		}
		for _, k := range strands {
			for _, e := range []int{l.d.Plan.Strands[k].A.Term, l.d.Plan.Strands[k].B.Term} {
				if e >= 0 {
					own[l.d.Plan.Spots[e].Part] = true
				}
			}
			for _, e := range []int{l.d.Plan.Strands[k].A.Splice, l.d.Plan.Strands[k].B.Splice} {
				for p := range l.d.Plan.Parts {
					own[p] = own[p] || e >= 0 && l.d.Plan.Parts[p].Use < 0 && l.d.Plan.Parts[p].Splice == e
				}
			}
		}
	}
	return own
}

func (l *linter) crossesBody(w *Wire, part int) (scene.Point, bool) {
	for _, s := range l.d.Plan.Parts[part].Shapes {
		if !s.IsBody() {
			continue
		}
		for k := 1; k < len(w.Points); k++ {
			a, b := w.Points[k-1], w.Points[k]
			if !segmentBox(a, b).Grow(0.1).Overlaps(s.Box) {
				continue
			}
			for t := 0.0; t <= 1; t += 0.04 {
				if p := a.Lerp(b, t); s.Holds(p, 0.2) {
					return p, true
				}
			}
		}
	}
	return scene.Point{}, false
}

// lugs: a wire keeps off terminals that it does not end on, and their stems.
func (l *linter) lugs() {
	for t := range l.d.Plan.Spots {
		s := &l.d.Plan.Spots[t]
		if s.Part < 0 || s.InFan || s.InCase || l.d.inSleeve(t) {
			continue
		}
		for i := range l.d.Wires {
			if l.endsOn(i, t) {
				continue
			}
			w := &l.d.Wires[i]
			for k := 1; k < len(w.Points); k++ {
				dist := min(segmentDistance(w.Points[k-1], w.Points[k], s.At, s.Far))
				if s.HasPin {
					dist = min(dist, pointSegment(s.Pin, w.Points[k-1], w.Points[k])+0.5)
				}
				if dist < leastLug {
					l.add("lug", s.At, "%s passes %.2f mm from %s", l.name(i), dist, l.d.Graph.Terms[t].Name)
					break
				}
			}
		}
	}
}

func (l *linter) endsOn(i, term int) bool {
	s := l.d.strandOf(&l.d.Wires[i])
	return s != nil && (s.A.Term == term || s.B.Term == term)
}

func segmentDistance(a, b, c, e scene.Point) float64 {
	if _, ok := crossAt(a, b, c, e); ok {
		return 0
	}
	return min(pointSegment(a, c, e), pointSegment(b, c, e), pointSegment(c, a, b), pointSegment(e, a, b))
}

// joints: wires keep off the joints of others on a case, and joints apart.
func (l *linter) joints() {
	for k, j := range l.d.joints {
		if !l.d.Plan.Spots[j.Term].InCase {
			continue
		}
		for _, o := range l.d.joints[:k] {
			if o.Term == j.Term && o.At.Dist(j.At) < leastJoints {
				l.add("joints", j.At, "two joints on %s are %.2f mm apart", l.d.Graph.Terms[j.Term].Name, o.At.Dist(j.At))
			}
		}
		for i := range l.d.Wires {
			w := &l.d.Wires[i]
			if j.Wires[0] == i || w.Points[len(w.Points)-1] == j.At || w.Points[0] == j.At {
				continue
			}
			for m := 1; m < len(w.Points); m++ {
				if dist := pointSegment(j.At, w.Points[m-1], w.Points[m]); dist < leastJoint {
					l.add("joint", j.At, "%s passes %.2f mm from a joint", l.name(i), dist)
					break
				}
			}
		}
	}
}
