package drawing

import "loomwright/internal/scene"

// The drawing's own inks: warm paper, brown-black ink, muted metals.
var (
	paper     = scene.RGB(0xFBF8F1)
	ink       = scene.RGB(0x2E2A26)
	faintInk  = scene.RGB(0x564F46)
	rule      = scene.RGB(0xCFC6B6)
	cavity    = scene.RGB(0xF3EDDF)
	cavityInk = scene.RGB(0xD9CDB6)
	solder    = scene.RGB(0xB9BCBE)
	solderLit = scene.RGB(0xF4F5F4)
	solderInk = scene.RGB(0x4C4B49)
	liveInk   = scene.RGB(0xFFD25E)
	liveDark  = scene.RGB(0x7A3E00)
)

// material is how a part's shape is filled and edged.
type material struct{ fill, edge scene.Color }

var materials = map[string]material{
	"metal": {scene.RGB(0xE4E1DA), scene.RGB(0x86807A)},
	"body":  {scene.RGB(0xEBD9B4), scene.RGB(0x8C7750)},
	"board": {scene.RGB(0xC9D6B8), scene.RGB(0x6F8061)},
	"wafer": {scene.RGB(0xE2CFA9), scene.RGB(0x8F7A53)},
	"dark":  {scene.RGB(0x57524D), scene.RGB(0x2E2A26)},
	"coil":  {scene.RGB(0xD9B79A), scene.RGB(0x93694A)},
	"hole":  {paper, scene.RGB(0x86807A)},
}

// stemMetal is the tinned metal of lugs.
var stemMetal = material{scene.RGB(0xD5D3CD), scene.RGB(0x77726C)}

// inks are the colours of insulation, as printed.
var inks = map[string]scene.Color{
	"black": scene.RGB(0x2B2A29), "brown": scene.RGB(0x7D5232), "red": scene.RGB(0xC8402F), "orange": scene.RGB(0xE8893A),
	"yellow": scene.RGB(0xF0CB3E), "green": scene.RGB(0x3F9150), "blue": scene.RGB(0x2F6FB5), "violet": scene.RGB(0x7C58A5),
	"grey": scene.RGB(0x9B9B98), "white": scene.RGB(0xFFFFFF), "pink": scene.RGB(0xEBA0B6), "gold": scene.RGB(0xB9932F),
	"turquoise": scene.RGB(0x38A9A8), "silver": scene.RGB(0xCBCFD2),
	"": scene.RGB(0xEADFC8), // uncoloured
}

// threads are the tracer threads that tell colours apart without colour: mm on
// and off along the wire. Black and white have none, grey a whole one.
var threads = map[string][]float64{
	"brown": {3.4, 1.4}, "red": {1.9, 1.1}, "orange": {3.0, 1.3}, "yellow": {0.6, 1.2}, "green": {3.4, 0.9, 0.6, 0.9},
	"blue": {0.6, 1.0}, "violet": {0.6, 0.7, 0.6, 2.1}, "grey": {1}, "pink": {0.6, 2.8}, "gold": {1.2, 1.2},
	"turquoise": {1.7, 0.8, 0.6, 0.8}, "silver": {0.5, 0.6},
	"": {2.2, 2.6},
}

// edgeOf is the edge of a wire: its own colour, dark enough to stand out from
// the paper (WCAG 2.2, 1.4.11: 3 to 1).
func edgeOf(core scene.Color) scene.Color {
	for share := 0.45; share < 1; share += 0.05 {
		if e := core.Mix(ink, share); scene.Contrast(e, paper) >= 4 {
			return e
		}
	}
	return ink
}

// threadInk is light on dark wires and dark on light ones.
func threadInk(core scene.Color) scene.Color {
	if core.Luminance() < 0.3 {
		return core.Mix(scene.White, 0.82)
	}
	return core.Mix(ink, 0.72)
}
