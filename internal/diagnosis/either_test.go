package diagnosis

import (
	"strings"
	"testing"
)

// TestEitherNamesTheGroup: a group is never named by its first member alone.
func TestEitherNamesTheGroup(t *testing.T) {
	faults := []string{"a", "b", "c", "d", "e", "f"}
	for n := range len(faults) + 1 {
		got := either(faults[:n])
		switch {
		case n == 0 && got != "nothing is wrong", n == 1 && got != "a",
			n > 1 && !strings.Contains(got, "; b") && !strings.Contains(got, ": b"):
			t.Errorf("%d faults: %s", n, got)
		case n == 6 && !strings.HasSuffix(got, "d; or 2 more)"):
			t.Errorf("%d faults: %s", n, got)
		case n == 5 && !strings.Contains(got, "; e)"):
			t.Errorf("%d faults: %s", n, got)
		}
	}
	if p := (Pair{First: faults[:2], Second: faults[2:4]}); !strings.Contains(p.words(), "b") || !strings.Contains(p.words(), "d") {
		t.Error(p.words())
	}
}
