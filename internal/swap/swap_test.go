package swap

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/source"
	"loomwright/library"
)

// shelf is the library, and behind it parts with other names for the same
// contacts.
func shelf() *part.Library {
	own := fstest.MapFS{
		"switch/numbered.yaml": {Data: []byte(numbered)},
		"switch/upside.yaml":   {Data: []byte(upside)},
	}
	return part.NewLibrary(part.Shelf{Name: "shelf", FS: own}, part.Shelf{Name: "library", FS: library.Files})
}

// numbered is the 5-way lever with its lugs numbered along a line and its
// positions counted from the neck.
const numbered = `
loomwright-part: 1
name: 5-way lever with numbered lugs
class: switch
terminals: {"1": {}, "2": {}, "3": {}, "4": {}, "5": {}, "6": {}, "7": {}, "8": {}}
switches:
  lever:
    positions: {one: {}, two: {}, three: {}, four: {}, five: {}}
    poles:
      upper: {contacts: {one: [["5", "8"]], two: [["5", "8", "7"]], three: [["5", "7"]], four: [["5", "7", "6"]], five: [["5", "6"]]}}
      lower: {contacts: {one: [["4", "1"]], two: [["4", "1", "2"]], three: [["4", "2"]], four: [["4", "2", "3"]], five: [["4", "3"]]}}
`

// upside is a changeover of one pole: too little for two.
const upside = `
loomwright-part: 1
name: changeover of one pole
class: switch
terminals: {c: {}, x: {}, y: {}}
switches:
  slide:
    positions: {left: {}, right: {}}
    poles: {p: {common: c, throws: [x, y]}}
`

func exampleText(t testing.TB, name string) *diag.Text {
	t.Helper()
	data, err := examples.Files.ReadFile(name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return diag.NewText(name+".yaml", string(data))
}

func TestSwaps(t *testing.T) {
	lib := shelf()
	for _, c := range []struct {
		name, loom string
		ask        Request
		want       Verdict
		has        []string // lines of the new file
		hasNot     []string
	}{
		{"leads by colour, junction inside", "two-twin-coils-phase", Request{Changes: []Change{{Use: "neck", Code: "curlew"}}}, Same,
			[]string{"neck.brown -- tone.pull.a.pushed   # north start", "neck.grey", "neck.bare", "code: curlew"},
			[]string{"neck.pink", "link"}},
		{"junction comes out", "two-twin-coils-tone-at-input", Request{Changes: []Change{{Use: "neck", Code: "dunlin"}}}, Same,
			[]string{"- neck.orange -- neck-volume.cw", "- neck.pink   -- neck.blue", "neck.violet, neck.bare -- neck-volume.case"}, []string{"neck.brown"}},
		{"two leads become a braid", "two-twin-coils-tone-at-input", Request{Changes: []Change{{Use: "bridge", Code: "whimbrel"}}}, Same,
			[]string{"bridge.braid -- bridge-volume.case", "bridge.yellow"}, []string{"bridge.grey", "bridge.bare"}},
		{"a braid becomes two leads", "two-twin-coils-phase", Request{Changes: []Change{{Use: "bridge", Code: "dunlin"}}}, Same,
			[]string{"bridge.violet, bridge.bare -- volume.case", "bridge.pink   -- bridge.blue"}, []string{"braid  -- "}},
		{"the split needs the junction", "twin-coil-split", Request{Changes: []Change{{Use: "bridge", Code: "curlew"}}}, Search, nil, nil},
		{"a braid cannot be turned round", "two-twin-coils-phase", Request{Changes: []Change{{Use: "neck", Code: "whimbrel"}}}, Search, nil, nil},
		{"leads nobody has told", "two-twin-coils-phase", Request{Changes: []Change{{Use: "neck", Code: "knot"}}}, Measure, nil, nil},
		{"from leads nobody has told", "leads-unknown", Request{Changes: []Change{{Use: "bridge", Code: "dunlin"}}}, Measure, nil, nil},
		{"lugs to pads", "two-twin-coils-phase", Request{Changes: []Change{{Use: "tone", Is: "pot/push-pull-pads"}}}, Same, []string{"is: pot/push-pull-pads"}, nil},
		{"slide to toggle", "left-handed-tapped-coil", Request{Changes: []Change{{Use: "tap", Is: "switch/dpdt-on-on"}}}, Same, []string{"tap.a.down"}, nil},
		{"other names, other order", "three-single-coils-5way", Request{Changes: []Change{{Use: "lever", Is: "switch/numbered"}}}, Same,
			[]string{"lever five, ", "bridge.coil.start"}, []string{"lever.a"}},
		{"one pole for one pole", "left-handed-tapped-coil", Request{Changes: []Change{{Use: "tap", Is: "switch/upside"}}}, Same,
			[]string{"tap.c", "with: tap left", "with: tap right"}, []string{"tap.a"}},
		{"a switch that is not there", "two-twin-coils-phase", Request{Changes: []Change{{Use: "tone", Is: "pot/standard"}}}, Search, nil, nil},
		{"an unused switch more", "twin-coil-split", Request{Changes: []Change{{Use: "tone", Is: "pot/push-pull-lugs"}}}, Differs, []string{"tone.wiper"}, nil},
		{"a lever that does not bridge", "two-twin-coils-phase", Request{Changes: []Change{{Use: "toggle", Is: "switch/lever-3way"}}}, Search, nil, nil},
		{"other hand, linear", "left-handed-tapped-coil", Request{Hand: "right"}, Same,
			[]string{"bridge.start  -- volume.cw", "volume.ccw    -- volume.case", "tone-cap.a    -- tone.ccw"}, nil},
		{"other hand, audio", "twin-coil-split", Request{Hand: swappedEnds}, Differs, []string{"bridge.orange -- volume.ccw", "hand: left with pot ends swapped"}, nil},
		{"track and title", "twin-coil-split", Request{Title: "Godwit: \"two\"", Changes: []Change{{Use: "volume", Track: "250k audio"}}}, Same,
			[]string{"track: 250k audio", `title: 'Godwit: "two"'`}, nil},
		{"a part that is not there", "twin-coil-split", Request{Changes: []Change{{Use: "lever", Is: "switch/spst"}}}, Refused, nil, nil},
		{"a part file that is not there", "twin-coil-split", Request{Changes: []Change{{Use: "volume", Is: "pot/giant"}}}, Refused, nil, nil},
		{"a track that cannot be read", "twin-coil-split", Request{Changes: []Change{{Use: "volume", Track: "A500K"}}}, Refused, nil, nil},
		{"no hand", "twin-coil-split", Request{Hand: "both"}, Refused, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Do(exampleText(t, c.loom), lib, c.ask, nil)
			if got.Verdict != c.want {
				t.Fatalf("verdict %q, want %q: %v %v\n%s", got.Verdict, c.want, got.Why, got.Findings, got.Text)
			}
			explained := len(got.Why) > 0 || got.Verdict == Same || got.Verdict == Refused && got.Findings.HasErrors()
			if !explained {
				t.Error("the verdict is not explained")
			}
			if (got.Text != "") != (got.Verdict == Same || got.Verdict == Differs) {
				t.Errorf("verdict %q with the text %q", got.Verdict, got.Text)
			}
			for _, line := range c.has {
				if !strings.Contains(squashed(got.Text), squashed(line)) {
					t.Errorf("%q is missing in\n%s", line, got.Text)
				}
			}
			for _, line := range c.hasNot {
				if strings.Contains(withoutNote(got.Text), line) {
					t.Errorf("%q is still in\n%s", line, got.Text)
				}
			}
		})
	}
}

func squashed(s string) string { return strings.Join(strings.Fields(s), " ") }

// withoutNote is a file without its comments and its note.
func withoutNote(text string) string {
	var out []string
	for _, l := range strings.Split(text, "\n") {
		if c := comment(l); c >= 0 {
			l = l[:c]
		}
		out = append(out, l)
	}
	_, parts, _ := strings.Cut(strings.Join(out, "\n"), "parts:")
	return parts
}

// canonical is a file in its layout.
func canonical(t *testing.T, text *diag.Text) string {
	t.Helper()
	doc, list := source.Parse(text)
	if list.HasErrors() {
		t.Fatal(list)
	}
	return source.Format(doc, loom.Layout())
}

// Nothing asked, nothing changed.
func TestNothingAsked(t *testing.T) {
	lib := shelf()
	names, _ := fs.Glob(examples.Files, "*.yaml")
	for _, name := range names {
		text := exampleText(t, strings.TrimSuffix(name, ".yaml"))
		got := Do(text, lib, Request{}, nil)
		if got.Verdict != Same || got.Text != canonical(t, text) {
			t.Errorf("%s: %q %v\n%s", name, got.Verdict, got.Why, got.Text)
		}
	}
}

// Every part of every example against every part of its class, and every lead
// code: what is called the same is heard the same when the new file is proved
// by itself, comments stay, and no more than lines are lost.
func TestEveryPartForEveryPart(t *testing.T) {
	lib := shelf()
	names, _ := fs.Glob(examples.Files, "*.yaml")
	count := map[Verdict]int{}
	for n, name := range names {
		text := exampleText(t, strings.TrimSuffix(name, ".yaml"))
		l, _ := loom.Read(text, lib)
		before := proveText(t, lib, text)
		for _, c := range changes(l, lib) {
			if (n+len(c.Is)+len(c.Code))%3 != 0 {
				continue // a third of them: the others are alike
			}
			got := Do(text, lib, Request{Changes: []Change{c}}, nil)
			count[got.Verdict]++
			if got.Verdict != Same {
				continue
			}
			after := proveText(t, lib, diag.NewText("new.yaml", got.Text))
			for i := range before {
				if before[i].Heard != after[i].Heard || before[i].Output != after[i].Output {
					t.Errorf("%s with %+v: %s is %q, was %q", name, c, after[i].Name, after[i].Heard, before[i].Heard)
				}
			}
			if a, b := comments(text.Data), comments(got.Text); !slices.Equal(a, b) {
				t.Errorf("%s with %+v: comments %q became %q", name, c, a, b)
			}
		}
	}
	if t.Logf("verdicts: %v", count); count[Same] < 50 || count[Search] < 50 || count[Measure] < 3 {
		t.Errorf("too few of a kind: %v", count)
	}
}

func changes(l *loom.Loom, lib *part.Library) []Change {
	var out []Change
	for i := range l.Uses {
		u := &l.Uses[i]
		for _, id := range lib.IDs() {
			class, name, _ := strings.Cut(id, "/")
			switch {
			case class == "codes" && u.Part.Class == "pickup":
				out = append(out, Change{Use: u.Name, Code: name})
			case class == u.Part.Class && class != "pickup":
				out = append(out, Change{Use: u.Name, Is: id})
			}
		}
	}
	return out
}

func proveText(t *testing.T, lib *part.Library, text *diag.Text) []proof.Row {
	t.Helper()
	s, list := open(text, lib)
	if s == nil {
		t.Fatalf("%v\n%s", list, text.Data)
	}
	return proof.Prove(s.g).Rows
}

func comments(text string) []string {
	var out []string
	for _, l := range strings.Split(text, "\n") {
		if c := comment(l); c >= 0 {
			out = append(out, strings.TrimSpace(l[c:]))
		}
	}
	return out
}

// There and back again is where it was.
func TestThereAndBack(t *testing.T) {
	lib := shelf()
	for _, c := range []struct{ loom, use, key, there, back string }{
		{"two-twin-coils-phase", "tone", "is", "pot/push-pull-pads", "pot/push-pull-lugs"},
		{"three-single-coils-5way", "lever", "is", "switch/numbered", "switch/lever-5way"},
		{"two-twin-coils-tone-at-input", "neck", "code", "whimbrel", "curlew"},
	} {
		text := exampleText(t, c.loom)
		ask := func(value string) Request {
			var r Row
			r.set(c.use+"."+c.key, value)
			return r.Request
		}
		there := Do(text, lib, ask(c.there), nil)
		back := Do(diag.NewText(text.Name, there.Text), lib, ask(c.back), nil)
		if there.Verdict != Same || back.Verdict != Same {
			t.Fatalf("%s: %q %v, %q %v", c.loom, there.Verdict, there.Why, back.Verdict, back.Why)
		}
		if want := canonical(t, text); back.Text != want {
			t.Errorf("%s came back as\n%s\nwas\n%s", c.loom, back.Text, want)
		}
	}
}
