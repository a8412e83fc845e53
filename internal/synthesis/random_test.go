package synthesis

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/proof"
)

var anyParts = []string{"pickup/single-coil", "pickup/twin-coil", "pickup/twin-coil-covered", "pickup/tapped-coil", "pickup/points-single", "pot/standard",
	"pot/blend", "pot/concentric", "pot/dual-gang", "pot/push-pull-pads", "pot/no-load", "capacitor/film", "bleed/parallel", "resistor/quarter-watt",
	"ground/string", "ground/plate", "splice/joint", "splice/strip-4", "switch/spdt-on-on", "switch/toggle-3way", "switch/dpdt-on-on-on", "switch/spst"}

var anyCodes = map[string][]string{"pickup/twin-coil": {"", "dunlin", "knot", "whimbrel"}, "pickup/twin-coil-covered": {"", "dunlin", "knot", "curlew"}}

// anyLoom is a loom of any parts, joined at random, with random sounds: nothing is
// promised of it but that it can be read.
func anyLoom(seed uint64) string {
	d := newDice(seed)
	var b, with strings.Builder
	b.WriteString("loomwright: 1\nparts:\n  jack: {is: [JACK]}\n")
	terminals := []string{}
	for i := range 2 + d.IntN(7) {
		kind := anyParts[d.IntN(len(anyParts))]
		if i == 0 {
			kind = anyParts[d.IntN(5)]
		}
		name := fmt.Sprintf("p%d", i)
		code := ""
		if codes := anyCodes[kind]; len(codes) > 0 {
			code = codes[d.IntN(len(codes))]
		}
		fmt.Fprintf(&b, "  %s: {is: %s", name, kind)
		if code != "" {
			fmt.Fprintf(&b, ", code: %s", code)
		}
		b.WriteString("}\n")
		p, _ := lib.Part(kind)
		for _, t := range p.Terminals {
			if code == "" {
				terminals = append(terminals, name+"."+t.Name)
			}
		}
		for _, c := range p.Coils {
			d.coils = append(d.coils, strings.TrimSuffix(loom.CoilName(name, p, c.Name), "."))
		}
		if len(p.Switches) == 1 && d.IntN(3) > 0 {
			fmt.Fprintf(&with, ", %s %d", name, 1+d.IntN(len(p.Switches[0].Positions)))
		}
	}
	jack := []string{"jack/mono", "jack/stereo", "jack/switched", "output/tails"}[d.IntN(4)]
	text := strings.Replace(b.String(), "[JACK]", jack, 1)
	p, _ := lib.Part(jack)
	for _, t := range p.Terminals {
		terminals = append(terminals, "jack."+t.Name)
	}
	pick := func() string { return terminals[d.IntN(len(terminals))] }
	joins, free := "", ""
	for d.IntN(2) == 0 {
		if x, y := pick(), pick(); x != y {
			joins += fmt.Sprintf("  - %s -- %s\n", x, y)
		}
	}
	if joins != "" {
		text += "joins:\n" + joins
	}
	if d.IntN(3) == 0 {
		free = fmt.Sprintf("free: [%s]\n", pick())
	}
	d.coils = d.coils[:min(4, len(d.coils))]
	text += free + "sounds:\n"
	text += fmt.Sprintf("  - {with: %q, hear: %s}\n", strings.TrimPrefix(with.String(), ", "), d.soundOf())
	return text + fmt.Sprintf("  - {hear: %s}\n", d.soundOf())
}

// soundOf is a sound of at most three of the coils.
func (d *dice) soundOf() string {
	all := d.coils
	d.coils = slices.Clone(all)
	d.Shuffle(len(d.coils), func(i, k int) { d.coils[i], d.coils[k] = d.coils[k], d.coils[i] })
	d.coils = d.coils[:min(3, len(d.coils))]
	text := d.sound()
	d.coils = all
	return text
}

// TestAnyLoom: whatever the file, there is an answer: a wiring that is proved to
// meet the wishes, a refutation with a reason, or a finding.
func TestAnyLoom(t *testing.T) {
	answers := map[Status]int{}
	for seed := range uint64(anyLooms) {
		text := anyLoom(seed)
		l, list := loom.Read(diag.NewText("any", text), lib)
		if l == nil {
			t.Fatalf("seed %d: %v\n%s", seed, list, text)
		}
		r, list := Find(l, Options{Schemes: shipped(t), Library: lib, Conflicts: 3000, Best: 2})
		answers[r.Status]++
		switch r.Status {
		case "":
			if !list.HasErrors() {
				t.Fatalf("seed %d: no answer and no finding\n%s", seed, text)
			}
		case Impossible:
			if r.Why == nil || len(r.Why.Conflict) == 0 && r.Why.Rule == "" && !r.Why.Unexplored {
				t.Fatalf("seed %d: impossible, and no reason\n%s", seed, text)
			}
		}
		for i := range r.Wirings {
			out, report := prove(t, l, &r.Wirings[i])
			for _, row := range report.Rows {
				if row.Wanted != nil && row.Wanted.Met == proof.No {
					t.Fatalf("seed %d: %s: wanted %s, %s\n%s", seed, row.Name, row.Wanted.Sound, row.Wanted.Why, out)
				}
			}
		}
	}
	t.Logf("%v", answers)
}

// anyLooms is how many are tried.
var anyLooms = 300
