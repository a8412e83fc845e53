package schematic

import (
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/scene"
	"loomwright/internal/sound"
	"loomwright/internal/units"
)

// coilState is how a coil takes part in a setting.
type coilState int

const (
	heard   coilState = iota
	shorted           // both ends on one net
	hanging           // one end on hot, the other open
	off               // resting
)

// coilCell is one coil: a bobbin with its name, an arrow from start to finish
// as it is heard.
func coilCell(e sound.Expr, state coilState) cell {
	pickup, coil, _ := strings.Cut(e.Name, ".")
	lines := []string{pickup}
	if coil != "" {
		lines = append(lines, coil)
	}
	arrow := map[bool]string{false: "▶", true: "◀"}[e.Reversed]
	if e.Unsure {
		arrow = "?"
	}
	if state != heard {
		arrow = ""
	}
	text := 0.0
	for _, l := range lines {
		text = max(text, scene.TextWidth(l, nameSize, scene.Bold))
	}
	mark := scene.TextWidth(arrow, noteSize, scene.Regular)
	if arrow != "" {
		mark += 0.5
	}
	c := cell{w: text + mark + 2*cellSide, h: cellHeight, mid: cellHeight / 2}
	look := coilLook(e, state)
	c.paint = func(at scene.Point) []scene.Item {
		items := []scene.Item{look.body(at, c.w)}
		x := at.X + cellSide
		if e.Reversed {
			items = append(items, look.words(arrow, scene.Pt(x, at.Y+cellHeight/2), noteSize, scene.Regular))
			x += mark
		} else if arrow != "" {
			items = append(items, look.words(arrow, scene.Pt(x+text+0.5, at.Y+cellHeight/2), noteSize, scene.Regular))
		}
		for i, l := range lines {
			y := at.Y + cellHeight/2 + (float64(i)-float64(len(lines)-1)/2)*2.3
			items = append(items, look.words(l, scene.Pt(x, y), nameSize, scene.Bold))
		}
		return items
	}
	return c.withState(state)
}

// cellLook is the paint of a coil's cell.
type cellLook struct {
	fill, edge, ink scene.Color
	dash            []float64
}

func coilLook(e sound.Expr, state coilState) cellLook {
	look := cellLook{fill: scene.White, edge: ink, ink: ink}
	switch {
	case state != heard:
		look.edge, look.ink = faint, faint
		if state == off {
			look.dash = []float64{0.7, 0.7}
		}
	case e.Unsure:
		look.dash = []float64{1.2, 0.7}
	case e.Reversed:
		look.fill, look.ink = ink, scene.White
	}
	return look
}

func (l cellLook) body(at scene.Point, w float64) scene.Item {
	stroke := scene.Stroke{Color: l.edge, Width: stripPen, Dash: l.dash, Join: scene.RoundJoin}
	return scene.Path{Outline: scene.RoundRect(scene.Box(at.X, at.Y, w, cellHeight), cellHeight/2), Fill: l.fill, Stroke: stroke}
}

func (l cellLook) words(content string, at scene.Point, size float64, style scene.Style) scene.Item {
	return scene.Text{At: at, Content: content, Size: size, Style: style, Baseline: scene.Central, Color: l.ink}
}

// withState draws what tells a resting coil: a wire over a shorted one, one end
// of a hanging one going back to the chain.
func (c cell) withState(state coilState) cell {
	if state != shorted && state != hanging {
		return c
	}
	inner := c
	c.h += 1.4
	c.mid += 1.4
	c.paint = func(at scene.Point) []scene.Item {
		top := at.Y + 0.5
		y := at.Y + c.mid
		line := scene.Outline{}.Move(at.X, y).Line(at.X-0.7, y).Line(at.X-0.7, top)
		if state == shorted {
			line = line.Line(at.X+inner.w+0.7, top).Line(at.X+inner.w+0.7, y).Line(at.X+inner.w, y)
		} else {
			line = line.Line(at.X-0.7-0.6, top+0.8).Move(at.X-0.7, top).Line(at.X-0.7+0.6, top+0.8)
		}
		wires := scene.Path{Outline: line, Stroke: scene.Stroke{Color: faint, Width: stripPen, Join: scene.RoundJoin}}
		return append([]scene.Item{wires}, inner.paint(scene.Pt(at.X, at.Y+1.4))...)
	}
	return c
}

// tipCell is the jack's tip, where the chain starts.
func tipCell() cell {
	return cell{w: 1.8, h: 1.8, mid: 0.9, paint: func(at scene.Point) []scene.Item {
		return []scene.Item{scene.Path{Outline: scene.Circle(at.Add(scene.Pt(0.9, 0.9)), 0.75), Fill: scene.White, Stroke: pen(stripPen)}}
	}}
}

// groundCell is ground, where the chain ends.
func groundCell() cell {
	return cell{w: 1.9, h: 3.4, mid: 1.7, paint: func(at scene.Point) []scene.Item {
		var o scene.Outline
		for i, half := range []float64{1.7, 1.1, 0.5} {
			x := at.X + 0.1 + 0.75*float64(i)
			o = append(o, scene.Segment(scene.Pt(x, at.Y+1.7-half), scene.Pt(x, at.Y+1.7+half))...)
		}
		return []scene.Item{scene.Path{Outline: o, Stroke: pen(stripPen)}, wire(at.Add(scene.Pt(0, 1.7)), at.Add(scene.Pt(0.1, 1.7)))}
	}}
}

// barCell parts what is heard from what is not.
func barCell() cell {
	return cell{w: 0.6, h: cellHeight, mid: cellHeight / 2, paint: func(at scene.Point) []scene.Item {
		return []scene.Item{scene.Path{Outline: scene.Segment(at.Add(scene.Pt(0.3, 0)), at.Add(scene.Pt(0.3, cellHeight))),
			Stroke: scene.Stroke{Color: faint, Width: 0.25, Dash: []float64{0.4, 0.7}}}}
	}}
}

// noteCell is a wire with a word over it.
func noteCell(text string, stroke scene.Stroke) cell {
	w := scene.TextWidth(text, noteSize, scene.Regular) + 2
	return cell{w: w, h: cellHeight, mid: cellHeight / 2, paint: func(at scene.Point) []scene.Item {
		y := at.Y + cellHeight/2
		return []scene.Item{
			scene.Path{Outline: scene.Segment(scene.Pt(at.X, y), scene.Pt(at.X+w, y)), Stroke: stroke},
			words(text, scene.Pt(at.X+w/2, y-1.7), noteSize, scene.Middle),
		}
	}}
}

// gapCell is a wire that is cut, with a word over it.
func gapCell(text string) cell {
	w := max(scene.TextWidth(text, noteSize, scene.Regular)+2, 7)
	return cell{w: w, h: cellHeight, mid: cellHeight / 2, paint: func(at scene.Point) []scene.Item {
		y := at.Y + cellHeight/2
		a, b := scene.Pt(at.X+w/2-1.4, y), scene.Pt(at.X+w/2+1.4, y)
		return []scene.Item{
			wire(scene.Pt(at.X, y), a), wire(b, scene.Pt(at.X+w, y)),
			scene.Path{Outline: append(scene.Circle(a, 0.4), scene.Circle(b, 0.4)...), Fill: scene.White, Stroke: pen(stripPen)},
			words(text, scene.Pt(at.X+w/2, y-1.8), noteSize, scene.Middle),
		}
	}}
}

// throughCell is a part in the path with its value.
func throughCell(value string) cell {
	names := map[string]string{loom.NoTrack: "track", loom.NoCapacitor: "capacitor", loom.NoResistor: "resistor"}
	if name, ok := names[value]; ok {
		return boxCell(name, capacitorPlates(value == loom.NoCapacitor))
	}
	_, farads := units.Farads(value)
	_, ohms := units.Ohms(value)
	return boxCell(value, capacitorPlates(farads == nil && ohms != nil))
}

// capacitorPlates is nil for a resistor.
func capacitorPlates(is bool) scene.Outline {
	if !is {
		return nil
	}
	return append(scene.Segment(scene.Pt(-0.4, -1), scene.Pt(-0.4, 1)), scene.Segment(scene.Pt(0.4, -1), scene.Pt(0.4, 1))...)
}

// boxCell is a resistor, or a capacitor where plates are given, with its words
// above.
func boxCell(text string, plates scene.Outline) cell {
	w := max(scene.TextWidth(text, noteSize, scene.Regular)+0.6, 6)
	return cell{w: w, h: cellHeight, mid: cellHeight / 2, paint: func(at scene.Point) []scene.Item {
		mid := scene.Pt(at.X+w/2, at.Y+cellHeight/2)
		half := 2.2
		body := scene.Rectangle(scene.Box(mid.X-half, mid.Y-0.8, 2*half, 1.6))
		if plates != nil {
			half, body = 0.4, plates.Transformed(scene.Moved(mid.X, mid.Y))
		}
		return []scene.Item{
			wire(scene.Pt(at.X, mid.Y), scene.Pt(mid.X-half, mid.Y)), wire(scene.Pt(mid.X+half, mid.Y), scene.Pt(at.X+w, mid.Y)),
			scene.Path{Outline: body, Stroke: pen(stripPen)},
			words(text, mid.Add(scene.Pt(0, -2.2)), noteSize, scene.Middle),
		}
	}}
}

// meshCell is coils in a network that is not series-parallel: in one frame.
func meshCell(e sound.Expr) cell {
	kids := make([]cell, len(e.Kids))
	for i, k := range e.Kids {
		kids[i] = exprCell(k)
	}
	row := series(kids, 1, 0)
	const pad, head = 1.2, 2
	return cell{w: row.w + 2*pad, h: row.h + 2*pad + head, mid: row.mid + pad + head, paint: func(at scene.Point) []scene.Item {
		frame := scene.Box(at.X, at.Y+head, row.w+2*pad, row.h+2*pad)
		items := []scene.Item{
			scene.Path{Outline: scene.RoundRect(frame, 2), Stroke: scene.Stroke{Color: ink, Width: stripPen, Dash: []float64{1.2, 0.7}}},
			words("mesh", scene.Pt(frame.Center().X, at.Y+0.9), noteSize, scene.Middle),
		}
		return append(items, row.paint(frame.Min.Add(scene.Pt(pad, pad)))...)
	}}
}
