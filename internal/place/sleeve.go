package place

import "loomwright/internal/scene"

// Size of the sleeve over joined leads, mm.
const (
	sleeveLength = 12.0
	sleeveWidth  = 5.6
	sleevePitch  = slotPitch // of the leads that enter side by side
)

// sideTips is how many wires enter a sleeve at each long side, beside the two
// at each end.
const sideTips = 3

// sleeve makes the places at which wires enter a sleeve: two at one end, two at
// the other, then some at the sides.
func (f *form) sleeve(sides int) {
	half := f.box.Width() / 2
	tip := func(x, y float64, exit string) {
		f.tips = append(f.tips, Spot{At: scene.Pt(x, y), Exits: exitBits[exit]})
	}
	for _, y := range []float64{-sleevePitch / 2, sleevePitch / 2} {
		tip(-half, y, "left")
	}
	for _, y := range []float64{-sleevePitch / 2, sleevePitch / 2} {
		tip(half, y, "right")
	}
	for k := range sides {
		x := (float64(k) - float64(sides-1)/2) * 4
		tip(x, f.box.Max.Y, "down")
		tip(x, f.box.Min.Y, "up")
	}
}

// endsIn counts the wires that go into a splice.
func (l *layout) endsIn(splice int) int {
	n := 0
	for _, s := range l.strands {
		n += b2i(s.A.Splice == splice) + b2i(s.B.Splice == splice)
	}
	return n
}

func spliceItem(s, ends int) item {
	f := &form{scale: 1, cases: -1}
	box := scene.Box(-sleeveLength/2, -sleeveWidth/2, sleeveLength, sleeveWidth)
	f.shapes = []Shape{{Kind: "rect", Box: box, Round: 1.2, Fill: "dark"}}
	f.box = box
	if f.sleeve(sideTips * b2i(ends > 4)); ends <= 2 {
		f.tips = f.tips[:2]
	}
	return item{use: -1, splice: s, role: roleSmall, form: f, turns: []int{0, 1, 2, 3}}
}
