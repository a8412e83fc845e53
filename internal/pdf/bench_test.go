package pdf

import (
	"testing"

	"loomwright/internal/scene"
	"loomwright/internal/scene/scenetest"
)

func BenchmarkPaint2000(b *testing.B) {
	pages := []scene.Scene{scenetest.Big(2000)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Paint(pages, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPaintSimplePage(b *testing.B) {
	pages := []scene.Scene{simple(scene.A4)}
	for b.Loop() {
		if _, err := Paint(pages, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// simple is a page with a heading, a paragraph and a 100 mm bar.
func simple(size scene.Size) scene.Scene {
	s := scene.Scene{Width: size.Width, Height: size.Height, Title: "Curlew, build sheet"}
	s.Items = append(s.Items,
		scene.Text{At: scene.Pt(20, 30), Content: s.Title, Size: 6, Style: scene.Bold, Color: scene.Black},
		scene.Path{Outline: scene.Rectangle(scene.Box(20, 200, 100, 2)), Fill: scene.Black})
	for i, line := range scene.Wrap("Scuff and tin the case of volume, join bridge.violet and bridge.bare to it. "+
		"A good joint is bright, smooth and wetted to the edge; the wire shows through it.", 80, 4, scene.Regular) {
		s.Items = append(s.Items, scene.Text{At: scene.Pt(20, 42+6*float64(i)), Content: line, Size: 4, Color: scene.Black})
	}
	return s
}
