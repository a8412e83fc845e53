package units

import "strings"

// Interval is a closed range in SI units, Lo <= Hi.
type Interval struct{ Lo, Hi float64 }

// Contains reports whether x lies in the interval.
func (i Interval) Contains(x float64) bool { return i.Lo <= x && x <= i.Hi }

// readRange reads "7.5k..8.2k" with the reader of one kind; base is the unit
// that a bare number may be in.
func readRange(s, base string, read func(string) (Value, error)) (Interval, error) {
	low, high, found := strings.Cut(s, "..")
	low, high = strings.TrimSpace(low), strings.TrimSpace(high)
	if !found {
		v, err := read(s)
		return v.Interval(), err
	}
	if suffix := unitSuffix(high); suffix != "" && unitSuffix(low) == "" {
		return Interval{}, &Ambiguous{Text: s, Readings: []string{
			low + suffix + ".." + high, low + " " + base + ".." + high}}
	}
	lo, err := read(low)
	if err != nil {
		return Interval{}, err
	}
	hi, err := read(high)
	if err != nil {
		return Interval{}, err
	}
	if lo.X > hi.X {
		return Interval{}, &Invalid{Text: s, Kind: "range", Write: high + ".." + low + ", the smaller end first"}
	}
	return Interval{lo.X, hi.X}, nil
}

// unitSuffix is what follows the number in a value: "k" in 8.2k, "" in 8k2.
func unitSuffix(s string) string {
	_, suffix := leadingNumber(s)
	if suffix != "" && isDigit(suffix[len(suffix)-1]) {
		return ""
	}
	return suffix
}
