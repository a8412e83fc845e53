package source

import (
	"reflect"
	"strings"
	"testing"

	"loomwright/internal/diag"
)

// loom is a loom file as far as these tests need one.
type loom struct {
	Version int           `yaml:"loomwright" required:"true" doc:"version of this layout"`
	Title   String        `yaml:"title"`
	Parts   Map[loomPart] `yaml:"parts" required:"true"`
	Joins   []join        `yaml:"joins"`
	Sounds  []sound       `yaml:"sounds"`
	Span    diag.Span     `yaml:"-" source:"span"`
}

type loomPart struct {
	Is    String       `yaml:"is" required:"true"`
	Code  *String      `yaml:"code"`
	Track string       `yaml:"track"`
	Ohms  *Map[String] `yaml:"ohms"`
	Hand  String       `yaml:"hand" oneof:"left|right"`
	Span  diag.Span    `yaml:"-" source:"span"`
}

type sound struct {
	With String `yaml:"with"`
	Hear String `yaml:"hear" required:"true"`
}

// join is a custom type: a text, or a text with a remark.
type join struct{ Run, How String }

func (j *join) UnmarshalSource(n Node, l *diag.List) {
	if n.Kind() == Mapping && len(n.Entries()) == 1 {
		e := n.Entries()[0]
		j.Run = e.Key
		e.Value.Decode(&j.How, l)
		return
	}
	n.Decode(&j.Run, l)
}

func decodeInto[T any](text string) (x T, l diag.List) {
	doc, l := Parse(diag.NewText("a", text))
	l = append(l, Decode(doc, &x)...)
	return x, l
}

func TestDecodeLoom(t *testing.T) {
	f, l := decodeInto[loom](loomFile)
	if len(l) > 0 {
		t.Fatal(l)
	}
	if f.Version != 1 || len(f.Parts.Entries) != 3 || len(f.Joins) != 9 || len(f.Sounds) != 2 {
		t.Fatalf("decoded %+v", f)
	}
	bridge, ok := f.Parts.Get("bridge")
	if !ok || bridge.Is.Value != "pickup/twin-coil" || bridge.Code.Value != "dunlin" {
		t.Errorf("bridge is %+v", bridge)
	}
	if north, _ := bridge.Ohms.Get("north"); north.Value != "4.0k" {
		t.Errorf("north has %q", north.Value)
	}
	if bridge.Span != (diag.Span{File: "a", Start: diag.Pos{Line: 4, Col: 11}, End: diag.Pos{Line: 4, Col: 81}}) {
		t.Errorf("bridge stands at %v", bridge.Span)
	}
	if j := f.Joins[8]; j.Run.Value != "volume.wiper -- jack.tip" || j.How.Value != "screened, braid volume.case -- jack.sleeve" {
		t.Errorf("the last join is %+v", j)
	}
	if _, ok := f.Parts.Get("neck"); ok {
		t.Error("there is no neck")
	}
	if jack, _ := f.Parts.Get("jack"); jack.Code != nil || jack.Ohms != nil {
		t.Errorf("jack has %v", jack)
	}
}

func TestDecodeErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "1:1 missing-key, 1:1 missing-key"},
		{"loomwright: 1\nprats: {}\n", "1:1 missing-key, 2:1 unknown-key"},
		{"loomwright: 1.5\nparts: {}", "1:13 bad-value"},
		{"loomwright: '1'\nparts: {}", "1:13 bad-value"},
		{"loomwright: 1\nparts: []", "2:8 wrong-kind"},
		{"loomwright: 1\nparts:\n  a:\n  b: {is: x, hand: lfet, trak: 1}\n  c: [x]\n  d: {}\n", "3:3 missing-value, 4:20 bad-value, 4:26 unknown-key, 5:6 wrong-kind, 6:3 missing-key"},
		{"loomwright: 1\nparts: {}\nsounds: {a: b}\njoins:\n  -\n  - {a: [b]}\n  - [x]", "3:9 wrong-kind, 5:4 missing-value, 6:9 wrong-kind, 7:5 wrong-kind"},
		{"loomwright: 1\nparts: {a: {is: b, code: , ohms: }}", ""},
		{"loomwright: 1\nparts: {}\ntitle: ~\n", "3:8 missing-value"},
		{"[a]", "1:1 wrong-kind"},
		{"loomwright: 1\nloomwright: 2\nparts: {}", "2:1 duplicate-key"},
	} {
		_, l := decodeInto[loom](c.text)
		if got := said(l); got != c.want {
			t.Errorf("%q: %s, want %s\n%v", c.text, got, c.want, l)
		}
	}
}

func TestDecodeHints(t *testing.T) {
	_, l := decodeInto[loom]("loomwright: 1\nparts: {v: {is: x, trak: 500k, hand: lft}}\ncolour: red\n")
	var hints []string
	for _, d := range l.Sorted() {
		hints = append(hints, d.Hint)
	}
	want := []string{"track", "left", "the keys here are loomwright, title, parts, joins, sounds"}
	if !reflect.DeepEqual(hints, want) {
		t.Errorf("hints %q, want %q", hints, want)
	}
	_, l = decodeInto[loom]("title: x\nparts: {}")
	if d := l[0]; d.Hint != "loomwright: " || !strings.Contains(d.Message, "version of this layout") {
		t.Errorf("missing key: %+v", d)
	}
}

// simple has every plain Go type that is decoded.
type simple struct {
	Bool   bool     `yaml:"bool"`
	Int    int      `yaml:"int"`
	Float  float64  `yaml:"float"`
	Text   string   `yaml:"text"`
	Word   String   `yaml:"word" oneof:"1|2|yes"`
	Words  []String `yaml:"words" oneof:"up|down"`
	Any    Node     `yaml:"any"`
	common `yaml:",inline"`
}

type common struct {
	About String      `yaml:"about"`
	List  Seq[String] `yaml:"list"`
	Deep  [][]string  `yaml:"deep"`
}

func TestDecodeScalars(t *testing.T) {
	for _, c := range []struct {
		text string
		get  func(simple) any
		want any
	}{
		{"bool: yes", func(s simple) any { return s.Bool }, true},
		{"bool: true", func(s simple) any { return s.Bool }, true},
		{"bool: 'no'", func(s simple) any { return s.Bool }, false},
		{"int: 12", func(s simple) any { return s.Int }, 12},
		{"int: -3.0", func(s simple) any { return s.Int }, -3},
		{"int: 0x10", func(s simple) any { return s.Int }, 16},
		{"float: .5", func(s simple) any { return s.Float }, 0.5},
		{"float: 1e3", func(s simple) any { return s.Float }, 1e3},
		{"text: 4.0k", func(s simple) any { return s.Text }, "4.0k"},
		{"text: 500", func(s simple) any { return s.Text }, "500"},
		{"text: true", func(s simple) any { return s.Text }, "true"},
		{"text: '~'", func(s simple) any { return s.Text }, "~"},
		{"word: 1.0", func(s simple) any { return s.Word.Value }, "1"},
		{"word: 'yes'", func(s simple) any { return s.Word.Value }, "yes"},
		{"words: [up, down]", func(s simple) any { return len(s.Words) }, 2},
		{"about: x", func(s simple) any { return s.About.Value }, "x"},
		{"list: [a, b]", func(s simple) any { return s.List.Items[1].Value }, "b"},
		{"deep: [[a], [b, c]]", func(s simple) any { return s.Deep }, [][]string{{"a"}, {"b", "c"}}},
		{"any: {a: 1}", func(s simple) any { return s.Any.Kind() }, Mapping},
	} {
		s, l := decodeInto[simple](c.text)
		if got := c.get(s); len(l) > 0 || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q gives %v (%v), want %v", c.text, got, l, c.want)
		}
	}
	for _, text := range []string{
		"bool: maybe", "bool: 1", "bool: 'true'", "int: 1.5", "int: '1'", "int: 1e300", "int: 9007199254740994", "float: x", "float: 1_0", "float: ''", "float: 0x",
		"word: 3", "word: '1.0'", "words: [left]", "text: ~",
	} {
		if _, l := decodeInto[simple](text); len(l) != 1 || l[0].Code != "bad-value" && l[0].Code != "missing-value" {
			t.Errorf("%q gives %v", text, l)
		}
	}
}

func TestDecodeLeavesBrokenFilesAlone(t *testing.T) {
	doc, l := Parse(diag.NewText("a", "a: [1"))
	var f loom
	if more := Decode(doc, &f); !l.HasErrors() || len(more) > 0 {
		t.Errorf("parse says %v, decode adds %v", l, more)
	}
}

func TestDecodePanicsOnUnknownTypes(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a channel was decoded")
		}
	}()
	var x struct {
		C chan int `yaml:"c"`
	}
	Decode(parsed(t, "c: 1"), &x)
}

func TestSnippets(t *testing.T) {
	long := "a: " + strings.Repeat("x", 150) + " MARK " + strings.Repeat("y", 150)
	for _, c := range []struct {
		text string
		span diag.Span
		want string
	}{
		{"a: 1\n\tb: zwölf\n", diag.Span{Start: diag.Pos{Line: 2, Col: 5}, End: diag.Pos{Line: 2, Col: 10}}, "  " + "    b: zwölf\n" + "  " + "       ^^^^^\n"},
		{"k: 日本 語\n", diag.Span{Start: diag.Pos{Line: 1, Col: 4}, End: diag.Pos{Line: 1, Col: 6}}, "  k: 日本 語\n     ^^^^\n"},
		{"k: e\u0301x\n", diag.Span{Start: diag.Pos{Line: 1, Col: 6}, End: diag.Pos{Line: 1, Col: 7}}, "  k: e\u0301x\n      ^\n"},
		{"a: [1,\n 2]\n", diag.Span{Start: diag.Pos{Line: 1, Col: 4}, End: diag.Pos{Line: 2, Col: 4}}, "  a: [1,\n     ^^^\n"},
		{"a", diag.Span{Start: diag.Pos{Line: 1, Col: 2}, End: diag.Pos{Line: 1, Col: 2}}, "  a\n   ^\n"},
		{"a", diag.Span{Start: diag.Pos{Line: 7, Col: 9}, End: diag.Pos{Line: 8, Col: 2}}, "  \n  ^\n"},
		{"a\xffb\x1b[31m\u202e: 1", diag.Span{Start: diag.Pos{Line: 1, Col: 4}, End: diag.Pos{Line: 1, Col: 5}},
			`  a\xffb\x1b[31m\u202e: 1` + "\n" + "        ^^^^\n"},
		{long, diag.Span{Start: diag.Pos{Line: 1, Col: 155}, End: diag.Pos{Line: 1, Col: 159}},
			"  …" + strings.Repeat("x", 32) + " MARK " + strings.Repeat("y", 62) + "…\n  " + strings.Repeat(" ", 34) + "^^^^\n"},
	} {
		c.span.File = "a"
		got := Snippet(diag.NewText("a", c.text), diag.Diagnostic{Code: "c", Severity: diag.Error, Span: c.span, Message: "m"})
		head, rest, _ := strings.Cut(got, "\n")
		if rest != c.want || !strings.HasPrefix(head, "a:") || !strings.HasSuffix(head, ": error: m [c]") {
			t.Errorf("%.20q:\n%s\nwant\n%s", c.text, got, c.want)
		}
	}
	whole := Snippet(nil, diag.Diagnostic{Code: "c", Severity: diag.Info, Message: "m", Hint: "h", Related: []diag.Related{{Span: diag.Span{File: "b", Start: diag.Pos{Line: 2, Col: 3}}, Message: "first here"}}})
	if whole != "info: m [c]\n  hint: h\n  see b:2:3: first here\n" {
		t.Errorf("without a text: %q", whole)
	}
}
