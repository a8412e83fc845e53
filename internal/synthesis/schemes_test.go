package synthesis

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/proof"
)

// loomFor is a loom with two pickups on a toggle and just the parts that a scheme
// asks for, named after their roles.
func loomFor(s *Scheme, hand string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "loomwright: 1\nhand: %s\nscheme: %s\nparts:\n", hand, s.ID)
	b.WriteString("  neck: {is: pickup/single-coil}\n  bridge: {is: pickup/single-coil, winding: anticlockwise, pole: south}\n")
	toggle := "switch/lever-3way-2pole"
	positions := []any{"bridge", "middle", "neck"}
	if s.Each != nil && s.Each.Hung { // the tones take poles of their own
		toggle, positions = "switch/rotary-4p3", []any{1, 2, 3}
	}
	fmt.Fprintf(&b, "  toggle: {is: %s}\n", toggle)
	b.WriteString("  strings: {is: ground/string}\n  jack: {is: jack/mono}\n")
	parts := map[string]string{"volume": "pot/standard", "tone": "pot/standard", "capacitor": "capacitor/film", "bleed": "bleed/series"}
	add := func(section *Section, prefix string) {
		if section == nil {
			return
		}
		for _, r := range section.Roles {
			if r.Is == "blend" {
				if prefix == "neck-" {
					b.WriteString("  mix: {is: pot/blend, track: 500k linear}\n")
				}
				continue
			}
			if !r.Shared || prefix == "neck-" {
				fmt.Fprintf(&b, "  %s%s: {is: %s}\n", prefix, r.Name, parts[r.Is])
			}
		}
	}
	add(s.Each, "neck-")
	add(s.Each, "bridge-")
	add(s.Whole, "")
	fmt.Fprintf(&b, "sounds:\n  - {with: toggle %v, hear: bridge}\n  - {with: toggle %v, hear: neck parallel bridge}\n  - {with: toggle %v, hear: neck}\n", positions...)
	return b.String()
}

// TestEveryScheme finds a wiring under every scheme that is shipped, for right and
// left hand; the proof must find that volumes, tones and blends do their work the
// right way round.
func TestEveryScheme(t *testing.T) {
	all := shipped(t)
	if len(all) < 15 {
		t.Fatalf("only %d schemes", len(all))
	}
	for i := range all {
		for _, hand := range []string{"right", "left with pot ends swapped"} {
			t.Run(all[i].ID+", "+hand, func(t *testing.T) {
				l := read(t, "scheme", loomFor(&all[i], hand))
				r, list := Find(l, Options{Schemes: all})
				if r.Status != Found || r.Scheme != all[i].Name || len(list) > 0 {
					t.Fatal(r.Status, r.Scheme, list)
				}
				text, report := prove(t, l, &r.Wirings[0])
				for _, d := range report.Findings {
					if d.Severity > diag.Info && d.Code != "hot-open" { // none: nothing holds the output while the lever moves
						t.Errorf("%s: %s\n%s", d.Code, d.Message, text)
					}
				}
				knobsDo(t, &all[i], report, text)
			})
		}
	}
}

// knobsDo holds what each knob is proved to do against its name.
func knobsDo(t *testing.T, s *Scheme, report proof.Report, text string) {
	t.Helper()
	acted := map[string]bool{}
	for _, row := range report.Rows {
		for _, k := range row.Knobs {
			acted[k.Knob] = true
			want := []string{"tone"}
			switch {
			case strings.Contains(k.Knob, "volume"):
				want = []string{"volume", "volume of"}
			case k.Knob == "mix":
				want = []string{"blend"}
			}
			if !slices.Contains(want, k.Does) {
				t.Errorf("%s: %s is a %s\n%s", row.Name, k.Knob, k.Does, text)
			}
		}
	}
	roles := 0
	for _, section := range []*Section{s.Each, s.Whole} {
		if section != nil {
			for _, r := range section.Roles {
				if r.Is == "volume" || r.Is == "tone" || r.Is == "blend" {
					roles++
				}
			}
		}
	}
	if roles > 0 && len(acted) < roles {
		t.Errorf("only %v act\n%s", acted, text)
	}
}

// TestIndependent holds the difference that a player pays for: of two independent
// volumes none mutes the other pickup.
func TestIndependent(t *testing.T) {
	all := shipped(t)
	for id, want := range map[string]string{"volume-each": "volume", "independent-volume-each": "volume of"} {
		i := slices.IndexFunc(all, func(s Scheme) bool { return s.ID == id })
		l := read(t, id, loomFor(&all[i], "right"))
		r, _ := Find(l, Options{Schemes: all})
		text, report := prove(t, l, &r.Wirings[0])
		for _, k := range report.Rows[1].Knobs {
			if k.Does != want {
				t.Errorf("%s: %s is a %s\n%s", id, k.Knob, k.Does, text)
			}
		}
	}
}

const twoVolumes = `loomwright: 1
parts:
  neck: {is: pickup/single-coil}
  bridge: {is: pickup/single-coil}
  lever: {is: switch/lever-4way}
  neck-volume: {is: pot/standard}
  bridge-volume: {is: pot/standard}
  strings: {is: ground/string}
  jack: {is: jack/mono}
sounds:
  - {with: lever bridge, hear: bridge}
  - {with: lever toward bridge, hear: neck parallel bridge}
  - {with: lever toward neck, hear: %s}
  - {with: lever neck, hear: neck}
`

// TestCrossing: pickups with volumes of their own are searched one by one where
// they sound side by side, and together where they stand in series; the answer says
// which, and each volume is proved to act on its pickup.
func TestCrossing(t *testing.T) {
	for hear, alone := range map[string]bool{"neck parallel bridge": true, "neck series bridge": false} {
		text := fmt.Sprintf(twoVolumes, hear)
		if !alone {
			text = strings.Replace(text, "switch/lever-4way", "switch/rotary-3p4", 1)
			text = strings.NewReplacer("lever bridge", "lever 1", "lever toward bridge", "lever 2", "lever toward neck", "lever 3", "lever neck", "lever 4").Replace(text)
		}
		l := read(t, "cross", text)
		r, list := Find(l, Options{Schemes: shipped(t)})
		if r.Status != Found || !r.Smallest {
			t.Fatal(hear, r.Status, list)
		}
		if mixed := strings.Contains(strings.Join(r.Covers, "\n"), "not covered"); mixed != alone {
			t.Errorf("%s: the proof covers %q", hear, r.Covers)
		}
		out, report := prove(t, l, &r.Wirings[0])
		for _, d := range report.Findings {
			if d.Severity > diag.Info && d.Code != "hot-open" {
				t.Errorf("%s: %s: %s\n%s", hear, d.Code, d.Message, out)
			}
		}
		for _, row := range report.Rows {
			if len(row.Knobs) == 0 {
				t.Errorf("%s: no knob acts in %s\n%s", hear, row.Name, out)
			}
		}
	}
}

// TestTogetherOrApart compares the two ways to search: in one piece there can
// never be more joins than part by part.
func TestTogetherOrApart(t *testing.T) {
	all := shipped(t)
	for i := range all {
		if all[i].Each == nil || all[i].Each.Hung {
			continue
		}
		tk := taskOf(t, loomFor(&all[i], "right"), Options{})
		pl, ok := tk.split()
		if !ok {
			t.Errorf("%s cannot be searched part by part", all[i].ID)
			continue
		}
		f := &effort{left: 50_000}
		parts := tk.searchPlan(pl, f)
		apart := 0
		for _, s := range parts {
			apart += s.out.joins
		}
		whole := tk.whole()
		together := tk.search(&whole.specs[0], f)
		if parts == nil || together.out.best == nil || together.out.bound != together.out.joins || together.out.joins > apart {
			t.Errorf("%s: %d joins part by part, %d in one piece (%d needed)", all[i].ID, apart, together.out.joins, together.out.bound)
		}
	}
}

// TestSchemeAsked: names, roles that the loom assigns, and what is wrong with them.
func TestSchemeAsked(t *testing.T) {
	parts := `loomwright: 1
scheme: %s
parts:
  neck: {is: pickup/single-coil}
  dark: {is: pot/standard}
  master: {is: pot/standard}
  cap: {is: capacitor/film, value: 22n}
  jack: {is: jack/mono}
sounds:
  - {hear: neck}
`
	for asked, want := range map[string]string{
		"One Volume one tone": "dark.wiper -- jack.tip", // without names, the first pot is the volume
		"one volume, one tone with master as volume, dark as tone": "master.wiper -- jack.tip",
		"one volume, one tone with cap as volume":                  "scheme-unfit",
		"one volume, one tone with master":                         "scheme-unfit",
		"volume and tone for each pickup at all":                   "scheme-unknown",
		"blend":                                                    "scheme-unfit",
	} {
		l := read(t, "asked", fmt.Sprintf(parts, asked))
		r, list := Find(l, Options{Schemes: shipped(t)})
		var got []string
		for _, d := range list {
			got = append(got, d.Code)
		}
		for _, w := range r.Wirings {
			for _, j := range w.Joins {
				got = append(got, fmt.Sprintf("%s -- %s", j.From[0], j.To))
			}
		}
		if !slices.Contains(got, want) {
			t.Errorf("%s: %v, want %s", asked, got, want)
		}
	}
}

// TestSchemeFiles: what is wrong with a scheme file is said in place.
func TestSchemeFiles(t *testing.T) {
	for text, want := range map[string]string{
		"loomwright-scheme: 1\nname: x\nwhole: {roles: {v: {is: volume}}, in: v.full, out: w.wiper}\n":                        "names no role",
		"loomwright-scheme: 1\nname: x\nwhole: {roles: {v: {is: volume}}, in: v.full, out: v.middle}\n":                       "has no terminal",
		"loomwright-scheme: 1\nname: x\norder: soon\n":                                                                        "is not a number",
		"loomwright-scheme: 1\nname: x\nwhole: {roles: {v: {is: volume}}, in: v.full, out: v.wiper, joins: [v.off v.case]}\n": "two sides",
		"loomwright-scheme: 1\nname: x\nsome: yes\n":                                                                          "unknown key",
	} {
		_, list := ReadSchemes(partShelf("x.yaml", text))
		if len(list) != 1 || !strings.Contains(list[0].Message, want) {
			t.Errorf("%v, want %q\n%s", list, want, text)
		}
	}
	own := "loomwright-scheme: 1\nname: mine\norder: 3\n"
	both, list := ReadSchemes(partShelf("none.yaml", own), partShelf("none.yaml", strings.Replace(own, "mine", "theirs", 1)))
	if len(both) != 1 || both[0].Name != "mine" || len(list) > 0 {
		t.Errorf("of two schemes with one name the first shelf wins: %v %v", both, list)
	}
}
