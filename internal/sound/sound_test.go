package sound

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// genSound draws a sound over coils that are each used once.
func genSound(t *rapid.T) Expr {
	coils := 0
	var draw func(depth int, not Op) Expr
	draw = func(depth int, not Op) Expr {
		kind := rapid.IntRange(0, 3).Draw(t, "kind")
		op := Series
		if kind == 2 {
			op = Parallel
		}
		if kind < 1 || depth > 3 || op == not {
			coils++
			return Coil(rapid.SampledFrom([]string{"neck", "bridge.north", "middle-2", "ü"}).Draw(t, "name")+strings.Repeat("x", coils), rapid.Bool().Draw(t, "reversed"))
		}
		var kids []Expr
		for range rapid.IntRange(2, 4).Draw(t, "kids") {
			kids = append(kids, draw(depth+1, op))
		}
		if op == Series && rapid.Bool().Draw(t, "through") {
			kids = append(kids, genPassive(t, 0, Series))
		}
		return Expr{Op: op, Kids: kids}
	}
	return draw(0, Any)
}

// genPassive draws parts in the path.
func genPassive(t *rapid.T, depth int, not Op) Expr {
	op := rapid.SampledFrom([]Op{Through, Series, Parallel}).Draw(t, "part")
	if op == Through || op == not || depth > 2 {
		return Expr{Op: Through, Name: rapid.SampledFrom([]string{"4.7k", "22n", "470Ω"}).Draw(t, "value")}
	}
	return Expr{Op: op, Kids: []Expr{genPassive(t, depth+1, op), genPassive(t, depth+1, op)}}
}

func TestPrintedSoundsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := genSound(t).Canon()
		got, leaves, err := Parse(want.String())
		if err != nil {
			t.Fatalf("%s: %v", want, err)
		}
		if d := cmp.Diff(want, got.Canon()); d != "" {
			t.Fatalf("%s: %s", want, d)
		}
		for i, leaf := range leaves {
			runes := []rune(want.String())
			if at := string(runes[leaf.Offset : leaf.Offset+leaf.Length]); at != leaf.Name || leaf.Name != want.Leaves()[i].Name {
				t.Fatalf("leaf %d of %s is %q at %q", i, want, leaf.Name, at)
			}
		}
	})
}

func TestCanonForgetsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := genSound(t)
		if !Equal(e, shuffled(t, e)) {
			t.Fatalf("%s is not equal to itself in another order", e)
		}
		if Equal(e, e.Reverse()) {
			t.Fatalf("%s equals its reverse", e)
		}
		if !Equal(e, e.Reverse().Reverse()) || !Equal(e.Unsigned(), e.Reverse().Unsigned()) {
			t.Fatalf("reversing %s twice changes it, or reversing changes more than signs", e)
		}
		if data, err := json.Marshal(e); err != nil || !equalJSON(e, data) {
			t.Fatalf("%s is another sound after a trip through JSON (%v)", e, err)
		}
	})
}

func equalJSON(e Expr, data []byte) bool {
	var back Expr
	return json.Unmarshal(data, &back) == nil && cmp.Equal(e, back)
}

func shuffled(t *rapid.T, e Expr) Expr {
	out := e
	out.Kids = nil
	for _, k := range e.Kids {
		out.Kids = append(out.Kids, shuffled(t, k))
	}
	if len(out.Kids) > 1 {
		out.Kids = rapid.Permutation(out.Kids).Draw(t, "order")
	}
	return out
}

func TestReadings(t *testing.T) {
	for text, want := range map[string]string{
		"any":                         "any",
		" silent ":                    "silent",
		"neck":                        "neck",
		"reversed reversed neck":      "neck",
		"neck series (bridge)":        "bridge series neck",
		"reversed (a series b)":       "reversed a series reversed b",
		"a parallel (b parallel c)":   "a parallel b parallel c",
		"a series (b parallel c)":     "a series (b parallel c)",
		"a through 4k7":               "a through 4k7",
		"a parallel b through 22n":    "a parallel (b through 22n)",
		"a through (1n parallel 10k)": "a through (10k parallel 1n)",
		"a through (1n series 10k)":   "a through 10k through 1n",
		"a through 1n series b":       "a series b through 1n",
	} {
		e, _, err := Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got := e.Canon().String(); got != want {
			t.Errorf("%q is read as %q, want %q", text, got, want)
		}
	}
}

func TestSyntaxErrors(t *testing.T) {
	deep := strings.Repeat("(", maxDepth+1) + "a" + strings.Repeat(")", maxDepth+1)
	for _, c := range []struct {
		text, at, message, hint string
	}{
		{"", "", "a sound is missing", "write a coil, a pickup, silent or any"},
		{"a series b parallel c", "parallel", "can be read in two ways", "(a series b) parallel c   or   a series (b parallel c)"},
		{"a parallel (b series c) series d", "series d", "can be read in two ways",
			"(a parallel (b series c)) series d   or   a parallel ((b series c) series d)"},
		{"a series b series c parallel", "parallel", "can be read in two ways",
			"(a series b series c) parallel …   or   a series b series (c parallel …)"},
		{"a through (1n series 2k parallel 3k)", "parallel", "can be read in two ways",
			"(1n series 2k) parallel 3k   or   1n series (2k parallel 3k)"},
		{"a b", "b", `expected series, parallel or the end, found "b"`, ""},
		{"a series", "", "a coil or pickup is missing here", ""},
		{"series a", "series a", `a coil or pickup is missing before "series"`, ""},
		{"ü parallel any", "any", `"any" stands alone`, ""},
		{"a parallel (silent)", "silent", `"silent" stands alone`, ""},
		{"a parallel (b series c", "(b", "this bracket is never closed", ""},
		{"a) series b", ") series", "this bracket was never opened", ""},
		{"a through", "", "a value is missing after through", "through 4k7"},
		{"a through (1n parallel)", ")", "a value is missing after through", "through 4k7"},
		{"a through series b", "series", "a value is missing after through", "through 4k7"},
		{deep, "(a", "too many brackets inside each other", ""},
		{strings.Repeat("reversed ", maxDepth+1) + "a", "reversed a", "too many brackets inside each other", ""},
	} {
		_, _, err := Parse(c.text)
		e, ok := err.(*SyntaxError)
		if !ok {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if !strings.Contains(e.Error(), c.message) || e.Hint != c.hint {
			t.Errorf("%q: %q with hint %q, want %q with %q", c.text, e.Message, e.Hint, c.message, c.hint)
		}
		want := len([]rune(c.text))
		if c.at != "" {
			want = len([]rune(c.text[:strings.LastIndex(c.text, c.at)]))
		}
		if e.Offset != want {
			t.Errorf("%q: points at rune %d, want %d", c.text, e.Offset, want)
		}
	}
}

// TestMixedNests: the two readings of a mix are themselves read to the same
// depth, however often mixes nest.
func TestMixedNests(t *testing.T) {
	text := strings.Repeat("a series b parallel (", 200000)
	if _, _, err := Parse(text); err == nil {
		t.Error("a text of open brackets is read as a sound")
	}
}

func TestDeepestSoundIsRead(t *testing.T) {
	text := strings.Repeat("(", maxDepth) + "a" + strings.Repeat(")", maxDepth)
	if _, _, err := Parse(text); err != nil {
		t.Error(err)
	}
}

// TestMapReverses: a reversed pickup reverses its coils.
func TestMapReverses(t *testing.T) {
	e, _, err := Parse("reversed neck parallel bridge")
	if err != nil {
		t.Fatal(err)
	}
	got := e.Map(func(name string) Expr { return In(Series, Coil(name+".n", false), Coil(name+".s", true)) })
	if want := "(bridge.n series reversed bridge.s) parallel (reversed neck.n series neck.s)"; got.Canon().String() != want {
		t.Errorf("got %s, want %s", got.Canon(), want)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"a series b", "a parallel (b through (1n parallel 4k7))", "reversed ü", "((", "a series b parallel c", "any", "silent"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, _, err := Parse(text)
		if err != nil {
			if s := err.(*SyntaxError); s.Offset < 0 || s.Offset > len([]rune(text)) || s.Length < 1 {
				t.Errorf("%q: points at %d+%d", text, s.Offset, s.Length)
			}
			return
		}
		back, _, err := Parse(e.String())
		if err != nil || !Equal(back, e) {
			t.Errorf("%q prints as %q, which is read as %q (%v)", text, e, back, err)
		}
	})
}
