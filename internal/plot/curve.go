package plot

import (
	"loomwright/internal/scene"
)

// pens are the curves' own: each differs from the others in dash and weight, and
// in lightness too.
var pens = [MaxLines]scene.Stroke{
	{Color: scene.RGB(0x14425c), Width: 0.75, Cap: scene.RoundCap, Join: scene.RoundJoin},
	{Color: scene.RGB(0xa2562b), Width: 0.55, Dash: []float64{3, 1.4}, Join: scene.RoundJoin},
	{Color: scene.RGB(0x4d6b3c), Width: 0.55, Dash: []float64{0.7, 1}, Join: scene.RoundJoin},
	{Color: scene.RGB(0x6d4a7c), Width: 0.5, Dash: []float64{4, 1, 0.7, 1}, Join: scene.RoundJoin},
	{Color: scene.RGB(0x30767a), Width: 0.5, Dash: []float64{1.6, 0.9}, Join: scene.RoundJoin},
	{Color: scene.RGB(0x7a6a2a), Width: 0.5, Dash: []float64{4, 1, 0.7, 1, 0.7, 1}, Join: scene.RoundJoin},
}

// shade is the band's; its edges are dotted.
var (
	shade = scene.RGB(0xdbe5e8)
	edge  = scene.Stroke{Color: scene.RGB(0x8fa3ab), Width: 0.2, Dash: []float64{0.4, 0.8}}
)

// curve is a line through all points, with a halo that sets it off from others.
func (a *axes) curve(l *Line, pen scene.Stroke) []scene.Item {
	n := min(len(l.Hz), len(l.DB))
	if n == 0 {
		return nil
	}
	o := a.through(l.Hz[:n], l.DB[:n])
	halo := scene.Stroke{Color: paperOf, Width: pen.Width + 0.7, Join: scene.RoundJoin}
	return []scene.Item{scene.Path{Outline: o, Stroke: halo}, scene.Path{Class: "curve", Outline: o, Stroke: pen}}
}

func (a *axes) through(hz, db []float64) scene.Outline {
	var o scene.Outline
	for i := range hz {
		if x, y := a.x(hz[i]), a.y(db[i]); i == 0 {
			o = o.Move(x, y)
		} else {
			o = o.Line(x, y)
		}
	}
	return o
}

// band is the area between two curves.
func (a *axes) band(b *Band) []scene.Item {
	if b == nil {
		return nil
	}
	n := min(len(b.Hz), len(b.Lo), len(b.Hi))
	if n == 0 {
		return nil
	}
	upper, lower := a.through(b.Hz[:n], b.Hi[:n]), a.through(b.Hz[:n], b.Lo[:n])
	area := append(scene.Outline(nil), upper...)
	for i := n - 1; i >= 0; i-- {
		area = area.Line(a.x(b.Hz[i]), a.y(b.Lo[i]))
	}
	return []scene.Item{scene.Path{Class: "band", Outline: area.Close(), Fill: shade},
		scene.Path{Outline: upper, Stroke: edge}, scene.Path{Outline: lower, Stroke: edge}}
}

// marks are rings at points of curves; the words of the first stand beside it,
// those of the others in the key.
func (a *axes) marks(lines []Line) []scene.Item {
	var rings []scene.Item
	var words []scene.Item
	for i := len(lines) - 1; i >= 0; i-- { // the first on top
		m := &lines[i].Mark
		if m.Hz <= 0 || m.Hz < a.from || m.Hz > a.to || m.DB < a.low || m.DB > a.high {
			continue
		}
		at := scene.Pt(a.x(m.Hz), a.y(m.DB))
		rings = append(rings, scene.Path{Outline: scene.Circle(at, 0.95), Fill: paperOf, Stroke: scene.Stroke{Color: pens[i].Color, Width: 0.4}})
		if i == 0 {
			words = append(words, a.over(at, m.Text, lines))
		}
	}
	return append(rings, words...)
}

// over puts words above a point and above all curves there, within the field.
func (a *axes) over(at scene.Point, words string, lines []Line) scene.Text {
	half := scene.TextWidth(words, small, scene.Regular)/2 + 1
	at.X = min(max(at.X, a.box.Min.X+half), a.box.Max.X-half)
	for _, l := range lines {
		for i := range l.Hz {
			if x := a.x(l.Hz[i]); x > at.X-half && x < at.X+half {
				at.Y = min(at.Y, a.y(l.DB[i]))
			}
		}
	}
	at.Y = max(at.Y-2, a.box.Min.Y+small)
	return scene.Text{At: at, Content: words, Size: small, Anchor: scene.Middle, Color: ink, Halo: scene.Halo{Color: paperOf, Width: 0.5}}
}
