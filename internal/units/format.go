package units

import "math"

// printed is a prefix that values are printed with.
type printed struct {
	exp  int
	unit string
}

// FormatOhms prints a resistance: "7.85 kΩ". Ohms reads it back exactly; Round
// first where fewer digits are wanted. No value (NaN) is "unknown".
func FormatOhms(x float64) string {
	return format(x, "Ω", printed{0, "Ω"}, printed{3, "kΩ"}, printed{6, "MΩ"}, printed{9, "GΩ"})
}

// FormatFarads prints a capacitance: "22 nF".
func FormatFarads(x float64) string {
	return format(x, "F", printed{-12, "pF"}, printed{-9, "nF"}, printed{-6, "µF"})
}

// FormatHenries prints an inductance: "2.2 H".
func FormatHenries(x float64) string {
	return format(x, "H", printed{-6, "µH"}, printed{-3, "mH"}, printed{0, "H"})
}

// FormatMetres prints a length: "300 mm".
func FormatMetres(x float64) string {
	return format(x, "m", printed{-3, "mm"}, printed{0, "m"})
}

// FormatHertz prints a frequency: "4.1 kHz".
func FormatHertz(x float64) string {
	return format(x, "Hz", printed{0, "Hz"}, printed{3, "kHz"}, printed{6, "MHz"})
}

// format prints x with the largest prefix not above it; prefixes rise.
func format(x float64, base string, prefixes ...printed) string {
	switch {
	case math.IsNaN(x):
		return "unknown"
	case x < 0:
		return "-" + format(-x, base, prefixes...)
	case math.IsInf(x, 0):
		return "∞ " + base
	case x == 0:
		return "0 " + base
	}
	best := prefixes[0]
	for _, p := range prefixes[1:] {
		if x >= math.Pow10(p.exp) {
			best = p
		}
	}
	return printScaled(x, best.exp) + " " + best.unit
}
