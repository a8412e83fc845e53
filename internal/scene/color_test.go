package scene_test

import (
	"math"
	"testing"

	"loomwright/internal/scene"
)

func TestContrast(t *testing.T) {
	for _, c := range []struct {
		a, b   uint32
		want   float64
		source string
	}{
		{0x000000, 0xffffff, 21, "WCAG 2.2, note to contrast ratio: from 1 to 21"},
		{0x123456, 0x123456, 1, "the same note"},
		{0x767676, 0xffffff, 4.54, "from memory: the lightest grey that passes 4.5 on white"},
		{0x777777, 0xffffff, 4.48, "from memory: the next one fails"},
		{0x949494, 0xffffff, 3.03, "from memory: the lightest grey that passes 3 on white"},
	} {
		got := scene.Contrast(scene.RGB(c.a), scene.RGB(c.b))
		if math.Abs(got-c.want) > 0.005 {
			t.Errorf("contrast of %06x and %06x is %.3f, want %.2f (%s)", c.a, c.b, got, c.want, c.source)
		}
		if back := scene.Contrast(scene.RGB(c.b), scene.RGB(c.a)); back != got {
			t.Errorf("contrast depends on the order: %g, %g", got, back)
		}
	}
}

// The three primaries' luminances are the coefficients of the definition.
func TestLuminance(t *testing.T) {
	for hex, want := range map[uint32]float64{0xff0000: 0.2126, 0x00ff00: 0.7152, 0x0000ff: 0.0722, 0xffffff: 1, 0: 0} {
		if got := scene.RGB(hex).Luminance(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%06x: %g, want %g", hex, got, want)
		}
	}
}

// A grey has the luminance of its colour, to the step of a byte.
func TestGreyKeepsLuminance(t *testing.T) {
	for hex := uint32(0); hex < 1<<24; hex += 0x010503 {
		c := scene.RGB(hex)
		g := scene.Grey(c)
		if g.R != g.G || g.G != g.B || g.A != 255 {
			t.Fatalf("%v is not a grey", g)
		}
		lower, upper := scene.Color{R: sub1(g.R), G: sub1(g.R), B: sub1(g.R)}, scene.Color{R: add1(g.R), G: add1(g.R), B: add1(g.R)}
		if l := c.Luminance(); l < lower.Luminance()-1e-9 || l > upper.Luminance()+1e-9 {
			t.Fatalf("%06x: luminance %g, grey %v", hex, l, g)
		}
	}
}

func sub1(v uint8) uint8 { return uint8(max(int(v)-1, 0)) }
func add1(v uint8) uint8 { return uint8(min(int(v)+1, 255)) }

// L*a*b* of the sRGB primaries under D65 (from memory, as commonly tabulated).
func TestLab(t *testing.T) {
	for hex, want := range map[uint32][3]float64{
		0xffffff: {100, 0, 0},
		0x000000: {0, 0, 0},
		0xff0000: {53.24, 80.09, 67.20},
		0x00ff00: {87.73, -86.18, 83.18},
		0x0000ff: {32.30, 79.19, -107.86},
	} {
		l, a, b := scene.RGB(hex).Lab()
		for i, got := range [3]float64{l, a, b} {
			if math.Abs(got-want[i]) > 0.05 {
				t.Errorf("%06x: L*a*b* %.2f %.2f %.2f, want %v", hex, l, a, b, want)
				break
			}
		}
	}
	if got := scene.Difference(scene.Black, scene.White); math.Abs(got-100) > 0.05 {
		t.Errorf("black and white differ by %g", got)
	}
}

// Greys look the same to everyone: the rows of the matrices add up to 1. What a
// kind of eye mixes up comes closer, what it tells apart stays.
func TestVision(t *testing.T) {
	red, green, blue, yellow := scene.RGB(0xc83232), scene.RGB(0x5a8232), scene.RGB(0x3050d0), scene.RGB(0xe0d040)
	for name, v := range map[string]scene.Vision{
		"protanopia": scene.Protanopia, "deuteranopia": scene.Deuteranopia, "tritanopia": scene.Tritanopia,
	} {
		for g := range 256 {
			c := scene.Color{R: uint8(g), G: uint8(g), B: uint8(g), A: 200}
			if got := v.See(c); scene.Difference(got, c) > 0.7 || got.A != 200 {
				t.Fatalf("%s sees grey %d as %v", name, g, got)
			}
		}
		redGreen := scene.Difference(v.See(red), v.See(green)) / scene.Difference(red, green)
		blueYellow := scene.Difference(v.See(blue), v.See(yellow)) / scene.Difference(blue, yellow)
		if name == "tritanopia" {
			if redGreen < 0.7 {
				t.Errorf("%s: red and green at %.2f of their difference", name, redGreen)
			}
		} else if redGreen > 0.5 || blueYellow < 0.7 {
			t.Errorf("%s: red and green at %.2f, blue and yellow at %.2f of their difference", name, redGreen, blueYellow)
		}
	}
}

func TestFadeAndInk(t *testing.T) {
	g := scene.Group{Fade: 0.75}
	if got := g.Ink(nil).Of(scene.Black); got != scene.RGB(0xbfbfbf) {
		t.Errorf("black at fade 0.75 is %v", got)
	}
	nested := scene.Group{Fade: 0.5}.Ink(scene.Group{Fade: 0.5}.Ink(nil))
	if got := nested.Of(scene.Black); got != scene.RGB(0xc0c0c0) {
		t.Errorf("two fades of a half: %v", got)
	}
	if got := g.Ink(scene.Grey).Of(scene.Color{}); got != (scene.Color{}) {
		t.Errorf("no colour becomes %v", got)
	}
	if scene.ReadableOn(scene.RGB(0xf6d32d)) != scene.Black || scene.ReadableOn(scene.RGB(0x203080)) != scene.White {
		t.Error("unreadable words chosen")
	}
}
