package drawing

import (
	"fmt"

	"loomwright/internal/scene"
)

// paintTag is a marker sleeve: the step light on dark, the colour dark on light.
func (d *Drawing) paintTag(i int) scene.Group {
	w := &d.Wires[d.Tags[i].Wire]
	t := &d.Tags[i]
	g := scene.Group{Class: "tag"}
	g.Items = append(g.Items, paintLeader(t)...)
	g.Items = append(g.Items, paintSleeve(t, t.At))
	if w.Run >= 0 {
		g.Data = map[string]string{"run": fmt.Sprint(w.Run)}
	}
	if d.faded(w) {
		g.Fade = fadeRest
	}
	return g
}

// paintLeader is the line of a tag that stands apart.
func paintLeader(t *Tag) []scene.Item {
	if t.Leader == nil {
		return nil
	}
	return []scene.Item{line(*t.Leader, t.leaderEnd(), ink, 0.3), disc(*t.Leader, 0.35, ink, scene.Color{})}
}

// sleeveWhite is the ground of a marker sleeve.
var sleeveWhite = scene.RGB(0xFFFDF8)

func paintSleeve(t *Tag, at scene.Point) scene.Group {
	step, text := t.widths()
	left, h := -(step+text)/2, tagHeight
	g := scene.Group{Place: scene.Transform{Move: at}}
	if t.Upright {
		g.Place.Turn = -90
	}
	g.Items = append(g.Items,
		scene.Path{Outline: scene.RoundRect(scene.Box(left, -h/2, step+text, h), 0.5), Fill: sleeveWhite, Stroke: scene.Stroke{Color: ink, Width: 0.22}},
		scene.Path{Outline: scene.RoundRect(scene.Box(left, -h/2, step, h), 0.5), Fill: ink},
		words(scene.Pt(left+step/2, 0), t.Step, scene.Bold, sleeveWhite))
	if t.Text != "" {
		g.Items = append(g.Items, words(scene.Pt(left+step+text/2, 0), t.Text, scene.Regular, ink))
	}
	return g
}

func words(at scene.Point, s string, style scene.Style, c scene.Color) scene.Text {
	return scene.Text{At: at, Content: s, Size: tagText, Style: style, Anchor: scene.Middle, Baseline: scene.Central, Color: c}
}

// fadeRest is how far what carries no sound fades when a setting is shown.
const fadeRest = 0.7

// faded reports whether a wire carries nothing in the setting that is shown.
func (d *Drawing) faded(w *Wire) bool {
	if d.Options.Setting == nil {
		return false
	}
	_, live := d.flows[w.Strand]
	return !live
}
