package units

import (
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Habit is how a country's trade writes: words, lengths, dates, paper. Names in
// files stay as they are written.
type Habit string

// The habits. The zero value leaves texts as they are.
const (
	UK Habit = "uk"
	US Habit = "us"
)

// Habits lists them.
func Habits() []Habit { return []Habit{UK, US} }

// habitWords are the words of each habit in place of ours, lower case (common
// practice, no source).
var habitWords = map[Habit]map[string]string{
	UK: {
		"ground": "earth", "grounds": "earths", "grounded": "earthed", "grounding": "earthing",
		"shield": "screen", "shields": "screens", "shielded": "screened", "shielding": "screening",
		"lug": "tag", "lugs": "tags", "jack": "jack socket", "jacks": "jack sockets",
	},
	US: {
		"colour": "color", "colours": "colors", "coloured": "colored", "grey": "gray",
		"centre": "center", "metre": "meter", "metres": "meters", "mould": "mold", "judgement": "judgment",
		"screened": "shielded", "screen": "shield", "screens": "shields", "tag": "lug", "tags": "lugs",
		"sleeving": "tubing",
	},
}

// Words are the words that a habit puts in place of ours.
func (h Habit) Words() map[string]string { return habitWords[h] }

// Say puts a text in the habit's words; names are left as they are, and so is
// whatever is written as a name: bridge.shield, ground-loop. In the US a length
// in mm is followed by inches.
func (h Habit) Say(text string, names ...string) string {
	words := habitWords[h]
	if words == nil {
		return text
	}
	var out strings.Builder
	for len(text) > 0 {
		n := strings.IndexFunc(text, inWord)
		if n < 0 {
			break
		}
		out.WriteString(text[:n])
		text = text[n:]
		end := strings.IndexFunc(text, func(r rune) bool { return !inWord(r) })
		if end < 0 {
			end = len(text)
		}
		word := strings.TrimRight(text[:end], ".-/")
		out.WriteString(swapped(words, word, names))
		text = text[len(word):]
		if rest := text; h == US && strings.HasPrefix(rest, " mm") && !startsWord(rest[3:]) {
			out.WriteString(" mm" + inBrackets(word))
			text = text[3:]
		}
		tail := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune(".-/", r) })
		if tail > 0 {
			out.WriteString(text[:tail])
			text = text[tail:]
		} else if tail < 0 {
			break
		}
	}
	return out.String() + text
}

// inWord reports what words and names are made of.
func inWord(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("._-/", r)
}

func startsWord(s string) bool {
	for _, r := range s {
		return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '²'
	}
	return false
}

// swapped is a word in the habit's form, with its first letter's case.
func swapped(words map[string]string, word string, names []string) string {
	to, ok := words[strings.ToLower(word)]
	for _, n := range names {
		ok = ok && n != word
	}
	switch {
	case !ok:
		return word
	case word[0] >= 'A' && word[0] <= 'Z':
		return strings.ToUpper(to[:1]) + to[1:]
	}
	return to
}

const millimetresPerInch = 25.4 // exactly, ISO 80000-3

// inBrackets is a number of mm in brackets, as many digits as it needs; "" for what
// is no number.
func inBrackets(mm string) string {
	x, err := strconv.ParseFloat(mm, 64)
	if err != nil {
		return ""
	}
	digits := 1
	switch {
	case x < 2.5:
		digits = 3
	case x < 25:
		digits = 2
	}
	return " (" + strconv.FormatFloat(x/millimetresPerInch, 'f', digits, 64) + " in)"
}

// Date writes a day.
func (h Habit) Date(t time.Time) string {
	if h == US {
		return t.Format("January 2, 2006")
	}
	return t.Format("2 January 2006")
}

// Paper is the usual size of paper: "a4" or "letter".
func (h Habit) Paper() string {
	if h == US {
		return "letter"
	}
	return "a4"
}

// ParseHabit reads "uk" or "us".
func ParseHabit(s string) (Habit, error) {
	switch h := Habit(strings.ToLower(s)); h {
	case UK, US, "":
		return h, nil
	}
	return "", fmt.Errorf("%q is no habit: uk or us", s)
}
