package units

import (
	"testing"
	"time"
)

func TestHabitSays(t *testing.T) {
	for _, c := range []struct {
		habit Habit
		in    string
		want  string
	}{
		{UK, "Ground the shield of bridge (bridge.shield) at the lug.", "Earth the screen of bridge (bridge.shield) at the tag."},
		{UK, "**ground-loop**: jack.sleeve and volume.case", "**ground-loop**: jack.sleeve and volume.case"},
		{UK, "plug a cable into the jack", "plug a cable into the jack socket"},
		{US, "Grey, 120 mm long, 0.25 mm² of copper, colour known", "Gray, 120 mm (4.7 in) long, 0.25 mm² of copper, color known"},
		{US, "a screened run of 7 mm.", "a shielded run of 7 mm (0.28 in)."},
		{US, "60 to 70 mm", "60 to 70 mm (2.8 in)"},
		{US, "with no known word: … ", "with no known word: … "},
		{"", "the colour of ground, 5 mm", "the colour of ground, 5 mm"},
	} {
		if got := c.habit.Say(c.in); got != c.want {
			t.Errorf("%s: %q is said %q, want %q", c.habit, c.in, got, c.want)
		}
	}
	if got := UK.Say("ground is a part here, a ground is not", "ground"); got != "ground is a part here, a ground is not" {
		t.Errorf("a name was changed: %q", got)
	}
}

func TestHabitOfDatesAndPaper(t *testing.T) {
	day := time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)
	if UK.Date(day) != "1 May 2026" || US.Date(day) != "May 1, 2026" || UK.Paper() != "a4" || US.Paper() != "letter" {
		t.Error(UK.Date(day), US.Date(day), UK.Paper(), US.Paper())
	}
	if _, err := ParseHabit("moon"); err == nil {
		t.Error("a habit of the moon was read")
	}
}
