package sheet

import (
	"strings"

	"loomwright/internal/scene"

	"rsc.io/qr"
)

// Sizes of the code in mm. A module of 0.38 mm is read by a telephone from paper.
const (
	codeLeast  = 24.0
	codeMost   = 42.0
	moduleSize = 0.4
	quietZone  = 4   // modules (ISO/IEC 18004)
	maxLink    = 800 // bytes; a longer address gives way to a file name
)

// newCode makes the place for a code; empty where there is no base.
func newCode(l Link) *Code {
	if l.Base == "" {
		return &Code{Size: codeLeast, Says: "place for a code"}
	}
	text, says := l.address()
	level := qr.M
	if len(text) > 300 {
		level = qr.L
	}
	code, err := qr.Encode(text, level)
	if err != nil {
		return &Code{Size: codeLeast, Says: "place for a code"}
	}
	modules := float64(code.Size + 2*quietZone)
	c := &Code{Link: text, Says: says, Size: min(max(modules*moduleSize, codeLeast), codeMost)}
	c.Square = squares(code, c.Size/modules)
	return c
}

// squares is the dark part of a code as one outline, a box for each run of dark
// modules in a row, from the top left of the quiet zone.
func squares(code *qr.Code, k float64) scene.Outline {
	var o scene.Outline
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if x > from {
				o = append(o, scene.Rectangle(scene.Box(float64(from+quietZone)*k, float64(y+quietZone)*k, float64(x-from)*k, k))...)
			}
		}
	}
	return o
}

// paint draws the code, or an empty place with its corners marked.
func (c *Code) paint(at scene.Point) []scene.Item {
	var items []scene.Item
	for i, line := range c.caption() {
		y := c.Size + 0.6 + captionStep*float64(i)
		items = append(items, scene.Text{At: at.Add(scene.Pt(c.Size/2, y)), Content: line, Size: captionSize, Anchor: scene.Middle, Baseline: scene.CapTop, Color: soft})
	}
	if c.Link == "" {
		return append(items, corners(scene.Box(at.X, at.Y, c.Size, c.Size), 3))
	}
	dark := scene.Group{Class: "code", Title: c.Says, Place: scene.Moved(at.X, at.Y), Items: []scene.Item{scene.Path{Outline: c.Square, Fill: scene.Black}}}
	return append(items, dark)
}

// Measures of the words under a code, mm.
const (
	captionSize = 2.1
	captionStep = 2.9
)

// caption is what the code leads to, no wider than the code.
func (c *Code) caption() []string {
	var out []string
	for _, line := range wrap(c.Says, c.Size, captionSize) {
		text := ""
		for _, s := range line {
			text += s.text
		}
		out = append(out, strings.TrimSpace(text))
	}
	return out
}

// height is that of the code with its words.
func (c *Code) height() float64 { return c.Size + 1 + captionStep*float64(len(c.caption())) }

// corners marks the corners of a box.
func corners(r scene.Rect, length float64) scene.Item {
	var o scene.Outline
	for i, p := range r.Corners() {
		dx, dy := length, length
		if i == 1 || i == 2 {
			dx = -dx
		}
		if i >= 2 {
			dy = -dy
		}
		o = append(o, scene.Polyline(0, p.Add(scene.Pt(dx, 0)), p, p.Add(scene.Pt(0, dy)))...)
	}
	return scene.Path{Outline: o, Stroke: scene.Stroke{Color: rule, Width: 0.3}}
}
