package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/route"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
)

// collect turns routed paths into wires.
func (d *Drawing) collect(b *board, res route.Result) {
	for i, p := range res.Paths {
		if !p.Routed || len(p.Points) < 2 {
			continue
		}
		w := Wire{Run: -1, with: -1, Strand: b.strand[i], lane: p.Points, Clean: !p.Conflict}
		if w.Strand < 0 {
			w.stub, w.A = true, d.Graph.Terms[b.lead[i]].Name
			w.Look = d.leadLook(b.lead[i])
		} else {
			d.fillWire(&w, &d.Plan.Strands[w.Strand])
		}
		if b.wires[i].A.Kind == route.InFan {
			mouth := b.board.Fans[b.wires[i].A.Index].Mouth
			w.Mouth = &mouth
		}
		w.Root = d.rootOf(w.Strand)
		w.Points = ease(p.Points, w.Root != nil)
		w.Tap[0], w.far = b.wires[i].A.Kind == route.OnWire, b.wires[i].A.Far
		w.shape()
		d.Wires = append(d.Wires, w)
	}
	for i := range d.Plan.Strands {
		if at, ok := b.links[i]; ok {
			w := Wire{Strand: i, with: -1, Points: at, Clean: true}
			d.fillWire(&w, &d.Plan.Strands[i])
			w.shape()
			d.Wires = append(d.Wires, w)
		}
	}
}

// shape derives a wire's outline from its corners.
func (w *Wire) shape() {
	w.Outline = outline(w)
	w.box = laneBox(w.Points)
	w.Length = lengthOf(w.Outline)
}

func laneBox(points []scene.Point) scene.Rect {
	r := scene.Rect{Min: points[0], Max: points[0]}
	for _, p := range points[1:] {
		r = segmentBox(scene.Pt(min(r.Min.X, p.X), min(r.Min.Y, p.Y)), scene.Pt(max(r.Max.X, p.X), max(r.Max.Y, p.Y)))
	}
	return r.Grow(halfWire)
}

func (d *Drawing) fillWire(w *Wire, s *place.Strand) {
	w.Run, w.Step = s.Run, d.Options.Steps[s.Run]
	w.A, w.B = d.endName(s.A), d.endName(s.B)
	if s.Core >= 0 {
		core := &d.Plan.Strands[s.Core]
		w.A, w.B = "the braid from "+d.endName(core.A)+" to "+d.endName(core.B), d.endName(s.A)
	}
}

func (d *Drawing) endName(e place.End) string {
	if e.Splice >= 0 {
		return "the " + place.SpliceName(d.Graph, d.Plan.Splices[e.Splice])
	}
	if e.Term < 0 {
		return ""
	}
	return d.Graph.Terms[e.Term].Name
}

// cornerRadius rounds the bends of a lane, mm.
const cornerRadius = 2.4

// outline is a wire's lane with rounded bends, from its cable's mouth if any.
func outline(w *Wire) scene.Outline {
	if w.Root != nil {
		return w.fromRoot()
	}
	o := scene.Polyline(cornerRadius, w.Points...)
	if w.Mouth == nil {
		return o
	}
	m, s := *w.Mouth, w.Points[0]
	ahead := w.Points[1].Sub(s).Unit()
	reach := s.Sub(m).Len() * 0.45
	full := scene.Outline{}.Move(m.X, m.Y).Cubic(m.Add(ahead.Mul(reach)), s.Sub(ahead.Mul(reach)), s)
	return append(full, o[1:]...)
}

// flatness is how far lengths and live arrows may leave a curve, mm.
const flatness = 0.05

func lengthOf(o scene.Outline) float64 {
	sum := 0.0
	for _, c := range o.Flatten(flatness) {
		sum += c.Length()
	}
	return sum
}

// onGround reports whether a terminal is soldered to ground, with whatever the
// switches do.
func (d *Drawing) onGround(term int) bool {
	nets := d.nets()
	return term >= 0 && d.Graph.Ground >= 0 && nets.Of[term] == nets.Of[d.Graph.Ground]
}

// nets are what is soldered together.
func (d *Drawing) nets() setting.Nets {
	if d.soldered.Of == nil {
		d.soldered = setting.NewBase(d.Graph).NetsOf(nil)
	}
	return d.soldered
}
