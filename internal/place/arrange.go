package place

import (
	"slices"

	"loomwright/internal/scene"
)

// set lays all parts out for a right-handed guitar, the other way round for a
// left-handed one.
func (l *layout) set(t template, pots []int) {
	pickups := l.of(rolePickup)
	right := l.stack(pickups)
	x := right + l.channel(pickups)
	rows := l.grid(t, pots)
	width, height := l.spread(rows, x, channels{})
	if c := l.channels(rows); !c.none() {
		width, height = l.spread(rows, x, c)
	}
	middle := max(l.heightOf(pickups), height) / 2
	l.shift(pickups, 0, middle-l.heightOf(pickups)/2)
	for _, row := range rows {
		l.shift(row, 0, middle-height/2)
	}
	l.outputs(x+width+gapOut, middle)
}

// channel is the room between the pickups and the controls: lanes for the
// leads, and sleeves.
func (l *layout) channel(pickups []int) float64 {
	n := 0
	for _, i := range pickups {
		n += l.degree(i)
	}
	room := channelBase + channelLane*float64(min(n, 16))
	if len(l.splices) > 0 {
		room += channelMore
	}
	return room
}

// flat is an item's box about its centre, seen as in a right-handed guitar.
func (l *layout) flat(i int) scene.Rect {
	it := l.items[i]
	it.at = scene.Point{}
	b := it.box()
	if l.left {
		b.Min.X, b.Max.X = -b.Max.X, -b.Min.X
	}
	return b
}

// put places an item at right-handed coordinates.
func (l *layout) put(i int, x, y float64) {
	if l.left {
		x = -x
	}
	l.items[i].at = scene.Pt(x, y)
}

// box is an item's box in right-handed coordinates.
func (l *layout) box(i int) scene.Rect {
	b, at := l.flat(i), l.items[i].at
	if l.left {
		at.X = -at.X
	}
	return scene.Rect{Min: b.Min.Add(at), Max: b.Max.Add(at)}
}

func (l *layout) boxOf(items []int) scene.Rect {
	var r scene.Rect
	for _, i := range items {
		r = r.Union(l.box(i))
	}
	return r
}

func (l *layout) heightOf(items []int) float64 { return l.boxOf(items).Height() }

func (l *layout) shift(items []int, dx, dy float64) {
	if l.left {
		dx = -dx
	}
	for _, i := range items {
		l.items[i].at = l.items[i].at.Add(scene.Pt(dx, dy))
	}
}

// nameRoom is the room for a name above a pickup, mm.
const nameRoom = 5

// stack puts pickups under one another and returns their right edge.
func (l *layout) stack(items []int) float64 {
	y, right := 0.0, 0.0
	for _, i := range items {
		b := l.flat(i)
		l.put(i, -b.Min.X, y-b.Min.Y)
		y += b.Height() + gapPickups + nameRoom
		right = max(right, b.Width())
	}
	return right
}

// grid puts controls into rows.
func (l *layout) grid(t template, pots []int) [][]int {
	switches := l.of(roleSwitch)
	per := max((len(pots)+t.rows-1)/t.rows, 1)
	var rows [][]int
	for i := 0; i < len(pots); i += per {
		rows = append(rows, slices.Clone(pots[i:min(i+per, len(pots))]))
	}
	switch {
	case len(switches) == 0:
	case t.switches == above || len(rows) == 0:
		for i := len(switches); i > 0; i -= 4 {
			rows = slices.Insert(rows, 0, slices.Clone(switches[max(0, i-4):i]))
		}
	default:
		for i, s := range switches {
			k := i % len(rows)
			if t.switches == before {
				rows[k] = slices.Insert(rows[k], i/len(rows), s)
			} else {
				rows[k] = append(rows[k], s)
			}
		}
	}
	return rows
}

// spread lays rows out from x on, centres of equal rows in line.
func (l *layout) spread(rows [][]int, x float64, c channels) (width, height float64) {
	columns := l.columns(rows)
	y := 0.0
	for r, row := range rows {
		top, bottom := 0.0, 0.0
		for _, i := range row {
			b := l.flat(i)
			top, bottom = min(top, b.Min.Y), max(bottom, b.Max.Y)
		}
		at := x
		for k, i := range row {
			b := l.flat(i)
			w := b.Width()
			if columns != nil {
				w = columns[k]
			}
			l.put(i, at+w/2-(b.Min.X+b.Max.X)/2, y-top)
			at += w
			width = max(width, at-x)
			at += gapAcross + perLink*float64(max(l.degree(i), l.degree(row[min(k+1, len(row)-1)])))
			at += c.after(k)
		}
		y += bottom - top + gapDown + c.below(r)
	}
	for _, row := range rows {
		r := l.boxOf(row)
		l.shift(row, x+(width-r.Width())/2-r.Min.X, 0)
	}
	return width, max(y-gapDown-c.below(len(rows)-1), 0)
}

// degree is how many links an item has, up to what makes a difference.
func (l *layout) degree(i int) int {
	n := 0
	for k := range l.links {
		if l.links[k].a.item == i || l.links[k].b.item == i {
			n++
		}
	}
	return min(n, 9)
}

// columns are the widths of the columns when all rows are alike in length.
func (l *layout) columns(rows [][]int) []float64 {
	if len(rows) < 2 {
		return nil
	}
	for _, r := range rows[1:] {
		if len(r) != len(rows[0]) {
			return nil
		}
	}
	out := make([]float64, len(rows[0]))
	for _, row := range rows {
		for k, i := range row {
			out[k] = max(out[k], l.flat(i).Width())
		}
	}
	return out
}

// outputs stand at the far end, at the height where they cost least.
func (l *layout) outputs(x, middle float64) {
	for _, i := range l.of(roleOut) {
		l.put(i, x-l.flat(i).Min.X, middle)
		l.slide(i, middle)
	}
}

// slide tries heights around the middle for an output.
func (l *layout) slide(i int, middle float64) {
	it := &l.items[i]
	near := l.vicinity(i)
	best, cost := it.at.Y, 1e18
	for dy := -45.0; dy <= 45; dy += 5 {
		it.at.Y = middle + dy
		if c := near.cost() + abs(dy)*0.1; c < cost {
			best, cost = it.at.Y, c
		}
	}
	it.at.Y = best
}

// bounds is the box of all parts that hang on no other.
func (l *layout) bounds() scene.Rect {
	var r scene.Rect
	for i := range l.items {
		if it := &l.items[i]; it.solid() && it.role != roleGround {
			r = r.Union(it.box())
		}
	}
	return r
}

// untidy is what pots out of the loom file's order cost: rows are read from the
// pickups to the jack, then down.
func (l *layout) untidy() float64 {
	sum := 0.0
	pots := l.of(rolePot)
	for k, j := range pots {
		for _, i := range pots[:k] {
			a, b := l.box(i).Center(), l.box(j).Center()
			if b.Y < a.Y-15 || abs(b.Y-a.Y) <= 15 && b.X < a.X {
				sum += 6
			}
		}
	}
	return sum
}
