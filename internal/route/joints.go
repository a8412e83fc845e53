package route

import (
	"cmp"
	"math"
	"slices"

	"loomwright/internal/scene"
)

// zonePorts are the joints of a zone: nodes near its edge from which a straight
// way leads out.
func (r *router) zonePorts(z *Zone) []port {
	var out []port
	i0, i1 := span(r.grid.xs, z.Box.Min.X, z.Box.Max.X)
	j0, j1 := span(r.grid.ys, z.Box.Min.Y, z.Box.Max.Y)
	for j := j0; j <= j1; j++ {
		for i := i0; i <= i1; i++ {
			p := scene.Pt(r.grid.xs[i], r.grid.ys[j])
			if !z.solid(p) {
				continue
			}
			for d := range Dir(4) {
				if way := z.wayOut(p, d); z.Exits.Has(d) && way <= jointRim {
					out = append(out, port{node: r.grid.node(i, j), dir: d, cost: int32(math.Abs(way-2.4) * unit), joint: true, slot: -1})
				}
			}
		}
	}
	return apart(&r.grid, z.Box.Center(), out)
}

// apart keeps joints that are jointGap from one another, each then one wire's:
// the best first, and of these the ones nearest to the middle of a side.
func apart(g *grid, centre scene.Point, all []port) []port {
	off := func(p port) float64 {
		d := g.at(p.node).Sub(centre)
		return math.Round(float64(p.cost)/unit/1.5)*100 + math.Abs(dot(d, p.dir.Vector().Perp()))
	}
	slices.SortStableFunc(all, func(a, b port) int { return cmp.Compare(off(a), off(b)) })
	var sites []int32
	var out []port
	for _, p := range all {
		free := true
		for _, n := range sites {
			free = free && (n == p.node || g.at(n).Dist(g.at(p.node)) >= jointGap)
		}
		if !free {
			continue
		}
		if !slices.Contains(sites, p.node) {
			sites = append(sites, p.node)
		}
		out = append(out, p)
	}
	return out
}

func dot(a, b scene.Point) float64 { return a.X*b.X + a.Y*b.Y }

// solid reports whether a joint can be made at a place.
func (z *Zone) solid(p scene.Point) bool {
	if !z.inside(p, jointIn) {
		return false
	}
	for _, h := range z.Holes {
		if g := h.Grow(jointHole); p.X > g.Min.X && p.X < g.Max.X && p.Y > g.Min.Y && p.Y < g.Max.Y {
			return false
		}
	}
	return true
}

func (z *Zone) inside(p scene.Point, inset float64) bool {
	box := z.Box.Grow(-inset)
	if box.Width() <= 0 || box.Height() <= 0 {
		return false
	}
	if z.Round {
		return inEllipse(box, p)
	}
	return p.X >= box.Min.X && p.X <= box.Max.X && p.Y >= box.Min.Y && p.Y <= box.Max.Y
}

// wayOut is how far it is from a place to the zone's edge in a heading; far,
// when a hole is in the way.
func (z *Zone) wayOut(p scene.Point, d Dir) float64 {
	for dist := 0.0; dist <= jointRim; dist += 0.2 {
		q := p.Add(d.Vector().Mul(dist))
		if !z.inside(q, 0) {
			return dist
		}
		for _, h := range z.Holes {
			if g := h.Grow(0.8); q.X > g.Min.X && q.X < g.Max.X && q.Y > g.Min.Y && q.Y < g.Max.Y {
				return jointRim + 1
			}
		}
	}
	return jointRim + 1
}

// openJoints prices the joints of a zone: near another joint they are dear.
func (r *router) openJoints(w int, e *End) []port {
	all := r.zones[e.Index]
	out := make([]port, 0, len(all))
	for _, p := range all {
		if r.jointTaken(w, e.Index, r.grid.at(p.node)) {
			p.cost += jointShared * unit
		}
		out = append(out, p)
	}
	return out
}

// jointTaken reports whether another wire has a joint at a place.
func (r *router) jointTaken(w, zone int, at scene.Point) bool {
	for _, j := range r.joints[zone] {
		if j.wire != w && j.at == at {
			return true
		}
	}
	return false
}

// jointShared is what a second wire on a joint costs, in mm.
const jointShared = 60
