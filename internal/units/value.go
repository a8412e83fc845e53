// Package units reads and prints values as the trade writes them: 500k, 22n,
// 2.2H, 22 SWG. Readers are strict: a text with more than one customary
// meaning is an *Ambiguous error that lists the readings to ask about, any
// other text that is no value is an *Invalid error.
package units

import (
	"fmt"
	"strings"
)

// Value is one physical value in SI units as its text stated it. X is never
// negative, NaN or infinite.
type Value struct {
	X      float64 // ohms, farads, henries, metres or hertz
	Tol    float64 // relative half width (0.2 is ±20 %); 0: not stated
	TolLow float64 // lower half width where it differs from Tol (letter Z: 0.2 below, 0.8 above), else 0
	Text   string  // as written
}

// Interval is the range that the value and its tolerance state.
func (v Value) Interval() Interval {
	t := v.tolerance()
	return Interval{v.X * max(0, 1-t.low), v.X * (1 + t.high)}
}

func (v Value) tolerance() tolerance {
	if v.TolLow != 0 {
		return tolerance{v.TolLow, v.Tol}
	}
	return tolerance{v.Tol, v.Tol}
}

// Ambiguous says that a text has more than one customary meaning. Each
// reading can be pasted in the text's place; a remark may follow in brackets.
type Ambiguous struct {
	Text     string
	Readings []string
}

func (a *Ambiguous) Error() string {
	return fmt.Sprintf("%q can mean %s: write the one that is meant", a.Text, strings.Join(a.Readings, " or "))
}

// Invalid says that a text is no value of its kind.
type Invalid struct {
	Text  string
	Kind  string // "resistance"
	Write string // examples: "500k, 4.7k, 4k7"
}

func (e *Invalid) Error() string {
	return fmt.Sprintf("%q is no %s: write it like %s", e.Text, e.Kind, e.Write)
}
