package sheet

import "loomwright/internal/scene"

// Measures of a slot for readings in mm.
const (
	readingPad   = 2.4  // inside its ground
	readingRight = 47.0 // the column of what a right loom shows
	readingTick  = 6.0
	takePad      = 1.3
)

// reading is the slot for what the meter shows. Readings with switches and knobs
// standing alike are under one line that says how; its title is set again on
// every page.
func (f *flow) reading(b Reading) []chunk {
	if len(b.Takes) == 0 {
		title := f.washed("**"+b.Title+"**", bodySize)
		title.before, title.keep = 3, true
		return []chunk{title, f.writingLine()}
	}
	title, again := f.readingHead("**"+b.Title+"**"), f.readingHead("**"+b.Title+"**, continued")
	title.before, title.keep = 3, true
	out := []chunk{title}
	stand := ""
	for i := range b.Takes {
		t := &b.Takes[i]
		if t.Stand != stand && t.Stand != "" {
			c := f.washed("**"+t.Stand+"**", smallSize)
			c.keep = true
			out = append(out, c)
		}
		stand = t.Stand
		out = append(out, f.take(t))
	}
	for i := range out {
		out[i].inTable, out[i].again = i > 0, &again
	}
	out[len(out)-1].again = nil
	return out
}

// readingHead is a title, with the head of the column of what is right.
func (f *flow) readingHead(text string) chunk {
	c := f.washed(text, bodySize)
	left := c.paint
	c.paint = func(at scene.Point) []scene.Item {
		right, _ := setLines(wrap(readingHead, readingRight, smallSize), at.Add(scene.Pt(f.width()-readingRight, takePad+0.4)), smallSize, lineHeight, ink)
		return append(left(at), right...)
	}
	return c
}

const readingHead = "right if it shows"

// ground is the tint behind readings.
func (f *flow) ground(at scene.Point, height float64) scene.Item {
	return scene.Path{Outline: scene.Rectangle(scene.Box(at.X, at.Y, f.width(), height)), Fill: wash}
}

// washed sets a text on the tint.
func (f *flow) washed(text string, size float64) chunk {
	lines := wrap(text, f.width()-2*readingPad, size)
	height := 2*takePad + size*lineHeight*float64(len(lines))
	return chunk{height: height, paint: func(at scene.Point) []scene.Item {
		text, _ := setLines(lines, at.Add(scene.Pt(readingPad, takePad)), size, lineHeight, ink)
		return append([]scene.Item{f.ground(at, height)}, text...)
	}}
}

// take sets one reading: a box to tick, what to do, what is right.
func (f *flow) take(t *Take) chunk {
	const left = readingPad + readingTick
	do := wrap(t.Do, f.width()-left-readingRight-3, cellSize)
	right := wrap("**"+t.Right+"**", readingRight-readingPad, cellSize)
	height := 2*takePad + cellSize*smallLeader*float64(max(len(do), len(right)))
	return chunk{height: height, paint: func(at scene.Point) []scene.Item {
		items := []scene.Item{f.ground(at, height), box(at.Add(scene.Pt(readingPad, takePad+0.3)), 3)}
		for _, c := range []struct {
			x     float64
			lines [][]span
		}{{left, do}, {f.width() - readingRight, right}} {
			text, _ := setLines(c.lines, at.Add(scene.Pt(c.x, takePad)), cellSize, smallLeader, ink)
			items = append(items, text...)
		}
		return items
	}}
}

// writingLine is a line to write a reading on.
func (f *flow) writingLine() chunk {
	const height = 8
	return chunk{height: height, paint: func(at scene.Point) []scene.Item {
		y := at.Y + height - readingPad
		line := scene.Segment(scene.Pt(at.X+readingPad, y), scene.Pt(at.X+f.width()-readingPad, y))
		return []scene.Item{f.ground(at, height), scene.Path{Outline: line, Stroke: scene.Stroke{Color: soft, Width: 0.2}}}
	}}
}
