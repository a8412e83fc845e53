// Package units reads and prints values as the trade writes them: 500k, 22n,
// 2.2H, 22 SWG. Readers are strict: a text with more than one customary
// meaning is an *Ambiguous error that lists the readings to ask about.
package units

import "errors"

// Value is one physical value in SI units as its text stated it.
type Value struct {
	X      float64 // ohms, farads, henries, metres or hertz
	Tol    float64 // relative half width (0.2 is ±20 %); 0: not stated
	TolLow float64 // lower half width where it differs from Tol (letter Z: 0.2 below, 0.8 above), else 0
	Text   string  // as written
}

// Interval is a closed range in SI units.
type Interval struct{ Lo, Hi float64 }

// Ambiguous says that a text has more than one customary meaning.
type Ambiguous struct {
	Text     string
	Readings []string // each can be pasted in the text's place, up to a bracketed remark
}

func (a *Ambiguous) Error() string { return a.Text }

// Taper is the law of a pot's track.
type Taper string

// The tapers; the zero Taper is "not stated".
const (
	Linear       Taper = "linear"
	Audio        Taper = "audio"
	ReverseAudio Taper = "reverse audio"
)

// TrackValue is a pot's track.
type TrackValue struct {
	Ohms  Value
	Taper Taper
	Half  float64 // fraction of the track between ccw and wiper at half turn; 0: not stated
	Text  string
}

// WireSize is the conductor of a wire.
type WireSize struct {
	Diameter float64 // of the whole conductor, metres
	Area     float64 // of copper, m²
	Strands  int     // 1: solid
	Strand   float64 // diameter of one strand, metres
	Text     string
}

var errTodo = errors.New("not read yet")

func Ohms(s string) (Value, error)            { return Value{}, errTodo }
func Farads(s string) (Value, error)          { return Value{}, errTodo }
func Henries(s string) (Value, error)         { return Value{}, errTodo }
func Metres(s string) (Value, error)          { return Value{}, errTodo }
func Hertz(s string) (Value, error)           { return Value{}, errTodo }
func Percent(s string) (float64, error)       { return 0, errTodo }
func Track(s string) (TrackValue, error)      { return TrackValue{}, errTodo }
func Wire(s string) (WireSize, error)         { return WireSize{}, errTodo }
func RangeOhms(s string) (Interval, error)    { return Interval{}, errTodo }
func RangeFarads(s string) (Interval, error)  { return Interval{}, errTodo }
func RangeHenries(s string) (Interval, error) { return Interval{}, errTodo }
func PreferredE12(x float64) float64          { return x }
func PreferredE24(x float64) float64          { return x }
func FormatOhms(x float64) string             { return "" }
func FormatFarads(x float64) string           { return "" }
func FormatHenries(x float64) string          { return "" }
func FormatMetres(x float64) string           { return "" }
func FormatHertz(x float64) string            { return "" }

// Round rounds to a number of significant digits, for printing.
func Round(x float64, digits int) float64 { return x }
