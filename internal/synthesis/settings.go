package synthesis

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// involved lists the switches that wanted sounds name, and those that the file
// has soldered something to. The others are left alone: a contact that is there
// in every setting only costs joins.
func (t *task) involved() {
	want := map[int]bool{}
	for i := range t.g.Loom.Sounds {
		for _, at := range t.g.Loom.Sounds[i].With {
			want[t.g.SwitchOf(at)] = true
		}
	}
	for i := range t.g.Switches {
		s := &t.g.Switches[i]
		if s.Proved < 0 && (want[i] || t.touched(s)) {
			t.switches = append(t.switches, i)
		}
	}
}

// touched reports whether anything is soldered to a switch.
func (t *task) touched(s *wiring.Switch) bool {
	for _, pole := range s.Contacts {
		for _, groups := range pole {
			for _, g := range groups {
				for _, x := range g {
					if t.wires[x] > 0 {
						return true
					}
				}
			}
		}
	}
	return false
}

// ask walks through the settings of the switches that take part.
func (t *task) ask() {
	if len(t.g.Loom.Sounds) == 0 {
		t.fail("wire-nothing", t.g.Loom.Doc.Text.Span(1, 1, 1), "sounds:\n  - {hear: bridge}", "no sound is wanted: say what should be heard")
		return
	}
	trees := t.trees()
	n := 1
	for _, i := range t.switches {
		if n *= len(t.g.Switches[i].Positions); n > maxSettings {
			t.fail("loom-limit", t.g.Loom.Uses[t.g.Switches[i].Use].Span, "", "the switches have more than %d settings together: find the wiring in parts", maxSettings)
			return
		}
	}
	for k := range n {
		at := make([]int, len(t.switches))
		for i := len(at) - 1; i >= 0; i-- {
			m := len(t.g.Switches[t.switches[i]].Positions)
			at[i], k = k%m, k/m
		}
		t.settings = append(t.settings, t.askOf(at, trees))
	}
}

// askOf finds the sound asked of a setting: the first whose positions hold.
func (t *task) askOf(at []int, trees []*tree) asked {
	for i := range t.g.Loom.Sounds {
		s := &t.g.Loom.Sounds[i]
		if t.covers(s.With, at) {
			if s.Hear.Op == sound.Any {
				break
			}
			return asked{at: at, sound: i, tree: trees[i]}
		}
	}
	return asked{at: at, sound: -1}
}

func (t *task) covers(with []loom.At, at []int) bool {
	for _, w := range with {
		i := slices.Index(t.switches, t.g.SwitchOf(w))
		if i >= 0 && at[i] != w.Position {
			return false
		}
	}
	return true
}
