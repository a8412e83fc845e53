package synthesis

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/sat"
)

// besideKinds are switches with few enough lugs for a search of two of them
// together; the first ones have plain throws.
var besideKinds = []string{"switch/spdt-on-on", "switch/rotary-1p3", "switch/spdt-on-off-on", "switch/dpdt-on-on", "switch/rotary-2p3", "switch/spst",
	"switch/toggle-3way", "switch/lever-5way", "switch/dpdt-on-on-on"}

// besideLoom is a loom of two groups of coils, each with a switch, that sound
// beside one another in every setting; the second may have joins already.
func besideLoom(d *dice) string {
	var b strings.Builder
	b.WriteString("loomwright: 1\nscheme: none\nparts:\n")
	var sounds, names [2][]string
	for g, coils := range [2][]string{{"a", "b"}, {"c", "d"}} {
		d.coils = coils[:1+d.IntN(2)]
		for _, c := range d.coils {
			fmt.Fprintf(&b, "  %s: {is: pickup/single-coil}\n", c)
		}
		kind := besideKinds[d.IntN(5+4*g)]
		fmt.Fprintf(&b, "  s%d: {is: %s}\n", g, kind)
		p, _ := lib.Part(kind)
		for _, at := range p.Switches[0].Positions {
			names[g] = append(names[g], at.Name)
			sounds[g] = append(sounds[g], besideSound(d))
		}
	}
	b.WriteString("  jack: {is: jack/mono}\n")
	if d.IntN(3) == 0 {
		b.WriteString("joins:\n  - c.coil.finish -- " + []string{"jack.sleeve", "jack.tip"}[d.IntN(2)] + "\n")
	}
	b.WriteString("sounds:\n")
	for i, x := range sounds[0] {
		for k, y := range sounds[1] {
			hear := "(" + x + ") parallel (" + y + ")"
			switch {
			case x+y == "":
				hear = "silent"
			case x == "" || y == "":
				hear = x + y
			}
			fmt.Fprintf(&b, "  - {with: \"s0 %s, s1 %s\", hear: %s}\n", names[0][i], names[1][k], hear)
		}
	}
	return b.String()
}

// besideSound is a sound of a group's coils; "" is off.
func besideSound(d *dice) string {
	for {
		switch text := d.sound(); text {
		case "silent":
			return ""
		case "any":
		default:
			return text
		}
	}
}

// TestGroupsAddUp holds the sum of what two groups need against a search of the
// whole, which knows nothing of groups.
func TestGroupsAddUp(t *testing.T) {
	sums, wholes := 0, 0
	for seed := uint64(0); wholes < besideLooms; seed++ {
		text := besideLoom(newDice(seed))
		tk := taskOf(t, text, Options{})
		pl := tk.whole()
		s := &solved{spec: &pl.specs[0]}
		s.p, s.terms = tk.build(s.spec)
		b := tk.begin(s.spec, s, &effort{left: 1 << 40})
		if b.floor == 0 {
			continue
		}
		sums++
		whole := encode(s.p, allRules().settle(s.p), sat.Options{}).minimise(&effort{left: 4000}, nil)
		if whole.status == sat.Unknown || whole.bound < whole.joins {
			continue
		}
		wholes++
		if whole.joins != b.floor || b.start.joins() != b.floor {
			t.Fatalf("seed %d: groups need %d joins and have %d, the whole %d\n%s", seed, b.floor, b.start.joins(), whole.joins, text)
		}
	}
	t.Logf("%d sums, %d of them held against the whole", sums, wholes)
}

// besideLooms is how many sums are held against a search of the whole.
var besideLooms = 25
