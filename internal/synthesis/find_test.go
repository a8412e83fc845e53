package synthesis

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/proof"
	"loomwright/internal/source"
)

// met fails unless a loom is found and every wanted sound is proved heard; it
// returns the result, the written file and the proof.
func met(t *testing.T, text string, o Options) (Result, string, proof.Report) {
	t.Helper()
	o.Schemes = shipped(t)
	l := read(t, "test", text)
	r, list := Find(l, o)
	if r.Status != Found {
		t.Fatalf("%s: %v\n%s", r.Status, list, text)
	}
	out, report := prove(t, l, &r.Wirings[0])
	for _, row := range report.Rows {
		if row.Wanted != nil && row.Wanted.Met == proof.No {
			t.Fatalf("%s: %s\n%s", row.Name, row.Wanted.Why, out)
		}
	}
	return r, out, report
}

const handmade = `# Saltmarsh Bench, joined in part.
loomwright: 1
hand: left with pot ends swapped
parts:
  neck: {is: pickup/single-coil}
  bridge: {is: pickup/single-coil} # from the drawer
  toggle: {is: switch/toggle-3way}
  volume: {is: pot/standard}
  strings: {is: ground/string}
  jack: {is: jack/mono}
joins:
  - volume.wiper -- jack.tip # the hot wire
  - volume.cw -- volume.case
  - volume.case -- jack.sleeve
sounds:
  - {with: toggle neck, hear: neck}
  - {with: toggle middle, hear: neck parallel bridge}
  - {with: toggle bridge, hear: bridge}
`

// TestByHand: controls that the file has joined already are followed to their far
// end, which of a left-handed loom with swapped ends is ccw; comments and joins of
// the file stay.
func TestByHand(t *testing.T) {
	r, out, _ := met(t, handmade, Options{})
	if r.Scheme != byHand {
		t.Errorf("scheme %q", r.Scheme)
	}
	for _, want := range []string{"# Saltmarsh Bench, joined in part.", "# from the drawer", "# the hot wire", "volume.ccw", "volume.wiper -- jack.tip"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is missing in\n%s", want, out)
		}
	}
	if n := len(read(t, "written", out).Joins); n < 3+len(r.Wirings[0].Joins) {
		t.Errorf("%d lines of joins, want those of the file and %d more", n, len(r.Wirings[0].Joins))
	}
}

// TestWritten: what is written is laid out canonically, wherever the joins stood.
func TestWritten(t *testing.T) {
	for _, joins := range []string{"", "joins: []\n", "joins: [volume.wiper -- jack.tip]\n", "joins: # none yet\n  - volume.wiper -- jack.tip\n", "joins: [] # none yet\n"} {
		text := "loomwright: 1\nparts:\n  a: {is: pickup/single-coil}\n  volume: {is: pot/standard}\n  jack: {is: jack/mono}\n" + joins +
			"scheme: one volume\nsounds:\n  - {hear: a} # loud\n"
		_, out, _ := met(t, text, Options{})
		doc, list := source.Parse(diag.NewText("written", out))
		if list.HasErrors() || source.Format(doc, loom.Layout()) != out {
			t.Errorf("not canonical: %v\n%s", list, out)
		}
		for _, comment := range []string{"# none yet", "# loud"} {
			if strings.Contains(text, comment) != strings.Contains(out, comment) {
				t.Errorf("%q is lost\n%s", comment, out)
			}
		}
	}
}

// TestReserved: nothing is soldered to terminals that must stay free, and the
// proof of smallness reckons with it.
func TestReserved(t *testing.T) {
	text := coilsLoom(2, "switch/rotary-4p3", "a", "a series b", "a parallel b")
	plain, _, _ := met(t, text, Options{})
	r, out, _ := met(t, strings.Replace(text, "sounds:", "free: [s.a, s.b.2]\nsounds:", 1)+"", Options{})
	for _, name := range []string{"s.a ", "s.b.2 "} {
		if strings.Contains(strings.ReplaceAll(out, ":", " "), "- "+name) || strings.Contains(out, "-- "+strings.TrimSpace(name)+"\n") {
			t.Errorf("%s is used\n%s", name, out)
		}
	}
	if r.Wirings[0].Count < plain.Wirings[0].Count {
		t.Errorf("%d joins with terminals reserved, %d without", r.Wirings[0].Count, plain.Wirings[0].Count)
	}
}

// TestThrough: a sound may go through a part's value.
func TestThrough(t *testing.T) {
	_, out, report := met(t, `loomwright: 1
parts:
  neck: {is: pickup/single-coil}
  thin: {is: capacitor/film, value: 4n7}
  strong: {is: resistor/quarter-watt, value: 47k}
  change: {is: switch/spdt-on-off-on}
  volume: {is: pot/standard}
  jack: {is: jack/mono}
sounds:
  - {with: change up, hear: neck through 4n7}
  - {with: change middle, hear: silent}
  - {with: change down, hear: neck through 47k}
`, Options{Scheme: "one volume"})
	for _, d := range report.Findings {
		if d.Severity == diag.Error {
			t.Errorf("%s: %s\n%s", d.Code, d.Message, out)
		}
	}
}

// TestPolarity: the common polarity is free unless a sound fixes it, and then the
// start of a coil is on hot.
func TestPolarity(t *testing.T) {
	text := "loomwright: 1\nscheme: none\nparts:\n  a: {is: pickup/single-coil}\n  jack: {is: jack/mono}\njoins: [a.coil.start -- jack.sleeve]\nsounds:\n  - {hear: a%s}\n"
	if r := find(t, fmt.Sprintf(text, ""), Options{}); r.Status != Found {
		t.Errorf("upside down as a whole: %v", r.Status)
	}
	if r := find(t, fmt.Sprintf(text, ", phase: fixed"), Options{}); r.Status != Impossible {
		t.Errorf("fixed, and the start on ground: %v", r.Status)
	}
	_, out, _ := met(t, strings.Replace(fmt.Sprintf(text, ""), "joins: [a.coil.start -- jack.sleeve]\n", "", 1), Options{})
	if !strings.Contains(out, "a.coil.start -- jack.tip") && !strings.Contains(out, "a.coil.start  -- jack.tip") {
		t.Errorf("without need the coil is upside down\n%s", out)
	}
}

// TestBest: several wirings are as good as the first, differ from it and from each
// other, and hold.
func TestBest(t *testing.T) {
	l := read(t, "best", coilsLoom(2, "switch/lever-4way", "a", "a parallel b", "b", "a series b"))
	r, _ := Find(l, Options{Schemes: shipped(t), Best: 4})
	if len(r.Wirings) != 4 {
		t.Fatalf("%d wirings", len(r.Wirings))
	}
	seen := map[string]bool{}
	for i := range r.Wirings {
		w := &r.Wirings[i]
		text, report := prove(t, l, w)
		if seen[text] || w.Count != r.Wirings[0].Count || w.Long != r.Wirings[0].Long || i > 0 && len(w.Differs) == 0 {
			t.Errorf("wiring %d: %d joins, %d long, %v", i, w.Count, w.Long, w.Differs)
		}
		seen[text] = true
		for _, row := range report.Rows {
			if row.Wanted.Met != proof.Yes {
				t.Errorf("wiring %d: %s: %s\n%s", i, row.Name, row.Wanted.Why, text)
			}
		}
	}
}

// TestSameAgain: the same file gives the same bytes.
func TestSameAgain(t *testing.T) {
	for _, c := range []instance{possible[4], possible[3], refuted[1]} {
		var first string
		for range 3 {
			r := find(t, c.text, Options{Best: 2})
			bytes, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			text := string(bytes)
			if first == "" {
				first = text
			}
			if text != first {
				t.Errorf("%s:\n%s\n%s", c.name, first, text)
			}
		}
	}
}

// TestCutShort: a caller that says stop gets what there is, marked; progress is
// told; a small budget is no stop.
func TestCutShort(t *testing.T) {
	hard := read(t, "hard", possible[8].text)
	told := 0
	r, _ := Find(hard, Options{Schemes: shipped(t), Stop: func() bool { return told > 8 }, Progress: func(p Progress) { told++ }})
	if r.Status != Found || !r.CutShort || r.Smallest || told < 8 || r.Bound > r.Wirings[0].Count {
		t.Errorf("%v, cut short %v, smallest %v, told %d times, bound %d of %d", r.Status, r.CutShort, r.Smallest, told, r.Bound, r.Wirings[0].Count)
	}
	r, _ = Find(hard, Options{Schemes: shipped(t), Conflicts: 2000})
	if r.Status != Found || r.CutShort || r.Smallest || r.Bound < 10 || !strings.Contains(r.Covers[0], "not proved") {
		t.Errorf("%v, cut short %v, smallest %v, bound %d, %v", r.Status, r.CutShort, r.Smallest, r.Bound, r.Covers)
	}
	if r, _ = Find(hard, Options{Schemes: shipped(t), Conflicts: 1}); r.Status != Open {
		t.Errorf("with one conflict: %v", r.Status)
	}
	if r, _ = Find(hard, Options{Schemes: shipped(t), First: true}); r.Status != Found || r.Smallest {
		t.Errorf("the first: %v, smallest %v", r.Status, r.Smallest)
	}
}

// TestRestsOn: what nobody has told is named, with the reading that settles it;
// when it is otherwise, the swap that is named puts it right.
func TestRestsOn(t *testing.T) {
	text := `loomwright: 1
parts:
  neck: {is: pickup/points-twin%s}
  pull: {is: pot/push-pull-pads}
  jack: {is: jack/mono}
sounds:
  - {with: pull pushed, hear: neck}
  - {with: pull pulled, hear: neck.north}
`
	r, out, _ := met(t, fmt.Sprintf(text, ""), Options{})
	if len(r.Rests) != 2 || !strings.Contains(r.Rests[1].Reading, "tap neck.south") || !strings.Contains(r.Rests[1].Reading, "compass") {
		t.Fatalf("%+v", r.Rests)
	}
	told := func(file, pole string) proof.Report {
		file = strings.Replace(file, "points-twin}", "points-twin, winding: clockwise, pole: {north: north, south: "+pole+"}}", 1)
		return checked(t, file)
	}
	if !allMet(told(out, "south")) {
		t.Errorf("as customary it does not hold\n%s", out)
	}
	if allMet(told(out, "north")) {
		t.Errorf("it holds whatever the pole\n%s", out)
	}
	swapped := strings.NewReplacer("neck.south.start", "neck.south.finish", "neck.south.finish", "neck.south.start").Replace(out)
	if !strings.Contains(r.Rests[1].Swap, "swap neck.south.start and neck.south.finish") || !allMet(told(swapped, "north")) {
		t.Errorf("%s\n%s", r.Rests[1].Swap, swapped)
	}
}

func checked(t *testing.T, text string) proof.Report {
	t.Helper()
	_, report := prove(t, read(t, "checked", text), &Wiring{})
	return report
}

func allMet(r proof.Report) bool {
	return !slices.ContainsFunc(r.Rows, func(row proof.Row) bool { return row.Wanted != nil && row.Wanted.Met != proof.Yes })
}

// TestWiresPerLug: four leads on one lug are crowded; as a demand no lug takes more
// wires than asked, at the price of a join, to a spare lug that holds two of them.
func TestWiresPerLug(t *testing.T) {
	text := coilsLoom(4, "switch/rotary-2p3", "a parallel b parallel c parallel d", "a parallel b parallel c parallel d", "a parallel b parallel c")
	loose, out, _ := met(t, text, Options{})
	if len(loose.Wirings[0].Crowded) == 0 {
		t.Fatalf("nothing is crowded\n%s", out)
	}
	tight, out, _ := met(t, text, Options{WiresPerLug: 3})
	if len(tight.Wirings[0].Crowded) > 0 || tight.Wirings[0].Count <= loose.Wirings[0].Count || !tight.Smallest {
		t.Errorf("crowded %v, %d joins instead of %d\n%s", tight.Wirings[0].Crowded, tight.Wirings[0].Count, loose.Wirings[0].Count, out)
	}
}

// TestRefusals: what is asked wrongly is said, in words of wiring.
func TestRefusals(t *testing.T) {
	parts := "loomwright: 1\nparts:\n  a: {is: pickup/twin-coil}\n  b: {is: pickup/twin-coil}\n  jack: {is: jack/mono}\n"
	var coils strings.Builder
	for i := range 90 {
		fmt.Fprintf(&coils, "  c%d: {is: pickup/single-coil}\n", i)
	}
	large := parts + coils.String() + "sounds: [{hear: a}]\n"
	many, _, _ := strings.Cut(coilsLoom(8, "switch/spst"), "sounds:")
	pots := "  v: {is: pot/standard}\n  w: {is: pot/standard}\n"
	for text, want := range map[string]string{
		parts: "wire-nothing",
		large: "loom-limit",
		parts + "joins: [jack.tip -- jack.sleeve]\nsounds: [{hear: a}]\n":                                                       "wire-short",
		many + "sounds: [{hear: " + strings.Join(strings.Split("abcdefgh", ""), " series ") + ", phase: free, hum: cancels}]\n": "loom-limit",
		parts + "sounds: [{hear: a through 4k7}]\n":                                                                             "wire-through",
		parts + pots + "scheme: volume-each\nsounds: [{hear: (a.north series b.north) parallel (a.south series b.south)}]\n":    "scheme-cross",
		parts + "  v: {is: pot/standard}\n  w: {is: pot/standard}\n  x: {is: pot/standard}\nsounds: [{hear: a}]\n":              "scheme-unfit",
	} {
		r, list := Find(read(t, "refused", text), Options{Schemes: shipped(t)})
		if len(list) == 0 || list[0].Code != want || r.Status != "" {
			t.Errorf("%v, want %s\n%s", list, want, text)
		}
	}
}

// TestManyInSeries: the order of many coils in series is chosen by structure, not
// out of a list of all orders.
func TestManyInSeries(t *testing.T) {
	all := strings.Join(strings.Split("abcdefgh", ""), " series ")
	r, _, report := met(t, coilsLoom(8, "switch/spst", "a", all), Options{Conflicts: 20_000})
	if report.Rows[1].Heard != all || r.Wirings[0].Count < 9 {
		t.Errorf("%d joins for %s", r.Wirings[0].Count, report.Rows[1].Heard)
	}
}
