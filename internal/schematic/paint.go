package schematic

import (
	"slices"

	"loomwright/internal/scene"
)

// Pens in mm.
const (
	wirePen = 0.3
	bodyPen = 0.4
	thinPen = 0.25
	dotSize = 0.55
)

// local turns units of a symbol's own coordinates into mm.
func local(x, y float64) scene.Point { return scene.Pt(x*unit, y*unit) }

func line(width float64, pts ...scene.Point) scene.Item {
	return scene.Path{Outline: scene.Polyline(0, pts...), Stroke: pen(width)}
}

// paint draws a symbol at its place.
func (s *symbol) paint(l *layout) scene.Item {
	var items []scene.Item
	switch s.kind {
	case coilSymbol:
		items = s.paintCoil()
	case potSymbol:
		items = s.paintPot()
	case capacitorSymbol:
		items = s.paintCapacitor()
	case resistorSymbol:
		items = s.paintResistor()
	case poleSymbol:
		items = s.paintPole(l)
	case jackSymbol:
		items = s.paintJack()
	}
	place := scene.Transform{Move: s.origin.mm()}
	if s.flipped {
		place = scene.Transform{Mirror: true, Move: s.origin.add(gp{s.pivot(), 0}).mm()}
	}
	return scene.Group{Class: "symbol", Title: s.title, Place: place, Items: items}
}

// paintCoil is the winding: half circles, a dot at the start.
func (s *symbol) paintCoil() []scene.Item {
	o := scene.Outline{}.Move(0, 0).Line(0, unit)
	for i := range 3 {
		o = o.Arc(local(0, 1.5+float64(i)), unit/2, unit/2, -90, 180)
	}
	o = o.Line(0, 5*unit)
	y := 4.55
	if s.dotTop {
		y = 0.45
	}
	dot := scene.Path{Outline: scene.Circle(local(-0.4, y), 0.5), Fill: ink}
	items := []scene.Item{scene.Path{Outline: o, Stroke: pen(bodyPen)}, dot}
	for i, e := range s.ends {
		t := words(e, local(0.3, []float64{0.42, 4.62}[i]), pinSize, scene.Start)
		items = append(items, t)
	}
	return append(items, s.paintWords(local(-1, 2.5), scene.End)...)
}

// paintWords sets the title and the lines under it around a height.
func (s *symbol) paintWords(at scene.Point, anchor scene.Anchor) []scene.Item {
	title := words(s.title, at, titleSize, anchor)
	title.Style = scene.Bold
	title.At.Y -= float64(len(s.lines)) * 1.5
	items := []scene.Item{title}
	for i, text := range s.lines {
		t := words(text, scene.Pt(at.X, title.At.Y+3*float64(i+1)), valueSize, anchor)
		items = append(items, t)
	}
	return items
}

// paintPot is a resistor with a movable contact.
func (s *symbol) paintPot() []scene.Item {
	body := scene.Path{Outline: scene.Rectangle(scene.Box(-0.45*unit, unit, 0.9*unit, 4*unit)), Stroke: pen(bodyPen)}
	items := []scene.Item{
		line(wirePen, local(0, 0), local(0, 1)), line(wirePen, local(0, 5), local(0, 6)), body,
		line(wirePen, local(3, 3), local(0.8, 3)),
		scene.Path{Outline: scene.Arrowhead(local(0.45, 3), 180, 1.7, 1.4), Fill: ink},
	}
	for i, e := range s.ends {
		items = append(items, words(e, local(-0.3, []float64{0.5, 5.5}[i]), pinSize, scene.End))
	}
	return append(items, s.paintWords(local(-0.9, 3), scene.End)...)
}

func (s *symbol) paintCapacitor() []scene.Item {
	items := []scene.Item{
		line(wirePen, local(0, 0), local(0, 1.3)), line(wirePen, local(0, 1.7), local(0, 3)),
		line(bodyPen, local(-0.8, 1.3), local(0.8, 1.3)), line(bodyPen, local(-0.8, 1.7), local(0.8, 1.7)),
	}
	return append(items, s.paintWords(local(1.2, 1.5), scene.Start)...)
}

func (s *symbol) paintResistor() []scene.Item {
	items := []scene.Item{
		line(wirePen, local(0, 0), local(0, 1)), line(wirePen, local(0, 4), local(0, 5)),
		scene.Path{Outline: scene.Rectangle(scene.Box(-0.45*unit, unit, 0.9*unit, 3*unit)), Stroke: pen(bodyPen)},
	}
	return append(items, s.paintWords(local(1, 2.5), scene.Start)...)
}

// paintPole is a switch contact: the arm, or the arms of a bridging one, go to
// the throws that are closed.
func (s *symbol) paintPole(l *layout) []scene.Item {
	common := s.pins[len(s.pins)-1].at
	w, mid := float64(common.x), float64(common.y)
	stub := w - 6
	hinge := local(w-2, mid)
	items := []scene.Item{line(wirePen, local(w, mid), hinge)}
	for i, t := range s.throws {
		at := local(stub+1, float64(2*i))
		items = append(items, line(wirePen, local(0, float64(2*i)), at))
		items = append(items, words(t.label, local(0.2, float64(2*i)-0.5), pinSize, scene.Start))
		if t.closed {
			items = append(items, line(bodyPen, hinge, at))
		}
		items = append(items, contact(at))
	}
	if !slices.ContainsFunc(s.throws, func(t throw) bool { return t.closed }) {
		items = append(items, line(bodyPen, hinge, local(w-2-openTip, s.openArm())))
	}
	items = append(items, contact(hinge))
	name := words(lastWord(pinWords(l.g, s.pins[len(s.pins)-1].term)), local(w-0.2, mid-0.5), pinSize, scene.End)
	title := words(s.title, local(0, -2), titleSize, scene.Start)
	title.Style = scene.Bold
	return append(items, name, title)
}

func contact(at scene.Point) scene.Item {
	return scene.Path{Outline: scene.Circle(at, 0.6), Fill: scene.White, Stroke: pen(wirePen)}
}

// paintJack is a jack: the spring of the tip, the bar of the sleeve.
func (s *symbol) paintJack() []scene.Item {
	items := []scene.Item{
		line(bodyPen, local(0, 0), local(5, 0), local(5.5, 0.9), local(6, 0)),
		line(bodyPen, local(0, 4), local(7.2, 4)),
		scene.Path{Outline: scene.Rectangle(scene.Box(7.2*unit, 1*unit, 0.8*unit, 3.6*unit)), Fill: scene.White, Stroke: pen(bodyPen)},
		words(s.ends[0], local(0.3, -0.55), pinSize, scene.Start),
		words(s.ends[1], local(0.3, 3.45), pinSize, scene.Start),
	}
	if s.screened {
		items = append(items, s.paintScreen()...)
	}
	title := words(s.title, local(float64(s.max.x), -2), titleSize, scene.End)
	title.Style = scene.Bold
	return append(items, title)
}

// paintScreen is the screen around the wire to a jack's tip: a broken oval, with
// a line to the sleeve where it is soldered there.
func (s *symbol) paintScreen() []scene.Item {
	const x, half = 3.2, 0.62
	oval := scene.Path{Class: "screen", Outline: scene.Ellipse(local(x, 0), 0.32*unit, half*unit), Stroke: scene.Stroke{Color: ink, Width: thinPen, Dash: []float64{0.8, 0.5}}}
	if !s.braided {
		return []scene.Item{oval}
	}
	dot := scene.Path{Outline: scene.Circle(local(x, 4), dotSize), Fill: ink}
	return []scene.Item{oval, line(thinPen, local(x, half), local(x, 4)), dot}
}

// groundMark is the earth symbol at a pin.
func groundMark(at, out gp) scene.Item {
	a, d := at.mm(), scene.Pt(float64(out.x), float64(out.y))
	side := d.Perp()
	o := scene.Segment(a, a.Add(d.Mul(0.9*unit)))
	for i, half := range []float64{1.9, 1.2, 0.5} {
		mid := a.Add(d.Mul(0.9*unit + 0.85*float64(i)))
		o = append(o, scene.Segment(mid.Sub(side.Mul(half)), mid.Add(side.Mul(half)))...)
	}
	return scene.Path{Class: "ground", Outline: o, Stroke: pen(wirePen)}
}

// paintWires draws the wires of all nets and a dot where three meet.
func (r *router) paintWires(l *layout) []scene.Item {
	var items []scene.Item
	for net := range l.nets.Count {
		var o scene.Outline
		var dots []scene.Item
		for node := range r.blocked {
			for dir := range 2 {
				if r.edges[dir][node] != net || r.netAt(node, dir+2) == net {
					continue // not this net's, or not the start of a straight
				}
				end := node
				for r.edges[dir][end] == net {
					end = r.node(r.at(end).add(headings[dir]))
				}
				o = append(o, scene.Segment(r.at(node).mm(), r.at(end).mm())...)
			}
			if r.degree(node, net) > 2 {
				dots = append(dots, scene.Path{Outline: scene.Circle(r.at(node).mm(), dotSize), Fill: ink})
			}
		}
		if len(o) > 0 {
			items = append(items, scene.Group{Class: "net", Items: append([]scene.Item{scene.Path{Outline: o, Stroke: pen(wirePen)}}, dots...)})
		}
	}
	return items
}
