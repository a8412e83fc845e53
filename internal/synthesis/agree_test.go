package synthesis

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/sat"
)

// dice makes random looms: a few coils, one or two switches of any kind, wanted
// sounds, joins already made, terminals that must stay free.
type dice struct {
	*rand.Rand
	coils []string
	leads []string
	lugs  []string
}

func newDice(seed uint64) *dice { return &dice{Rand: rand.New(rand.NewPCG(seed, 7))} }

var smallSwitches = []string{"switch/spst", "switch/spdt-on-on", "switch/spdt-on-off-on", "switch/dpdt-on-on", "switch/dpdt-on-off-on",
	"switch/dpdt-on-on-on", "switch/dpdt-on-on-on-mirrored", "switch/toggle-3way", "switch/toggle-3way-separate", "switch/lever-3way",
	"switch/lever-3way-2pole", "switch/slide-dpdt", "switch/rotary-1p3", "switch/rotary-1p4", "switch/rotary-2p3", "switch/lever-5way",
	"switch/lever-5way-inline", "switch/lever-4way", "pot/push-pull-lugs"}

func (d *dice) loom() string {
	two := d.IntN(4) == 0
	kinds := []string{smallSwitches[d.IntN(len(smallSwitches))]}
	if two {
		kinds = []string{smallSwitches[d.IntN(5)], smallSwitches[d.IntN(8)]}
	}
	return d.loomOf(kinds...)
}

// loomOf is a random loom with these switches.
func (d *dice) loomOf(kinds ...string) string {
	var b strings.Builder
	b.WriteString("loomwright: 1\nscheme: none\nparts:\n")
	d.pickups(&b)
	var names []string
	for i, k := range kinds {
		names = append(names, fmt.Sprintf("s%d", i))
		fmt.Fprintf(&b, "  s%d: {is: %s}\n", i, k)
		p, _ := lib.Part(k)
		for _, t := range p.Terminals {
			if t.Kind != "case" && !strings.HasPrefix(t.Name, "cw") && !strings.HasPrefix(t.Name, "ccw") && t.Name != "wiper" {
				d.lugs = append(d.lugs, fmt.Sprintf("s%d.%s", i, t.Name))
			}
		}
	}
	b.WriteString("  jack: {is: jack/mono}\n")
	d.pins(&b)
	d.free(&b)
	b.WriteString("sounds:\n")
	d.sounds(&b, names, kinds)
	return b.String()
}

func (d *dice) pickups(b *strings.Builder) {
	switch d.IntN(5) {
	case 0:
		b.WriteString("  t: {is: pickup/twin-coil}\n")
		d.coils = []string{"t.north", "t.south"}
		d.leads = []string{"t.north.start", "t.north.finish", "t.south.start", "t.south.finish"}
	case 1:
		b.WriteString("  t: {is: pickup/tapped-coil}\n")
		d.coils = []string{"t.lower", "t.upper"}
		d.leads = []string{"t.start", "t.tap", "t.finish"}
	case 2:
		b.WriteString("  t: {is: pickup/twin-coil, code: whimbrel}\n  x: {is: pickup/single-coil}\n")
		d.coils = []string{"t", "x"}
		d.leads = []string{"x.coil.start", "x.coil.finish", "t.yellow", "t.braid"}
	default:
		for i := range 2 + d.IntN(2) {
			name := string(rune('a' + i))
			fmt.Fprintf(b, "  %s: {is: pickup/single-coil, winding: %s}\n", name, []string{"clockwise", "anticlockwise"}[d.IntN(2)])
			d.coils = append(d.coils, name)
			d.leads = append(d.leads, name+".coil.start", name+".coil.finish")
		}
	}
}

func (d *dice) pins(b *strings.Builder) {
	all := append(append([]string{"jack.tip", "jack.sleeve"}, d.leads...), d.lugs...)
	for n := 0; d.IntN(3) == 0; n++ {
		if n == 0 {
			b.WriteString("joins:\n")
		}
		x, y := all[d.IntN(len(all))], all[d.IntN(len(all))]
		if x == y {
			y = all[(slices.Index(all, x)+1)%len(all)]
		}
		fmt.Fprintf(b, "  - %s -- %s\n", x, y)
	}
}

func (d *dice) free(b *strings.Builder) {
	if d.IntN(3) == 0 {
		fmt.Fprintf(b, "free: [%s]\n", d.lugs[d.IntN(len(d.lugs))])
	}
}

func (d *dice) sounds(b *strings.Builder, names, kinds []string) {
	settings := []string{""}
	for i, k := range kinds {
		p, _ := lib.Part(k)
		var next []string
		for _, s := range settings {
			for _, pos := range p.Switches[0].Positions {
				next = append(next, s+", "+names[i]+" "+pos.Name)
			}
		}
		settings = next
	}
	for _, s := range settings {
		extra := ""
		if d.IntN(6) == 0 {
			extra = ", phase: free"
		}
		fmt.Fprintf(b, "  - {with: %q, hear: %s%s}\n", strings.TrimPrefix(s, ", "), d.sound(), extra)
	}
}

func (d *dice) sound() string {
	switch d.IntN(12) {
	case 0:
		return "silent"
	case 1:
		return "any"
	}
	order := d.Perm(len(d.coils))
	n := 1 + d.IntN(len(d.coils))
	var words []string
	for i, c := range order[:n] {
		name := d.coils[c]
		if d.IntN(6) == 0 {
			name = "reversed " + name
		}
		words = append(words, name)
		if i < n-1 {
			words = append(words, "?")
		}
	}
	op := []string{"series", "parallel"}[d.IntN(2)]
	text := strings.ReplaceAll(strings.Join(words, " "), "?", op)
	if n == 3 && d.IntN(2) == 0 {
		text = fmt.Sprintf("%s parallel (%s series %s)", words[0], words[2], words[4])
	}
	return text
}

// looms is how many random looms are compared.
var looms = 420

// TestRulesKeepTheOptimum compares, over random looms of every kind of switch,
// the search with all its rules and the search with none.
func TestRulesKeepTheOptimum(t *testing.T) {
	compared, sats, proved := 0, 0, 0
	for seed := uint64(0); compared < looms; seed++ {
		d := newDice(seed)
		text := d.loom()
		tk, list := newTask(read(t, "random", text), Options{Schemes: []Scheme{{Name: "none"}}})
		if tk == nil {
			if !strings.Contains(fmt.Sprint(list), "wire-short") {
				t.Fatal(list, text)
			}
			continue
		}
		pl := tk.whole()
		p, terms := tk.build(&pl.specs[0])
		if len(p.nodes) > 26 {
			continue
		}
		plain := encode(p, rules{}, sat.Options{})
		slow := plain.minimise(&effort{left: 2000}, nil)
		if slow.status == sat.Unknown || slow.status == sat.Sat && slow.bound < slow.joins {
			continue
		}
		fast := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: 2000}, nil)
		shaped := *p
		shaped.byShape = true
		other := encode(&shaped, allRules().settle(p), sat.Options{}).minimise(&effort{left: 5000}, nil)
		if other.status != sat.Unknown && (other.status != fast.status || other.bound == other.joins && other.joins != fast.joins) {
			t.Fatalf("seed %d: with ways listed %v %d, by structure %v %d\n%s", seed, fast.status, fast.joins, other.status, other.joins, text)
		}
		compared++
		if slow.status != fast.status || slow.joins != fast.joins || fast.bound != slow.bound {
			t.Fatalf("seed %d: without rules %v %d (proved %d), with rules %v %d (proved %d)\n%s", seed, slow.status, slow.joins, slow.bound, fast.status, fast.joins, fast.bound, text)
		}
		if fast.status == sat.Sat {
			sats++
			proved += mustProve(t, tk, terms, fast.best)
		}
	}
	t.Logf("%d random looms, %d of them possible, %d wanted sounds proved", compared, sats, proved)
}

// mustProve solders a solution and has it proved by other code.
func mustProve(t *testing.T, tk *task, terms [][]int, s solution) int {
	t.Helper()
	tk.solder(terms, s)
	text, report := prove(t, tk.g.Loom, &Wiring{Joins: tk.lines()})
	n := 0
	for _, row := range report.Rows {
		if row.Wanted != nil && row.Wanted.Met == proof.No {
			t.Fatalf("%s: %s is not met: %s\n%s", row.Name, row.Wanted.Sound, row.Wanted.Why, text)
		}
		if row.Wanted != nil && row.Wanted.Sound != "any" {
			n++
			if len(row.Hanging) > 0 {
				t.Fatalf("%s: %v hangs on hot\n%s", row.Name, row.Hanging, text)
			}
		}
	}
	return n
}

// TestRulesKeepTheOptimumWithControls compares the same for looms in which
// pickups have pots of their own, or tones that the switches hang on hot.
func TestRulesKeepTheOptimumWithControls(t *testing.T) {
	all := shipped(t)
	compared := 0
	for i := range all {
		if all[i].Each == nil {
			continue
		}
		p := wholePuzzle(t, smaller(loomFor(&all[i], "right")))
		slow := encode(p, rules{}, sat.Options{}).minimise(&effort{left: 20000}, nil)
		fast := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: 20000}, nil)
		if slow.bound == slow.joins {
			compared++
		}
		if slow.bound > fast.joins || slow.bound == slow.joins && (slow.joins != fast.joins || slow.bound != fast.bound) {
			t.Errorf("%s: without rules %d (%d proved), with rules %d (%d proved)", all[i].ID, slow.joins, slow.bound, fast.joins, fast.bound)
		}
		if !p.meets(fast.best) || !p.meets(slow.best) {
			t.Errorf("%s: a solution does not meet the wishes", all[i].ID)
		}
	}
	if compared < 5 {
		t.Errorf("only %d compared", compared)
	}
}

// smaller is the same loom with one pickup or the other, on a changeover.
func smaller(text string) string {
	kind := "switch/spdt-on-on"
	if strings.Contains(text, "rotary-4p3") {
		kind = "switch/dpdt-on-on"
	}
	text, _, _ = strings.Cut(text, "sounds:")
	text = strings.NewReplacer("switch/lever-3way-2pole", kind, "switch/rotary-4p3", kind).Replace(text)
	return text + "sounds:\n  - {with: toggle up, hear: neck}\n  - {with: toggle down, hear: bridge}\n"
}

// kindSeeds is how many random looms are made for each kind of switch.
var kindSeeds = uint64(4)

// TestRulesOnEverySwitch does the same for every part of the library that has a
// switch. Where a lever is too large for a proof without rules, the verdicts still
// agree, and no search without rules finds fewer joins than are proved needed.
func TestRulesOnEverySwitch(t *testing.T) {
	compared, proved, kinds := 0, 0, 0
	for _, id := range lib.IDs() {
		p, _ := lib.Part(id)
		if p == nil || len(p.Switches) != 1 || p.Switches[0].Proved >= 0 || len(p.Switches[0].Poles) == 0 {
			continue
		}
		kinds++
		for seed := range kindSeeds {
			text := newDice(seed + 5000).loomOf(id)
			tk, list := newTask(read(t, id, text), Options{Schemes: []Scheme{{Name: "none"}}})
			if tk == nil {
				if !strings.Contains(fmt.Sprint(list), "wire-short") {
					t.Fatal(id, list, text)
				}
				continue
			}
			pl := tk.whole()
			p, terms := tk.build(&pl.specs[0])
			slow := encode(p, rules{}, sat.Options{}).minimise(&effort{left: 1000}, nil)
			fast := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: 3000}, nil)
			if slow.status == sat.Unknown || fast.status == sat.Unknown {
				continue
			}
			compared++
			if slow.status != fast.status || slow.joins < fast.bound || fast.joins < slow.bound {
				t.Fatalf("%s, seed %d: without rules %v %d (bound %d), with rules %v %d (bound %d)\n%s", id, seed, slow.status, slow.joins, slow.bound, fast.status, fast.joins, fast.bound, text)
			}
			if fast.status == sat.Sat {
				proved += mustProve(t, tk, terms, fast.best)
			}
		}
	}
	t.Logf("%d kinds of switch, %d random looms, %d wanted sounds proved", kinds, compared, proved)
}
