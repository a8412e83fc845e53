package svg

import (
	"strings"

	"loomwright/internal/scene"
)

// text writes a line of words. Glyphs that the Go fonts lack are drawn as
// paths; their characters stand in the text all the same, unpainted, so that
// selecting, searching and reading aloud find them.
func (p *painter) text(t scene.Text, ink scene.Ink, mirrored bool) {
	if t.Content == "" || t.Size == 0 {
		return
	}
	line := t.Layout(mirrored)
	if len(line.Runs) == 1 && line.Runs[0].Kind != scene.GlyphRun {
		p.words(t, line, ink)
		return
	}
	p.raw("<g").class(t.Class).transform(line.Frame)
	p.raw(">")
	t.Class = "" // it is on the group
	line.Frame = scene.Transform{}
	p.spans(t, line, ink)
	p.glyphs(t, line, ink)
	p.raw("</g>\n")
}

// words is the plain case: one run, anchored by the browser, so that another
// font stays centred.
func (p *painter) words(t scene.Text, line scene.Line, ink scene.Ink) {
	p.raw("<text").class(t.Class)
	if f := line.Frame; f.Turn == 0 && !f.Mirror {
		p.attrNum("x", f.Move.X).attrNum("y", f.Move.Y+line.Base)
	} else {
		p.transform(f)
		p.attrNum("y", line.Base)
	}
	switch half := line.Width / 2; {
	case line.Start < -1.5*half:
		p.attr("text-anchor", "end")
	case line.Start < 0:
		p.attr("text-anchor", "middle")
	}
	if p.LockWidths {
		p.lock(line.Width)
	}
	p.face(t, ink)
	p.raw(">").escape(t.Content).raw("</text>\n")
}

// spans places every run by itself.
func (p *painter) spans(t scene.Text, line scene.Line, ink scene.Ink) {
	p.raw("<text").attrNum("y", line.Base)
	p.face(t, ink)
	p.raw(">")
	for _, r := range line.Runs {
		p.raw("<tspan").attrNum("x", line.Start+r.X)
		if r.Kind == scene.GlyphRun {
			p.raw(` fill="none" stroke="none"`)
		} else if p.LockWidths {
			p.lock(r.Width)
		}
		p.raw(">").escape(r.Content).raw("</tspan>")
	}
	p.raw("</text>")
}

func (p *painter) glyphs(t scene.Text, line scene.Line, ink scene.Ink) {
	for _, r := range line.Runs {
		if r.Kind != scene.GlyphRun {
			continue
		}
		for _, it := range r.Glyph.Paint(t) {
			p.path(it, ink)
		}
	}
}

func (p *painter) lock(width float64) {
	p.attrNum("textLength", width).attr("lengthAdjust", "spacingAndGlyphs")
}

func (p *painter) face(t scene.Text, ink scene.Ink) {
	p.attrNum("font-size", t.Size)
	if t.Style.Mono {
		p.attr("font-family", monoStack)
	}
	if t.Style.Bold {
		p.attr("font-weight", "700")
	}
	if t.Style.Italic && !t.Style.Mono {
		p.attr("font-style", "italic")
	}
	if keepsSpace(t.Content) {
		p.attr("xml:space", "preserve")
	}
	p.paint("fill", ink.Of(t.Color))
	if t.Halo.Width > 0 && t.Halo.Color.A > 0 {
		p.paint("stroke", ink.Of(t.Halo.Color))
		p.attrNum("stroke-width", 2*t.Halo.Width)
		p.attr("stroke-linejoin", "round").attr("paint-order", "stroke")
	}
}

// keepsSpace reports whether a reader would drop a space that was measured.
func keepsSpace(s string) bool {
	return strings.Contains(s, "  ") || strings.HasPrefix(s, " ") || strings.HasSuffix(s, " ")
}
