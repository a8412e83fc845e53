package drawing

import "loomwright/internal/scene"

// clutter is what words could cover, in square cells so that only what is near
// is looked at.
type clutter struct {
	origin     scene.Point
	nx, ny     int
	cells      [][]int32
	things     []thing
	stamp      []int32 // query that saw a thing last
	generation int32
}

// thing is a box that costs something to lie on.
type thing struct {
	box  scene.Rect
	cost float64
	wire int // whose stretch it is; −1
}

const cellSize = 8.0 // mm

func newClutter(box scene.Rect) *clutter {
	c := &clutter{origin: box.Min, nx: int(box.Width()/cellSize) + 1, ny: int(box.Height()/cellSize) + 1}
	c.cells = make([][]int32, c.nx*c.ny)
	return c
}

// eachCell calls do for the cells that a box touches; what lies outside counts
// for the border.
func (c *clutter) eachCell(b scene.Rect, do func(cell int)) {
	at := func(v, from float64, n int) int { return min(max(int((v-from)/cellSize), 0), n-1) }
	x0, x1 := at(b.Min.X, c.origin.X, c.nx), at(b.Max.X, c.origin.X, c.nx)
	y0, y1 := at(b.Min.Y, c.origin.Y, c.ny), at(b.Max.Y, c.origin.Y, c.ny)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			do(y*c.nx + x)
		}
	}
}

// add puts a thing in and returns its number.
func (c *clutter) add(box scene.Rect, cost float64, wire int) int {
	n := len(c.things)
	c.things = append(c.things, thing{box, cost, wire})
	c.stamp = append(c.stamp, 0)
	c.eachCell(box, func(cell int) { c.cells[cell] = append(c.cells[cell], int32(n)) })
	return n
}

// remove takes a thing out.
func (c *clutter) remove(n int) { c.things[n].cost = 0 }

// near calls do for every thing that a box overlaps, once each.
func (c *clutter) near(b scene.Rect, do func(t *thing)) {
	c.generation++
	c.eachCell(b, func(cell int) {
		for _, n := range c.cells[cell] {
			if c.stamp[n] == c.generation {
				continue
			}
			c.stamp[n] = c.generation
			if t := &c.things[n]; t.box.Overlaps(b) {
				do(t)
			}
		}
	})
}

// clutterOf is all that a tag should not cover.
func (d *Drawing) clutterOf() *clutter {
	c := newClutter(d.Plan.Box)
	for i := range d.Wires {
		w := &d.Wires[i]
		for k := 1; k < len(w.Points); k++ {
			c.add(segmentBox(w.Points[k-1], w.Points[k]).Grow(halfWire+0.5), onWire, i)
		}
	}
	for _, x := range d.Crossings {
		c.add(around(x.At, 1.6), onCrossing, -1)
	}
	for _, j := range d.joints {
		c.add(around(j.At, 1.5), onJoint, -1)
	}
	for _, m := range d.Marks {
		c.add(m.Box(), onTag, -1)
	}
	for k := range d.Touches {
		if t := &d.Touches[k]; t.Tag.At != (scene.Point{}) {
			c.add(t.Tag.Box().Grow(0.4), onTag, -1)
		}
	}
	d.addWords(c)
	for i := range d.Plan.Parts {
		switch p := &d.Plan.Parts[i]; {
		case p.Box.Empty():
		case p.Sleeve():
			c.add(p.Box, onSleeve, -1)
		default:
			c.add(p.Box, onBody, -1)
		}
	}
	return c
}

// addWords adds names, labels and lugs.
func (d *Drawing) addWords(c *clutter) {
	for _, lines := range d.names {
		for _, n := range lines {
			c.add(n.Box().Grow(0.4), onWords, -1)
		}
	}
	for t := range d.Plan.Spots {
		s := &d.Plan.Spots[t]
		if s.Part < 0 || s.InFan || s.InCase || d.inSleeve(t) {
			continue
		}
		if l, ok := d.labels[t]; ok {
			c.add(l.Box(), onWords, -1)
		}
		c.add(around(s.At, 1.4), onJoint, -1)
		if s.HasPin {
			c.add(around(s.Pin, 1.1), onJoint, -1)
		}
	}
}
