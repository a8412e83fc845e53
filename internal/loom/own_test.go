package loom_test

import (
	"strings"
	"testing"
)

const ownSwitch = "own:\n  switch/odd:\n    loomwright-part: 1\n    name: odd\n    class: switch\n    terminals: {1: {}, 2: {}, 3: {}}\n" +
	"    switches: {switch: {positions: {up: , down: }, poles: {a: {common: 2, throws: [1, 3]}}}}\n"

// TestOwnPart: a part file in the loom file stands before the library, and what
// is wrong with it is told where it stands.
func TestOwnPart(t *testing.T) {
	const parts = "parts:\n  odd: {is: switch/odd}\n  jack: {is: jack/mono}\njoins:\n  - odd.1 -- jack.tip\nsounds:\n  - {with: odd down, hear: silent}\n"
	l := mustRead(t, ownSwitch+parts)
	if u := l.Uses[0].Part; u.ID != "switch/odd" || len(u.Terminals) != 3 || len(u.Switches[0].Positions) != 2 {
		t.Errorf("%+v", u)
	}
	if l := mustRead(t, strings.ReplaceAll(ownSwitch+parts, "switch/odd", "switch/spst")); l.Uses[0].Part.Name != "odd" {
		t.Errorf("the library's part stands before the file's own: %s", l.Uses[0].Part.Name)
	}
	_, list := read(t, strings.Replace(ownSwitch, "common: 2", "common: 4", 1)+parts)
	if len(list) == 0 || list[0].Span.Start.Line != 8 || !strings.Contains(list[0].Message, `no terminal "4"`) {
		t.Errorf("a wrong part in the file: %v", list)
	}
	if _, list = read(t, ownSwitch+strings.Replace(parts, "is: switch/odd", "is: switch/other", 1)); len(list) == 0 || list[0].Code != "part-unknown" {
		t.Errorf("a part that is nowhere: %v", list)
	}
}
