package pdf

import (
	"fmt"

	"loomwright/internal/scene"
)

// mmPerPoint is 25.4 / 72.
const mmPerPoint = 25.4 / 72

// text paints a line run by run, each halo under its letters.
func (p *painter) text(t scene.Text, st state) {
	if t.Size == 0 {
		return
	}
	line := t.Layout(st.place.Mirror)
	st.place = line.Frame.Then(st.place) // never mirrored
	for _, r := range line.Runs {
		at := scene.Pt(line.Start+r.X, line.Base)
		if r.Kind == scene.FontRun {
			p.words(r.Content, t, at, st)
		} else {
			p.drawn(r, t, at, st)
		}
	}
}

func (p *painter) words(content string, t scene.Text, at scene.Point, st state) {
	p.font(t, st)
	if t.Halo.Width > 0 && t.Halo.Color.A > 0 {
		pen := scene.Stroke{Width: 2 * t.Halo.Width, Join: scene.RoundJoin}
		p.penWith(pen, st.ink.Of(t.Halo.Color), st.place.Factor())
		p.instead("", 1, 1, content, t, at, st)
	}
	if ink := st.ink.Of(t.Color); ink.A > 0 {
		p.fillWith(ink)
		p.put(content, t, at, st)
	}
}

// drawn paints a glyph that the fonts lack, over an unseen space that says to
// a reader which character it is.
func (p *painter) drawn(r scene.Run, t scene.Text, at scene.Point, st state) {
	for _, it := range r.Glyph.Paint(t) {
		p.path(it, st)
	}
	p.font(t, st)
	stretch := r.Width / scene.TextWidth(" ", t.Size, t.Style)
	p.instead(r.Content, 3, stretch, " ", t, at, st)
}

// put writes words from a place on the baseline, turned as the text is.
func (p *painter) put(content string, t scene.Text, at scene.Point, st state) {
	q := p.point(st.place.Apply(at))
	p.op("BT")
	if st.place.Turn == 0 {
		p.numbers(q.X, q.Y)
		p.op("Td")
	} else {
		u := scene.Toward(st.place.Turn)
		p.op(fmt.Sprintf("%.5f %.5f %.5f %.5f %.3f %.3f Tm", u.X, -u.Y, u.Y, u.X, q.X, q.Y))
	}
	p.op(p.doc.font(t.Style.Face()).show(content) + " Tj ET")
}

// instead writes words that stand for others (ISO 32000-1, 14.9.4, ActualText)
// in a text rendering mode (9.3.6): 1 strokes the letters, 3 leaves them unseen.
// Stretch makes them as wide as the others, so that no reader finds a gap.
func (p *painter) instead(others string, mode int, stretch float64, content string, t scene.Text, at scene.Point, st state) {
	p.op(fmt.Sprintf("/Span <</ActualText %s>> BDC %d Tr %.1f Tz", textString(others), mode, 100*stretch))
	p.put(content, t, at, st)
	p.op("0 Tr 100 Tz EMC")
}

// font selects a face and its size.
func (p *painter) font(t scene.Text, st state) {
	size := t.Size * st.place.Factor()
	if !p.set.face.change(t.Style.Face()) && p.set.size == size {
		return
	}
	p.set.size = size
	p.op(fmt.Sprintf("/F%d %sTf", t.Style.Face(), number(size/mmPerPoint)))
}
