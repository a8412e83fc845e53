package diag

import "testing"

func TestNearest(t *testing.T) {
	names := []string{"volume.cw", "volume.wiper", "volume.ccw", "jack.tip"}
	for word, want := range map[string]string{
		"volume.cc":  "volume.cw", // one substitution; the earlier of two at the same distance
		"volum.wper": "volume.wiper",
		"jack.itp":   "jack.tip", // neighbours swapped
		"lever":      "",
	} {
		if got := Nearest(word, names); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "abc", 3}, {"abc", "", 3}, {"abc", "acb", 1}, {"kitten", "sitting", 3}, {"ca", "abc", 3}} {
		if got := distance(c.a, c.b); got != c.want {
			t.Errorf("distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestTextPositions(t *testing.T) {
	text := NewText("a", "one\nzwölf\r\n\nend")
	if got := text.Line(2); got != "zwölf" {
		t.Errorf("Line(2) = %q", got)
	}
	if got := text.Pos(len("one\nzwö")); got != (Pos{2, 4}) {
		t.Errorf("Pos after ö = %v, want 2:4", got)
	}
	if got := text.Line(9); got != "" {
		t.Errorf("Line(9) = %q", got)
	}
}

func TestSortedPutsWorstFirstOnOneSpot(t *testing.T) {
	l := List{{Code: "b", Severity: Info}, {Code: "a", Severity: Error}}
	if got := l.Sorted()[0].Code; got != "a" {
		t.Errorf("first is %q", got)
	}
	if l[0].Code != "b" {
		t.Error("Sorted changed its receiver")
	}
}
