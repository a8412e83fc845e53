package drawing

import "loomwright/internal/scene"

// A jog smaller than smallJog is drawn as a slant this many times as long, where
// the lanes on both sides of it have the room, mm.
const (
	smallJog  = 2.3
	slantTime = 1.6
	slantMin  = 1.2
)

// ease turns the small jogs of a lane, which come of terminals that are not
// quite in line, into slants. A component's lead is bent square to its body.
func ease(points []scene.Point, lead bool) []scene.Point {
	out := append([]scene.Point{}, points...)
	for k := 1; k+2 < len(out); k++ {
		a, b, c, e := out[k-1], out[k], out[k+1], out[k+2]
		jog := b.Dist(c)
		in, on := b.Sub(a).Unit(), e.Sub(c).Unit()
		if lead && k == 1 || jog >= smallJog || in.X*on.X+in.Y*on.Y < 0.99 || abs(in.X*(c.X-b.X)+in.Y*(c.Y-b.Y)) > 1e-6 {
			continue
		}
		reach := max(jog*slantTime, slantMin) / 2
		before, after := k == 1, k+2 == len(out)-1
		if a.Dist(b) < reach*roomOf(before) || c.Dist(e) < reach*roomOf(after) {
			continue
		}
		out[k], out[k+1] = b.Sub(in.Mul(reach)), c.Add(in.Mul(reach))
	}
	return out
}

// roomOf is how much of a stretch a slant may take: the whole of one that ends
// at a terminal, half of one that ends at a bend.
func roomOf(end bool) float64 {
	if end {
		return 1.4
	}
	return 2
}
