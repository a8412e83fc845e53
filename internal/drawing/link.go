package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/route"
	"loomwright/internal/scene"
)

// linkLength is the longest jumper between neighbouring lugs that goes straight
// from one to the other, mm.
const linkLength = 10.0

// link finds the straight way between two lugs of one part that stand close
// together with nothing between them.
func (b *board) link(s *place.Strand) ([]scene.Point, bool) {
	if s.Core >= 0 || s.Lead >= 0 || s.A.Splice >= 0 || s.B.Splice >= 0 {
		return nil, false
	}
	p, q := &b.d.Plan.Spots[s.A.Term], &b.d.Plan.Spots[s.B.Term]
	if p.Part != q.Part || p.InCase || q.InCase || p.At.Dist(q.At) > linkLength || b.d.Plan.Parts[p.Part].Sleeve() {
		return nil, false
	}
	for t := range b.d.Plan.Spots {
		o := &b.d.Plan.Spots[t]
		if o.Part != p.Part || o.InCase || t == s.A.Term || t == s.B.Term {
			continue
		}
		if pointSegment(o.At, p.At, q.At) < 2.3 || o.HasPin && pointSegment(o.Pin, p.At, q.At) < 2 {
			return nil, false
		}
	}
	return []scene.Point{p.At, q.At}, true
}

// linkWire takes a link out of the router's hands, who goes round it.
func (b *board) linkWire(strand int, at []scene.Point) {
	b.links[strand] = at
	ahead := at[1].Sub(at[0])
	if l := ahead.Len(); l > 2*linkEnds {
		u := ahead.Unit().Mul(linkEnds)
		b.board.Lugs = append(b.board.Lugs, route.Lug{Term: -1 - strand, Tip: at[0].Add(u), Far: at[1].Sub(u)})
	}
}

// linkEnds is how much of a link at its lugs other wires of the lugs may pass, mm.
const linkEnds = 2.3
