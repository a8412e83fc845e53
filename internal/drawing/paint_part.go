package drawing

import (
	"cmp"
	"fmt"

	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// paintPart is a part's body with its words; its terminals are groups of their
// own.
func (d *Drawing) paintPart(i int) scene.Group {
	p := &d.Plan.Parts[i]
	g := scene.Group{ID: fmt.Sprintf("part-%d", i+1), Class: "part", Title: d.partTitle(p), Data: map[string]string{"part": d.partName(p)}}
	for _, s := range p.Shapes {
		if s.Kind == "line" {
			s.Points = d.untilRoots(s.Points)
		}
		g.Items = append(g.Items, paintShape(s)...)
	}
	for _, n := range d.names[i] {
		g.Items = append(g.Items, paintName(n))
	}
	return g
}

func (d *Drawing) partTitle(p *place.Part) string {
	if p.Use < 0 {
		return "sleeve over joined leads"
	}
	use := &d.Graph.Loom.Uses[p.Use]
	return use.Name + ": " + use.Part.Name
}

func paintShape(s place.Shape) []scene.Item {
	m, ok := materials[s.Fill]
	if s.Stem {
		m, ok = stemMetal, true
	}
	line := scene.Stroke{Color: m.edge, Width: 0.28, Join: scene.RoundJoin}
	if !ok {
		line.Color, line.Width = scene.RGB(0xA8A199), 0.2
	}
	switch s.Kind {
	case "circle":
		return []scene.Item{scene.Path{Class: s.Fill, Outline: scene.Ellipse(s.Box.Center(), s.Box.Width()/2, s.Box.Height()/2), Fill: m.fill, Stroke: line}}
	case "rect":
		return []scene.Item{scene.Path{Class: s.Fill, Outline: scene.RoundRect(s.Box, s.Round), Fill: m.fill, Stroke: line}}
	case "path":
		line.Width = 0.22
		return []scene.Item{scene.Path{Class: s.Fill, Outline: scene.Polygon(s.Points...), Fill: m.fill, Stroke: line}}
	case "line":
		return scene.Layers(scene.Polyline(0.8, s.Points...), "lead", pen(scene.RGB(0x77726C), leadEdge), pen(scene.RGB(0xDAD7D0), leadCore))
	case "text":
		return []scene.Item{scene.Text{Class: "label", At: s.Box.Center(), Content: s.Text, Size: 2.2, Anchor: scene.Middle, Baseline: scene.Central, Color: ink}}
	}
	return nil
}

func paintName(n place.Line) scene.Text {
	t := scene.Text{Class: "name", At: n.At, Content: n.Text, Size: n.Size, Style: scene.Style{Bold: n.Bold},
		Anchor: scene.Middle, Baseline: scene.Central, Color: ink}
	if n.Dark {
		t.Color = paper
	}
	return t
}

// paintTerm is one terminal: its pad or hole, the solder on it, its label.
func (d *Drawing) paintTerm(t int, soldered []Joint) scene.Group {
	s, term := &d.Plan.Spots[t], &d.Graph.Terms[t]
	g := scene.Group{ID: fmt.Sprintf("term-%d", t+1), Class: "terminal", Title: d.termTitle(t),
		Data: map[string]string{"term": fmt.Sprint(t), "name": term.Name}}
	switch {
	case s.InFan, s.InCase:
	case s.Kind == "pad":
		g.Items = append(g.Items, disc(s.At, 1.7, scene.RGB(0xD5D3CD), scene.RGB(0x77726C)))
	case s.Kind == "lead", s.Kind == "point", s.Kind == "plate":
	}
	if s.HasPin {
		g.Items = append(g.Items, disc(s.Pin, 0.9, scene.RGB(0xB4AFA8), scene.RGB(0x77726C)))
	}
	if len(soldered) == 0 && !s.InFan && !s.InCase && s.Kind != "lead" && !d.inSleeve(t) {
		g.Items = append(g.Items, disc(s.At, 0.75, paper, scene.RGB(0x77726C)))
	}
	for _, j := range soldered {
		g.Items = append(g.Items, solderDot(j.At)...)
	}
	if l, ok := d.labels[t]; ok {
		g.Items = append(g.Items, l.paint()...)
	}
	return g
}

// paint is a lug's name, and its line to the lug where it stands apart.
func (l *label) paint() []scene.Item {
	c := faintInk
	if l.Dark {
		c = paper
	}
	var out []scene.Item
	if l.leader != nil {
		out = append(out, line(*l.leader, l.leaderEnd(), ink, 0.25))
	}
	g := scene.Group{Place: scene.Transform{Move: l.At}}
	if l.Upright {
		g.Place.Turn = -90
	}
	for k, s := range l.Lines {
		y := (float64(k) - float64(len(l.Lines)-1)/2) * place.LabelPitch
		g.Items = append(g.Items, scene.Text{Class: "label", At: scene.Pt(0, y), Content: s, Size: labelSize,
			Anchor: scene.Middle, Baseline: scene.Central, Color: c})
	}
	return append(out, g)
}

// termTitle says where a terminal is, in the words of its part file.
func (d *Drawing) termTitle(t int) string {
	term := &d.Graph.Terms[t]
	title := term.Name
	if term.Terminal < 0 || term.Use < 0 {
		return title
	}
	f := &d.Graph.Loom.Uses[term.Use].Part.Terminals[term.Terminal]
	if f.Words != "" {
		title += ": " + f.Words
	}
	if f.View != "" {
		title += " (" + f.View + ")"
	}
	return title
}

// solderDot is a finished joint.
func solderDot(at scene.Point) []scene.Item {
	return []scene.Item{disc(at, 1.4, solder, solderInk), disc(at.Add(scene.Pt(-0.4, -0.45)), 0.42, solderLit, scene.Color{})}
}

// paintPanel is a cavity or plate: a tint with its name beside a corner.
func (d *Drawing) paintPanel(p place.Panel) []scene.Item {
	return []scene.Item{
		scene.Path{Class: "cavity", Outline: scene.RoundRect(p.Box, p.Round), Fill: cavity, Stroke: scene.Stroke{Color: cavityInk, Width: 0.35}},
		d.panelLabel(p),
	}
}

// panelLabel is a panel's name along its edge, where nothing else is: outside and
// below if it may.
func (d *Drawing) panelLabel(p place.Panel) scene.Text {
	t := scene.Text{Class: "label", Content: cmp.Or(d.plateWords(), p.Label), Size: 2.3, Style: scene.Style{Italic: true}, Baseline: scene.Central, Color: faintInk}
	t.At, t.Anchor = scene.Pt(p.Box.Max.X-p.Round, p.Box.Max.Y-2.6), scene.End
	first := t
	left, right := p.Box.Min.X+p.Round, p.Box.Max.X-p.Round-t.Bounds().Width()
	t.Anchor = scene.Start
	for _, y := range []float64{p.Box.Max.Y + panelWords, p.Box.Min.Y - panelWords, p.Box.Max.Y - panelWords, p.Box.Min.Y + panelWords} {
		for x := right; x >= left; x -= 1.5 {
			if t.At = scene.Pt(x, y); d.bare(t.Bounds().Grow(0.5)) {
				return t
			}
		}
	}
	return first
}

// panelWords is how far the name of a panel stands from its edge, mm.
const panelWords = 2.6

// bare reports whether nothing is drawn in a box.
func (d *Drawing) bare(box scene.Rect) bool {
	for i := range d.Wires {
		if covered(&d.Wires[i], box) > 0 {
			return false
		}
	}
	for k := range d.Tags {
		if d.Tags[k].Box().Overlaps(box) {
			return false
		}
	}
	for k := range d.Marks {
		if d.Marks[k].Box().Overlaps(box) {
			return false
		}
	}
	for k := range d.Touches {
		if d.Touches[k].Tag.Box().Overlaps(box) {
			return false
		}
	}
	for i := range d.Plan.Parts {
		if d.Plan.Parts[i].Box.Overlaps(box) || nameBox(d.names[i]).Overlaps(box) {
			return false
		}
	}
	return true
}

func disc(at scene.Point, r float64, fill, edge scene.Color) scene.Path {
	p := scene.Path{Outline: scene.Circle(at, r), Fill: fill}
	if edge.A > 0 {
		p.Stroke = scene.Stroke{Color: edge, Width: 0.25}
	}
	return p
}
