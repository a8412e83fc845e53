package electrics

import (
	"fmt"
	"math"
	"strconv"
)

// Meter is an ohmmeter: its ranges, smallest first.
type Meter struct {
	Name   string  `json:"name"`
	Ranges []Range `json:"ranges"`
	Leads  Bounds  `json:"leads"` // Ω, of both test leads; zero once they are zeroed out
	Over   string  `json:"over"`  // what it shows beyond its range: "OL" or "1"
}

// Range is one range of a meter.
type Range struct {
	Full    float64 `json:"full"`    // Ω, the most it shows
	Count   float64 `json:"count"`   // Ω, one step of the last digit
	Percent float64 `json:"percent"` // of the reading
	Counts  float64 `json:"counts"`
}

// Shown is what a meter shows of a reading: the likeliest digits, and the least
// and most that a right meter on a right loom can show.
type Shown struct {
	Range  string  `json:"range"`  // "20 kΩ"
	Digits string  `json:"digits"` // "7.87", "OL"
	Unit   string  `json:"unit"`   // "kΩ"; "" with Over
	Lo     string  `json:"lo"`
	Hi     string  `json:"hi"`
	LoOhms float64 `json:"loOhms"`
	HiOhms float64 `json:"hiOhms"` // 0: no bound, it may show Over
	Words  string  `json:"words"`
}

// Plain is an ordinary meter of 2000 counts with a range switch: ±(0.8 % + 3),
// test leads of 0.2 to 0.5 Ω (from memory; leads as meter makers state them).
func Plain() Meter {
	m := Meter{Name: "2000 counts, range switch", Leads: Bounds{0.3, 0.2, 0.5}, Over: "1"}
	for _, full := range []float64{200, 2e3, 20e3, 200e3, 2e6, 20e6} {
		m.Ranges = append(m.Ranges, Range{Full: full * 1999 / 2000, Count: full / 2000, Percent: 0.8, Counts: 3})
	}
	return m
}

// AutoRanging is an ordinary meter of 6000 counts that finds its range:
// ±(0.5 % + 2), from memory.
func AutoRanging() Meter {
	m := Meter{Name: "6000 counts, automatic ranges", Leads: Bounds{0.3, 0.2, 0.5}, Over: "OL"}
	for _, full := range []float64{600, 6e3, 60e3, 600e3, 6e6, 60e6} {
		m.Ranges = append(m.Ranges, Range{Full: full * 5999 / 6000, Count: full / 6000, Percent: 0.5, Counts: 2})
	}
	return m
}

// Error is how far the meter may be off at a reading, in Ω.
func (r Range) Error(ohms float64) float64 { return ohms*r.Percent/100 + r.Counts*r.Count }

// Fitting is the smallest range that shows a resistance; the largest when none
// does.
func (m Meter) Fitting(ohms float64) Range {
	for _, r := range m.Ranges {
		if ohms < r.Full+r.Count/2 {
			return r
		}
	}
	return m.Ranges[len(m.Ranges)-1]
}

// Shows is what the meter shows of a reading, on its best range.
func (m Meter) Shows(r Reading) Shown { return m.ShowsOn(r, m.Fitting(r.Ohms+m.Leads.Typical)) }

// ShowsOn is what the meter shows of a reading on one of its ranges.
func (m Meter) ShowsOn(r Reading, on Range) Shown {
	out := Shown{Range: rangeName(on)}
	if r.Verdict == Apart || r.Verdict == Blocked {
		out.Digits, out.Lo, out.Hi = m.Over, m.Over, m.Over
		out.Words = fmt.Sprintf("%s: the meter shows %s", r.Words, m.Over)
		return out
	}
	x, lo, hi := r.Ohms+m.Leads.Typical, r.Lo+m.Leads.Lo, r.Hi+max(m.Leads.Hi, m.Leads.Typical)
	lo, hi = max(0, lo-on.Error(lo)), hi+on.Error(hi)
	out.Digits, out.Unit = m.digits(x, on, math.Round)
	out.Lo, _ = m.digits(lo, on, math.Floor)
	out.Hi, _ = m.digits(hi, on, math.Ceil)
	out.LoOhms, out.HiOhms = math.Floor(lo/on.Count+1e-9)*on.Count, math.Ceil(hi/on.Count-1e-9)*on.Count
	if out.HiOhms > on.Full {
		out.HiOhms = 0
	}
	out.Words = fmt.Sprintf("%s: the meter shows %s on its %s range, %s is right", r.Words, out.Digits, out.Range, m.rightWords(out))
	if r.Typical {
		out.Words += " (on typical values, from memory)"
	}
	return out
}

// rightWords is what a right loom can show: "7.31 to 8.82".
func (m Meter) rightWords(s Shown) string {
	if s.Hi == m.Over {
		return fmt.Sprintf("%s up to over the range (%s)", s.Lo, m.Over)
	}
	return s.Lo + " to " + s.Hi
}

// digits is a resistance as the display has it.
func (m Meter) digits(ohms float64, on Range, round func(float64) float64) (digits, unit string) {
	const slack = 1e-9 // of a count: what arithmetic may be off
	counts := ohms / on.Count
	if near := math.Round(counts); math.Abs(counts-near) < slack*max(1, near) {
		counts = near
	}
	if counts = round(counts); counts*on.Count > on.Full*(1+slack) {
		return m.Over, ""
	}
	scale, unit := scaleOf(on)
	decimals := max(0, int(math.Round(-math.Log10(on.Count/scale))))
	return strconv.FormatFloat(counts*on.Count/scale, 'f', decimals, 64), unit
}

func scaleOf(on Range) (float64, string) {
	switch {
	case on.Full >= 1.5e6:
		return 1e6, "MΩ"
	case on.Full >= 1.5e3:
		return 1e3, "kΩ"
	}
	return 1, "Ω"
}

func rangeName(on Range) string {
	scale, unit := scaleOf(on)
	return strconv.FormatFloat(math.Round((on.Full+on.Count)/on.Count)*on.Count/scale, 'g', 6, 64) + " " + unit
}
