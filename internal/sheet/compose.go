package sheet

import (
	"fmt"
	"path"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/scene"
	"loomwright/internal/schematic"
	"loomwright/internal/setting"
)

// Compose makes the content of a sheet. The same input gives the same content.
func Compose(in Input) Document {
	d := Document{Title: titleOf(&in), Lang: "en", Footer: titleOf(&in) + " · made with Loomwright from " + fileOf(&in)}
	d.add(Head{Title: d.Title, Lines: headLines(&in), Code: newCode(in.Link)})
	d.add(before()...)
	d.add(settings(&in)...)
	d.add(findings(&in)...)
	d.add(circuit(&in)...)
	d.add(drawn(&in)...)
	d.add(partsList(&in)...)
	d.add(cutList(&in)...)
	d.add(steps(&in)...)
	d.add(card(&in)...)
	d.add(template(&in)...)
	return d
}

func (d *Document) add(blocks ...Block) { d.Blocks = append(d.Blocks, blocks...) }

func titleOf(in *Input) string {
	if t := in.Graph.Loom.Title; t != "" {
		return t
	}
	return "Wiring loom"
}

// fileOf is the loom file's name without its folder.
func fileOf(in *Input) string {
	return path.Base(strings.ReplaceAll(in.Graph.Loom.Doc.Text.Name, `\`, "/"))
}

func headLines(in *Input) []string {
	var out []string
	who := "Build sheet"
	if in.For != "" {
		who += " for " + in.For
	}
	if in.Date != "" {
		who += ", " + in.Date
	}
	out = append(out, who)
	l := in.Graph.Loom
	facts := fmt.Sprintf("%d parts, %d joins, %s", len(l.Uses), len(in.Graph.Runs), counted(len(in.Rows), "setting"))
	if l.Left {
		facts += ", left-handed"
	}
	if l.EndsSwapped {
		facts += " with pot ends swapped"
	}
	out = append(out, facts)
	if l.Note != "" {
		out = append(out, l.Note)
	}
	return out
}

func counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// findings prints what the proof still objects to: nobody should solder past it
// unknowing.
func findings(in *Input) []Block {
	var items []string
	for _, f := range in.Findings {
		if f.Severity > diag.Info {
			items = append(items, "**"+f.Code+"**: "+capital(f.Message)+".")
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []Block{Heading{Text: "Look at this before you solder", Level: 2}, Paragraph{Text: "Loomwright proved this loom and has found:"}, List{Items: items}}
}

// drawn is the drawing on a page of its own.
func drawn(in *Input) []Block {
	if in.Drawing == nil {
		return nil
	}
	return []Block{Page{Name: "Drawing, to scale, from the solder side", Scene: func(paper scene.Size) scene.Scene {
		d := *in.Drawing
		d.Options.Page = drawing.A4
		if paper == scene.Letter {
			d.Options.Page = drawing.Letter
		}
		return onWhite(d.Scene())
	}}}
}

// onWhite is a drawing on white paper instead of its own: a printer's ink is
// not for the ground.
func onWhite(s scene.Scene) scene.Scene {
	if len(s.Items) == 0 {
		return s
	}
	if p, ok := s.Items[0].(scene.Path); ok && p.Class == "paper" {
		s.Items = recoloured(s.Items[1:], p.Fill, scene.White)
	}
	return s
}

// recoloured changes one colour into another.
func recoloured(items []scene.Item, from, to scene.Color) []scene.Item {
	change := func(c scene.Color) scene.Color {
		if c == from {
			return to
		}
		return c
	}
	out := make([]scene.Item, len(items))
	for i, it := range items {
		switch it := it.(type) {
		case scene.Path:
			it.Fill, it.Stroke.Color = change(it.Fill), change(it.Stroke.Color)
			out[i] = it
		case scene.Text:
			it.Color, it.Halo.Color = change(it.Color), change(it.Halo.Color)
			out[i] = it
		case scene.Group:
			it.Items = recoloured(it.Items, from, to)
			out[i] = it
		}
	}
	return out
}

// legible is how small the circuit diagram may become, so that its smallest
// words stay 1.5 mm.
const legible = 0.8

// circuit is the circuit diagram with what it leaves to words.
func circuit(in *Input) []Block {
	if len(in.Rows) == 0 {
		return nil
	}
	c := schematic.Whole(in.Graph, setting.Nth(in.Graph, 0))
	if c.Scene.Width == 0 {
		return nil
	}
	return []Block{Heading{Text: "Circuit", Level: 1}, Figure{Scene: c.Scene, Height: max(108, legible*c.Scene.Height)},
		Paragraph{Text: strings.Join(c.Notes, " "), Small: true},
		Paragraph{Text: "Symbols after IEC 60617, from memory; wires that cross are joined only where there is a dot. Dots beside coils are their starts.", Small: true}}
}
