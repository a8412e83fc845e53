//go:build !js

package bench

import (
	"loomwright/internal/diag"
	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/schematic"
	"loomwright/internal/setting"
)

// DrawCircuit draws the circuit diagram of a loom, with its contacts in the
// setting o.With (the first, where none is named), and below it what the picture
// leaves to words; with only, what that setting leaves of it. Of o, the format,
// Grey and DPI count as well. The error is a usage error.
func (b *Bench) DrawCircuit(name, data string, only bool, o DrawOptions) (Drawn, error) {
	g, _, list := b.graph(diag.NewText(name, data))
	out := Drawn{Findings: list}
	if g == nil || g.Hot < 0 {
		return out, nil
	}
	at := setting.Nth(g, 0)
	if o.With != "" {
		match, err := setting.Match(g, o.With)
		if err != nil {
			return out, err
		}
		at = match[0]
	}
	draw := schematic.Whole
	if only {
		draw = schematic.Setting
	}
	s := captioned(draw(g, at))
	report := proof.Prove(g)
	if warn := notProved(report.Rows, report.Findings); warn != "" {
		s.Items = append(s.Items, banner(s, warn))
		out.Findings = append(out.Findings, drawnUnproved(g, warn)).Sorted()
	}
	var err error
	out.Picture, err = paint(s, o)
	return out, err
}

// captioned is a circuit diagram on paper of its own: its title above it, its
// notes below, as wide as the diagram or as a warning across the head.
func captioned(c schematic.Circuit) scene.Scene {
	const margin, least, size, large = 8.0, 170.0, 3.0, 4.5
	width, y := max(c.Scene.Width, least), 14.0
	var items []scene.Item
	write := func(text string, size float64, style scene.Style) {
		for _, line := range scene.Wrap(text, width, size, style) {
			items = append(items, scene.Text{At: scene.Pt(margin, y), Content: line, Size: size, Style: style, Color: scene.RGB(0x1c2127)})
			y += 1.4 * size
		}
	}
	write(c.Scene.Title, large, scene.Bold)
	items = append(items, scene.Group{Place: scene.Moved(margin, y), Items: c.Scene.Items})
	y += c.Scene.Height + 2*size
	for _, note := range c.Notes {
		write(note, size, scene.Regular)
	}
	write("Symbols after IEC 60617, from memory; wires that cross are joined only where there is a dot. Dots beside coils are their starts.", size, scene.Regular)
	return scene.Scene{Width: width + 2*margin, Height: y + margin - size, Title: c.Scene.Title, Items: items}
}
