package drawing

import (
	"fmt"

	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/schematic"
)

// Sizes of the band of settings, mm.
const (
	bandHead   = 5.4 // its heading
	bandName   = 2.3
	bandGap    = 5.0 // between settings
	bandRow    = 1.6 // between rows
	bandFrame  = 1.2 // around the setting that is shown
	bandUnder  = 3.5
	bandRows   = 4 // at most
	bandLabels = 3.6
)

// bandCell is one setting with the chain of its coils.
type bandCell struct {
	name  string
	strip scene.Scene
	shown bool // its live path is lit
	at    scene.Point
	w, h  float64
}

// band is a strip of coils for each setting, in rows under the drawing.
type band struct {
	cells  []bandCell
	more   int // settings that have no room
	height float64
}

// newBand lays the strips of all settings out in a width.
func (d *Drawing) newBand(width float64) band {
	var b band
	for i := range d.Options.Rows {
		b.cells = append(b.cells, d.bandCell(&d.Options.Rows[i]))
	}
	if len(b.cells) == 0 {
		return b
	}
	b.lay(width)
	return b
}

// lay puts the cells in rows, one after the other; what is left over after the
// last row is counted.
func (b *band) lay(width float64) {
	columns := b.columns(width)
	b.height = bandHead
	x, tall, rows := 0.0, 0.0, 1
	for i := range b.cells {
		c := &b.cells[i]
		if x > 0 && (x+c.w > width || columns > 0 && i%columns == 0) {
			if rows == bandRows {
				b.more = len(b.cells) - i
				b.cells = b.cells[:i]
				break
			}
			x, b.height, tall, rows = 0, b.height+tall+bandRow, 0, rows+1
		}
		c.at = scene.Pt(x, b.height)
		x += b.pitch(columns, c.w) + bandGap
		tall = max(tall, c.h)
	}
	b.height += tall + bandUnder
}

// columns is how many settings stand in a row under one another, or 0 where that
// takes more rows than to set them one after the other.
func (b *band) columns(width float64) int {
	rows, x := 1, 0.0
	for i := range b.cells {
		if x > 0 && x+b.cells[i].w > width {
			rows, x = rows+1, 0
		}
		x += b.cells[i].w + bandGap
	}
	fit := max(1, int((width+bandGap)/(b.widest()+bandGap)))
	columns := (len(b.cells) + rows - 1) / rows
	if columns > fit {
		return 0
	}
	return columns
}

func (b *band) widest() float64 {
	most := 0.0
	for i := range b.cells {
		most = max(most, b.cells[i].w)
	}
	return most
}

// pitch is the width that a setting takes.
func (b *band) pitch(columns int, own float64) float64 {
	if columns > 0 {
		return b.widest()
	}
	return own
}

func (d *Drawing) bandCell(row *proof.Row) bandCell {
	c := bandCell{name: row.Name, strip: schematic.Strip(row)}
	if s := d.Options.Setting; s != nil {
		c.shown = s.Index == row.Setting.Index
	}
	c.w = max(c.strip.Width, scene.TextWidth(c.name, bandName, scene.Bold)) + 2*bandFrame
	c.h = bandLabels + c.strip.Height + 2*bandFrame
	return c
}

// paintBand is the band with its heading, its top left corner at a place.
func (p *page) paintBand(at scene.Point) scene.Group {
	g := scene.Group{ID: "settings", Class: "settings", Title: "what each setting sounds: its coils from the jack's tip to ground"}
	head := "What each setting sounds, from the jack's tip (left) to ground; coils in series in the order of their names"
	if p.band.more > 0 {
		head += fmt.Sprintf("; %d more settings are in the table", p.band.more)
	}
	g.Items = append(g.Items, scene.Text{At: at.Add(scene.Pt(0, 1.4)), Content: head, Size: noteSize, Baseline: scene.Central, Color: faintInk})
	for i := range p.band.cells {
		c := p.band.cells[i]
		c.at = c.at.Add(at).Sub(scene.Pt(bandFrame, 0))
		g.Items = append(g.Items, c.paint())
	}
	return g
}

// paint is one setting; the one that is shown stands in a frame, with a mark
// that needs no colour.
func (c *bandCell) paint() scene.Group {
	g := scene.Group{Class: "setting", Title: c.strip.Title}
	if c.shown {
		frame := scene.Box(c.at.X, c.at.Y, c.w, c.h)
		g.Items = append(g.Items, scene.Path{Class: "shown", Outline: scene.RoundRect(frame, 1), Fill: liveInk.Mix(paper, 0.55), Stroke: scene.Stroke{Color: liveDark, Width: 0.5}})
	}
	at := c.at.Add(scene.Pt(bandFrame, bandFrame))
	g.Items = append(g.Items,
		scene.Text{At: at.Add(scene.Pt(0, bandName/2)), Content: c.name, Size: bandName, Style: scene.Bold, Baseline: scene.Central, Color: ink},
		scene.Group{Items: c.strip.Items, Place: scene.Transform{Move: at.Add(scene.Pt(0, bandLabels))}})
	return g
}
