package sheet

import "loomwright/internal/scene"

// Colours of the picture of joints.
var (
	solder = scene.RGB(0xc3c7ca)
	metal  = scene.RGB(0x8a8f94)
)

// joints pictures four joints in section: good on a lug, a cold ball, too much
// solder, good on a case (common practice, no source).
func joints() scene.Scene {
	s := scene.Scene{Width: 150, Height: 30, Title: "good and bad joints in section"}
	for i, j := range []struct {
		name  string
		blob  scene.Outline
		plate float64 // half width of the metal
		good  bool
	}{
		{"good", hollow(9, 6.4), 9, true},
		{"cold", scene.Ellipse(scene.Pt(0, -4), 4.6, 3.6), 9, false},
		{"too much", scene.Outline{}.Move(-8.6, 0).Cubic(scene.Pt(-10.5, -9), scene.Pt(10.5, -9), scene.Pt(8.6, 0)).Close(), 9, false},
		{"good on a case", hollow(14, 4.4), 16, true},
	} {
		at := scene.Moved(20+float64(i)*36.5, 18)
		s.Items = append(s.Items, scene.Group{Title: j.name, Place: at, Items: joint(j.name, j.blob, j.plate, j.good)})
	}
	return s
}

// hollow is solder that has run out on both sides in smooth hollow curves.
func hollow(half, height float64) scene.Outline {
	return scene.Outline{}.Move(-half, 0).
		Cubic(scene.Pt(-half*0.45, -0.4), scene.Pt(-half*0.3, -height*0.5), scene.Pt(-1.3, -height)).
		Line(1.3, -height).
		Cubic(scene.Pt(half*0.3, -height*0.5), scene.Pt(half*0.45, -0.4), scene.Pt(half, 0)).Close()
}

func joint(name string, blob scene.Outline, plate float64, good bool) []scene.Item {
	line := scene.Stroke{Color: ink, Width: 0.3, Join: scene.RoundJoin}
	items := []scene.Item{
		scene.Path{Outline: scene.Rectangle(scene.Box(-1.1, -13, 2.2, 13)), Fill: scene.White, Stroke: line},
		scene.Path{Outline: blob, Fill: solder, Stroke: line},
		scene.Path{Outline: scene.Rectangle(scene.Box(-plate, 0, 2*plate, 2)), Fill: metal, Stroke: line},
	}
	sign, style := "✗ ", scene.Regular
	if good {
		sign, style = "✓ ", scene.Bold
	}
	return append(items, scene.Text{At: scene.Pt(0, 7.6), Content: sign + name, Size: 3, Style: style, Anchor: scene.Middle, Color: ink})
}
