package svg

import "loomwright/internal/scene"

func (p *painter) path(it scene.Path, ink scene.Ink) {
	if it.Fill.A == 0 && !it.Stroke.Paints() && it.Class == "" || len(it.Outline) == 0 {
		return
	}
	p.raw("<path").class(it.Class)
	p.outline(it.Outline)
	p.paint("fill", ink.Of(it.Fill))
	p.stroke(it.Stroke, ink)
	p.raw("/>\n")
}

func (p *painter) outline(o scene.Outline) {
	out := append(p.out, ` d="`...)
	for _, s := range o {
		switch s.Op {
		case scene.MoveTo:
			out = appendPoint(append(out, 'M'), s.P)
		case scene.LineTo:
			out = appendPoint(append(out, 'L'), s.P)
		case scene.CubicTo:
			out = appendPoint(append(out, 'C'), s.C1)
			out = appendPoint(append(out, ' '), s.C2)
			out = appendPoint(append(out, ' '), s.P)
		case scene.Close:
			out = append(out, 'Z')
		}
	}
	p.out = append(out, '"')
}

// paint writes a colour as an attribute, which any rule of a page's style
// sheet overrides, and its opacity where it is not opaque.
func (p *painter) paint(name string, c scene.Color) {
	if c.A == 0 {
		return
	}
	p.raw(" ").raw(name).raw(`="`).color(c).raw(`"`)
	if c.A < 255 {
		p.attrNum(name+"-opacity", c.Opacity())
	}
}

var (
	capNames  = [...]string{"", "round", "square"}
	joinNames = [...]string{"", "round", "bevel"}
)

func (p *painter) stroke(s scene.Stroke, ink scene.Ink) {
	if !s.Paints() {
		return
	}
	p.paint("stroke", ink.Of(s.Color))
	p.attrNum("stroke-width", s.Width)
	if len(s.Dash) > 0 {
		p.raw(` stroke-dasharray="`)
		for i, d := range s.Dash {
			if i > 0 {
				p.raw(" ")
			}
			p.num(d)
		}
		p.raw(`"`)
		if s.Phase != 0 {
			p.attrNum("stroke-dashoffset", s.Phase)
		}
	}
	if s.Cap != scene.Butt {
		p.attr("stroke-linecap", capNames[s.Cap])
	}
	if s.Join != scene.Miter {
		p.attr("stroke-linejoin", joinNames[s.Join])
	}
}
