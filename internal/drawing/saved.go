package drawing

import (
	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// Saved is what a later drawing of the same loom needs to leave in place what
// can stay: it is written to a file and read again.
type Saved struct {
	Version int         `json:"loomwright-drawing"`
	Places  []SavedPart `json:"places"`
	Lanes   []SavedLane `json:"lanes"`
}

// SavedPart is where a part stood.
type SavedPart struct {
	Part string     `json:"part"`
	At   [3]float64 `json:"at"` // x, y in mm, quarter turns
}

// SavedLane is a wire's lane, corners in mm.
type SavedLane struct {
	A      string       `json:"a"`
	B      string       `json:"b"`
	Points [][2]float64 `json:"points"`
}

// Save keeps a drawing's places and lanes.
func (d *Drawing) Save() *Saved {
	s := &Saved{Version: 1}
	for i := range d.Plan.Parts {
		p := &d.Plan.Parts[i]
		s.Places = append(s.Places, SavedPart{d.partName(p), [3]float64{p.At.X, p.At.Y, float64(p.Turn)}})
	}
	for _, w := range d.Wires {
		if w.lane == nil {
			continue // straight from lug to lug
		}
		lane := SavedLane{A: w.A, B: w.B}
		for _, p := range w.lane {
			lane.Points = append(lane.Points, [2]float64{p.X, p.Y})
		}
		s.Lanes = append(s.Lanes, lane)
	}
	return s
}

func (d *Drawing) partName(p *place.Part) string {
	if p.Use < 0 {
		return place.SpliceName(d.Graph, d.Plan.Splices[p.Splice])
	}
	return d.Graph.Loom.Uses[p.Use].Name
}

// Keep is what the layout needs to leave parts where they stood.
func (s *Saved) Keep() map[string][3]float64 {
	if s == nil {
		return nil
	}
	out := map[string][3]float64{}
	for _, p := range s.Places {
		out[p.Part] = p.At
	}
	return out
}

// keep fixes the lanes of wires that the earlier drawing has.
func (b *board) keep() {
	prev := b.d.Options.Previous
	if prev == nil {
		return
	}
	lanes := map[[2]string][]SavedLane{}
	for _, l := range prev.Lanes {
		lanes[[2]string{l.A, l.B}] = append(lanes[[2]string{l.A, l.B}], l)
	}
	for i := range b.wires {
		key := b.names(i)
		if len(lanes[key]) == 0 {
			continue
		}
		for _, p := range lanes[key][0].Points {
			b.wires[i].Fix = append(b.wires[i].Fix, scene.Pt(p[0], p[1]))
		}
		lanes[key] = lanes[key][1:]
	}
}

// names is what a wire joins, as collect will call it.
func (b *board) names(i int) [2]string {
	if b.strand[i] < 0 {
		return [2]string{b.d.Graph.Terms[b.lead[i]].Name, ""}
	}
	w := Wire{}
	b.d.fillWire(&w, &b.d.Plan.Strands[b.strand[i]])
	return [2]string{w.A, w.B}
}
