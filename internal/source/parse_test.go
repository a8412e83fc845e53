package source

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	yaml "go.yaml.in/yaml/v4"

	"loomwright/internal/diag"
)

const loomFile = `loomwright: 1
title: Curlew bridge pickup, series or parallel on a pull
parts:
  bridge: {is: pickup/twin-coil, code: dunlin, ohms: {north: 4.0k, south: 4.1k}}   # L, C unknown: typical bands
  volume: {is: pot/push-pull-pads, track: 500k audio}
  jack:   {is: jack/mono}
joins:
  - bridge.orange -- volume.cw                  # north start
  - bridge.pink   -- volume.pull.a              # north finish
  - bridge.blue   -- volume.pull.b              # south finish
  - bridge.violet, bridge.bare -- volume.case   # south start, shield
  - volume.pull.a.pushed -- volume.pull.b.pushed
  - volume.pull.a.pulled -- volume.case
  - volume.pull.b.pulled -- volume.cw
  - volume.ccw   -- volume.case
  - volume.wiper -- jack.tip: screened, braid volume.case -- jack.sleeve
sounds:
  - {with: volume pushed, hear: bridge.north series bridge.south}
  - {with: volume pulled, hear: bridge.north parallel bridge.south}
`

func parsed(t testing.TB, text string) *Document {
	t.Helper()
	doc, l := Parse(diag.NewText("a", text))
	if len(l) > 0 {
		t.Fatalf("%q: %v", text, l)
	}
	return doc
}

// said is a list of diagnostics as "line:col code" lines.
func said(l diag.List) string {
	var out []string
	for _, d := range l.Sorted() {
		out = append(out, fmt.Sprintf("%d:%d %s", d.Span.Start.Line, d.Span.Start.Col, d.Code))
	}
	return strings.Join(out, ", ")
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"a: [1, 2", "1:4 yaml-syntax"},
		{"a: {b: 1", "1:4 yaml-syntax"},
		{"a: b: c", "1:5 yaml-syntax"},
		{"a: 'x", "1:4 yaml-syntax"},
		{"a: \"x\nb: 1\n", "1:4 yaml-syntax"},
		{"a: @x", "1:4 yaml-syntax"},
		{"a: 1\n b: 2", "2:3 yaml-syntax"},
		{"- a\nb: 1", "2:1 yaml-syntax"},
		{"a: 1\n\tb: 2\n\n\tc: 3", "2:1 yaml-tab, 4:1 yaml-tab"},
		{"a: 1\n---\nb: 2", "2:1 yaml-documents"},
		{"a: &x 1\nb: *x\nc: !!str 5\n<<: {d: 1}", "1:4 yaml-feature, 2:4 yaml-feature, 3:4 yaml-feature, 4:1 yaml-feature"},
		{"%YAML 1.2\n---\na: 1", "1:1 yaml-feature"},
		{"? a\n: b", "1:1 yaml-feature"},
		{"{[a]: b}", "1:2 yaml-key"},
		{": b", "1:1 yaml-key"},
		{"a: 1\nb: 2\na: 3", "3:1 duplicate-key"},
		{"{a: 1, 'a': 2, \"a\": 3}", "1:8 duplicate-key, 1:16 duplicate-key"},
		{"just text", "1:1 yaml-top"},
		{"a: \x01\n\xff", "1:4 yaml-character, 2:1 yaml-character"},
		{"a: b\rc: d", "1:5 yaml-character"},
		{"a: \u2028", "1:4 yaml-character"},
		{"a: *x", "1:4 yaml-feature"},
		{strings.Repeat("[", 70), "1:65 too-large"},
		{strings.Repeat("# "+strings.Repeat("x", 1000)+"\n", 1100), "1:1 too-large"},
		{"a: [" + strings.Repeat("1,", 210_000) + "]", "1:1 too-large"},
		{"\ufeffa: @x", "1:5 yaml-syntax"},
	} {
		_, l := Parse(diag.NewText("a", c.text))
		if got := said(l); got != c.want {
			t.Errorf("%.40q: %s, want %s\n%v", c.text, got, c.want, l)
		}
		for _, d := range l {
			if !slices.ContainsFunc(Codes(), func(code diag.Code) bool { return code.Code == d.Code && code.Severity == d.Severity }) {
				t.Errorf("%q is not among the codes", d.Code)
			}
		}
	}
}

func TestParseAccepts(t *testing.T) {
	for _, text := range []string{
		"", "\n\n", "# only a comment", "---\n", "--- # c\na: 1\n...\n# end\n", "\ufeffa: 1\n", "a: 1\r\nb:\r\n  - c\r\n",
		"a:\n- b\n- c\n", "{}", "[]", "a: |\n  x\n\n  y\n# c\nb: >-\n  z\n", "a: [b: c, {d, e: }]", "a:\n",
	} {
		parsed(t, text)
	}
}

// TestSpans: the text under a scalar's span is the scalar as written.
func TestSpans(t *testing.T) {
	doc := parsed(t, "ä: 'it''s'\nb: [\"q\\\"ö\", plain text, 5.0k] # c\nlong: one\n  two\nblock: |\n  l1\n  l2\n\nz: {x: , y}\n\"quoted key\": v\n")
	var got []string
	var walk func(n *node)
	walk = func(n *node) {
		if n.kind == Scalar {
			got = append(got, doc.Text.Data[n.at.off:n.end.off])
			if p := doc.Text.Pos(n.end.off); p != (diag.Pos{Line: n.end.line, Col: n.end.col}) {
				t.Errorf("%q ends at %v, its offset is at %v", n.value, n.end, p)
			}
		}
		for _, c := range n.children {
			if c.key != nil {
				walk(c.key)
			}
			walk(c.value)
		}
	}
	walk(doc.root)
	want := []string{"ä", "'it''s'", "b", `"q\"ö"`, "plain text", "5.0k", "long", "one\n  two", "block", "|\n  l1\n  l2", "z", "x", "y", `"quoted key"`, "v"}
	if !slices.Equal(got, want) {
		t.Errorf("scalars\n%q, want\n%q", got, want)
	}
}

func TestNodeReaders(t *testing.T) {
	root := parsed(t, loomFile).Root()
	if root.Kind() != Mapping || len(root.Entries()) != 5 || root.Items() != nil {
		t.Fatalf("root is %v with %d entries", root.Kind(), len(root.Entries()))
	}
	joins := root.Entries()[3]
	if joins.Key.Value != "joins" || joins.Value.Kind() != Sequence || len(joins.Value.Items()) != 9 {
		t.Fatalf("joins are %v", joins)
	}
	last := joins.Value.Items()[8]
	if last.Kind() != Mapping || last.Entries()[0].Key.Value != "volume.wiper -- jack.tip" {
		t.Errorf("the last join is %v", last.Entries())
	}
	if s := joins.Value.Items()[0].Scalar(); s.Value != "bridge.orange -- volume.cw" || s.Span != (diag.Span{File: "a", Start: diag.Pos{Line: 8, Col: 5}, End: diag.Pos{Line: 8, Col: 31}}) {
		t.Errorf("the first join is %v", s)
	}
	if empty := parsed(t, "# c\n").Root(); empty.Kind() != Null || empty.Scalar() != (String{}) || empty.Entries() != nil {
		t.Error("an empty file's root is not Null")
	}
}

// checkParse holds for any text: no panic; what YAML says about the text, as
// the library alone reads it, is what the tree says; comments stand in order.
func checkParse(t *testing.T, text string) {
	doc, l := Parse(diag.NewText("a", text))
	for _, d := range l {
		_ = Snippet(doc.Text, d)
		if strings.Contains(d.Message, "from here on") || strings.Contains(d.Message, "cannot be read: ") {
			t.Fatalf("%q: the text does not fit the nodes: %v", text, l)
		}
	}
	if l.HasErrors() {
		return
	}
	var y yaml.Node
	err := yaml.Load([]byte(strings.TrimPrefix(text, byteOrderMark)), &y)
	if doc.root == nil {
		if err == nil && len(y.Content) > 0 && y.Content[0].Kind != yaml.ScalarNode {
			t.Fatalf("%q: no tree", text)
		}
	} else if got, want := showNode(doc.root), showYAML(y.Content[0]); got != want {
		t.Fatalf("%q: tree %s, want %s", text, got, want)
	}
	for i, c := range doc.comments {
		if !strings.HasPrefix(text[c.at.off:], c.text) || c.text[0] != '#' || i > 0 && c.at.off <= doc.comments[i-1].at.off {
			t.Fatalf("%q: comment %d %q at %v", text, i, c.text, c.at)
		}
	}
}

func showNode(n *node) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d", n.kind)
	if n.kind == Scalar || n.kind == Null {
		fmt.Fprintf(&b, "%q", n.value)
	}
	for _, c := range n.children {
		b.WriteString("(")
		if c.key != nil {
			fmt.Fprintf(&b, "%q:", c.key.value)
		}
		b.WriteString(showNode(c.value) + ")")
	}
	return b.String()
}

func showYAML(y *yaml.Node) string {
	var b strings.Builder
	switch {
	case y.Kind == yaml.MappingNode:
		b.WriteString("2")
		for i := 0; i < len(y.Content); i += 2 {
			fmt.Fprintf(&b, "(%q:%s)", y.Content[i].Value, showYAML(y.Content[i+1]))
		}
	case y.Kind == yaml.SequenceNode:
		b.WriteString("3")
		for _, c := range y.Content {
			b.WriteString("(" + showYAML(c) + ")")
		}
	case y.ShortTag() == "!!null":
		fmt.Fprintf(&b, "0%q", y.Value)
	default:
		fmt.Fprintf(&b, "1%q", y.Value)
	}
	return b.String()
}

var parseSeeds = []string{
	loomFile, "a:\n- b\n- c: d\n  e: f\n- - x\n  - y\n", "a: |2\n   x\n  y\nb: >+\n  z\n\n\nc: 1 # d\n", "{a: [b, c: d], e: }", "a: 'x\n  y''z'\nb: \"p\\\n  q\\\"\"\n",
	"--- # c\na: 1\n...\n", "\ufeffa: 1\r\nb: 2\r\n", "# c\n", "a: # c\n  b: 1\n # d\n  # e\n", "a: [ # c\n 1, # d\n # e\n ] # f\n", "a: &x 1\nb: *x\n", "? a\n: b\n",
	"a: plain\n  more\n\n  text\nb: - c\n", "a:\n  -\n  - ~\n  - null\n", "a:\n - |\n  x\n - >-\n   y\n", "a: b#c\nd: 'e'#f\n",
	"d: |2\n \t", ": &x::", "~", "a:\n - |\n  x", "a:\n >-\n  - ~\n    ", "---", "k: {}\nl: { # c\n # d\n}\n",
}

func FuzzParse(f *testing.F) {
	for _, s := range parseSeeds {
		f.Add(s)
	}
	f.Fuzz(checkParse)
}

func BenchmarkParseAndDecode(b *testing.B) {
	text := loomFile
	for i := range 41 {
		text += fmt.Sprintf("  - {with: volume pulled, hear: bridge.north parallel bridge.south%d}\n", i)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		doc, l := Parse(diag.NewText("a", text))
		var f loom
		if l = append(l, Decode(doc, &f)...); len(l) > 0 {
			b.Fatal(l)
		}
	}
}

// manyJoins is a loom with n joins.
func manyJoins(n int) string {
	var b strings.Builder
	b.WriteString(loomFile[:strings.Index(loomFile, "joins:")] + "joins:\n")
	for i := range n {
		fmt.Fprintf(&b, "  - bridge.orange%d -- volume.cw%d  # join %d\n", i, i, i)
	}
	return b.String()
}

func BenchmarkParseFiveThousandJoins(b *testing.B) {
	text := manyJoins(5000)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		doc, l := Parse(diag.NewText("a", text))
		var f loom
		if l = append(l, Decode(doc, &f)...); len(l) > 0 || len(f.Joins) != 5000 {
			b.Fatal(l)
		}
	}
}

// TestHostileFiles: files that cost much for their size are read or refused.
func TestHostileFiles(t *testing.T) {
	big := MaxBytes / 8
	for _, text := range []string{
		strings.Repeat("#\n", big/2),
		"a: [" + strings.Repeat("1,", MaxNodes-100) + "]",
		"a: [\n" + strings.Repeat("1, # c\n", MaxNodes/2-100) + "]",
		strings.Repeat("a: 1\n", MaxNodes/2-10),
		strings.Repeat("- ", 1000),
		strings.Repeat("{a: ", 100_000),
		"a: " + strings.Repeat("x", big),
		"a: \"" + strings.Repeat("\\", big),
		"a: |\n" + strings.Repeat(" \n", big/2),
		"a: 1\n" + strings.Repeat("  # c\n", big/6),
	} {
		checkParse(t, text)
		var f loom
		doc, l := Parse(diag.NewText("a", text))
		if l = append(l, Decode(doc, &f)...); !l.HasErrors() {
			t.Errorf("%.20q… is taken for a loom", text)
		}
	}
}
