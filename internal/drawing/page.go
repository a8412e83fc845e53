package drawing

import (
	"fmt"
	"math"
	"path"
	"strings"

	"loomwright/internal/scene"
)

// Measures of a page, mm.
const (
	pageMargin  = 9.0
	headHeight  = 15.0
	titleSize   = 6.4
	noteSize    = 2.6
	footGap     = 3.5
	footWidth   = 200.0 // least width of a page: the footer's words must fit
	footHeight  = 26.0
	keyPitch    = 5.2
	barLength   = 50.0
	swatch      = 11.0
	blockWidth  = 58.0
	scaleColumn = 62.0
)

// page puts a drawing on a sheet.
type page struct {
	d     *Drawing
	size  scene.Size
	scale float64 // of the drawing on the page
	at    scene.Point
	foot  float64 // top of the footer
	band  band
}

func (d *Drawing) newPage() *page {
	p := &page{d: d, scale: 1}
	box := d.Box
	switch d.Options.Page {
	case A4:
		p.fit(scene.A4)
	case Letter:
		p.fit(scene.Letter)
	default:
		p.size = scene.Size{Width: max(box.Width(), footWidth) + 2*pageMargin}
		p.band = d.newBand(p.size.Width - 2*pageMargin)
		p.size.Height = pageMargin*2 + headHeight + box.Height() + footGap + p.band.height + p.footHeight()
	}
	p.foot = p.size.Height - pageMargin - p.footHeight()
	top, room := pageMargin+headHeight, p.foot-p.band.height-footGap-pageMargin-headHeight
	p.at = scene.Pt((p.size.Width-box.Width()*p.scale)/2, top+(room-box.Height()*p.scale)/2)
	return p
}

// fit turns the sheet to the drawing and shrinks the drawing to the sheet: in
// steps of five in the hundred, so that the scale can be said.
func (p *page) fit(sheet scene.Size) {
	best := -1.0
	for _, size := range []scene.Size{sheet.Landscape(), sheet} {
		p.size = size
		p.band = p.d.newBand(size.Width - 2*pageMargin)
		w, h := size.Width-2*pageMargin, size.Height-2*pageMargin-headHeight-footGap-p.band.height-p.footHeight()
		box := p.d.Box
		k := min(1, math.Floor(min(w/box.Width(), h/box.Height())*20)/20)
		if k > best {
			best, p.scale = k, max(k, 0.05)
			sheet = size
		}
	}
	p.size = sheet
	p.band = p.d.newBand(sheet.Width - 2*pageMargin)
}

func (d *Drawing) title() string {
	if t := d.Graph.Loom.Title; t != "" {
		return t
	}
	return "Wiring"
}

// describe says for a screen reader what there is to see.
func (d *Drawing) describe() string {
	var lines []string
	for i := range d.Wires {
		lines = append(lines, d.wireTitle(&d.Wires[i]))
	}
	return "Wiring drawing, " + d.viewNote() + ". " + strings.Join(lines, "; ") + "."
}

// viewNote says from where the drawing is seen.
func (d *Drawing) viewNote() string {
	note := "seen from the solder side"
	if d.Options.Front {
		note = "mirrored: seen through the guitar from the front"
	}
	if d.Plan.Left {
		note += ", left-handed"
	}
	return note
}

func (p *page) header() scene.Group {
	d := p.d
	note := d.viewNote()
	if s := d.Options.Setting; s != nil {
		note = "Setting: " + s.Name + ". Lit, with arrows: what carries the sound and which way. " + strings.ToUpper(note[:1]) + note[1:]
	} else {
		note = strings.ToUpper(note[:1]) + note[1:]
	}
	size := titleSize
	for scene.TextWidth(d.title(), size, scene.Bold) > p.size.Width-2*pageMargin && size > 3 {
		size -= 0.2
	}
	y := pageMargin + headHeight - 2.2
	return scene.Group{Class: "head", Items: []scene.Item{
		scene.Text{At: scene.Pt(pageMargin, pageMargin+titleSize*0.78), Content: d.title(), Size: size, Style: scene.Bold, Color: ink},
		scene.Text{At: scene.Pt(pageMargin, pageMargin+titleSize*0.78+4.6), Content: note, Size: noteSize + 0.4, Color: faintInk},
		line(scene.Pt(pageMargin, y), scene.Pt(p.size.Width-pageMargin, y), rule, 0.3),
	}}
}

func line(a, b scene.Point, c scene.Color, width float64) scene.Path {
	return scene.Path{Outline: scene.Segment(a, b), Stroke: scene.Stroke{Color: c, Width: width}}
}

// loom is the drawing in its place on the page, mirrored for the front view.
func (p *page) loom() scene.Group {
	g := p.d.Loom()
	box := p.d.Box
	g.Place = scene.Transform{Scale: p.scale, Move: p.at.Sub(box.Min.Mul(p.scale))}
	if p.d.Options.Front {
		g.Place = scene.Transform{Scale: p.scale, Mirror: true, Move: scene.Pt(p.at.X+box.Max.X*p.scale, p.at.Y-box.Min.Y*p.scale)}
	}
	return g
}

// scaleWords say how large the drawing is beside the parts.
func (p *page) scaleWords() string {
	words := "scale 1:1"
	if p.scale != 1 {
		words = fmt.Sprintf("drawn at %.0f %% of true size", p.scale*100)
	}
	for i := range p.d.Plan.Parts {
		if f := p.d.Plan.Parts[i].Fan; f != nil {
			return words + ", pickups shortened"
		}
	}
	return words
}

// fileName is the loom file's name without its folder.
func (d *Drawing) fileName() string {
	return path.Base(strings.ReplaceAll(d.Graph.Loom.Doc.Text.Name, `\`, "/"))
}
