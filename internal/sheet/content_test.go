package sheet

import (
	"html"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/build"
	"loomwright/internal/loom"
	"loomwright/internal/sound"
	"loomwright/internal/units"
)

// Paper and screen say the same: every text of the content is in the HTML.
func TestHTMLSaysTheSame(t *testing.T) {
	tags := regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>|<[^>]*>`)
	for _, name := range few {
		d := Compose(example(t, name))
		page, err := d.HTML()
		if err != nil {
			t.Fatal(err)
		}
		text := squashed(html.UnescapeString(tags.ReplaceAllString(string(page), " ")))
		for _, want := range contentWords(&d) {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not on the page", name, want)
			}
		}
		for _, bad := range []string{"<script", "http:", "@import", "url("} {
			if strings.Contains(strings.ReplaceAll(string(page), `xmlns="http:`, ""), bad) && bad != "url(" {
				t.Errorf("%s: the page holds %q", name, bad)
			}
		}
		ids := regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(string(page), -1)
		seen := map[string]bool{}
		for _, m := range ids {
			if seen[m[1]] {
				t.Errorf("%s: the ID %q stands twice", name, m[1])
			}
			seen[m[1]] = true
		}
	}
}

// contentWords lists the texts of a document, marks of bold cut away where they
// part words.
func contentWords(d *Document) []string {
	var out []string
	add := func(texts ...string) {
		for _, t := range texts {
			for _, s := range spans(t) {
				for _, l := range strings.Split(s.text, "\n") {
					if l = squashed(l); l != "" {
						out = append(out, l)
					}
				}
			}
		}
	}
	for _, b := range d.Blocks {
		switch b := b.(type) {
		case Head:
			add(b.Title)
			add(b.Lines...)
		case Heading:
			add(b.Text)
		case Paragraph:
			add(b.Text)
		case List:
			add(b.Items...)
		case Table:
			add(b.Heads...)
			for _, r := range b.Rows {
				for _, c := range r {
					add(c.Text)
				}
			}
		case Step:
			add(b.Do, b.Good)
			add(b.Notes...)
		case Reading:
			add(b.Title)
			for _, t := range b.Takes {
				add(t.Stand, t.Do, t.Right)
			}
		}
	}
	return out
}

// A pickup's customary sound is called by its name.
func TestFolded(t *testing.T) {
	l := example(t, "two-twin-coils-phase").Graph.Loom
	for text, want := range map[string]string{
		"neck.north series neck.south": "neck",
		"(neck.north series neck.south) parallel (bridge.north series bridge.south)":                   "bridge parallel neck",
		"neck.north series neck.south series bridge.north series bridge.south":                         "bridge series neck",
		"reversed neck.north series reversed neck.south":                                               "reversed neck",
		"(reversed neck.north series reversed neck.south) parallel (bridge.north series bridge.south)": "bridge parallel reversed neck",
		"neck.north series reversed neck.south":                                                        "neck.north series reversed neck.south",
		"neck.north parallel neck.south":                                                               "neck.north parallel neck.south",
		"(neck.north series neck.south) parallel bridge.north":                                         "bridge.north parallel neck",
		"silent": "silent",
	} {
		e, _, err := sound.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := folded(l, e).String(); got != want {
			t.Errorf("%s is called %q, want %q", text, got, want)
		}
	}
}

// Gauges: diameters in mm of ASTM B258 and BS 3737:1964 give their numbers back.
func TestNearestGauge(t *testing.T) {
	for n, d := range map[int]float64{41: 0.0711273, 42: 0.0633407, 43: 0.0564065, 44: 0.0502314} {
		if got, g := nearestGauge(d/1000, units.AWG); got != n || math.Abs(g*1000-d) > 1e-6 {
			t.Errorf("%g mm is %d AWG of %g mm, want %d (ASTM B258)", d, got, g*1000, n)
		}
	}
	for n, inch := range map[int]float64{20: .036, 22: .028, 24: .022, 28: .0148, 30: .0124, 36: .0076, 40: .0048, 42: .0040, 44: .0032} {
		if got, g := nearestGauge(inch*0.0254, units.SWG); got != n || math.Abs(g-inch*0.0254) > 1e-9 {
			t.Errorf("%g in is %d SWG of %g m, want %d (BS 3737)", inch, got, g, n)
		}
	}
	if n, d := nearestGauge(0.7112e-3, units.SWG); n != 22 || math.Abs(d-0.7112e-3) > 1e-9 {
		t.Errorf("0.7112 mm is %d SWG of %g m (BS 3737: 22)", n, d)
	}
}

// Colours are said with the letters of IEC 60757:2021.
func TestColourLetters(t *testing.T) {
	for word, want := range map[string]string{"white": "white WH", "red/blue": "red/blue RDBU", "turquoise": "turquoise TQ", "": "–"} {
		if got := colourWords(word); got != want {
			t.Errorf("%q is %q, want %q", word, got, want)
		}
	}
}

// Every wire of the loom that comes off a reel is cut once, longer than it is
// drawn; leads are not cut.
func TestCuts(t *testing.T) {
	for _, name := range few {
		in := example(t, name)
		cuts := Cuts(&in)
		want := 0
		for i := range in.Graph.Runs {
			r := &in.Graph.Runs[i]
			if r.Wire.Kind != loom.Touching && r.Wire.Kind != loom.OwnLead && !ownLead(in.Graph, r) {
				want++
			}
		}
		if len(cuts) != want || want == 0 {
			t.Errorf("%s: %d cuts, want %d", name, len(cuts), want)
		}
		sum, total := 0.0, 0.0
		for _, c := range cuts {
			sum += c.Length
			if c.Drawn <= 0 || c.Length < c.Drawn*1.15+20 || c.Length > c.Drawn*1.15+26 || math.Mod(c.Length, 5) != 0 {
				t.Errorf("%s: step %d is drawn %.1f mm and cut %.1f mm", name, c.Step, c.Drawn, c.Length)
			}
		}
		for _, w := range Totals(cuts) {
			total += w.Length
		}
		if math.Abs(sum-total) > 1e-9 {
			t.Errorf("%s: cuts %.1f mm, totals %.1f mm", name, sum, total)
		}
		if !slices.IsSortedFunc(cuts, func(a, b Cut) int { return a.Step - b.Step }) {
			t.Errorf("%s: cuts are not in the order of their steps", name)
		}
	}
}

// Each step that is worked at a place in the drawing has its close-up, and no
// wire of a later step is in it.
func TestCloseUps(t *testing.T) {
	for _, name := range few {
		in := example(t, name)
		ups := newCloseUps(&in)
		first := in.Plan.StepOfRun(len(in.Graph.Runs))
		for i := range in.Plan.Steps {
			s := &in.Plan.Steps[i]
			views := ups.views(s)
			worked := slices.ContainsFunc(s.Ends, func(e build.End) bool { return e.Work != build.Tail && e.Work != build.Own })
			if worked != (len(views) > 0) {
				t.Errorf("%s: step %d has %d close-ups", name, s.Number, len(views))
			}
			for _, v := range views {
				if v.Width > viewWidth || v.Height > viewHeight {
					t.Errorf("%s: the close-up of step %d is %g × %g mm", name, s.Number, v.Width, v.Height)
				}
				own := false
				for _, run := range runsIn(v.Items) {
					own = own || run == s.Run
					if first[run] > s.Number {
						t.Errorf("%s: the close-up of step %d shows step %d", name, s.Number, first[run])
					}
				}
				if touching := in.Graph.Runs[s.Run].Wire.Kind == loom.Touching; !own && !touching {
					t.Errorf("%s: the close-up of step %d does not show its wire", name, s.Number)
				}
			}
		}
	}
}

// What the meter says fills the slots; without it there is a line.
func TestReadings(t *testing.T) {
	in := example(t, few[0])
	in.Readings = func(stage int) []Take {
		if stage == 0 {
			return []Take{{Do: "capacitor", Right: "22n", Before: true}, {Do: "volume.ccw to volume.case", Right: "joined"}}
		}
		return nil
	}
	var got []Reading
	for _, b := range Compose(in).Blocks {
		if r, ok := b.(Reading); ok {
			got = append(got, r)
		}
	}
	if len(got) != len(in.Plan.Stages)+1 || len(got[0].Takes) != 1 || got[0].Takes[0].Do != "capacitor" || len(got[1].Takes) != 1 || len(got[2].Takes) != 0 {
		t.Errorf("slots %+v", got)
	}
}
