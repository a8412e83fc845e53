package units

var henries = quantity{
	kind: "inductance", write: "2.2 H, 450 mH or 4H5",
	unitWords: []string{"H"},
	prefixes:  map[string]int{"": 0, "H": 0, "m": -3, "u": -6, "µ": -6},
	marks:     "H",
}

// Henries reads an inductance: 2.2H, 2.2 H, 450mH, 4H5. A number without a
// unit is asked about.
func Henries(s string) (Value, error) {
	p, ok := henries.split(s)
	switch {
	case !ok || p.prefix == "H" && p.unit != "":
		return Value{}, henries.invalid(s)
	case p.unit == "" && p.prefix == "":
		return Value{}, &Ambiguous{Text: s, Readings: []string{p.number + " H", p.number + " mH"}}
	}
	return henries.value(s, p)
}

// RangeHenries reads a range of inductances, 2H..3.5H, or a single value with
// its tolerance, as an interval in henries.
func RangeHenries(s string) (Interval, error) { return readRange(s, "H", Henries) }

var hertz = quantity{
	kind: "frequency", write: "440 Hz, 3.2 kHz or 3k2",
	unitWords: []string{"Hz"},
	prefixes:  map[string]int{"": 0, "k": 3, "K": 3, "M": 6},
	marks:     "kK",
}

// Hertz reads a frequency: 440, 440 Hz, 3.2 kHz, 3k2.
func Hertz(s string) (Value, error) {
	p, ok := hertz.split(s)
	if !ok {
		return Value{}, hertz.invalid(s)
	}
	return hertz.value(s, p)
}

// RangeHertz reads a range of frequencies, 2 kHz..5 kHz, or a single value.
func RangeHertz(s string) (Interval, error) { return readRange(s, "Hz", Hertz) }
