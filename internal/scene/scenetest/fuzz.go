package scenetest

import "loomwright/internal/scene"

// Wild is a small scene made of whatever numbers and words a fuzzer finds: each
// stands in every kind of place.
func Wild(a, b, c, d float64, words string) scene.Scene {
	outline := scene.Polyline(a, scene.Pt(0, 0), scene.Pt(b, c), scene.Pt(d, a)).Cubic(scene.Pt(a, b), scene.Pt(c, d), scene.Pt(b, b))
	return scene.Scene{
		Width: 60, Height: 40, Title: words, Desc: words,
		Items: []scene.Item{
			scene.Path{Class: words, Outline: outline, Fill: scene.White, Stroke: scene.Stroke{
				Color: scene.Black, Width: a, Dash: []float64{b, c}, Phase: d, Cap: scene.RoundCap, Join: scene.RoundJoin,
			}},
			scene.Path{Outline: scene.Segment(scene.Pt(a, b), scene.Pt(c, d)), Stroke: scene.Stroke{Color: scene.Black, Width: 1}},
			scene.Text{Class: words, At: scene.Pt(a, b), Content: words, Size: c, Turn: d, Color: scene.Black, Halo: scene.Halo{Color: scene.White, Width: a}},
			scene.Group{
				Class: words, Title: words, Desc: words, Data: map[string]string{"wire": words},
				Place: scene.Transform{Move: scene.Pt(a, b), Turn: c, Scale: d, Mirror: true}, Clip: scene.Box(a, b, c, d),
				Items: []scene.Item{scene.Text{At: scene.Pt(1, 5), Content: words, Size: 3, Anchor: scene.End, Color: scene.Black}},
			},
		},
	}
}

// WildSeeds are the starting points of the fuzzers.
var WildSeeds = []struct {
	A, B, C, D float64
	Words      string
}{
	{1, 2, 3, 4, "plain ⏚ words"},
	{0, 0, 0, 0, ""},
	{-1, 1e-9, 1e5, -1e5, `"><script>alert(1)</script>`},
	{1e5, 1e5, 1e5, 359.999, "]]>&amp;\x00\x1b\u202e"},
	{0.0004, -0.0004, 99999, 0.5, "\xff\xfe漢𝄫∥"},
	{1e308, -1e308, 5e-324, 1, "{nb}"},
	{1, 2, 3, 4, "\xe2"}, // the first byte of three
}
