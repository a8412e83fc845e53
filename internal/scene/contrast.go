package scene

import "math"

// linear undoes the sRGB transfer function (IEC 61966-2-1).
func linear(v uint8) float64 {
	c := float64(v) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// encode is the sRGB transfer function, to a byte.
func encode(v float64) uint8 {
	if v <= 0.0031308 {
		return clamp8(v * 12.92 * 255)
	}
	return clamp8((1.055*math.Pow(v, 1/2.4) - 0.055) * 255)
}

// Luminance is the relative luminance of WCAG 2.2: 0 black, 1 white. Alpha is
// not looked at: lay the colour Over its ground first.
func (c Color) Luminance() float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Contrast is the contrast ratio of WCAG 2.2, from 1 to 21. Its success
// criteria: text 4.5 (1.4.3), large text and parts of graphics 3 (1.4.11).
func Contrast(a, b Color) float64 {
	la, lb := a.Luminance(), b.Luminance()
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// Over is the opaque colour seen where c lies on an opaque ground.
func (c Color) Over(ground Color) Color {
	out := ground.Mix(c, c.Opacity())
	out.A = 255
	return out
}

// Grey is the grey of the same luminance: an Ink for black-and-white print.
func Grey(c Color) Color {
	g := encode(c.Luminance())
	return Color{g, g, g, c.A}
}

// ReadableOn is black or white, whichever stands out more from the ground.
func ReadableOn(ground Color) Color {
	if Contrast(ground, White) >= Contrast(ground, Black) {
		return White
	}
	return Black
}

// Lab is the colour in CIE 1976 L*a*b* under D65: L* from 0 to 100. The matrix
// is that of IEC 61966-2-1.
func (c Color) Lab() (l, a, b float64) {
	r, g, bl := linear(c.R), linear(c.G), linear(c.B)
	x := labCurve((0.4124*r + 0.3576*g + 0.1805*bl) / 0.9505)
	y := labCurve(0.2126*r + 0.7152*g + 0.0722*bl)
	z := labCurve((0.0193*r + 0.1192*g + 0.9505*bl) / 1.0890)
	return 116*y - 16, 500 * (x - y), 200 * (y - z)
}

func labCurve(t float64) float64 {
	const d = 6.0 / 29
	if t > d*d*d {
		return math.Cbrt(t)
	}
	return t/(3*d*d) + 4.0/29
}

// Difference is the CIE 1976 colour difference of two colours: about 2 is just
// seen side by side; black to white is 100.
func Difference(a, b Color) float64 {
	la, aa, ba := a.Lab()
	lb, ab, bb := b.Lab()
	return math.Sqrt((la-lb)*(la-lb) + (aa-ab)*(aa-ab) + (ba-bb)*(ba-bb))
}
