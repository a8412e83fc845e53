package units

import "strings"

// quantity describes how values of one kind are written: a number, a prefix,
// a unit word; or a letter in place of the point (4k7, R47: IEC 60062).
type quantity struct {
	kind, write string
	unitWords   []string       // longest first, matched without regard to case
	prefixes    map[string]int // prefix, as written, to power of ten
	marks       string         // prefixes that may stand in place of the point
}

func (q quantity) invalid(text string) error {
	return &Invalid{Text: text, Kind: q.kind, Write: q.write}
}

var spelling = strings.NewReplacer("\u2126", "Ω", "μ", "µ", "\u00a0", " ", "\u202f", " ")

// parts is a value's text taken apart.
type parts struct {
	number string // digits with a point
	prefix string // as written, "" for none
	unit   string // unit word as written, "" for none
	letter string // tolerance letter, "" for none
	tol    tolerance
}

// split takes a text apart; it reports false when the text is not of the form
// number, prefix, unit, tolerance.
func (q quantity) split(text string) (p parts, ok bool) {
	s, tol, ok := cutTolerance(strings.TrimSpace(spelling.Replace(text)))
	if !ok {
		return p, false
	}
	p.tol = tol
	s, p.unit = q.cutUnit(s)
	if p.number, p.prefix, p.letter, ok = q.marked(s); ok {
		return p, true
	}
	p.number, p.prefix = leadingNumber(s)
	p.prefix = strings.TrimSpace(p.prefix)
	return p, p.number != ""
}

// cutUnit takes the unit word off the end of s.
func (q quantity) cutUnit(s string) (rest, unit string) {
	for _, w := range q.unitWords {
		if n := len(s) - len(w); n > 0 && strings.EqualFold(s[n:], w) {
			return strings.TrimSpace(s[:n]), s[n:]
		}
	}
	return s, ""
}

// marked reads a number with a letter in place of the point, and the
// tolerance letter that may follow: 4k7, R47, 4K7J.
func (q quantity) marked(s string) (number, prefix, letter string, ok bool) {
	at := strings.IndexAny(s, q.marks)
	if at < 0 || at > 0 && !allDigits(s[:at]) {
		return "", "", "", false
	}
	width := 1
	if s[at] >= 0x80 {
		width = 2 // µ, the only mark beyond ASCII
	}
	prefix, after := s[at:at+width], s[at+width:]
	if after != "" && !isDigit(after[len(after)-1]) {
		after, letter = after[:len(after)-1], after[len(after)-1:]
	}
	if !allDigits(after) && (at == 0 || after != "") {
		return "", "", "", false
	}
	return strings.TrimSuffix(s[:at]+"."+after, "."), prefix, letter, true
}

// value puts the parts together.
func (q quantity) value(text string, p parts) (Value, error) {
	exp, ok := q.prefixes[p.prefix]
	if !ok {
		return Value{}, q.invalid(text)
	}
	if p.letter != "" {
		if p.tol, ok = p.tol.withLetter(p.letter); !ok {
			return Value{}, q.invalid(text)
		}
	}
	x, ok := scaled(p.number, exp)
	if !ok {
		return Value{}, q.invalid(text)
	}
	return Value{X: x, Tol: p.tol.high, TolLow: p.tol.lowIfOther(), Text: text}, nil
}
