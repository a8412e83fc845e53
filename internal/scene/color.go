package scene

import "fmt"

// Color is sRGB (IEC 61966-2-1) with straight alpha: A 255 is opaque, 0 paints
// nothing, so the zero Color is none.
type Color struct{ R, G, B, A uint8 }

// The two ends of the scale.
var (
	Black = RGB(0x000000)
	White = RGB(0xffffff)
)

// RGB is an opaque colour from 0xRRGGBB.
func RGB(hex uint32) Color { return Color{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255} }

// Alpha is the colour at an opacity from 0 to 1.
func (c Color) Alpha(opacity float64) Color {
	c.A = clamp8(opacity * 255)
	return c
}

// Opacity is the alpha from 0 to 1.
func (c Color) Opacity() float64 { return float64(c.A) / 255 }

// Hex is the colour as #rrggbb, without its alpha.
func (c Color) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Mix is the colour with share of other mixed in, by sRGB values as a browser
// lays one over the other; the alpha stays.
func (c Color) Mix(other Color, share float64) Color {
	share = min(max(share, 0), 1)
	mix := func(a, b uint8) uint8 { return clamp8(float64(a) + (float64(b)-float64(a))*share) }
	return Color{mix(c.R, other.R), mix(c.G, other.G), mix(c.B, other.B), c.A}
}

// clamp8 rounds to a byte; NaN gives 0.
func clamp8(v float64) uint8 {
	if !(v > 0) {
		return 0
	}
	return uint8(min(v, 255) + 0.5)
}

// Ink changes every colour that a painter lays down: Grey, a colour vision
// simulation, a fade. A nil Ink changes nothing.
type Ink func(Color) Color

// Of is the colour after the ink.
func (k Ink) Of(c Color) Color {
	if k == nil || c.A == 0 {
		return c
	}
	return k(c)
}

// Ink is the group's fade, then the ink around the group.
func (g Group) Ink(outer Ink) Ink {
	if g.Fade <= 0 {
		return outer
	}
	return func(c Color) Color { return outer.Of(c.Mix(White, g.Fade)) }
}
