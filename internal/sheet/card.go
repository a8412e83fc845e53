package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/proof"
	"loomwright/internal/scene"
)

// Measures of the player's card, mm.
const (
	cardWidth = 150.0
	faceWidth = 62.0
	faceGap   = 8.0 // between the controls and the table
	faceMost  = 62.0
	nameWidth = 20.0
	cardPad   = 4.0
	cardLine  = 4.4
	cardRows  = 16
	cardTall  = 130.0 // no row begins below it
)

// card is the front view for the player: knobs and what the positions sound
// like.
func card(in *Input) []Block {
	all := controls(in)
	if len(in.Rows) == 0 {
		return nil
	}
	s := cardScene(in, all)
	return []Block{Heading{Text: "Card for the player", Level: 1}, Figure{Scene: s, Exact: true,
		Caption: "Cut out along the line. The controls are seen from the front, as they lie in the drawing."}}
}

func cardScene(in *Input, all []control) scene.Scene {
	face, faceHeight := cardFace(in, all)
	rows, rowsHeight := cardTable(in, len(all) > 0)
	head := 9.0
	height := head + max(faceHeight, rowsHeight) + 2*cardPad
	s := scene.Scene{Width: cardWidth, Height: height, Title: "card for the player"}
	cut := scene.Stroke{Color: soft, Width: 0.25, Dash: []float64{2, 1.2}}
	s.Items = append(s.Items, scene.Path{Outline: scene.RoundRect(scene.Box(0.2, 0.2, cardWidth-0.4, height-0.4), 3), Stroke: cut})
	title, _ := setLines(wrap("**"+titleOf(in)+"**", cardWidth-2*cardPad, 4)[:1], scene.Pt(cardPad, cardPad-1), 4, 1.25, ink)
	s.Items = append(s.Items, title...)
	if len(all) > 0 {
		s.Items = append(s.Items, scene.Group{Place: scene.Moved(cardPad, head+cardPad-2), Items: face})
	}
	x := cardPad
	if len(all) > 0 {
		x += faceWidth + faceGap
	}
	s.Items = append(s.Items, scene.Group{Place: scene.Moved(x, head+cardPad-2), Items: rows})
	return s
}

// cardFace draws the controls from the front, scaled to the card.
func cardFace(in *Input, all []control) ([]scene.Item, float64) {
	if len(all) == 0 {
		return nil, 0
	}
	box := spread(all).Grow(2)
	k := min(1, faceWidth/box.Width(), faceMost/box.Height())
	var items []scene.Item
	var names []label
	var bodies []scene.Rect
	for i := range all {
		at := all[i].at.Sub(box.Min).Mul(k)
		body := all[i].face(at, k)
		items = append(items, body...)
		bodies = append(bodies, scene.Bounds(body))
		names = append(names, newLabel(all[i].use.Name, "", nameWidth, 2.4, scene.Pt(at.X, bodies[i].Max.Y+0.9)))
	}
	y := max(box.Height()*k, settle(names, bodies, 0, faceWidth)) + 3
	for i := range names {
		items = append(items, names[i].paint()...)
	}
	for i := range all {
		text := all[i].says(in)
		if text == "" {
			continue
		}
		lines, h := setLines(wrap(text, faceWidth, 2.4), scene.Pt(0, y), 2.4, 1.3, ink)
		items = append(items, lines...)
		y += h + 0.5
	}
	return items, y
}

// says is what a control does beyond its name: its positions in order, and
// where its knobs act.
func (c *control) says(in *Input) string {
	var words []string
	for i := range in.Graph.Knobs {
		k := &in.Graph.Knobs[i]
		if &in.Graph.Loom.Uses[k.Use] == c.use {
			words = append(words, nonEmpty(turning(in, k.Name))...)
		}
	}
	for i := range in.Graph.Switches {
		sw := &in.Graph.Switches[i]
		if &in.Graph.Loom.Uses[sw.Use] != c.use || sw.Proved >= 0 {
			continue
		}
		var names []string
		for _, p := range sw.Positions {
			names = append(names, p.Name)
		}
		words = append(words, strings.Join(names, " · "))
	}
	if len(words) == 0 {
		return ""
	}
	return "**" + c.use.Name + "** " + strings.Join(words, "; ")
}

// turning is what a knob does, where its name does not tell, and with which
// settings, where it does not act in all that sound.
func turning(in *Input, knob string) string {
	var does, acts []string
	sounding := 0
	for i := range in.Rows {
		if in.Rows[i].Output == proof.Sounding {
			sounding++
		}
		for _, k := range in.Rows[i].Knobs {
			if k.Knob != knob {
				continue
			}
			acts = append(acts, in.Rows[i].Name)
			if d := strings.TrimSuffix(k.Does, " of"); !slices.Contains(does, d) {
				does = append(does, d)
			}
		}
	}
	var words []string
	if len(does) > 1 || len(does) == 1 && !strings.Contains(knob, does[0]) {
		words = append(words, strings.Join(does, ", "))
	}
	switch {
	case len(acts) == 0:
		return "does nothing"
	case len(acts) < sounding:
		words = append(words, "acts with "+strings.Join(acts, ", "))
	}
	return strings.Join(words, "; ")
}

// face is a control as the player sees it: a knob with its pointer, a lever in
// its slot, a toggle, the jack.
func (c *control) face(at scene.Point, k float64) []scene.Item {
	line := scene.Stroke{Color: ink, Width: 0.35}
	r := max(9*k, 3.2)
	var items []scene.Item
	circle := func(r float64, fill scene.Color) {
		items = append(items, scene.Path{Outline: scene.Circle(at, r), Fill: fill, Stroke: line})
	}
	p := c.use.Part
	switch p.Class {
	case "jack":
		circle(r*0.7, wash)
		circle(r*0.3, ink)
	case "pot":
		circle(r, wash)
		if len(p.Switches) > 0 {
			circle(r*0.62, scene.White)
		}
		items = append(items, scene.Path{Outline: scene.Segment(at.Add(scene.Pt(0, -r*0.25)), at.Add(scene.Pt(0, -r))), Stroke: scene.Stroke{Color: ink, Width: 0.6}})
	default:
		lever := slotSize.FindStringSubmatch(p.Body.Hole + ", " + p.Body.Shaft)
		if lever == nil {
			circle(r*0.55, wash)
			items = append(items, scene.Path{Outline: scene.Segment(at, at.Add(scene.Pt(r*0.5, -r*0.5))), Stroke: scene.Stroke{Color: ink, Width: 1.1, Cap: scene.RoundCap}})
			break
		}
		w, h := number(lever[1])*k, max(number(lever[2])*k, 1.6)
		slot := scene.RoundRect(scene.Box(-w/2, -h/2, w, h), h/2).Transformed(scene.Transform{Turn: c.turn, Move: at})
		items = append(items, scene.Path{Outline: slot, Fill: wash, Stroke: line})
	}
	return items
}

// cardTable lists settings and sounds.
func cardTable(in *Input, face bool) ([]scene.Item, float64) {
	width := cardWidth - 2*cardPad
	if face {
		width -= faceWidth + faceGap
	}
	var items []scene.Item
	y := 0.0
	shown := 0
	for shown < min(len(in.Rows), cardRows) && y < cardTall {
		r := &in.Rows[shown]
		shown++
		name, h := setLines(wrap("**"+capital(r.Name)+"**", width, 2.7), scene.Pt(0, y), 2.7, 1.25, ink)
		text, h2 := setLines(wrap(plain(heard(in, r)), width-3, 2.5), scene.Pt(3, y+h), 2.5, 1.25, ink)
		items = append(append(items, name...), text...)
		y += h + h2 + 1.2
	}
	if n := len(in.Rows) - shown; n > 0 {
		more, h := setLines(wrap(fmt.Sprintf("and %d settings more", n), width, 2.5), scene.Pt(0, y), 2.5, 1.25, soft)
		items = append(items, more...)
		y += h
	}
	return items, y
}
