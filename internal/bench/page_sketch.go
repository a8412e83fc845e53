package bench

import (
	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/place"
)

// Sketch is the drawing on the page: as SVG for a page, with where each
// terminal is. What can stay where it was in the sketch before, stays.
type Sketch struct {
	Pictured
	Spots  []Spot               `json:"spots"`  // by terminal
	Places map[string][]float64 `json:"places"` // of parts: x, y in mm, quarter turns
}

// Spot is where a terminal is, in mm of the group called loom; nil: nowhere.
type Spot []float64

// Sketch draws the loom that lies open.
func (d *Desk) Sketch(a Ask) (Sketch, error) {
	out := Sketch{Pictured: Pictured{Findings: some(nil)}, Spots: []Spot{}, Places: map[string][]float64{}}
	g, _, _ := d.bench.graph(diag.NewText(a.Name, a.Text))
	if g == nil {
		return out, nil
	}
	d.drawn = loosened(d.drawn, g)
	plans, list := place.Lay(g, place.Options{Keep: d.drawn.Keep()})
	if len(plans) == 0 {
		out.Findings = some(list)
		return out, nil
	}
	opts := drawing.Options{Front: a.Front, Steps: build.Order(g).StepOfRun(len(g.Runs)), Previous: d.drawn}
	if a.Marks {
		opts.Grounds = drawing.AsMarks
	}
	drawn, more := drawing.Draw(g, plans, opts)
	d.drawn = drawn.Save()
	picture, err := paint(drawn.Scene(), DrawOptions{Format: InlineSVG})
	out.SVG, out.Crossings, out.Findings = string(picture), len(drawn.Crossings), some(append(list, more...).Sorted())
	for _, p := range d.drawn.Places {
		out.Places[p.Part] = p.At[:]
	}
	for _, s := range drawn.Plan.Spots {
		spot := Spot(nil)
		if s.Part >= 0 {
			spot = Spot{s.At.X, s.At.Y}
		}
		out.Spots = append(out.Spots, spot)
	}
	return out, err
}

// Forget lets the next sketch begin anew: another loom is opened, or the
// drawing is to be laid out again.
func (d *Desk) Forget() { d.drawn = nil }
