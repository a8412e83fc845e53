package pdf

import "loomwright/internal/scene"

// painter paints one page. Points are mapped to the page before they are
// written, so that pens and fonts are written in their size on paper.
type painter struct {
	doc     *document
	height  float64 // of the page, mm
	set     settings
	content []byte // what is painted, as operators
	links   []ref
}

// state is what groups hand down to their items.
type state struct {
	place scene.Transform // item coordinates to mm on the page
	ink   scene.Ink
}

// numbers writes operands.
func (p *painter) numbers(values ...float64) {
	for _, v := range values {
		p.content = appendNumber(p.content, v)
	}
}

// op ends a line with an operator, or with anything else that has no numbers.
func (p *painter) op(words string) {
	p.content = append(append(p.content, words...), '\n')
}

// point is a point of the page in points from its lower left corner.
func (p *painter) point(q scene.Point) scene.Point {
	return scene.Pt(q.X/mmPerPoint, (p.height-q.Y)/mmPerPoint)
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
	before := p.set
	p.op("q")
	p.draw(scene.Rectangle(g.Clip), st, "W n")
	p.items(g.Items, st)
	p.op("Q")
	p.set = before
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
	point := func(q scene.Point) {
		q = p.point(m.Apply(q))
		p.numbers(q.X, q.Y)
	}
	for _, s := range o {
		switch s.Op {
		case scene.MoveTo:
			point(s.P)
			p.op("m")
		case scene.LineTo:
			point(s.P)
			p.op("l")
		case scene.CubicTo:
			point(s.C1)
			point(s.C2)
			point(s.P)
			p.op("c")
		case scene.Close:
			p.op("h")
		}
	}
	p.op(op)
}
