package png

import "loomwright/internal/scene"

// painter walks a scene and hands polygons in pixels to its canvas.
type painter struct {
	canvas
	scale float64 // pixels per mm on the page
}

// state is what groups hand down to their items.
type state struct {
	place scene.Transform // item coordinates to pixels
	ink   scene.Ink
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
	st.place = g.Place.Then(st.place)
	st.ink = g.Ink(st.ink)
	if g.Clip == (scene.Rect{}) {
		p.items(g.Items, st)
		return
	}
	outer := p.canvas
	p.narrow(polygons(scene.Rectangle(g.Clip), st.place))
	p.items(g.Items, st)
	p.clip, p.mask = outer.clip, outer.mask
}

func (p *painter) path(it scene.Path, st state) {
	if it.Fill.A > 0 {
		p.fill(polygons(it.Outline, st.place), st.ink.Of(it.Fill))
	}
	if it.Stroke.Paints() {
		p.fill(strokePolygons(it.Outline, it.Stroke, st.place), st.ink.Of(it.Stroke.Color))
	}
}

// text paints halo and letters of a line, letters as the outlines of the font.
func (p *painter) text(t scene.Text, st state) {
	line := t.Layout(st.place.Mirror)
	st.place = line.Frame.Then(st.place)
	face := read[t.Style.Face()]()
	for _, r := range line.Runs {
		g := r.Glyph
		if r.Kind == scene.FontRun {
			g.Fill = face.outline(r.Content, t, line.Start+r.X, line.Base)
		}
		for _, it := range g.Paint(t) {
			p.path(it, st)
		}
	}
}

// flat is how far flattening may leave a curve, in pixels.
const flat = 0.025

// polygons is an outline in pixels, each piece closed by the rasteriser.
func polygons(o scene.Outline, place scene.Transform) [][]scene.Point {
	var out [][]scene.Point
	for _, c := range o.Transformed(place).Flatten(flat) {
		out = append(out, c.Points)
	}
	return out
}
