package scene

// Vision is a 3×3 matrix on linear RGB that shows a colour as someone without
// one kind of cone sees it.
type Vision [3][3]float64

// Severity 1.0 matrices of G. M. Machado, M. M. Oliveira, L. A. F. Fernandes,
// "A Physiologically-based Model for Simulation of Color Vision Deficiency",
// IEEE Trans. Visualization and Computer Graphics 15 (2009) 1291–1298.
// The figures are from memory.
var (
	Protanopia = Vision{
		{0.152286, 1.052583, -0.204868},
		{0.114503, 0.786281, 0.099216},
		{-0.003882, -0.048116, 1.051998},
	}
	Deuteranopia = Vision{
		{0.367322, 0.860646, -0.227968},
		{0.280085, 0.672501, 0.047413},
		{-0.011820, 0.042940, 0.968881},
	}
	Tritanopia = Vision{
		{1.255528, -0.076749, -0.178779},
		{-0.078411, 0.930809, 0.147602},
		{0.004733, 0.691367, 0.303900},
	}
)

// See is the colour as seen: an Ink.
func (v Vision) See(c Color) Color {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var out [3]uint8
	for i, row := range v {
		out[i] = encode(row[0]*in[0] + row[1]*in[1] + row[2]*in[2])
	}
	return Color{out[0], out[1], out[2], c.A}
}
