package units

var ohms = quantity{
	kind: "resistance", write: "500k, 4.7k, 4k7, R47 or 7.85 kΩ",
	unitWords: []string{"ohms", "ohm", "Ω"},
	prefixes:  map[string]int{"": 0, "m": -3, "R": 0, "r": 0, "k": 3, "K": 3, "M": 6, "meg": 6, "Meg": 6, "MEG": 6, "G": 9},
	marks:     "RrkKMGm",
}

// Ohms reads a resistance: 500k, 4K7, R47, 4R7, 4M7 (IEC 60062), 7.85k, 8 kΩ,
// 8 kohm, 10, 10R, 1M, and a tolerance after it (5%, ±5 %, or the letter of
// IEC 60062 as in 4K7J). A small m is asked about, as it may be milli or mega.
func Ohms(s string) (Value, error) {
	p, ok := ohms.split(s)
	if !ok {
		return Value{}, ohms.invalid(s)
	}
	switch {
	case p.prefix == "m" && p.unit != "Ω":
		return Value{}, &Ambiguous{Text: s, Readings: []string{p.number + "M", p.number + " mΩ"}}
	case p.unit != "" && (p.prefix == "R" || p.prefix == "r"):
		return Value{}, ohms.invalid(s)
	}
	return ohms.value(s, p)
}

// RangeOhms reads a range of resistances, 7.5k..8.2k, or a single value with
// its tolerance, as an interval in ohms.
func RangeOhms(s string) (Interval, error) { return readRange(s, "Ω", Ohms) }
