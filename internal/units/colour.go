package units

import (
	"slices"
	"strings"
)

// colourWord is one colour and its letters, in the order of IEC 60757:2021
// (clause 4), which is also the order in which letters are joined (clause 5).
type colourWord struct{ word, letters string }

var colours = []colourWord{
	{"black", "BK"}, {"brown", "BN"}, {"red", "RD"}, {"orange", "OG"}, {"yellow", "YE"}, {"green", "GN"}, {"blue", "BU"},
	{"violet", "VT"}, {"grey", "GY"}, {"white", "WH"}, {"pink", "PK"}, {"gold", "GD"}, {"turquoise", "TQ"}, {"silver", "SR"},
}

// otherWords are usual names of the same colours (common practice, no source).
var otherWords = map[string]string{"purple": "violet", "gray": "grey", "slate": "grey"}

// Colour is an insulation colour: one colour, or a base with a stripe. Both
// are words of ColourWords; Stripe is "" for a plain colour.
type Colour struct{ Base, Stripe string }

// ColourWords are the words of the colours that IEC 60757 has letters for.
func ColourWords() []string {
	words := make([]string, len(colours))
	for i, c := range colours {
		words[i] = c.word
	}
	return words
}

// ReadColour reads "green", "green/yellow", "green-yellow", "green with yellow
// stripe", "green yellow stripe", or letters (GN).
func ReadColour(s string) (Colour, error) {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" /-_\t", r) })
	words = slices.DeleteFunc(words, func(w string) bool {
		return slices.Contains([]string{"with", "stripe", "striped", "and", "a"}, w)
	})
	if len(words) == 0 || len(words) > 2 {
		return Colour{}, colourInvalid(s)
	}
	var pair [2]string
	for i, w := range words {
		if pair[i] = colourOf(w); pair[i] == "" {
			return Colour{}, colourInvalid(s)
		}
	}
	if pair[0] == pair[1] {
		pair[1] = ""
	}
	return Colour{pair[0], pair[1]}, nil
}

func colourInvalid(s string) error {
	return &Invalid{Text: s, Kind: "colour", Write: "green, green/yellow or one of " + strings.Join(ColourWords(), ", ")}
}

// colourOf is the colour that a word or pair of letters means, or "".
func colourOf(w string) string {
	if other, ok := otherWords[w]; ok {
		w = other
	}
	for _, c := range colours {
		if w == c.word || strings.EqualFold(w, c.letters) {
			return c.word
		}
	}
	return ""
}

// String is the colour in words: "green/yellow".
func (c Colour) String() string {
	if c.Stripe == "" {
		return c.Base
	}
	return c.Base + "/" + c.Stripe
}

// Letters are the letters of IEC 60757: RD; of a striped wire both pairs in the
// standard's order (red and blue, either way round, is RDBU). Green and yellow
// together are YEGN here: GNYE means the protective conductor only, which no
// guitar has.
func (c Colour) Letters() string {
	var s strings.Builder
	for _, w := range colours {
		if w.word == c.Base || w.word == c.Stripe {
			s.WriteString(w.letters)
		}
	}
	return s.String()
}
