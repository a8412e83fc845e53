package units

import (
	"errors"
	"strings"
)

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
	Half  float64 // share of the track on its small side at half turn (0.15): from ccw for audio, from cw for reverse audio; 0: not stated
	Text  string
}

// String is the track as Track reads it: "500 kΩ audio 15%".
func (t TrackValue) String() string {
	s := FormatOhms(t.Ohms.X) + t.Ohms.tolerance().String()
	if t.Taper != "" {
		s += " " + string(t.Taper)
	}
	if t.Half != 0 {
		s += " " + printScaled(t.Half, -2) + "%"
	}
	return s
}

// taperWords are the words for tapers, the longer before those they end in.
var taperWords = []struct {
	word  string
	taper Taper
}{
	{"reverse audio", ReverseAudio}, {"reverse log", ReverseAudio}, {"anti-log", ReverseAudio}, {"antilog", ReverseAudio},
	{"audio", Audio}, {"logarithmic", Audio}, {"log", Audio}, {"linear", Linear}, {"lin", Linear},
}

// letterReading is one meaning of a taper letter.
type letterReading struct {
	taper  Taper
	region string
}

// taperLetters differ by region and age (from memory; common practice).
var taperLetters = map[string][]letterReading{
	"A": {{Audio, "Asian/US letter"}, {Linear, "old European letter"}},
	"B": {{Linear, "Asian/US letter"}, {Audio, "old European letter"}},
	"C": {{ReverseAudio, "Asian/US letter"}, {Audio, "old European letter"}},
}

const trackExamples = "500k audio, 250k linear or 1M reverse audio"

func trackInvalid(s string) error { return &Invalid{Text: s, Kind: "track", Write: trackExamples} }

// Track reads a pot's track: "500k audio", "250k linear", "500k reverse audio",
// "500k audio 15%" (share at half turn), "500k ±20 %", "500k". Letters (A500K,
// 500kA) and plain numbers (504, 500) are asked about.
func Track(s string) (TrackValue, error) {
	rest, half, ok := cutHalf(strings.TrimSpace(spelling.Replace(s)))
	if !ok {
		return TrackValue{}, trackInvalid(s)
	}
	rest, taper := cutTaper(rest)
	rest, letter := cutLetter(rest)
	v, err := trackOhms(rest, letter)
	if err != nil {
		return TrackValue{}, placed(err, s)
	}
	v.Text = rest
	t := TrackValue{Ohms: v, Taper: taper, Half: half, Text: s}
	if t.Half, ok = smallSide(taper, half); !ok {
		return TrackValue{}, trackInvalid(s)
	}
	return t, t.askLetter(letter)
}

// askLetter asks about a taper letter that no word settles.
func (t TrackValue) askLetter(letter string) error {
	if letter == "" {
		return nil
	}
	asked := &Ambiguous{Text: t.Text}
	for _, r := range taperLetters[letter] {
		if r.taper == t.Taper {
			return nil
		}
		asked.Readings = append(asked.Readings, printShortOhms(t.Ohms.X)+" "+string(r.taper)+" ("+r.region+")")
	}
	if t.Taper != "" {
		return trackInvalid(t.Text)
	}
	return asked
}

// cutHalf takes the share at half turn ("15%") off the end of a text; it
// stands after a taper's word, a tolerance stands after the ohms.
func cutHalf(s string) (rest string, half float64, ok bool) {
	cut, t, ok := cutTolerance(s)
	if _, taper := cutTaper(cut); !ok || taper == "" || strings.Contains(s[len(cut):], "±") {
		return s, 0, true
	}
	return cut, t.high, t.low == t.high
}

func cutTaper(s string) (rest string, taper Taper) {
	for _, w := range taperWords {
		if n := len(s) - len(w.word); n > 0 && strings.EqualFold(s[n:], w.word) && s[n-1] == ' ' {
			return strings.TrimSpace(s[:n]), w.taper
		}
	}
	return s, ""
}

// cutLetter takes a taper letter off the front or the end of a text.
func cutLetter(s string) (rest, letter string) {
	if s == "" {
		return s, ""
	}
	if first := s[:1]; taperLetters[first] != nil {
		return strings.TrimSpace(s[1:]), first
	}
	if last := s[len(s)-1:]; taperLetters[last] != nil {
		return strings.TrimSpace(s[:len(s)-1]), last
	}
	return s, ""
}

// trackOhms reads the track's resistance. A plain number may be kilohms, a
// three-digit code or ohms: asked about. Beside a letter it is not in ohms.
func trackOhms(s, letter string) (Value, error) {
	if !allDigits(s) || s == "0" {
		return Ohms(s)
	}
	inKilohms, remark := s+"k", ""
	if isCode(s) {
		coded, _ := scaled(s[:2], int(s[2]-'0'))
		inKilohms, remark = printShortOhms(coded), " (three-digit code)"
	}
	if letter != "" {
		return Ohms(inKilohms)
	}
	return Value{}, &Ambiguous{Text: s, Readings: []string{inKilohms + remark, s + " Ω"}}
}

// smallSide is the share on the small side of the track; the half of a linear
// track can only be 50 %.
func smallSide(taper Taper, half float64) (float64, bool) {
	switch {
	case half == 0:
		return 0, true
	case taper == Linear:
		return 0, half == 0.5
	case taper == ReverseAudio && half > 0.5:
		half = Round(1-half, 12)
	}
	return half, half > 0 && half < 0.5
}

// placed puts the whole text, and what stands around the part that was read,
// into an error about that part.
func placed(err error, whole string) error {
	var asked *Ambiguous
	if !errors.As(err, &asked) {
		return trackInvalid(whole)
	}
	out := &Ambiguous{Text: whole}
	for _, r := range asked.Readings {
		value, remark, found := strings.Cut(r, " (")
		if found {
			remark = " (" + remark
		}
		out.Readings = append(out.Readings, strings.Replace(whole, asked.Text, value, 1)+remark)
	}
	return out
}

// printShortOhms prints ohms the short way: 500k, 1M, 4.7k.
func printShortOhms(x float64) string {
	switch {
	case x >= 1e6:
		return printScaled(x, 6) + "M"
	case x >= 1e3:
		return printScaled(x, 3) + "k"
	}
	return printScaled(x, 0) + " Ω"
}
