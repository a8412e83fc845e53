package units

import "strings"

// tolerance is a pair of relative half widths.
type tolerance struct{ low, high float64 }

func (t tolerance) lowIfOther() float64 {
	if t.low == t.high {
		return 0
	}
	return t.low
}

// String is the tolerance as it stands behind a value: " ±5%", or "".
func (t tolerance) String() string {
	switch {
	case t == tolerance{}:
		return ""
	case t.low != t.high:
		return " -" + printScaled(t.low, -2) + "/+" + printScaled(t.high, -2) + "%"
	}
	return " ±" + printScaled(t.high, -2) + "%"
}

// tolerances are the letter codes of IEC 60062.
var tolerances = map[string]tolerance{
	"F": {0.01, 0.01}, "G": {0.02, 0.02}, "J": {0.05, 0.05},
	"K": {0.10, 0.10}, "M": {0.20, 0.20}, "Z": {0.20, 0.80},
}

// withLetter adds a tolerance letter; it reports false for an unknown letter
// or a second tolerance.
func (t tolerance) withLetter(letter string) (tolerance, bool) {
	coded, ok := tolerances[letter]
	return coded, ok && t == tolerance{}
}

// cutTolerance takes "5%", "± 20 %" or "-20/+80%" off the end of s. It reports
// false when a per cent sign is there without a number in front of it.
func cutTolerance(s string) (rest string, t tolerance, ok bool) {
	if !strings.HasSuffix(s, "%") {
		return s, t, true
	}
	if rest, t, ok = cutLopsided(s); ok {
		return rest, t, true
	}
	at := strings.LastIndexAny(strings.TrimRight(strings.TrimSuffix(s, "%"), " "), " ±")
	if at < 0 {
		return s, t, false
	}
	x, err := Percent(strings.TrimLeft(s[at:], " ±"))
	if err != nil || x == 0 || x > 1 {
		return s, t, false
	}
	return strings.TrimRight(s[:at], " ±"), tolerance{x, x}, true
}

// cutLopsided takes "-20/+80%" off the end of s.
func cutLopsided(s string) (rest string, t tolerance, ok bool) {
	at := strings.LastIndexAny(s, "-−")
	if at < 0 {
		return s, t, false
	}
	low, high, found := strings.Cut(strings.TrimLeft(s[at:], "-−"), "/+")
	if !found {
		return s, t, false
	}
	below, err := Percent(strings.TrimSuffix(strings.TrimSpace(low), "%") + "%")
	above, err2 := Percent(high)
	ok = err == nil && err2 == nil && below <= 1
	return strings.TrimSpace(s[:at]), tolerance{below, above}, ok
}

// Percent reads "20%", "20 %" or "±20%" as 0.20. A number without the sign
// is an *Ambiguous error.
func Percent(s string) (float64, error) {
	bare := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(spelling.Replace(s)), "±"))
	number, rest := leadingNumber(bare)
	if number == "" {
		return 0, percentInvalid(s)
	}
	switch strings.TrimSpace(rest) {
	case "%":
		if x, ok := scaled(number, -2); ok {
			return x, nil
		}
	case "":
		if hundred, ok := scaled(number, 2); ok && hundred <= 100 {
			return 0, &Ambiguous{Text: s, Readings: []string{number + " %", printScaled(hundred, 0) + " %"}}
		}
		return 0, &Ambiguous{Text: s, Readings: []string{number + " %"}}
	}
	return 0, percentInvalid(s)
}

func percentInvalid(s string) error {
	return &Invalid{Text: s, Kind: "percentage", Write: "20 % or ±20 %"}
}
