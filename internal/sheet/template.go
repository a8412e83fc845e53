package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/scene"
)

// control is a part that goes through the plate, in its place seen from the
// front, mm.
type control struct {
	use  *loom.Use
	at   scene.Point
	turn float64 // degrees clockwise, seen from the front
}

// controls lists what needs a hole. The drawing is seen from the back: the
// front has left and right swapped.
func controls(in *Input) []control {
	if in.Drawing == nil {
		return nil
	}
	var out []control
	for _, p := range in.Drawing.Plan.Parts {
		if p.Use < 0 {
			continue
		}
		u := &in.Graph.Loom.Uses[p.Use]
		switch u.Part.Class {
		case "pot", "switch", "jack":
			out = append(out, control{u, scene.Pt(-p.At.X, p.At.Y), -90 * float64(p.Turn)})
		}
	}
	return out
}

var (
	holeSize  = regexp.MustCompile(`^([0-9.]+) mm`)
	screwsAt  = regexp.MustCompile(`two screws ([0-9.]+) mm apart`)
	slotSize  = regexp.MustCompile(`slot ([0-9.]+) x ([0-9.]+) mm`)
	markSpace = 16.0 // mm around the outermost centre
	holeText  = 24.0 // mm: the words of a hole are no wider
)

const marginTemplate = 6.0 // mm: words keep to it, holes stand where they are

const screwHole = 3.2 // mm, from memory

// holes is the outline of what is cut for a control, around its centre.
func (c *control) holes() scene.Outline {
	var o scene.Outline
	b := c.use.Part.Body
	if m := holeSize.FindStringSubmatch(b.Hole); m != nil {
		o = append(o, scene.Circle(scene.Point{}, number(m[1])/2)...)
	}
	if m := screwsAt.FindStringSubmatch(b.Hole); m != nil {
		d := number(m[1]) / 2
		o = append(o, scene.Circle(scene.Pt(-d, 0), screwHole/2)...)
		o = append(o, scene.Circle(scene.Pt(d, 0), screwHole/2)...)
	}
	if m := slotSize.FindStringSubmatch(b.Hole + ", " + b.Shaft); m != nil {
		w, h := number(m[1]), number(m[2])
		o = append(o, scene.RoundRect(scene.Box(-w/2, -h/2, w, h), h/2)...)
	}
	return o.Transformed(scene.Transform{Turn: c.turn, Move: c.at})
}

func number(s string) float64 {
	x, _ := strconv.ParseFloat(s, 64)
	return x
}

// holeWords says what to cut.
func (c *control) holeWords() string {
	b := c.use.Part.Body
	words := nonEmpty(b.Hole)
	if m := slotSize.FindString(b.Shaft); m != "" && !strings.Contains(b.Hole, "slot") {
		words = append(words, m)
	}
	return strings.NewReplacer(" x ", nbsp+"×"+nbsp, " mm", nbsp+"mm").Replace(strings.Join(words, ", "))
}

// template is the 1:1 template of control holes, on a page of its own.
func template(in *Input) []Block {
	all := controls(in)
	if len(all) == 0 {
		return nil
	}
	return []Block{Page{Name: "Template of control holes, seen from the front", Exact: true, Scene: func(paper scene.Size) scene.Scene {
		return templatePage(in, all, paper)
	}}}
}

func templatePage(in *Input, all []control, paper scene.Size) scene.Scene {
	box := spread(all)
	if box.Width() > box.Height() && box.Width() > paper.Width-2*marginSide {
		paper = paper.Landscape()
	}
	s := scene.Scene{Width: paper.Width, Height: paper.Height, Title: titleOf(in) + ": template of control holes"}
	notes := []string{
		"**True to size**: print at 100 %, not “fit to page”, and measure the bar before you drill.",
		"Seen from the front. For a holding card at the bench, turn the paper over.",
		"The places are those of the drawing, laid out by rule unless the loom file places the parts: lay the template on your guitar and move the crosses to its own holes before anything is cut.",
	}
	if box.Width() > paper.Width-2*10 || box.Height() > paper.Height-60 {
		notes = append(notes, "**The controls are wider apart than this paper**: what is cut off is missing; use the distances of the guitar.")
	}
	s.Items = pageHead("Template of control holes", notes, paper)
	mid := scene.Pt(paper.Width/2, (paper.Height+38)/2)
	var marks []scene.Item
	var names []label
	var bodies []scene.Rect
	for i := range all {
		body := all[i].paint()
		marks = append(marks, body...)
		bodies = append(bodies, scene.Bounds(body))
		names = append(names, newLabel(all[i].use.Name, all[i].holeWords(), holeText, 2.6, scene.Pt(all[i].at.X, bodies[i].Max.Y+1)))
	}
	move := mid.Sub(box.Center())
	settle(names, bodies, marginTemplate-move.X, paper.Width-marginTemplate-move.X)
	for i := range names {
		marks = append(marks, names[i].paint()...)
	}
	s.Items = append(s.Items, scene.Group{ID: "holes", Title: "control holes", Place: scene.Transform{Move: move}, Items: marks})
	s.Items = append(s.Items, bar(scene.Pt(marginSide, paper.Height-18)))
	return s
}

// pageHead is the title and the notes at the top of a whole page.
func pageHead(title string, notes []string, paper scene.Size) []scene.Item {
	items, used := setLines(wrap("**"+title+"**", paper.Width-2*marginSide, headSize1), scene.Pt(marginSide, marginTop), headSize1, 1.25, ink)
	y := marginTop + used + 1.5
	for _, n := range notes {
		lines, h := setLines(wrap(n, paper.Width-2*marginSide, bodySize), scene.Pt(marginSide, y), bodySize, lineHeight, ink)
		items = append(items, lines...)
		y += h
	}
	return items
}

// spread is the box of all centres and what is cut there.
func spread(all []control) scene.Rect {
	var r scene.Rect
	for i := range all {
		r = r.Union(all[i].holes().Bounds())
		r = r.Union(scene.Box(all[i].at.X-markSpace/2, all[i].at.Y-markSpace/2, markSpace, markSpace))
	}
	return r
}

// paint draws a hole with its centre cross.
func (c *control) paint() []scene.Item {
	thin := scene.Stroke{Color: ink, Width: 0.18}
	o := c.holes()
	reach := max(8, o.Bounds().Height()/2+3)
	cross := append(scene.Segment(c.at.Sub(scene.Pt(reach, 0)), c.at.Add(scene.Pt(reach, 0))), scene.Segment(c.at.Sub(scene.Pt(0, reach)), c.at.Add(scene.Pt(0, reach)))...)
	return []scene.Item{
		scene.Path{Outline: o, Stroke: scene.Stroke{Color: ink, Width: 0.3}},
		scene.Path{Outline: cross, Stroke: thin},
	}
}

// bar is a scale bar of 50 mm.
func bar(at scene.Point) scene.Item {
	g := scene.Group{ID: "bar-50-mm", Title: "scale bar of 50 mm", Place: scene.Moved(at.X, at.Y)}
	for i := range 5 {
		fill := scene.White
		if i%2 == 0 {
			fill = ink
		}
		g.Items = append(g.Items, scene.Path{Outline: scene.Rectangle(scene.Box(float64(i)*10, 0, 10, 2)), Fill: fill})
	}
	g.Items = append(g.Items, scene.Path{Outline: scene.Rectangle(scene.Box(0, 0, 50, 2)), Stroke: scene.Stroke{Color: ink, Width: 0.2}})
	for i := 0; i <= 50; i += 10 {
		g.Items = append(g.Items, scene.Text{At: scene.Pt(float64(i), 5), Content: fmt.Sprint(i), Size: 2.4, Anchor: scene.Middle, Color: ink})
	}
	return scene.Group{Items: []scene.Item{g, scene.Text{At: at.Add(scene.Pt(53, 2)), Content: "mm", Size: 2.4, Color: ink}}}
}
