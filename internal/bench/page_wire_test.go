package bench

import (
	"strings"
	"testing"
)

// TestGiveUp takes wishes out by their places, whatever order they are named in.
func TestGiveUp(t *testing.T) {
	const head = "loomwright: 1\nparts:\n  a: {is: pickup/single-coil}\n  s: {is: switch/dpdt-on-on}\n  jack: {is: jack/mono}\n"
	const text = head + "sounds:\n  - {with: s up, hear: a}\n  - {with: s down, hear: reversed a}\n"
	for _, c := range []struct {
		sounds []int
		left   string
	}{{[]int{0}, "hear: reversed a"}, {[]int{1}, "hear: a"}, {[]int{1, 0, 1}, "sounds: []"}} {
		out, err := New().GiveUp("a", text, c.sounds)
		if err != nil || !strings.Contains(out, c.left) || strings.Count(out, "hear:") != max(0, 2-len(c.sounds)) {
			t.Errorf("without %v: %v\n%s", c.sounds, err, out)
		}
	}
	if _, err := New().GiveUp("a", text, []int{2}); err == nil {
		t.Error("a third of two wishes is given up")
	}
}
