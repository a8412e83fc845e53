package sheet

import (
	"fmt"

	"loomwright/internal/scene"
)

// Measures of a step in mm.
const (
	numberWidth = 17.0
	viewWidth   = 58.0
	viewHeight  = 31.0
	viewGap     = 1.6
	stepPad     = 1.4
)

// step sets a number with its box to tick, what to do, and the close-ups.
func (f *flow) step(b Step) []chunk {
	room := f.width() - numberWidth
	if len(b.Views) > 0 {
		room -= viewWidth + 3
	}
	do := wrap(b.Do, room, bodySize)
	var notes [][]span
	for _, n := range b.Notes {
		notes = append(notes, wrap(n, room, smallSize)...)
	}
	good := wrap(b.Good, room, smallSize)
	if b.Good == "" {
		good = nil
	}
	height := bodySize*lineHeight*float64(len(do)) + smallSize*smallLeader*float64(len(notes)+len(good)) + 0.8
	if len(b.Views) > 0 {
		height = max(height, viewHeight)
	}
	height += 2 * stepPad
	return []chunk{{height: height, before: 0.4, keep: b.Last, paint: func(at scene.Point) []scene.Item {
		top := at.Add(scene.Pt(0, stepPad))
		items := f.number(b.label(), top)
		x := at.X + numberWidth
		text, used := setLines(do, scene.Pt(x, top.Y), bodySize, lineHeight, ink)
		items = append(items, text...)
		text, more := setLines(notes, scene.Pt(x, top.Y+used+0.5), smallSize, smallLeader, ink)
		items = append(items, text...)
		text, _ = setLines(good, scene.Pt(x, top.Y+used+more+0.8), smallSize, smallLeader, soft)
		items = append(items, text...)
		items = append(items, f.views(b.Views, scene.Pt(at.X+f.width()-viewWidth, top.Y))...)
		return append(items, scene.Path{Outline: scene.Segment(scene.Pt(at.X, at.Y+height), scene.Pt(at.X+f.width(), at.Y+height)),
			Stroke: scene.Stroke{Color: rule, Width: 0.2}})
	}}}
}

// label is the number of a step, or of the first and the last.
func (b *Step) label() string {
	if b.To > b.Number {
		return fmt.Sprintf("%d–%d", b.Number, b.To)
	}
	return fmt.Sprint(b.Number)
}

func (f *flow) number(label string, at scene.Point) []scene.Item {
	line := bodySize * lineHeight
	size := min(4.4, (numberWidth-7)/scene.TextWidth(label, 1, scene.Bold))
	return []scene.Item{
		box(at.Add(scene.Pt(0, (line-4)/2)), 4),
		scene.Text{At: at.Add(scene.Pt(6, line/2)), Content: label, Size: size, Style: scene.Bold, Baseline: scene.Central, Color: ink},
	}
}

// views sets close-ups side by side in the panel's place.
func (f *flow) views(views []scene.Scene, at scene.Point) []scene.Item {
	var items []scene.Item
	for _, v := range views {
		items = append(items, scene.Group{Title: v.Title, Place: scene.Moved(at.X, at.Y), Items: anonymous(v.Items)})
		at.X += v.Width + viewGap
	}
	return items
}
