package scenetest

import (
	"image"
	"math"
)

// Apart says how far two pictures of one size are from each other, in steps of
// 255: the mean over all pixels and channels, and the worst pixel after both
// were blurred over 5 × 5 pixels, which forgives how edges are smoothed but not
// a shape that is missing or moved.
func Apart(a, b *image.RGBA) (mean, worst float64) {
	w, h := a.Rect.Dx(), a.Rect.Dy()
	diff := make([]float64, w*h)
	for channel := range 3 {
		for i := range diff {
			diff[i] = float64(a.Pix[4*i+channel]) - float64(b.Pix[4*i+channel])
			mean += math.Abs(diff[i])
		}
		for _, d := range blurred(diff, w, h) {
			worst = max(worst, math.Abs(d))
		}
	}
	return mean / float64(3*w*h), worst
}

// blurred is the mean over 5 × 5 pixels; beyond the edge is 0.
func blurred(in []float64, w, h int) []float64 {
	across := make([]float64, len(in))
	for i := range in {
		x := i % w
		for d := max(x-2, 0) - x; d <= min(x+2, w-1)-x; d++ {
			across[i] += in[i+d] / 5
		}
	}
	out := make([]float64, len(in))
	for i := range in {
		y := i / w
		for d := max(y-2, 0) - y; d <= min(y+2, h-1)-y; d++ {
			out[i] += across[i+d*w] / 5
		}
	}
	return out
}
