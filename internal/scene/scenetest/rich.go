// Package scenetest holds scenes that the painters' tests share.
package scenetest

import (
	"fmt"
	"slices"

	"loomwright/internal/scene"
)

// Rich is a page of 5 × 3.75 in with one of everything a scene can hold: whole
// pixels at 96 and 192 dots per inch, since a browser snaps a picture's box to
// pixels. Its scale bar is 100 mm long, from BarFrom to BarTo on the height BarY.
func Rich() scene.Scene {
	s := scene.Scene{
		Width: 127, Height: 95.25,
		Title: "Everything <at once> & more",
		Desc:  "Wires, pens, words and groups of the painters' tests.",
	}
	for _, part := range [][]scene.Item{wires(), cables(), words(), groups(), pens(), scaleBar()} {
		s.Items = append(s.Items, part...)
	}
	return s
}

// The scale bar of Rich, mm.
const (
	BarFrom = 15.0
	BarTo   = 115.0
	BarY    = 86.0
)

var ink = scene.RGB(0x1b1d1f)

// wires are insulated runs on rounded lanes, one core pattern each.
func wires() (out []scene.Item) {
	kinds := []struct {
		tag  string
		core uint32
		dash []float64
	}{
		{"BU 1", 0x2f6bc4, nil}, {"OG 2", 0xf08218, []float64{4, 1.6}}, {"YE 3", 0xf6d32d, []float64{1.2, 1.2}},
		{"VT 4", 0x8146a8, []float64{0, 2.2}}, {"WH 5", 0xffffff, nil},
	}
	for i, k := range kinds {
		y := 8 + 3.4*float64(i)
		run := scene.Polyline(2.4, scene.Pt(6, y), scene.Pt(26+3*float64(i), y), scene.Pt(26+3*float64(i), 30), scene.Pt(62, 30+3.2*float64(i)))
		core := scene.Stroke{Color: scene.RGB(k.core), Width: 1.15, Cap: scene.RoundCap, Join: scene.RoundJoin}
		edge := scene.Stroke{Color: ink, Width: 1.75, Cap: scene.RoundCap, Join: scene.RoundJoin}
		g := scene.Group{
			ID: fmt.Sprintf("wire-%d", i), Class: "wire", Title: "wire " + k.tag,
			Data:  map[string]string{"wire": k.tag, "terminal": "volume.cw"},
			Items: scene.Layers(run, "", edge, core),
		}
		if k.dash != nil {
			mark := scene.Stroke{Color: ink, Width: 0.45, Dash: k.dash, Phase: -0.5, Cap: scene.RoundCap}
			g.Items = append(g.Items, scene.Path{Outline: run, Stroke: mark})
		}
		g.Items = append(g.Items, tag(k.tag, scene.Pt(14, y), 0)...)
		out = append(out, g)
	}
	return out
}

// tag is bold words in a pill.
func tag(content string, at scene.Point, turn float64) []scene.Item {
	w := scene.TextWidth(content, 2.15, scene.Bold) + 1.4
	pill := scene.RoundRect(scene.Box(at.X-w/2, at.Y-1.25, w, 2.5), 0.6).Transformed(scene.Turned(turn, at))
	return []scene.Item{
		scene.Path{Outline: pill, Fill: scene.White, Stroke: scene.Stroke{Color: ink, Width: 0.2}},
		scene.Text{At: at, Content: content, Size: 2.15, Style: scene.Bold, Anchor: scene.Middle, Baseline: scene.Central, Turn: turn, Color: ink},
	}
}

// cables are bare wire, a twisted pair and a braid.
func cables() (out []scene.Item) {
	bare := scene.Polyline(2.4, scene.Pt(6, 40), scene.Pt(30, 40), scene.Pt(34, 46), scene.Pt(60, 46))
	out = append(out, scene.Layers(bare, "bare",
		scene.Stroke{Color: ink, Width: 1.2}, scene.Stroke{Color: scene.RGB(0xd5d2c8), Width: 0.8})...)
	out = append(out, scene.Path{Outline: scene.Ticks(bare, 1.2, 0.8, 30), Stroke: scene.Stroke{Color: ink, Width: 0.16}})

	pair := scene.Twist(scene.Polyline(6, scene.Pt(6, 50), scene.Pt(40, 50), scene.Pt(60, 56)), 3.2, 1.8)
	edge := scene.Stroke{Color: ink, Width: 1.5}
	green, pink := scene.Stroke{Color: scene.RGB(0x3a9a5b), Width: 1}, scene.Stroke{Color: scene.RGB(0xe98fae), Width: 1}
	out = append(out, scene.Layers(pair.A, "", edge, green)...)
	out = append(out, scene.Layers(pair.B, "", edge, pink)...)
	out = append(out, scene.Path{Outline: pair.OverEdge, Stroke: edge}, scene.Path{Outline: pair.OverCore, Stroke: green})

	run := scene.Polyline(4, scene.Pt(6, 62), scene.Pt(40, 62), scene.Pt(60, 66))
	out = append(out, scene.Layers(run, "", scene.Stroke{Color: ink, Width: 3.2}, scene.Stroke{Color: scene.RGB(0xc9cdd1), Width: 2.8})...)
	return append(out, scene.Path{Outline: scene.Braid(run, 1.4, 2.8), Stroke: scene.Stroke{Color: scene.RGB(0x5c6166), Width: 0.22}})
}

// words are every face, anchor, baseline, drawn glyph, a turn and a halo.
func words() []scene.Item {
	line := func(y float64, content string, style scene.Style, size float64) scene.Text {
		return scene.Text{At: scene.Pt(68, y), Content: content, Size: size, Style: style, Color: ink}
	}
	turned := line(0, "turned up 4.7 kΩ ∥ 22 nF", scene.Regular, 2.4)
	turned.At, turned.Turn, turned.Anchor = scene.Pt(123, 30), -90, scene.Middle
	slanted := line(0, "slanted ♭ words", scene.Bold, 2.6)
	slanted.At, slanted.Turn, slanted.Baseline = scene.Pt(100, 55), 30, scene.CapTop
	halo := line(45.5, "halo on the line ✓", scene.Bold, 2.6)
	halo.Halo = scene.Halo{Color: scene.White, Width: 0.8}
	end := line(52, "ends here →", scene.Style{Italic: true, Bold: true}, 2.6)
	end.Anchor, end.At.X = scene.End, 98
	return []scene.Item{
		line(8, "Curlew bridge pickup", scene.Bold, 4.2),
		line(13, "north series south, 4.0 kΩ ± 5 %", scene.Regular, 2.8),
		line(17.5, "ground ⏚, tick ✓ ☐ ☑ ✗, turn ↻ ↺ ▶ ◀", scene.Regular, 2.8),
		line(22, "♯ ♭ ♮ ∥ ⊥ ∠ ∅ ⌀ ⚠ ⎓ ∿ bold ⏚", scene.Bold, 2.8),
		line(26.5, "italic: µ − × ∞ ≤ fffi AV Wa", scene.Style{Italic: true}, 2.8),
		line(31, "mono 0123  22n", scene.Mono, 2.8),
		line(35, "mono bold 4K7", scene.Style{Mono: true, Bold: true}, 2.8),
		line(39.5, "1.8 mm is the smallest text that a sheet may hold", scene.Regular, 1.8),
		scene.Path{Outline: scene.Segment(scene.Pt(66, 44.7), scene.Pt(104, 44.7)), Stroke: scene.Stroke{Color: scene.RGB(0x2f6bc4), Width: 0.7}},
		halo, turned, slanted, end,
	}
}

// groups are mirrored, turned, scaled, clipped, faded and linked ones.
func groups() []scene.Item {
	part := []scene.Item{
		scene.Path{Outline: scene.RoundRect(scene.Box(0, 0, 14, 8), 1.5), Fill: scene.RGB(0xd8e6dc), Stroke: scene.Stroke{Color: ink, Width: 0.35}},
		scene.Path{Outline: scene.Circle(scene.Pt(3, 4), 1.35), Fill: scene.RGB(0xaab0b6), Stroke: scene.Stroke{Color: ink, Width: 0.25}},
		scene.Text{At: scene.Pt(5.5, 4), Content: "lug ⏚ 1", Size: 2, Baseline: scene.Central, Color: ink},
	}
	return []scene.Item{
		scene.Group{ID: "plain", Place: scene.Moved(68, 56), Items: part},
		scene.Group{ID: "mirrored", Place: scene.Transform{Move: scene.Pt(98, 56), Mirror: true}, Items: part},
		scene.Group{ID: "turned", Place: scene.Transform{Move: scene.Pt(72, 66), Turn: 25, Scale: 0.8}, Items: part},
		scene.Group{
			ID: "clipped", Link: "https://example.org/saltmarsh?a=1&b=2",
			Place: scene.Transform{Move: scene.Pt(100, 72), Turn: -15}, Clip: scene.Box(1, 1, 9, 5), Items: part,
		},
		scene.Group{ID: "faded", Title: "faded", Fade: 0.72, Place: scene.Moved(106, 44), Items: append(slices.Clone(part), wires()[0].(scene.Group).Items[:2]...)},
	}
}

// pens are caps, joins, arrowheads and what shines through.
func pens() (out []scene.Item) {
	for i, c := range []scene.Cap{scene.Butt, scene.RoundCap, scene.Square} {
		y := 72 + 3*float64(i)
		pen := scene.Stroke{Color: scene.RGB(0x8a5a2b), Width: 1.6, Cap: c, Join: []scene.Join{scene.Miter, scene.RoundJoin, scene.Bevel}[i]}
		zig := scene.Polyline(0, scene.Pt(8, y), scene.Pt(16, y), scene.Pt(19, y-4), scene.Pt(22, y), scene.Pt(30, y))
		out = append(out, scene.Path{Outline: zig, Stroke: pen})
		pen.Dash = []float64{2, 2.4, 1}
		out = append(out, scene.Path{Outline: scene.Segment(scene.Pt(34, y), scene.Pt(62, y)), Stroke: pen})
	}
	out = append(out, scene.Path{Outline: scene.Arrowhead(scene.Pt(66, 75), 0, 3, 2.4), Fill: ink})
	ring := append(scene.Circle(scene.Pt(92, 78), 3.5), scene.Circle(scene.Pt(92, 78), 2).Reversed()...)
	out = append(out, scene.Path{Outline: ring, Fill: scene.RGB(0xd03b2f).Alpha(0.55)})
	return append(out, scene.Path{
		Outline: scene.Ellipse(scene.Pt(96, 78), 4.5, 2.4), Fill: scene.RGB(0x2f6bc4).Alpha(0.5),
		Stroke: scene.Stroke{Color: ink.Alpha(0.6), Width: 0.8},
	})
}

func scaleBar() []scene.Item {
	return []scene.Item{
		scene.Path{Outline: scene.Rectangle(scene.Box(BarFrom, BarY, BarTo-BarFrom, 1.5)), Fill: scene.Black},
		scene.Text{At: scene.Pt(BarFrom, BarY+4.2), Content: "100 mm at 1:1", Size: 2.4, Color: ink},
	}
}
