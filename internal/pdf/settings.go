package pdf

import (
	"slices"

	"loomwright/internal/scene"
)

// settings is the graphics state last written, so that only changes are. The
// zero value knows nothing.
type settings struct {
	fill, line   known[scene.Color]
	alpha, width known[float64]
	cap          known[scene.Cap]
	join         known[scene.Join]
	dashed       known[bool]
	dash         []float64
	phase        float64
	face         known[int]
	size         float64
}

// known is a value that may not have been written yet.
type known[T comparable] struct {
	value T
	yes   bool
}

// change notes a value and reports whether it is new.
func (k *known[T]) change(v T) bool {
	if k.yes && k.value == v {
		return false
	}
	k.value, k.yes = v, true
	return true
}

func (p *painter) alphaOf(c scene.Color) {
	if p.set.alpha.change(c.Opacity()) {
		p.op(p.doc.alpha(c.Opacity()) + " gs")
	}
}

func (p *painter) fillWith(c scene.Color) {
	p.alphaOf(c)
	if c.A = 255; p.set.fill.change(c) {
		p.colour(c)
		p.op("rg")
	}
}

func (p *painter) colour(c scene.Color) {
	p.numbers(float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
}

// penWith sets a pen in a colour, its lengths scaled by k.
func (p *painter) penWith(s scene.Stroke, c scene.Color, k float64) {
	p.alphaOf(c)
	if c.A = 255; p.set.line.change(c) {
		p.colour(c)
		p.op("RG")
	}
	if p.set.width.change(s.Width * k) {
		p.numbers(s.Width * k / mmPerPoint)
		p.op("w")
	}
	if p.set.cap.change(s.Cap) {
		p.op([...]string{"0 J", "1 J", "2 J"}[s.Cap])
	}
	if p.set.join.change(s.Join) {
		p.op([...]string{"0 j", "1 j", "2 j"}[s.Join])
	}
	p.dashWith(s, k)
}

func (p *painter) dashWith(s scene.Stroke, k float64) {
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = d * k
	}
	same := slices.Equal(dash, p.set.dash) && s.Phase*k == p.set.phase
	if p.set.dashed.change(len(dash) > 0) || !same {
		p.set.dash, p.set.phase = dash, s.Phase*k
		p.content = append(p.content, '[')
		for _, d := range dash {
			p.numbers(d / mmPerPoint)
		}
		p.content = append(p.content, "] "...)
		p.numbers(p.set.phase / mmPerPoint)
		p.op("d")
	}
}
