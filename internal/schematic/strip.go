package schematic

import (
	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/sound"
)

// Sizes of a strip in mm.
const (
	cellHeight = 5.8
	cellSide   = 1.3 // from the words to the cell's edge
	wireGap    = 2.2 // between cells in series
	branchGap  = 1.3 // between branches in parallel
	railGap    = 1.6 // from a branch to the rail that joins it
	nameSize   = 1.9
	noteSize   = 1.8
	stripPen   = 0.3
)

// cell is a piece of a strip: its box and where the wire enters on the left and
// leaves on the right, at height mid.
type cell struct {
	w, h, mid float64
	paint     func(at scene.Point) []scene.Item // top left
}

// Strip draws the chain of coils of one setting from the jack's tip on the left
// to ground on the right: coils in series one after the other, in the order of
// their names; in parallel one above the other. Coils turned round are dark,
// with their arrow the other way. Coils that are not heard stand behind the bar,
// shorted ones with both ends joined, hanging ones on one end. The scene is as
// large as it needs to be.
func Strip(row *proof.Row) scene.Scene {
	chain := chainOf(row)
	parts := append([]cell{tipCell(), chain, groundCell()}, restCells(row)...)
	s := series(parts, wireGap, 2)
	const margin = 0.4
	return scene.Scene{Width: s.w + 2*margin, Height: s.h + 2*margin, Title: row.Name + ": " + row.Heard,
		Items: s.paint(scene.Pt(margin, margin))}
}

// chainOf is what lies between tip and ground.
func chainOf(row *proof.Row) cell {
	switch {
	case row.Unsure:
		return noteCell("depends on unknown leads", scene.Stroke{Color: ink, Width: stripPen, Dash: []float64{0.8, 0.6}})
	case row.Output == proof.Shorted:
		return noteCell("shorted", pen(stripPen))
	case row.Output == proof.Open:
		return gapCell("open")
	case row.Output == proof.Held:
		return boxCell("track only", nil)
	}
	return exprCell(row.Sound)
}

func exprCell(e sound.Expr) cell {
	switch e.Op {
	case sound.Name:
		return coilCell(e, heard)
	case sound.Through:
		return throughCell(e.Name)
	case sound.Mesh:
		return meshCell(e)
	}
	kids := make([]cell, len(e.Kids))
	for i, k := range e.Kids {
		kids[i] = exprCell(k)
	}
	switch {
	case len(kids) == 0:
		return gapCell("silent")
	case e.Op == sound.Parallel:
		return parallel(kids)
	}
	return series(kids, wireGap, len(kids))
}

// series puts cells in a row on one height, with wire in the first so many of
// the gaps between them.
func series(kids []cell, gap float64, wires int) cell {
	out := cell{w: gap * float64(len(kids)-1)}
	below := 0.0
	for _, k := range kids {
		out.w += k.w
		out.mid = max(out.mid, k.mid)
		below = max(below, k.h-k.mid)
	}
	out.h = out.mid + below
	out.paint = func(at scene.Point) []scene.Item {
		var items []scene.Item
		x := at.X
		for i, k := range kids {
			items = append(items, k.paint(scene.Pt(x, at.Y+out.mid-k.mid))...)
			x += k.w
			if i < min(wires, len(kids)-1) {
				items = append(items, wire(scene.Pt(x, at.Y+out.mid), scene.Pt(x+gap, at.Y+out.mid)))
			}
			x += gap
		}
		return items
	}
	return out
}

// parallel puts cells above one another between two rails.
func parallel(kids []cell) cell {
	out := cell{}
	for i, k := range kids {
		if i > 0 {
			out.h += branchGap
		}
		out.w = max(out.w, k.w)
		out.h += k.h
	}
	first, last := kids[0].mid, out.h-kids[len(kids)-1].h+kids[len(kids)-1].mid
	out.mid = (first + last) / 2
	inner := out.w
	out.w += 2 * railGap
	out.paint = func(at scene.Point) []scene.Item {
		left, right := at.X, at.X+out.w
		items := []scene.Item{
			wire(scene.Pt(left, at.Y+first), scene.Pt(left, at.Y+last)),
			wire(scene.Pt(right, at.Y+first), scene.Pt(right, at.Y+last)),
		}
		y := at.Y
		for _, k := range kids {
			x := left + railGap + (inner-k.w)/2
			items = append(items, wire(scene.Pt(left, y+k.mid), scene.Pt(x, y+k.mid)), wire(scene.Pt(x+k.w, y+k.mid), scene.Pt(right, y+k.mid)))
			items = append(items, k.paint(scene.Pt(x, y))...)
			y += k.h + branchGap
		}
		return items
	}
	return out
}

func wire(a, b scene.Point) scene.Item {
	return scene.Path{Outline: scene.Segment(a, b), Stroke: pen(stripPen)}
}

// restCells are the coils that are not heard, behind a bar.
func restCells(row *proof.Row) []cell {
	var out []cell
	for _, g := range []struct {
		names []string
		state coilState
	}{{row.Shorted, shorted}, {row.Hanging, hanging}, {row.Off, off}} {
		for _, name := range g.names {
			out = append(out, coilCell(sound.Coil(name, false), g.state))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return append([]cell{barCell()}, out...)
}
