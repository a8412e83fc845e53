package plot

import "loomwright/internal/scene"

// sample is the length of a curve's piece in the key, mm.
const sample = 11.0

// keyRows is the number of lines of the key: curves, band, notes.
func (p *Plot) keyRows() int {
	rows := len(p.Lines)
	if p.Band != nil {
		rows += len(p.wrapped(p.Band.Name))
	}
	for _, n := range p.Notes {
		rows += len(p.wrapped(n))
	}
	return rows
}

// wrapped breaks a text to the width of the key.
func (p *Plot) wrapped(text string) []string {
	return scene.Wrap(text, p.Width-left-right-sample-3, small, scene.Regular)
}

// heading is the title over the field.
func (p *Plot) heading(a *axes) []scene.Item {
	t := scene.Text{At: scene.Pt(a.box.Min.X, 5.6), Content: p.Title, Size: plain * 1.12, Style: scene.Bold, Color: ink}
	if wide := p.Width - left - right; scene.TextWidth(t.Content, t.Size, t.Style) > wide {
		t.Size *= wide / scene.TextWidth(t.Content, t.Size, t.Style)
	}
	return []scene.Item{t}
}

// key says which curve is which, below the field.
func (p *Plot) key(a *axes) []scene.Item {
	var out []scene.Item
	y := a.box.Max.Y + bottom - 1.6
	row := func(text string, size float64, c scene.Color, piece ...scene.Item) {
		out = append(out, piece...)
		out = append(out, scene.Text{At: scene.Pt(left+sample+3, y), Content: text, Size: size, Baseline: scene.Central, Color: c})
		y += keyRow
	}
	for i, l := range p.Lines {
		name := l.Name
		if len(l.DB) == 0 {
			name += " (nothing reaches the jack)"
		} else if i > 0 && l.Mark.Text != "" {
			name += "  –  " + l.Mark.Text
		}
		row(name, plain, ink, scene.Path{Outline: scene.Segment(scene.Pt(left, y), scene.Pt(left+sample, y)), Stroke: pens[i]})
	}
	if p.Band != nil {
		box := scene.Box(left, y-1.4, sample, 2.8)
		for i, text := range p.wrapped(p.Band.Name) {
			if i == 0 {
				row(text, small, faint, scene.Path{Outline: scene.Rectangle(box), Fill: shade, Stroke: edge})
				continue
			}
			row(text, small, faint)
		}
	}
	for _, n := range p.Notes {
		for _, text := range p.wrapped(n) {
			row(text, small, faint)
		}
	}
	return out
}
