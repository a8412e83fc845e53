package drawing

import "loomwright/internal/scene"

// Live underlay and arrows, mm.
const (
	arrowPitch  = 24.0
	arrowFirst  = 9.0
	arrowLength = 2.7
	arrowWidth  = 2.9
)

// paintLive is the light under the live wires, and the closed contacts of the
// setting that carry the sound.
func (d *Drawing) paintLive() scene.Group {
	g := scene.Group{Class: "live"}
	for i := range d.Wires {
		w := &d.Wires[i]
		if _, live := d.flows[w.Strand]; live {
			g.Items = append(g.Items, scene.Path{Outline: w.Outline, Stroke: pen(liveInk, liveWidth)})
		}
	}
	for _, c := range d.liveContacts() {
		g.Items = append(g.Items, scene.Path{Outline: scene.Segment(c[0], c[1]), Stroke: pen(liveInk, liveWidth*0.7)},
			scene.Path{Outline: scene.Segment(c[0], c[1]), Stroke: scene.Stroke{Color: liveDark, Width: 0.5, Dash: []float64{1.2, 0.8}}})
	}
	return g
}

// liveContacts are the pairs of lugs that a switch joins in the setting and
// that live wires end on.
func (d *Drawing) liveContacts() [][2]scene.Point {
	lit := map[int]bool{}
	for i := range d.flows {
		s := &d.Plan.Strands[i]
		lit[s.A.Term], lit[s.B.Term] = true, true
	}
	var out [][2]scene.Point
	for i := range d.Graph.Switches {
		for _, pole := range d.Graph.Switches[i].Contacts {
			for _, group := range pole[d.Options.Setting.At[i]] {
				var at []scene.Point
				for _, t := range group {
					if lit[t] {
						at = append(at, d.Plan.Spots[t].At)
					}
				}
				for k := 1; k < len(at); k++ {
					out = append(out, [2]scene.Point{at[0], at[k]})
				}
			}
		}
	}
	return out
}

// paintArrows shows which way the sound's current goes, clear of tags and
// crossings.
func (d *Drawing) paintArrows() scene.Group {
	g := scene.Group{Class: "arrows"}
	for i := range d.Wires {
		w := &d.Wires[i]
		if f := d.flows[w.Strand]; f != 0 && w.Strand >= 0 {
			g.Items = append(g.Items, d.arrowsOn(i, f)...)
		}
	}
	return g
}

func (d *Drawing) arrowsOn(i int, f flow) []scene.Item {
	var out []scene.Item
	next := arrowFirst
	w := &d.Wires[i]
	w.eachPlace(0, w.Length, false, func(at scene.Point, _ bool, dist float64) {
		if dist < next || !d.clearForArrow(i, at) {
			return
		}
		next = dist + arrowPitch
		heading := w.headingAt(at)
		if f < 0 {
			heading += 180
		}
		tip := at.Add(scene.Toward(heading).Mul(arrowLength / 2))
		out = append(out, scene.Path{Class: "arrow", Outline: scene.Arrowhead(tip, heading, arrowLength, arrowWidth), Fill: liveDark,
			Stroke: scene.Stroke{Color: paper, Width: 0.3, Join: scene.RoundJoin}})
	})
	return out
}

// headingAt is a lane's heading at a place on it, in degrees.
func (w *Wire) headingAt(at scene.Point) float64 {
	for k := 1; k < len(w.Points); k++ {
		if pointSegment(at, w.Points[k-1], w.Points[k]) < 1e-6 {
			return w.Points[k].Sub(w.Points[k-1]).Heading()
		}
	}
	return 0
}

func (d *Drawing) clearForArrow(i int, at scene.Point) bool {
	box := around(at, 1.7)
	for k := range d.Tags {
		if d.Tags[k].Box().Overlaps(box) {
			return false
		}
	}
	for _, c := range d.Crossings {
		if c.At.Dist(at) < 3 {
			return false
		}
	}
	for k, p := range d.Wires[i].Points {
		if p.Dist(at) < 2.6 && k < len(d.Wires[i].Points) {
			return false
		}
	}
	return true
}
