package units

import (
	"math"
	"strconv"
	"strings"
)

// WireSize is the conductor of a wire.
type WireSize struct {
	Diameter float64 // of the whole conductor, metres
	Area     float64 // of copper, m²
	Strands  int     // 1: solid; 0: not stated
	Strand   float64 // diameter of one strand, metres; 0: not stated
	Text     string
}

const wireExamples = "22 AWG, 22 SWG, 7/0.2 or 0.6 mm"

func wireInvalid(s string) error { return &Invalid{Text: s, Kind: "wire size", Write: wireExamples} }

// Wire reads a conductor: "22 AWG", "22 SWG", "0.6 mm" (solid, by diameter),
// "7/0.2" or "7/0.2 mm" (strands of that diameter), "7/30 AWG", "0.22 mm²" (by
// area of copper). A gauge number alone is asked about.
func Wire(s string) (WireSize, error) {
	text := strings.TrimSpace(spelling.Replace(s))
	if mm2, ok := cutSuffixes(text, "mm²", "mm2"); ok {
		return byArea(s, mm2)
	}
	count, strand, stranded := strings.Cut(text, "/")
	if !stranded {
		count, strand = "1", text
	}
	n, err := strconv.Atoi(strings.TrimSpace(count))
	if err != nil || n < 1 || n > 10000 {
		return WireSize{}, wireInvalid(s)
	}
	if stranded && strings.Contains(strand, ".") && strings.Trim(strand, "0123456789. ") == "" {
		strand += " mm"
	}
	d, err := strandDiameter(s, strings.TrimSpace(strand))
	if err != nil {
		return WireSize{}, err
	}
	return WireSize{Diameter: bundle(n, d), Area: float64(n) * math.Pi / 4 * d * d, Strands: n, Strand: d, Text: s}, nil
}

// strandDiameter reads the size of one strand or solid wire, in metres.
func strandDiameter(whole, s string) (float64, error) {
	up := strings.ToUpper(s)
	if number, ok := gaugeNumber(up, "AWG"); ok {
		return known(whole)(AWG(number))
	}
	if number, ok := gaugeNumber(up, "SWG"); ok {
		return known(whole)(SWG(number))
	}
	bare, _ := cutSuffixes(up, "GAUGE", "GA")
	if n, err := strconv.Atoi(bare); err == nil && n >= 0 && n <= 50 {
		prefix := strings.TrimSuffix(strings.TrimSpace(whole), s)
		number := prefix + strconv.Itoa(n)
		return 0, &Ambiguous{Text: whole, Readings: []string{number + " AWG", number + " SWG"}}
	}
	if v, err := Metres(s); err == nil && v.X > 0 && v.X < 0.1 {
		return v.X, nil
	}
	return 0, wireInvalid(whole)
}

// known turns "no such gauge" into an error about the whole text.
func known(whole string) func(float64, bool) (float64, error) {
	return func(d float64, ok bool) (float64, error) {
		if !ok {
			return 0, wireInvalid(whole)
		}
		return d, nil
	}
}

// gaugeNumber reads "22 AWG" and "AWG 22".
func gaugeNumber(s, system string) (int, bool) {
	number, ok := strings.CutSuffix(s, system)
	if !ok {
		number, ok = strings.CutPrefix(s, system)
	}
	n, err := strconv.Atoi(strings.TrimSpace(number))
	return n, ok && err == nil
}

func cutSuffixes(s string, suffixes ...string) (string, bool) {
	for _, x := range suffixes {
		if rest, ok := strings.CutSuffix(s, x); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return s, false
}

func byArea(s, number string) (WireSize, error) {
	n, rest := leadingNumber(number)
	area, ok := scaled(n, -6)
	if n == "" || rest != "" || !ok || area <= 0 || area > 1e-3 {
		return WireSize{}, wireInvalid(s)
	}
	return WireSize{Diameter: math.Sqrt(4 * area / math.Pi), Area: area, Text: s}, nil
}

// bundle is the diameter of n round strands laid together: whole layers
// around one strand (1, 7, 19, 37 …) exactly, other counts by the usual factor
// 1.155·√n (from memory).
func bundle(n int, strand float64) float64 {
	for layers, total := 0, 1; total <= n; layers++ {
		if total == n {
			return float64(2*layers+1) * strand
		}
		total += 6 * (layers + 1)
	}
	return 1.155 * math.Sqrt(float64(n)) * strand
}

// AWG is the diameter in metres of a solid American wire gauge from 0 to 56:
// 0.127 mm·92^((36−n)/39) (ASTM B258).
func AWG(n int) (float64, bool) {
	if n < 0 || n > 56 {
		return 0, false
	}
	return 0.127e-3 * math.Pow(92, float64(36-n)/39), true
}

// swgThou are the diameters of the imperial standard wire gauge from 0 to 50 in
// thousandths of an inch (BS 3737:1964).
var swgThou = [...]float64{
	324, 300, 276, 252, 232, 212, 192, 176, 160, 144,
	128, 116, 104, 92, 80, 72, 64, 56, 48, 40,
	36, 32, 28, 24, 22, 20, 18, 16.4, 14.8, 13.6,
	12.4, 11.6, 10.8, 10.0, 9.2, 8.4, 7.6, 6.8, 6.0, 5.2,
	4.8, 4.4, 4.0, 3.6, 3.2, 2.8, 2.4, 2.0, 1.6, 1.2,
	1.0,
}

// SWG is the diameter in metres of an imperial standard wire gauge from 0 to
// 50 (BS 3737:1964).
func SWG(n int) (float64, bool) {
	if n < 0 || n >= len(swgThou) {
		return 0, false
	}
	return decimal(swgThou[n], -3) * metresPerInch, true
}
