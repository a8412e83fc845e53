package pdf

import (
	"bytes"
	"fmt"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gobolditalic"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"

	"loomwright/internal/scene"
)

// faces are the Go fonts in the order of Style.Face, under the names that the
// document knows them by.
var faces = [...]struct {
	family, style string
	ttf           []byte
}{
	{"go", "", goregular.TTF}, {"go", "B", gobold.TTF}, {"go", "I", goitalic.TTF},
	{"go", "BI", gobolditalic.TTF}, {"gomono", "", gomono.TTF}, {"gomono", "B", gomonobold.TTF},
}

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
		p.put(at, st, func(x, y float64) { p.instead("", 1, 1, x, y, content) })
	}
	if ink := st.ink.Of(t.Color); ink.A > 0 {
		p.alphaOf(ink)
		p.SetTextColor(int(ink.R), int(ink.G), int(ink.B))
		p.put(at, st, func(x, y float64) { p.Text(x, y, content) })
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
	p.put(at, st, func(x, y float64) { p.instead(r.Content, 3, stretch, x, y, " ") })
}

// put calls write with the place of the baseline, turned as the text is.
func (p *painter) put(at scene.Point, st state, write func(x, y float64)) {
	q := st.place.Apply(at)
	if st.place.Turn == 0 {
		write(q.X, q.Y)
		return
	}
	u := scene.Toward(st.place.Turn)
	p.TransformBegin()
	p.RawWriteStr(fmt.Sprintf("%.5f %.5f %.5f %.5f %.3f %.3f cm",
		u.X, -u.Y, u.Y, u.X, q.X/mmPerPoint, (p.height-q.Y)/mmPerPoint))
	write(0, p.height)
	p.TransformEnd()
}

// instead writes words that stand for others (ISO 32000-1, 14.9.4, ActualText)
// in a text rendering mode (9.3.6): 1 strokes the letters, 3 leaves them unseen.
// Stretch makes them as wide as the others, so that no reader finds a gap.
func (p *painter) instead(others string, mode int, stretch, x, y float64, content string) {
	p.RawWriteStr(fmt.Sprintf("/Span <</ActualText <%X>>> BDC", textString(others)))
	p.RawWriteStr(fmt.Sprintf("%d Tr %.1f Tz", mode, 100*stretch))
	p.Text(x, y, content)
	p.RawWriteStr("0 Tr 100 Tz EMC")
}

// font selects a face, embedding it when it is the first time.
func (p *painter) font(t scene.Text, st state) {
	size := t.Size * st.place.Factor()
	if !p.set.face.change(t.Style.Face()) && p.set.size == size {
		return
	}
	p.set.size = size
	face := faces[t.Style.Face()]
	p.AddUTF8FontFromBytes(face.family, face.style, bytes.Clone(face.ttf)) // it writes into them
	p.SetFont(face.family, face.style, size/mmPerPoint)
}
