package drawing

import (
	"fmt"

	"loomwright/internal/scene"
)

// Twist of a pair, mm: from crossing to crossing, and over both wires.
const (
	twistPitch = 3.4
	twistWidth = 1.9
)

// paintPair is two wires twisted around one another: the first with its ends,
// the second between its tails, which are wires of their own.
func (d *Drawing) paintPair(i int, g scene.Group) scene.Group {
	w := &d.Wires[i]
	second := d.lookOf(w.with)
	for _, c := range w.Outline.Flatten(flatness) {
		l := c.Length()
		from, to := min(w.bared[0], l/2), max(l-w.bared[1], l/2)
		t := scene.Twist(c.Between(from, to).Outline(), twistPitch, twistWidth)
		g.Items = append(g.Items, paintInsulated(c.Between(0, from).Outline(), w.Look)...)
		g.Items = append(g.Items, paintInsulated(c.Between(to, l).Outline(), w.Look)...)
		g.Items = append(g.Items, paintInsulated(t.A, w.Look)...)
		g.Items = append(g.Items, d.pairMate(w, second, t.B))
		g.Items = append(g.Items, paintOver(t, w.Look)...)
	}
	if d.faded(w) {
		g.Fade = fadeRest
	}
	return g
}

// paintTwist is a piece of a pair alone.
func paintTwist(o scene.Outline, a, b Look) []scene.Item {
	var out []scene.Item
	for _, c := range o.Flatten(flatness) {
		t := scene.Twist(c.Outline(), twistPitch, twistWidth)
		out = append(out, paintInsulated(t.A, a)...)
		out = append(out, paintInsulated(t.B, b)...)
		out = append(out, paintOver(t, a)...)
	}
	return out
}

// paintOver is the first wire where it passes in front of the second.
func paintOver(t scene.Strands, look Look) []scene.Item {
	out := paintInsulated(t.OverCore, look)
	edge := out[0].(scene.Path)
	edge.Outline, edge.Stroke.Cap = t.OverEdge, scene.Butt
	out[0] = edge
	for i := 1; i < len(out); i++ {
		p := out[i].(scene.Path)
		p.Stroke.Cap = scene.Butt
		out[i] = p
	}
	return out
}

// pairMate is the second wire of a pair where it is twisted.
func (d *Drawing) pairMate(w *Wire, look Look, o scene.Outline) scene.Group {
	s := &d.Plan.Strands[w.with]
	return scene.Group{ID: fmt.Sprintf("strand-%d", w.with+1), Class: "wire",
		Title: fmt.Sprintf("%s wire from %s to %s, twisted, step %d", look.Word, d.endName(s.A), d.endName(s.B), d.Options.Steps[s.Run]),
		Data:  map[string]string{"run": fmt.Sprint(s.Run), "step": fmt.Sprint(d.Options.Steps[s.Run])},
		Items: paintInsulated(o, look)}
}

// lookOf is the look of a strand's wires.
func (d *Drawing) lookOf(strand int) Look {
	for i := range d.Wires {
		if d.Wires[i].Strand == strand {
			return d.Wires[i].Look
		}
	}
	return Look{}
}

// Lengths are the mm of wire of each strand as drawn: the second wire of a pair
// has the twisted part of the first between its tails.
func (d *Drawing) Lengths() map[int]float64 {
	out := map[int]float64{}
	for i := range d.Wires {
		w := &d.Wires[i]
		if w.Strand < 0 {
			continue
		}
		out[w.Strand] += w.Length
		if w.with >= 0 {
			out[w.with] += max(0, w.Length-w.bared[0]-w.bared[1])
		}
	}
	return out
}
