package meter

import (
	"encoding/binary"
	"math"

	"loomwright/internal/electrics"
)

// Answer is a set of answers that are no numbers.
type Answer uint16

// The answers. A tap moves the meter up or down, or not; a tone darkens the
// sound, changes nothing, silences it, or there was nothing to hear; a compass
// finds north or south.
const (
	Up Answer = 1 << iota
	Down
	Still
	Darker
	Same
	Mutes
	Mute
	North
	South
)

var answerWords = []string{"up", "down", "nothing", "darker", "same", "silences", "silent", "north", "south"}

// Words lists the answers of a set.
func (a Answer) Words() []string {
	var out []string
	for i, w := range answerWords {
		if a>>i&1 == 1 {
			out = append(out, w)
		}
	}
	return out
}

// Answers are those that a kind of reading can have; none for numbers.
func (k Kind) Answers() Answer {
	switch k {
	case Tap:
		return Up | Down | Still
	case Darkens:
		return Darker | Same | Mutes | Mute
	case Compass:
		return North | South
	}
	return 0
}

// Shown is all that a reading can show: from Lo to Hi in Ω or F as the display
// has it, +Inf beyond the largest range; or any of May.
type Shown struct {
	Lo, Hi float64
	May    Answer
}

// Fits reports whether one thing can be shown by both.
func (s Shown) Fits(o Shown) bool {
	if s.May != 0 || o.May != 0 {
		return s.May&o.May != 0
	}
	return s.Lo <= o.Hi && o.Lo <= s.Hi
}

// slack is what wires, joints and switch contacts may add to a reading, Ω
// (judgement; new contacts have some 20 mΩ).
const slack = 1.0

// display is what a meter may show of a resistance between lo and hi. Test
// leads may be zeroed or not. Near the end of a range the meter may stand on
// that range or on the next one, which has a larger error.
func display(m *electrics.Meter, lo, hi float64) Shown {
	over := m.Ranges[len(m.Ranges)-1].Full
	if math.IsInf(lo, 1) {
		return Shown{Lo: over, Hi: math.Inf(1)}
	}
	hi += slack + max(m.Leads.Hi, m.Leads.Typical)
	out := Shown{Lo: over, Hi: math.Inf(1)}
	begins := 0.0 // least resistance that may be shown on a range
	for i, r := range m.Ranges {
		last := i == len(m.Ranges)-1
		if x := max(lo, begins); x <= hi && (last || x-r.Error(x) <= r.Full) {
			out.Lo = min(out.Lo, r.Count*math.Floor((x-r.Error(x))/r.Count+1e-9))
		}
		if most := hi + r.Error(hi); most <= r.Full {
			out.Hi = r.Count * math.Ceil(most/r.Count-1e-9)
			break
		}
		begins = (r.Full - r.Counts*r.Count) / (1 + r.Percent/100)
	}
	out.Lo = max(0, out.Lo)
	return out
}

// Capacitance ranges of an ordinary meter: ±(4 % + 50 pF), from memory.
const (
	faradsPercent = 4.0
	faradsCount   = 50e-12
)

// displayFarads is what a meter may show of a capacitance from lo to hi.
func displayFarads(lo, hi float64) Shown {
	return Shown{Lo: max(0, lo*(1-faradsPercent/100)-faradsCount), Hi: hi*(1+faradsPercent/100) + faradsCount}
}

// Place puts a number on the scale on which readings are spread evenly: the
// logarithm above about 10 Ω (or 100 pF), straight below. What is beyond the
// largest range is one place.
func Place(k Kind, x float64) float64 {
	unit, most := 10.0, 1e9
	if k == Farads {
		unit, most = 1e-10, 1
	}
	return math.Log1p(min(x, most) / unit)
}

func appendShown(b []byte, s Shown) []byte {
	b = binary.LittleEndian.AppendUint64(b, math.Float64bits(s.Lo))
	b = binary.LittleEndian.AppendUint64(b, math.Float64bits(s.Hi))
	return binary.LittleEndian.AppendUint16(b, uint16(s.May))
}
