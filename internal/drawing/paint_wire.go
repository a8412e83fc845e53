package drawing

import (
	"fmt"
	"strings"

	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// Widths of a wire's pens, mm.
const (
	edgeWidth   = 1.75
	coreWidth   = 1.25
	threadWidth = 0.36
	stripeWidth = 0.5
	halfWire    = edgeWidth / 2
	haloWidth   = 2.7
	haloReach   = 1.25 // along the upper wire, to both sides of a crossing
	liveWidth   = 4.0
	bareEdge    = 1.25
	bareCore    = 0.8
	leadEdge    = 0.95
	leadCore    = 0.5
	jacketEdge  = 2.6
	jacketCore  = 2.1
)

// paintWire is one wire as a group: halo where it passes over others, edge,
// core, thread.
func (d *Drawing) paintWire(i int) scene.Group {
	w := &d.Wires[i]
	g := scene.Group{ID: fmt.Sprintf("wire-%d", i+1), Class: "wire", Title: d.wireTitle(w), Data: map[string]string{"strand": fmt.Sprint(w.Strand)}}
	if w.Run >= 0 {
		g.Data["run"], g.Data["step"] = fmt.Sprint(w.Run), fmt.Sprint(w.Step)
	}
	g.Items = append(g.Items, d.halos(i)...)
	if w.with >= 0 {
		return d.paintPair(i, g)
	}
	g.Items = append(g.Items, w.body()...)
	if d.faded(w) {
		g.Fade = fadeRest
	}
	return g
}

// wireTitle says in plain words what a wire is.
func (d *Drawing) wireTitle(w *Wire) string {
	var words []string
	s := d.strandOf(w)
	switch {
	case w.stub:
		return fmt.Sprintf("%s, joined to nothing: insulate its end", w.A)
	case s != nil && s.Core >= 0:
		return fmt.Sprintf("braid to %s, step %d", w.B, w.Step)
	case s != nil && s.Lead >= 0 && d.Plan.Spots[s.Lead].InFan:
		words = append(words, fmt.Sprintf("%s lead of %s", w.Look.Word, d.partWords(s.Lead)))
	case w.Look.Kind == ComponentLead:
		words = append(words, "lead "+w.A)
	default:
		words = append(words, fmt.Sprintf("%s wire from %s", w.Look.Word, w.A))
	}
	return strings.Join(append(words, fmt.Sprintf("to %s, step %d", w.B, w.Step)), " ")
}

// strandOf is the strand that a wire draws; nil for a lead that is not joined.
func (d *Drawing) strandOf(w *Wire) *place.Strand {
	if w.Strand < 0 {
		return nil
	}
	return &d.Plan.Strands[w.Strand]
}

func (d *Drawing) partWords(term int) string { return d.Graph.Loom.Uses[d.Graph.Terms[term].Use].Name }

// halos part the upper wire from those it crosses.
func (d *Drawing) halos(i int) []scene.Item {
	var out []scene.Item
	for _, c := range d.Crossings {
		if c.Over != i {
			continue
		}
		if o := d.Wires[i].near(c.At, haloReach); o != nil {
			out = append(out, scene.Path{Class: "halo", Outline: o, Stroke: scene.Stroke{Color: d.groundAt(c.At), Width: d.Wires[i].haloAt(c.At)}})
		}
	}
	return out
}

// haloAt is how wide a wire's halo is at a crossing: a cable's is wider where it
// has its jacket, a pair's where it is twisted.
func (w *Wire) haloAt(at scene.Point) float64 {
	switch {
	case w.Look.Kind == ComponentLead:
		return haloWidth * 0.7
	case w.with < 0 && w.Look.Kind != ScreenedCable:
		return haloWidth
	}
	if along := w.distTo(at); along < w.bared[0] || along > w.Length-w.bared[1] {
		return haloWidth
	}
	return haloWidth * 1.5
}

// groundAt is the colour of what lies under the wires at a place.
func (d *Drawing) groundAt(at scene.Point) scene.Color {
	c := paper
	for _, p := range d.Plan.Panels {
		if p.Box.Contains(around(at, 0)) {
			c = cavity
		}
	}
	for i := range d.Plan.Parts {
		for _, s := range d.Plan.Parts[i].Shapes {
			if m, ok := materials[s.Fill]; ok && s.IsBody() && s.Holds(at, 0) {
				c = m.fill
			}
		}
	}
	return c
}

// near is the stretch of a wire within a reach of a place on it.
func (w *Wire) near(at scene.Point, reach float64) scene.Outline {
	for k := 1; k < len(w.Points); k++ {
		a, b := w.Points[k-1], w.Points[k]
		l := a.Dist(b)
		along := at.Sub(a)
		t := (along.X*(b.X-a.X) + along.Y*(b.Y-a.Y)) / l
		if t < 0 || t > l || at.Dist(a.Lerp(b, t/l)) > 1e-6 {
			continue
		}
		return scene.Segment(a.Lerp(b, max(0, t-reach)/l), a.Lerp(b, min(l, t+reach)/l))
	}
	return nil
}

// body is the wire itself.
func (w *Wire) body() []scene.Item {
	o := w.Outline
	switch w.Look.Kind {
	case BareWire:
		return paintBare(o)
	case ComponentLead:
		if w.Look.Sleeved {
			return w.paintSleeved()
		}
		return scene.Layers(o, "lead", pen(scene.RGB(0x77726C), leadEdge), pen(scene.RGB(0xDAD7D0), leadCore))
	case ScreenedCable:
		return w.paintScreened()
	}
	if w.Look.Sleeved {
		return w.paintSleeved()
	}
	return paintInsulated(o, w.Look)
}

func pen(c scene.Color, width float64) scene.Stroke {
	return scene.Stroke{Color: c, Width: width, Cap: scene.RoundCap, Join: scene.RoundJoin}
}

func paintInsulated(o scene.Outline, look Look) []scene.Item {
	core := inks[look.Colour.Base]
	out := scene.Layers(o, "insulation", pen(edgeOf(core), edgeWidth), pen(core, coreWidth))
	if look.Colour.Stripe != "" {
		return append(out, scene.Path{Class: "stripe", Outline: o, Stroke: scene.Stroke{Color: inks[look.Colour.Stripe], Width: stripeWidth}})
	}
	if dash, ok := threads[look.Colour.Base]; ok {
		t := scene.Stroke{Color: threadInk(core), Width: threadWidth, Dash: dash}
		if len(dash) == 1 {
			t.Dash = nil
		}
		out = append(out, scene.Path{Class: "thread", Outline: o, Stroke: t})
	}
	return out
}

// paintBare is bare stranded wire: tinned, with the lay of its strands.
func paintBare(o scene.Outline) []scene.Item {
	out := scene.Layers(o, "bare", pen(scene.RGB(0x6F6A64), bareEdge), pen(scene.RGB(0xE6E3DC), bareCore))
	ticks := scene.Ticks(o, 0.85, bareCore, 30)
	return append(out, scene.Path{Class: "strands", Outline: ticks, Stroke: scene.Stroke{Color: scene.RGB(0x6F6A64), Width: 0.18}})
}
