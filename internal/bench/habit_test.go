package bench

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"loomwright/internal/units"
)

var pictures = regexp.MustCompile(`(?s)<svg.*?</svg>`)

// TestSheetInHabit prints one sheet in each country's words: terminals keep
// their names.
func TestSheetInHabit(t *testing.T) {
	b := New()
	text := exampleText(t, "twin-coil-split.yaml")
	day := time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		habit      units.Habit
		has, lacks []string
	}{
		{units.UK, []string{`lang="en-GB"`, "1 May 2026", "earth", "volume.case"}, []string{" lug ", "shield "}},
		{units.US, []string{`lang="en-US"`, "May 1, 2026", " in)", "color", "volume.case"}, []string{">colour", "Colour "}},
		{"", []string{"1 May 2026", "ground"}, []string{" in)"}},
	} {
		s, err := b.Sheet("a.yaml", text, SheetOptions{HTML: true, Date: day, Habit: c.habit})
		if err != nil {
			t.Fatal(err)
		}
		page := pictures.ReplaceAllString(string(s.Data), "") // drawings keep their words
		for _, w := range c.has {
			if !strings.Contains(page, w) {
				t.Errorf("%q: the sheet has no %q", c.habit, w)
			}
		}
		for _, w := range c.lacks {
			if i := strings.Index(page, w); i >= 0 {
				t.Errorf("%q: the sheet has %q: %s", c.habit, w, page[max(0, i-80):min(len(page), i+80)])
			}
		}
	}
}
