package units

import (
	"strconv"
	"strings"
)

var lengths = quantity{
	kind: "length", write: "300 mm, 30 cm, 5 m, 10 ft, 12 in or 3/8 in",
	prefixes: map[string]int{"m": 0, "cm": -2, "mm": -3, "km": 3},
}

// inches are exact by definition: 1 in = 25.4 mm (international inch, 1959).
const metresPerInch = 0.0254

// Metres reads a length: 5m, 30cm, 300 mm, 10ft, 12in, 3/8 in, 12". A number
// without a unit is asked about.
func Metres(s string) (Value, error) {
	p, ok := lengths.split(s)
	if !ok {
		return Value{}, lengths.invalid(s)
	}
	if p.prefix == "" {
		return Value{}, &Ambiguous{Text: s, Readings: []string{p.number + " mm", p.number + " cm", p.number + " m", p.number + " in"}}
	}
	if v, ok := inches(p); ok {
		v.Text = s
		return v, nil
	}
	return lengths.value(s, p)
}

// inches reads feet and inches, with one fraction.
func inches(p parts) (Value, bool) {
	x, ok := scaled(p.number, 0)
	rest := p.prefix
	if under, isFraction := strings.CutPrefix(rest, "/"); isFraction {
		digits, word := leadingNumber(under)
		n, err := strconv.Atoi(digits)
		ok = ok && err == nil && n > 0 && allDigits(p.number)
		x, rest = x/float64(max(n, 1)), strings.TrimSpace(word)
	}
	switch rest {
	case "in", "inch", "inches", `"`, "″":
		x *= metresPerInch
	case "ft", "foot", "feet", "'", "′":
		x *= 12 * metresPerInch
	default:
		ok = false
	}
	return Value{X: x, Tol: p.tol.high, TolLow: p.tol.lowIfOther()}, ok
}

// RangeMetres reads a range of lengths, 10 mm..12 mm, or a single value.
func RangeMetres(s string) (Interval, error) { return readRange(s, "mm", Metres) }
