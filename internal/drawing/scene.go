package drawing

import (
	"loomwright/internal/scene"
)

// Scene is the drawing on its page, in mm.
func (d *Drawing) Scene() scene.Scene {
	p := d.newPage()
	s := scene.Scene{Width: p.size.Width, Height: p.size.Height, Title: d.title(), Desc: d.describe()}
	s.Items = append(s.Items,
		scene.Path{Class: "paper", Outline: scene.Rectangle(scene.Box(0, 0, s.Width, s.Height)), Fill: paper},
		p.header(), p.loom(), p.footer())
	if len(p.band.cells) > 0 {
		s.Items = append(s.Items, p.paintBand(scene.Pt(pageMargin, p.foot-p.band.height)))
	}
	return s
}

// Loom is the drawing alone, in the plan's coordinates: for close-ups and for
// pages that have their own frame.
func (d *Drawing) Loom() scene.Group {
	return scene.Group{ID: "loom", Class: "loom", Items: d.items()}
}

// items are all of the drawing, what lies on top last.
func (d *Drawing) items() []scene.Item {
	var out []scene.Item
	for _, p := range d.Plan.Panels {
		out = append(out, d.paintPanel(p)...)
	}
	out = append(out, d.paintParts(false)...)
	if d.Options.Setting != nil {
		out = append(out, d.paintLive())
	}
	for i := range d.Wires {
		out = append(out, d.paintWire(i))
	}
	out = append(out, d.paintParts(true)...)
	joints := map[int][]Joint{}
	for _, j := range d.joints {
		joints[j.Term] = append(joints[j.Term], j)
	}
	for t := range d.Plan.Spots {
		if d.Plan.Spots[t].Part >= 0 {
			out = append(out, d.paintTerm(t, joints[t]))
		}
	}
	for i := range d.Marks {
		out = append(out, d.paintMark(i))
	}
	for i := range d.Touches {
		out = append(out, d.paintTouch(i))
	}
	for i := range d.Tags {
		out = append(out, d.paintTag(i))
	}
	if d.Options.Setting != nil {
		out = append(out, d.paintArrows())
	}
	return out
}

// paintParts paints the sleeves over joined wires, or all other parts.
func (d *Drawing) paintParts(sleeves bool) []scene.Item {
	var out []scene.Item
	for i := range d.Plan.Parts {
		if d.Plan.Parts[i].Sleeve() == sleeves {
			out = append(out, d.paintPart(i))
		}
	}
	return out
}
