package place

import (
	"loomwright/internal/scene"
)

// margin is the room for lanes around all parts, mm.
const margin = 13.0

// plan writes the layout down as a Plan, its upper left corner at the margin.
func (l *layout) plan() Plan {
	l.normalise()
	p := Plan{Strands: l.strands, Splices: l.splices, Left: l.left, Cost: l.total(), Awkward: l.awkward(), Spots: make([]Spot, len(l.g.Terms))}
	for i := range p.Spots {
		p.Spots[i].Part = -1
	}
	for i := range l.items {
		part := l.partOf(i)
		p.Parts = append(p.Parts, part)
		p.Box = p.Box.Union(part.Box)
	}
	for i := range l.items {
		if l.items[i].role != roleGroundwork {
			l.spots(&p, i)
		}
	}
	l.names(&p)
	l.labels(&p)
	p.Panels = l.panels()
	for _, part := range p.Parts {
		for _, n := range part.Name {
			p.Box = p.Box.Union(n.Box())
		}
	}
	for _, panel := range p.Panels {
		p.Box = p.Box.Union(panel.Box)
	}
	p.Box = p.Box.Grow(margin)
	return p
}

// normalise moves everything so that it starts at 0, 0, unless the loom file
// places parts: then its coordinates stand.
func (l *layout) normalise() {
	var r scene.Rect
	for i := range l.items {
		if l.items[i].fixed {
			return
		}
		if l.items[i].role != roleGroundwork {
			r = r.Union(l.items[i].box())
		}
	}
	for i := range l.items {
		l.items[i].at = l.items[i].at.Sub(r.Min)
	}
}

func (l *layout) partOf(i int) Part {
	it := &l.items[i]
	p := Part{Use: it.use, Splice: it.splice, At: it.at, Turn: it.turn, Scale: it.form.scale}
	if it.role == roleGroundwork {
		return p
	}
	p.Box = it.box()
	for _, s := range it.form.shapes {
		p.Shapes = append(p.Shapes, it.shape(s))
	}
	if it.fan != nil {
		p.Fan = &Fan{Mouth: it.world(it.fan.Mouth), Out: it.turn & 3, Leads: it.fan.Leads}
		for _, s := range it.fan.Slots {
			p.Fan.Slots = append(p.Fan.Slots, it.world(s))
		}
	}
	for _, s := range it.form.tips {
		p.Tips = append(p.Tips, Spot{Part: i, At: it.world(s.At), Exits: s.Exits.Turned(it.turn)})
	}
	if it.form.cases >= 0 {
		p.Case = l.caseOf(it)
	}
	return p
}

func (it *item) world(p scene.Point) scene.Point { return it.at.Add(turnPoint(p, it.turn)) }

func (it *item) worldBox(r scene.Rect) scene.Rect {
	b := turnBox(r, it.turn)
	return scene.Rect{Min: b.Min.Add(it.at), Max: b.Max.Add(it.at)}
}

func (it *item) shape(s Shape) Shape {
	s.Box = it.worldBox(s.Box)
	points := make([]scene.Point, len(s.Points))
	for k, p := range s.Points {
		points[k] = it.world(p)
	}
	s.Points = points
	return s
}

// caseOf is the metal that wires are soldered to, less what covers it and what
// stands in the way of the iron.
func (l *layout) caseOf(it *item) *Case {
	f := it.form
	spot := &f.spots[f.cases]
	shape := f.caseShape(spot.At)
	if shape == nil {
		return nil
	}
	c := &Case{Term: l.g.Term(it.use, f.cases), Box: it.worldBox(shape.Box), Round: shape.Kind == "circle", Exits: spot.Exits.Turned(it.turn)}
	after := false
	for k := range f.shapes {
		s := &f.shapes[k]
		switch {
		case s == shape:
			after = true
		case s.Stem:
			c.Holes = append(c.Holes, it.worldBox(s.Box.Grow(1.4)))
		case after && s.IsBody():
			c.Holes = append(c.Holes, it.worldBox(s.Box))
		}
	}
	for q := range f.spots {
		if s := &f.spots[q]; q != f.cases && s.Kind != "case" {
			c.Holes = append(c.Holes, it.worldBox(scene.Rect{Min: s.At, Max: s.At}.Grow(2)))
		}
	}
	return c
}

// spots puts an item's terminals in their places.
func (l *layout) spots(p *Plan, i int) {
	it := &l.items[i]
	if it.use < 0 {
		return
	}
	for k := range it.form.spots {
		s := it.form.spots[k]
		s.Part, s.At, s.Far, s.Pin = i, it.world(s.At), it.world(s.Far), it.world(s.Pin)
		s.Exits = s.Exits.Turned(it.turn)
		s.InCase = s.Kind == "case" && p.Parts[i].Case != nil
		if it.fan != nil && s.Kind == "lead" {
			continue // in the fan, or without a lead
		}
		p.Spots[l.g.Term(it.use, k)] = s
	}
	if it.fan == nil {
		return
	}
	for k, t := range it.fan.Leads {
		p.Spots[t] = Spot{Part: i, Kind: "lead", At: it.world(it.fan.Slots[k]), Far: it.world(it.fan.Mouth), InFan: true,
			Exits: exitBits["right"].Turned(it.turn)}
	}
}
