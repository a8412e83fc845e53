package route

import "loomwright/internal/scene"

// Rim is a place for a joint near the zone's edge in a heading, a distance to
// the side of the middle; false when the metal is covered there.
func (z *Zone) Rim(d Dir, side float64) (scene.Point, bool) {
	mid := z.Box.Center().Add(d.Vector().Perp().Mul(side))
	best, found := scene.Point{}, false
	for dist := 0.0; dist < max(z.Box.Width(), z.Box.Height())/2; dist += 0.2 {
		p := mid.Add(d.Vector().Mul(dist))
		if way := z.wayOut(p, d); z.solid(p) && way <= jointRim && (way >= 2.2 || !found) {
			best, found = p, true
		}
	}
	return best, found
}
