package drawing

import (
	"fmt"

	"loomwright/internal/scene"
	"loomwright/internal/units"
)

// cautions are what a solderer is reminded of on every drawing (common practice).
const cautions = "Unplug first. Air and eye protection while soldering; wash hands after leaded solder. The string ground " +
	"reaches the player: have mains amplifiers tested. Local codes and licensed practice come first."

// footer is scale bar, colour key and title block.
func (p *page) footer() scene.Group {
	g := scene.Group{Class: "foot"}
	g.Items = append(g.Items, line(scene.Pt(pageMargin, p.foot), scene.Pt(p.size.Width-pageMargin, p.foot), rule, 0.3))
	g.Items = append(g.Items, p.scaleBar(), p.howToRead(), p.key(), p.block())
	return g
}

// scaleBar is 50 mm of the parts.
func (p *page) scaleBar() scene.Group {
	g := scene.Group{ID: "scale-bar", Class: "scale", Title: "scale bar of 50 mm"}
	x, y := pageMargin, p.foot+6
	w := barLength * p.scale / 5
	for i := range 5 {
		fill := ink
		if i%2 == 1 {
			fill = paper
		}
		g.Items = append(g.Items, scene.Path{Outline: scene.Rectangle(scene.Box(x+float64(i)*w, y, w, 1.5)), Fill: fill, Stroke: scene.Stroke{Color: ink, Width: 0.2}})
	}
	small := func(x float64, s string, a scene.Anchor) scene.Text {
		return scene.Text{At: scene.Pt(x, y-1.1), Content: s, Size: noteSize, Anchor: a, Color: ink}
	}
	g.Items = append(g.Items, small(x, "0", scene.Start), small(x+5*w, "50 mm", scene.End),
		scene.Text{At: scene.Pt(x, y+4.6), Content: p.scaleWords(), Size: noteSize, Color: faintInk})
	return g
}

// howToRead explains a tag, a joint and a crossing.
func (p *page) howToRead() scene.Group {
	x, y := pageMargin, p.foot+14.4
	t := Tag{Step: "7", Text: "GN"}
	a, b := t.widths()
	g := scene.Group{Class: "reading"}
	say := func(x, y float64, s string) {
		g.Items = append(g.Items, scene.Text{At: scene.Pt(x, y), Content: s, Size: noteSize, Baseline: scene.Central, Color: faintInk})
	}
	g.Items = append(g.Items, paintSleeve(&t, scene.Pt(x+(a+b)/2, y)))
	say(x+a+b+1.2, y, "solder step, colour")
	g.Items = append(g.Items, solderDot(scene.Pt(x+1.4, y+4.6))...)
	say(x+4, y+4.6, "solder here")
	g.Items = append(g.Items, disc(scene.Pt(x+22, y+4.6), 0.75, paper, scene.RGB(0x77726C)))
	say(x+24, y+4.6, "free lug")
	for k, s := range p.d.notes() {
		say(x, y+9.2+float64(k)*notePitch, s)
	}
	return g
}

// notePitch is from one line of notes to the next, mm.
const notePitch = 4.0

// notes explain what only some drawings have.
func (d *Drawing) notes() []string {
	out := []string{"Where wires cross, the later step lies on top."}
	if len(d.Marks) > 0 {
		out = append(out, "⏚: a ground wire between the two marks of a step.")
	}
	if len(d.tails) > 0 {
		out = append(out, d.tailNote())
	}
	if len(d.Touches) > 0 {
		out = append(out, "“touches”: metal on metal, nothing to solder.")
	}
	for i := range d.Plan.Parts {
		if d.Plan.Parts[i].Scale > 1 {
			return append(out, "“enlarged”: larger than the scale bar says.")
		}
	}
	return out
}

// tailNote takes the first step that leaves a tail as its example.
func (d *Drawing) tailNote() string {
	for i := range d.Wires {
		if end := d.laterEnd(&d.Wires[i]); end >= 0 {
			w := &d.Wires[i]
			return fmt.Sprintf("%s: left free in step %d, joined in step %d.", d.stepText(w, end), w.Step, d.tails[tail{w.Run, d.endTerm(w, end)}])
		}
	}
	return ""
}

// keyEntry is one look in the colour key.
type keyEntry struct {
	look Look
	word string
}

// keyEntries are the looks that the drawing uses, in the order of their steps.
func (d *Drawing) keyEntries() []keyEntry {
	var out []keyEntry
	seen := map[string]bool{}
	once := func(id string, look Look, word string) {
		if !seen[id] {
			seen[id] = true
			out = append(out, keyEntry{look, word})
		}
	}
	for i := range d.Wires {
		look := d.Wires[i].Look
		if look.Kind == ScreenedCable {
			once("screened", look, "screened")
			look.Kind = Insulated
		}
		if look.Sleeved {
			once("sleeved", look, "sleeved")
		}
		if d.Wires[i].with >= 0 {
			once("twisted", look, "twisted pair")
		}
		look.Sleeved, look.Twisted = false, false
		switch {
		case look.Kind == BareWire:
			look.Letters, look.Word = "bare", "bare or braid"
		case look.Kind == ComponentLead:
			look.Word = "part's own lead"
		case look.Kind == Insulated && look.Colour.Base == "":
			look.Letters, look.Word = "", "colour not known"
		}
		once(look.Letters+look.Word, look, look.Word)
	}
	return out
}

// keyColumns is how many entries stand beside one another.
func (p *page) keyColumns() int {
	return max(1, int((p.size.Width-2*pageMargin-scaleColumn-blockWidth-4)/keyWidth))
}

const keyWidth = 34.0

func (p *page) footHeight() float64 {
	n := len(p.d.keyEntries())
	c := p.keyColumns()
	return max(footHeight, float64((n+c-1)/c)*keyPitch+4, 14.4+9.2+1.5+float64(len(p.d.notes())-1)*notePitch)
}

// key shows each look with its letters and its word.
func (p *page) key() scene.Group {
	g := scene.Group{ID: "colour-key", Class: "key", Title: "colour key, letters of IEC 60757"}
	columns := p.keyColumns()
	for i, e := range p.d.keyEntries() {
		x := pageMargin + scaleColumn + float64(i%columns)*keyWidth
		y := p.foot + 5 + float64(i/columns)*keyPitch
		g.Items = append(g.Items, e.paint(x, y)...)
	}
	return g
}

func (e keyEntry) paint(x, y float64) []scene.Item {
	w := Wire{bared: [2]float64{3, 3}, Look: e.look, Outline: scene.Segment(scene.Pt(x+1, y), scene.Pt(x+swatch, y))}
	out := w.body()
	if e.word == "twisted pair" {
		out = paintTwist(w.Outline, e.look, Look{Colour: units.Colour{Base: "black"}})
	}
	word := scene.Text{At: scene.Pt(x+swatch+2, y), Content: e.word, Size: noteSize, Baseline: scene.Central, Color: ink}
	if e.look.Letters != "" && e.look.Kind == Insulated && e.look.Letters != e.word && e.word == e.look.Word {
		out = append(out, scene.Text{At: word.At, Content: e.look.Letters, Size: noteSize, Style: scene.Bold, Baseline: scene.Central, Color: ink})
		word.At.X += max(scene.TextWidth(e.look.Letters, noteSize, scene.Bold)+1.2, 5.4)
	}
	return append(out, word)
}

// block is the title block: which loom, from which file, and the cautions.
func (p *page) block() scene.Group {
	x := p.size.Width - pageMargin - blockWidth
	g := scene.Group{Class: "block"}
	y := p.foot + 5
	name := "Loomwright · " + p.d.fileName()
	size := min(noteSize, noteSize*blockWidth/scene.TextWidth(name, noteSize, scene.Bold))
	g.Items = append(g.Items, scene.Text{At: scene.Pt(x, y), Content: name, Size: size, Style: scene.Bold, Baseline: scene.Central, Color: ink})
	for _, s := range scene.Wrap("⚠ "+cautions, blockWidth, noteSize-0.3, scene.Regular) {
		y += 3.3
		g.Items = append(g.Items, scene.Text{At: scene.Pt(x, y), Content: s, Size: noteSize - 0.3, Baseline: scene.Central, Color: faintInk})
	}
	return g
}
