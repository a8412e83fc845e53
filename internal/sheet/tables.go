package sheet

import (
	"loomwright/internal/scene"
)

// Measures of a table in mm.
const (
	cellPad  = 1.3
	rowPad   = 1.2
	cellSize = 2.85
	tickSize = 3.4
)

// shortTable is how many rows stay on one page.
const shortTable = 8

// table lays out its heads and each row; the heads are set again on every page.
func (f *flow) table(b Table) []chunk {
	widths := f.widths(b.Shares)
	heads := make([]Cell, len(b.Heads))
	for i, h := range b.Heads {
		heads[i] = Cell{Text: h, Bold: true}
	}
	head := f.row(heads, widths, true)
	head.before, head.keep = blockGap, true
	out := []chunk{head}
	again := head
	again.before, again.keep = 0, false
	for _, r := range b.Rows {
		c := f.row(r, widths, false)
		c.inTable, c.again = true, &again
		out = append(out, c)
	}
	if len(out) > 1 {
		out[len(out)-1].again = nil
	}
	if len(b.Rows) <= shortTable {
		for i := range len(out) - 1 {
			out[i].keep = true
		}
	}
	out[0].again = &again
	return out
}

func (f *flow) widths(shares []float64) []float64 {
	sum := 0.0
	for _, s := range shares {
		sum += s
	}
	out := make([]float64, len(shares))
	for i, s := range shares {
		out[i] = s / sum * f.width()
	}
	return out
}

// field is a cell laid out.
type field struct {
	cell   Cell
	lines  [][]span
	scale  float64 // of its picture
	height float64
}

func newField(c Cell, width float64) field {
	out := field{cell: c}
	if c.Text != "" {
		text := c.Text
		if c.Bold {
			text = "**" + text + "**"
		}
		out.lines = wrap(text, width-2*cellPad, cellSize)
		out.height = cellSize * smallLeader * float64(len(out.lines))
	}
	if c.Scene != nil {
		out.scale = min(1, (width-2*cellPad)/c.Scene.Width)
		out.height += c.Scene.Height * out.scale
		if c.Text != "" {
			out.height += 0.8
		}
	}
	if c.Tick {
		out.height = max(out.height, tickSize)
	}
	return out
}

// row sets one row; its fields stand in the middle of its height.
func (f *flow) row(cells []Cell, widths []float64, head bool) chunk {
	fields := make([]field, len(cells))
	height := 0.0
	for i, c := range cells {
		fields[i] = newField(c, widths[i])
		height = max(height, fields[i].height)
	}
	height += 2 * rowPad
	return chunk{height: height, paint: func(at scene.Point) []scene.Item {
		var items []scene.Item
		if head {
			items = append(items, scene.Path{Outline: scene.Rectangle(scene.Box(at.X, at.Y, f.width(), height)), Fill: wash})
		}
		x := at.X
		for i, fd := range fields {
			items = append(items, fd.paint(scene.Pt(x+cellPad, at.Y+(height-fd.height)/2))...)
			x += widths[i]
		}
		line := scene.Stroke{Color: rule, Width: 0.2}
		if head {
			line = scene.Stroke{Color: ink, Width: 0.35}
		}
		return append(items, scene.Path{Outline: scene.Segment(scene.Pt(at.X, at.Y+height), scene.Pt(at.X+f.width(), at.Y+height)), Stroke: line})
	}}
}

func (fd field) paint(at scene.Point) []scene.Item {
	var items []scene.Item
	if s := fd.cell.Scene; s != nil {
		items = append(items, scene.Group{Title: s.Title, Place: scene.Transform{Move: at, Scale: fd.scale}, Items: anonymous(s.Items)})
		at.Y += s.Height*fd.scale + 0.8
	}
	if fd.cell.Tick {
		return append(items, box(at.Add(scene.Pt(0, (fd.height-tickSize)/2)), tickSize))
	}
	lines, _ := setLines(fd.lines, at, cellSize, smallLeader, ink)
	return append(items, lines...)
}
