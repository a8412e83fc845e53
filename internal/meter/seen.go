package meter

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/electrics"
	"loomwright/internal/units"
)

// overWords are what a meter shows, and people say, of an open circuit.
var overWords = []string{"ol", "o.l", "o.l.", "1", "1.", "open", "inf", "infinite", "over"}

// Seen reads what somebody read off: "7.87k", "0.3", "OL" (or "1", "open"), "OL
// on 20k" on a meter with a range switch, "7.5k..8.2k"; for a capacitor "22n";
// for other readings one of the kind's answers in words.
func Seen(m *electrics.Meter, k Kind, said string) (Shown, error) {
	said = strings.TrimSpace(said)
	switch k {
	case Ohms:
		return seenOhms(m, said)
	case Farads:
		return seenFarads(said)
	}
	var words []string
	for i, w := range answerWords {
		if k.Answers()>>i&1 == 0 {
			continue
		}
		if strings.EqualFold(w, said) {
			return Shown{May: 1 << i}, nil
		}
		words = append(words, w)
	}
	return Shown{}, fmt.Errorf("%q is no answer here: say %s", said, strings.Join(words, ", "))
}

func seenOhms(m *electrics.Meter, said string) (Shown, error) {
	word, on, ranged := strings.Cut(strings.ToLower(said), " on ")
	if slices.Contains(overWords, strings.TrimSpace(word)) {
		out := Shown{Lo: m.Ranges[len(m.Ranges)-1].Full, Hi: math.Inf(1)}
		if ranged {
			v, err := units.Ohms(strings.TrimSpace(on))
			if err != nil {
				return Shown{}, err
			}
			out.Lo = m.Fitting(v.X * (1 - 1e-3)).Full
		}
		return out, nil
	}
	if strings.Contains(said, "..") {
		i, err := units.RangeOhms(said)
		return Shown{Lo: i.Lo, Hi: i.Hi}, err
	}
	v, err := units.Ohms(said)
	if err != nil {
		return Shown{}, err
	}
	fine := m.Fitting(v.X)
	e := coarse(step(said, v.X), fine)
	return Shown{Lo: max(0, v.X-e), Hi: v.X + e}, nil
}

// coarse is how much farther than on its best range a reading may be off that
// was written with the given step: read on the next larger range, or rounded.
func coarse(step float64, fine electrics.Range) float64 {
	switch {
	case step <= fine.Count*1.001:
		return fine.Count / 2
	case step <= fine.Count*10.001:
		return step/2 + fine.Counts*(step-fine.Count)
	}
	return step / 2
}

// step is the value of the last digit of a number as written: 10 for 7.87k.
func step(said string, x float64) float64 {
	end := strings.IndexFunc(said, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	number := said
	if end >= 0 {
		number = said[:end]
	}
	var n float64
	if _, err := fmt.Sscanf(number, "%g", &n); err != nil {
		return 0
	}
	_, decimals, _ := strings.Cut(number, ".")
	scale := 1.0
	if n > 0 {
		scale = math.Pow(10, math.Round(math.Log10(x/n)))
	}
	return scale * math.Pow(10, -float64(len(decimals)))
}

func seenFarads(said string) (Shown, error) {
	if slices.Contains(overWords, strings.ToLower(said)) {
		return Shown{Lo: 1, Hi: math.Inf(1)}, nil
	}
	i, err := units.RangeFarads(said)
	if err != nil {
		return Shown{}, err
	}
	e := step(said, i.Lo) / 2
	return Shown{Lo: max(0, i.Lo-e), Hi: i.Hi + e}, nil
}
