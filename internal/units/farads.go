package units

import "strings"

var farads = quantity{
	kind: "capacitance", write: ".022, 0.022 µF, 22n, 4n7, 470p or the code 223K",
	unitWords: []string{"F"},
	prefixes:  map[string]int{"": 0, "p": -12, "P": -12, "n": -9, "N": -9, "u": -6, "U": -6, "µ": -6},
	marks:     "pnuµ",
}

// Farads reads a capacitance: 22n, 22nF, 470p, 4n7, 0.047 µF, 0.022 mfd; a
// plain number under 1 (.022) in microfarads by trade habit; three digits
// with a non-zero last one (223, 104) as the code of IEC 60062 in picofarads,
// a tolerance letter after it (223K). Other plain numbers are asked about.
func Farads(s string) (Value, error) {
	if v, ok := oldMicrofarads(s); ok {
		return v, nil
	}
	p, ok := farads.split(s)
	switch {
	case !ok:
		return Value{}, farads.invalid(s)
	case p.unit == "F" && p.prefix == "" && strings.HasSuffix(strings.TrimSpace(s), p.number+"F"):
		return toleranceOrFarads(s, p)
	case p.unit == "" && p.prefix == "":
		return plainFarads(s, p)
	case p.unit == "" && tolerances[p.prefix] != tolerance{}:
		p.prefix, p.letter = "", p.prefix
		return plainFarads(s, p)
	case p.prefix == "m" && p.unit != "":
		return Value{}, &Ambiguous{Text: s, Readings: []string{
			p.number + " µF (m for micro, old labels)", printMilli(p.number) + " µF (m for milli)"}}
	}
	return farads.value(s, p)
}

// oldMicrofarads reads the units of old labels: mfd, mmfd.
func oldMicrofarads(s string) (Value, bool) {
	low := strings.ToLower(strings.TrimSpace(s))
	for _, w := range [...]struct{ word, prefix string }{{"mmfd", "p"}, {"mfd", "u"}} {
		if number, found := strings.CutSuffix(low, w.word); found {
			number = strings.TrimSpace(number)
			n, rest := leadingNumber(number)
			v, err := farads.value(s, parts{number: n, prefix: w.prefix})
			return v, err == nil && n != "" && rest == ""
		}
	}
	return Value{}, false
}

// toleranceOrFarads reads an F straight after the number: the letter of 1 %
// after a code, else asked about.
func toleranceOrFarads(s string, p parts) (Value, error) {
	if p.unit, p.letter = "", "F"; isCode(p.number) {
		return codeFarads(s, p)
	}
	return Value{}, &Ambiguous{Text: s, Readings: []string{p.number + " µF", p.number + " nF", p.number + " pF", p.number + " F"}}
}

// plainFarads reads a number without prefix and unit.
func plainFarads(s string, p parts) (Value, error) {
	x, ok := scaled(p.number, 0)
	switch {
	case !ok:
		return Value{}, farads.invalid(s)
	case strings.Contains(p.number, ".") && x < 1:
		p.prefix = "u"
		return farads.value(s, p)
	case isCode(p.number):
		return codeFarads(s, p)
	case len(p.number) == 3 && allDigits(p.number) && p.number[0] != '0' && p.number[2] == '0':
		return Value{}, &Ambiguous{Text: s, Readings: []string{
			p.number + " pF" + tolerances[p.letter].String(), p.number[:2] + " pF" + tolerances[p.letter].String() + " (three-digit code)"}}
	case p.letter != "" || p.number[0] == '0' && x >= 1:
		return Value{}, farads.invalid(s)
	}
	return Value{}, &Ambiguous{Text: s, Readings: []string{p.number + " pF", p.number + " nF", p.number + " µF"}}
}

// isCode reports whether a number is a three-digit code whose last digit, the
// power of ten, is not 0: 104.
func isCode(number string) bool {
	return len(number) == 3 && allDigits(number) && number[0] != '0' && number[2] >= '1' && number[2] <= '6'
}

// codeFarads reads 223 as 22·10³ pF.
func codeFarads(s string, p parts) (Value, error) {
	code := p.number
	p.number, p.prefix = code[:2]+strings.Repeat("0", int(code[2]-'0')), "p"
	return farads.value(s, p)
}

func printMilli(number string) string {
	x, _ := scaled(number, 3)
	return printScaled(x, 0)
}

// RangeFarads reads a range of capacitances, 100p..200p, or a single value
// with its tolerance, as an interval in farads.
func RangeFarads(s string) (Interval, error) { return readRange(s, "pF", Farads) }
