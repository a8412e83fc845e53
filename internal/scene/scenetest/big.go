package scenetest

import (
	"fmt"

	"loomwright/internal/scene"
)

// Big is an A4 page of n items for benchmarks, about as a busy drawing has them:
// in every ten, six paths of wires, two joints, two words.
func Big(n int) scene.Scene {
	s := scene.Scene{Width: scene.A4.Width, Height: scene.A4.Height, Title: "big"}
	for i := 0; i < n; i += 10 {
		s.Items = append(s.Items, bigGroup(i/10))
	}
	return s
}

func bigGroup(i int) scene.Group {
	x, y := 8+float64(i%12)*15, 8+float64(i/12)*14
	g := scene.Group{ID: fmt.Sprintf("w%d", i), Class: "wire", Title: fmt.Sprintf("wire %d", i), Data: map[string]string{"wire": fmt.Sprint(i)}}
	for k := range 3 {
		d := 3 * float64(k)
		run := scene.Polyline(2.4, scene.Pt(x, y+d), scene.Pt(x+6+d, y+d), scene.Pt(x+6+d, y+10), scene.Pt(x+24, y+10), scene.Pt(x+24, y+16+d))
		g.Items = append(g.Items, scene.Layers(run, "",
			scene.Stroke{Color: ink, Width: 1.75, Join: scene.RoundJoin},
			scene.Stroke{Color: scene.RGB(0x2f6bc4), Width: 1.15, Join: scene.RoundJoin})...)
	}
	for _, p := range []scene.Point{{X: x, Y: y}, {X: x + 24, Y: y + 16}} {
		g.Items = append(g.Items, scene.Path{Outline: scene.Circle(p, 1.35), Fill: scene.RGB(0xaab0b6), Stroke: scene.Stroke{Color: ink, Width: 0.2}})
		g.Items = append(g.Items, scene.Text{At: p, Content: fmt.Sprintf("BU %d", i), Size: 2.15, Style: scene.Bold, Color: ink, Anchor: scene.Middle})
	}
	return g
}
