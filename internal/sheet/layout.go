package sheet

import (
	"loomwright/internal/scene"
)

// chunks lays one block out for paper.
func (f *flow) chunks(b Block) []chunk {
	switch b := b.(type) {
	case Head:
		return f.head(b)
	case Heading:
		return f.heading(b)
	case Paragraph:
		return f.paragraph(b)
	case List:
		return f.list(b)
	case Table:
		return f.table(b)
	case Figure:
		return f.figure(b)
	case Step:
		return f.step(b)
	case Reading:
		return f.reading(b)
	case Page:
		s := b.Scene(f.paper)
		return []chunk{{page: &s}}
	}
	return nil
}

// head is the title with the lines under it, the code's place at the right.
func (f *flow) head(b Head) []chunk {
	width := f.width()
	code := 0.0
	if b.Code != nil {
		code = b.Code.Size
		width -= code + 6
	}
	title := wrap("**"+b.Title+"**", width, titleSize)
	height := titleSize * 1.2 * float64(len(title))
	var lines [][]span
	for _, l := range b.Lines {
		lines = append(lines, wrap(l, width, bodySize)...)
	}
	height += 1.6 + bodySize*lineHeight*float64(len(lines))
	if b.Code != nil {
		height = max(height, b.Code.height())
	}
	return []chunk{{height: height + 1, keep: true, paint: func(at scene.Point) []scene.Item {
		items, used := setLines(title, at, titleSize, 1.2, ink)
		more, _ := setLines(lines, at.Add(scene.Pt(0, used+1.6)), bodySize, lineHeight, soft)
		items = append(items, more...)
		if b.Code != nil {
			items = append(items, b.Code.paint(at.Add(scene.Pt(f.width()-code, 0)))...)
		}
		return items
	}}}
}

// heading is a line of bold words; the largest stand under a short bar.
func (f *flow) heading(b Heading) []chunk {
	size := [...]float64{headSize1, headSize1, headSize2, headSize3}[min(b.Level, 3)]
	before := [...]float64{0, 7, 5, 3.6}[min(b.Level, 3)]
	lines := wrap("**"+b.Text+"**", f.width(), size)
	bar := 0.0
	if b.Level <= 1 {
		bar = 2.2
	}
	height := bar + size*1.25*float64(len(lines)) + 0.8
	return []chunk{{height: height, before: before, keep: true, newPage: b.NewPage, paint: func(at scene.Point) []scene.Item {
		items, _ := setLines(lines, at.Add(scene.Pt(0, bar)), size, 1.25, ink)
		if bar > 0 {
			items = append(items, scene.Path{Outline: scene.Rectangle(scene.Box(at.X, at.Y, 14, 0.9)), Fill: ink})
		}
		return items
	}}}
}

func (f *flow) paragraph(b Paragraph) []chunk {
	size, leading, color := bodySize, lineHeight, ink
	if b.Small {
		size, leading, color = smallSize, smallLeader, soft
	}
	lines := wrap(b.Text, f.width(), size)
	return []chunk{{height: size * leading * float64(len(lines)), before: blockGap, keep: b.Keep, paint: func(at scene.Point) []scene.Item {
		items, _ := setLines(lines, at, size, leading, color)
		return items
	}}}
}

// list sets points, each kept whole.
func (f *flow) list(b List) []chunk {
	const indent = 6.2
	var out []chunk
	for i, text := range b.Items {
		lines := wrap(text, f.width()-indent, bodySize)
		before := 1.1
		if i == 0 {
			before = blockGap
		}
		out = append(out, chunk{height: bodySize * lineHeight * float64(len(lines)), before: before, paint: func(at scene.Point) []scene.Item {
			items, _ := setLines(lines, at.Add(scene.Pt(indent, 0)), bodySize, lineHeight, ink)
			return append(items, mark(at.Add(scene.Pt(0, bodySize*lineHeight/2)), b.Ticks))
		}})
	}
	return out
}

// mark is a box to tick, or a point, at the left of a line whose middle is
// given.
func mark(at scene.Point, tick bool) scene.Item {
	if tick {
		return box(at.Add(scene.Pt(0, -1.6)), 3.2)
	}
	return scene.Path{Outline: scene.Circle(at.Add(scene.Pt(1.8, 0)), 0.55), Fill: ink}
}

// box is a square to tick.
func box(at scene.Point, size float64) scene.Item {
	return scene.Path{Outline: scene.RoundRect(scene.Box(at.X, at.Y, size, size), 0.5), Fill: scene.White, Stroke: scene.Stroke{Color: ink, Width: 0.3}}
}

// figure sets a picture in the middle, with its caption below.
func (f *flow) figure(b Figure) []chunk {
	k := f.scale(b)
	w, h := b.Scene.Width*k, b.Scene.Height*k
	caption := wrap(b.Caption, f.width(), smallSize)
	if b.Caption == "" {
		caption = nil
	}
	height := h
	if len(caption) > 0 {
		height += 1.6 + smallSize*smallLeader*float64(len(caption))
	}
	return []chunk{{height: height, before: blockGap, paint: func(at scene.Point) []scene.Item {
		place := scene.Transform{Move: at.Add(scene.Pt((f.width()-w)/2, 0)), Scale: k}
		items, _ := setLines(caption, at.Add(scene.Pt(0, h+1.6)), smallSize, smallLeader, soft)
		return append([]scene.Item{scene.Group{Title: b.Scene.Title, Place: place, Items: anonymous(b.Scene.Items)}}, items...)
	}}}
}

// scale is how much a figure is scaled to fit the page and its own limits.
func (f *flow) scale(b Figure) float64 {
	if b.Exact {
		return 1
	}
	w, h := f.width(), f.bottom()-marginTop-30
	if b.Width > 0 {
		w = min(w, b.Width)
	}
	if b.Height > 0 {
		h = min(h, b.Height)
	}
	return min(1, w/b.Scene.Width, h/b.Scene.Height)
}

// anonymous takes the names off groups, which a page would have twice.
func anonymous(items []scene.Item) []scene.Item {
	out := make([]scene.Item, len(items))
	for i, it := range items {
		if g, ok := it.(scene.Group); ok {
			g.ID, g.Link, g.Data, g.Items = "", "", nil, anonymous(g.Items)
			out[i] = g
			continue
		}
		out[i] = it
	}
	return out
}
