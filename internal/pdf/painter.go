package pdf

import (
	"math"
	"strconv"

	"codeberg.org/go-pdf/fpdf"

	"loomwright/internal/scene"
)

// painter paints one page. Points are mapped to the page before they are
// written, so that pens and fonts are written in their size on paper.
type painter struct {
	*fpdf.Fpdf
	height float64 // of the page, mm
	set    settings
}

// state is what groups hand down to their items.
type state struct {
	place scene.Transform // item coordinates to mm on the page
	ink   scene.Ink
}

// begin gives a new page what the other painters start with.
func (p *painter) begin() {
	p.SetDashPattern(nil, 0)
	p.RawWriteStr("4 M") // scene.MiterLimit
}

func (p *painter) items(items []scene.Item, st state) {
	for _, it := range items {
		switch it := it.(type) {
		case scene.Path:
			p.path(it, st)
		case scene.Text:
			p.text(it, st)
		case scene.Group:
			p.group(it, st)
		}
	}
}

func (p *painter) group(g scene.Group, st state) {
	p.link(g, st)
	st.place = g.Place.Then(st.place)
	st.ink = g.Ink(st.ink)
	if g.Clip == (scene.Rect{}) {
		p.items(g.Items, st)
		return
	}
	var corners []fpdf.PointType
	for _, c := range g.Clip.Corners() {
		q := st.place.Apply(c)
		corners = append(corners, fpdf.PointType{X: q.X, Y: q.Y})
	}
	p.ClipPolygon(corners, false)
	p.items(g.Items, st)
	p.ClipEnd()
	p.set = settings{} // what was set inside is gone
}

// link makes the box of a group clickable. Links to a scene's own groups are
// for pages and are left out.
func (p *painter) link(g scene.Group, st state) {
	if g.Link == "" || g.Link[0] == '#' {
		return
	}
	box := st.place.ApplyRect(g.Bounds())
	p.LinkString(box.Min.X, box.Min.Y, box.Width(), box.Height(), g.Link)
}

// path fills, then strokes; in one go where that looks the same.
func (p *painter) path(it scene.Path, st state) {
	fill, pen := st.ink.Of(it.Fill), st.ink.Of(it.Stroke.Color)
	strokes := it.Stroke.Paints()
	if fill.A == 255 && pen.A == 255 && strokes {
		p.fillWith(fill)
		p.penWith(it.Stroke, pen, st.place.Factor())
		p.draw(it.Outline, st, fillStrokeOp)
		return
	}
	if fill.A > 0 {
		p.fillWith(fill)
		p.draw(it.Outline, st, fillOp)
	}
	if strokes {
		p.penWith(it.Stroke, pen, st.place.Factor())
		p.draw(it.Outline, st, strokeOp)
	}
}

// The operators that paint a path (ISO 32000-1, 8.5.3).
const (
	fillOp       = "f"
	strokeOp     = "S"
	fillStrokeOp = "B"
)

// draw writes a path and paints it. All its points are rounded alike: where a
// piece comes back to its start it must meet it exactly, or the closing line
// would point anywhere and its corner be a thorn.
func (p *painter) draw(o scene.Outline, st state, op string) {
	if len(o) == 0 {
		return
	}
	m := st.place.Matrix()
	line := make([]byte, 0, 40*len(o))
	point := func(q scene.Point) {
		q = m.Apply(q)
		line = appendNumber(line, q.X/mmPerPoint)
		line = appendNumber(line, (p.height-q.Y)/mmPerPoint)
	}
	for _, s := range o {
		switch s.Op {
		case scene.MoveTo:
			point(s.P)
			line = append(line, "m\n"...)
		case scene.LineTo:
			point(s.P)
			line = append(line, "l\n"...)
		case scene.CubicTo:
			point(s.C1)
			point(s.C2)
			point(s.P)
			line = append(line, "c\n"...)
		case scene.Close:
			line = append(line, "h\n"...)
		}
	}
	p.RawWriteStr(string(line) + op)
}

// appendNumber adds a number with three decimals, 0.35 µm, and a space.
func appendNumber(out []byte, v float64) []byte {
	return append(strconv.AppendFloat(out, math.Round(v*1000)/1000, 'f', -1, 64), ' ')
}
