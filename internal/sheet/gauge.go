package sheet

import (
	"fmt"
	"math"
	"slices"

	"loomwright/internal/units"
)

// usualWire is the hookup wire of a loom that does not say (common practice, no
// source).
const usualWire = "22 AWG"

// sizes tells the sizes of wire in every way they are sold.
func sizes(in *Input) []Block {
	t := Table{Name: "sizes of wire", Heads: []string{"size of wire", "across the copper", "nearest AWG (ASTM B258)", "nearest SWG (BS 3737)"}, Shares: []float64{40, 40, 50, 50}}
	for _, s := range sizesUsed(in) {
		name := s.Text
		if s.Text == usualWire && !stated(in, usualWire) {
			name += " (usual; this loom does not ask for a size)"
		}
		d := s.Diameter
		if s.Area > 0 && s.Strands != 1 {
			d = math.Sqrt(4 * s.Area / math.Pi) // gauges count copper
		}
		t.Rows = append(t.Rows, []Cell{{Text: name}, {Text: fmt.Sprintf("%.3f mm", d*1000)},
			{Text: gaugeWords(d, "AWG", units.AWG)}, {Text: gaugeWords(d, "SWG", units.SWG)}})
	}
	return []Block{t}
}

func stated(in *Input, text string) bool {
	return slices.ContainsFunc(Cuts(in), func(c Cut) bool { return c.Size.Text == text })
}

func sizesUsed(in *Input) []units.WireSize {
	var out []units.WireSize
	for _, c := range Cuts(in) {
		s := c.Size
		if s.Text == "" {
			s, _ = units.Wire(usualWire)
		}
		if !slices.ContainsFunc(out, func(o units.WireSize) bool { return o.Text == s.Text }) {
			out = append(out, s)
		}
	}
	return out
}

// gaugeWords is the gauge whose diameter is nearest in ratio: "22 AWG, 0.644 mm".
func gaugeWords(d float64, name string, table func(int) (float64, bool)) string {
	n, diameter := nearestGauge(d, table)
	return fmt.Sprintf("%d %s, %.3f mm", n, name, diameter*1000)
}

// nearestGauge is the number of a gauge and its diameter, m.
func nearestGauge(d float64, table func(int) (float64, bool)) (number int, diameter float64) {
	best := math.Inf(1)
	for n := 0; ; n++ {
		g, ok := table(n)
		if !ok {
			return number, diameter
		}
		if off := math.Abs(math.Log(g / d)); off < best {
			best, number, diameter = off, n, g
		}
	}
}
