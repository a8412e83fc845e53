package drawing

import "loomwright/internal/scene"

// Sleeving over a wire, mm.
const (
	sleeveEdge  = 2.2
	sleeveTube  = 1.8
	sleeveShort = 3.0 // of it at both ends
)

// paintSleeved is a wire in a tube of sleeving that leaves its ends bare.
func (w *Wire) paintSleeved() []scene.Item {
	inner := w.Look
	inner.Sleeved = false
	out := (&Wire{Look: inner, Outline: w.Outline, bared: w.bared, with: -1}).body()
	for _, c := range w.Outline.Flatten(flatness) {
		l := c.Length()
		tube := c.Between(min(sleeveShort, l/4), l-min(sleeveShort, l/4)).Outline()
		flat := func(color scene.Color, width float64) scene.Stroke {
			return scene.Stroke{Color: color, Width: width, Join: scene.RoundJoin}
		}
		out = append(out, scene.Layers(tube, "sleeving", flat(scene.RGB(0x8A7F6C), sleeveEdge), flat(scene.RGB(0xF5EBD2), sleeveTube))...)
		if w.Look.Kind == Insulated {
			core := inks[w.Look.Colour.Base]
			out = append(out, scene.Layers(tube, "insulation", flat(edgeOf(core), 1), flat(core, 0.65))...)
		} else {
			out = append(out, scene.Layers(tube, "lead", flat(scene.RGB(0x77726C), 0.8), flat(scene.RGB(0xDAD7D0), 0.45))...)
		}
	}
	return out
}

// coreShows is how much of the core emerges from a screened cable where no
// braid parts from it, mm.
const coreShows = 6.0

// bareCables finds how far the jacket of each screened cable is taken off, to
// where its braid parts from it, and where pairs part.
func (d *Drawing) bareCables() {
	for i := range d.Wires {
		w := &d.Wires[i]
		w.bared = [2]float64{coreShows, coreShows}
		for k := range d.Wires {
			s := d.strandOf(&d.Wires[k])
			if s == nil || !d.Wires[k].Tap[0] || on(s) != w.Strand {
				continue
			}
			if s.Pair >= 0 {
				w.with = d.Wires[k].Strand
			}
			dist := w.distTo(d.Wires[k].Points[0])
			if d.Wires[k].far {
				w.bared[1] = w.Length - dist
			} else {
				w.bared[0] = dist
			}
		}
	}
}

// distTo is how far along a wire a place on its lane is, mm.
func (w *Wire) distTo(at scene.Point) float64 {
	best, found := 1e9, 0.0
	for _, c := range w.Outline.Flatten(flatness) {
		done := 0.0
		for k := 1; k < len(c.Points); k++ {
			a, b := c.Points[k-1], c.Points[k]
			if dist := pointSegment(at, a, b); dist < best {
				best, found = dist, done+a.Dist(at)
			}
			done += a.Dist(b)
		}
	}
	return found
}

// paintScreened is the core with the jacket over all but its ends.
func (w *Wire) paintScreened() []scene.Item {
	core := w.Look
	core.Kind = Insulated
	out := paintInsulated(w.Outline, core)
	for _, c := range w.Outline.Flatten(flatness) {
		l := c.Length()
		jacket := c.Between(min(w.bared[0], l/3), l-min(w.bared[1], l/3)).Outline()
		cut := scene.Stroke{Width: jacketEdge, Color: scene.RGB(0x56514B), Join: scene.RoundJoin}
		out = append(out,
			scene.Path{Class: "jacket", Outline: jacket, Stroke: cut},
			scene.Path{Class: "jacket", Outline: jacket, Stroke: scene.Stroke{Width: jacketCore, Color: scene.RGB(0xC9C5BC), Join: scene.RoundJoin}},
			scene.Path{Class: "braid", Outline: scene.Braid(jacket, 1.5, jacketCore-0.3), Stroke: scene.Stroke{Color: scene.RGB(0x7C766E), Width: 0.2}})
	}
	return out
}
