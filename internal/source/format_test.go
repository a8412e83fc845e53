package source

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	yaml "go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"loomwright/internal/diag"
)

// loomStyle lays out loomFile as it stands.
var loomStyle = Style{Layout: func(path []string) Layout {
	switch {
	case len(path) == 0:
		return Layout{Keys: []string{"loomwright", "title", "parts", "joins", "sounds"}, Flow: Block}
	case len(path) == 1 && path[0] == "parts":
		return Layout{Flow: Block, Align: true}
	case len(path) == 1 && path[0] == "joins":
		return Layout{Flow: Block, Column: "--"}
	case path[0] == "joins":
		return Layout{Flow: Block, Text: oneSpace, KeyText: oneSpace}
	case len(path) == 1:
		return Layout{Flow: Block}
	}
	return Layout{Flow: Fit}
}}

var blanks = regexp.MustCompile(` +`)

func oneSpace(s string) string { return blanks.ReplaceAllString(s, " ") }

// styles are the layouts that every property is tried with.
var styles = map[string]Style{
	"as written": {},
	"loom":       loomStyle,
	"block":      {Layout: func([]string) Layout { return Layout{Flow: Block} }},
	"fit":        {Layout: func([]string) Layout { return Layout{Flow: Fit} }},
	"narrow":     {Width: 24, Layout: func([]string) Layout { return Layout{Flow: Fit, Align: true} }},
	"airy":       {Layout: func([]string) Layout { return Layout{Blank: EachBlank, Flow: Fit} }},
	"dense":      {Layout: func([]string) Layout { return Layout{Blank: NoBlank} }},
}

// awkward has every construct that a file may have.
const awkward = `# head

# above
a: 1
b:
- x
- "y z"
c: {d: [1, {e: }, 'f,g'], h: "i: j",
  k: l}
m:
    n: |
      one
       two

      three
    o: >-
      folded text
      on lines

      p
q:
  - - r
    - s: t
      u: v
  -
    w: x
  - {}
  - - y
z: # behind z
  long
  plain text
"quoted key": 'don''t'
null: ~
empty:
nothing: []
end: |+
  kept

last: "a\tb"
`

func TestFormatWanted(t *testing.T) {
	if got := Format(parsed(t, loomFile), loomStyle); got != loomFile {
		t.Errorf("the loom file becomes\n%s", got)
	}
	for _, c := range []struct{ style, text, want string }{
		{"as written", "", ""},
		{"as written", "# a\n\n\n#b\n", "# a\n\n#b\n"},
		{"as written", "{}", "{}\n"},
		{"as written", "a:   'b'\n\n\nc:\n- d\n", "a: b\n\nc:\n  - d\n"},
		{"as written", "# head\n\n# a\nb: 1\n", "# head\n\n# a\nb: 1\n"},
		{"as written", "a: # b\n  c\n", "# b\na: c\n"},
		{"as written", "a: # b\n  - c # d\n  # e\n# f\ng: h", "a:   # b\n  - c   # d\n  # e\n# f\ng: h\n"},
		{"as written", "a: {b: 1, # c\n d: 2} # e\n", "a:\n  b: 1   # c\n  d: 2\n  # e\n"},
		{"as written", "a: { # b\n }\nc: 1\n", "a: {}   # b\nc: 1\n"},
		{"as written", "- # a\n  b: 1\n  c: 2\n", "# a\n- b: 1\n  c: 2\n"},
		{"as written", "a: |\n    x\n     y\n\n    z\n", "a: |\n  x\n   y\n\n  z\n"},
		{"as written", "a: \"500\"\nb: \"500k\"\nc: \"yes\"\nd: \"- x\"\ne: \"\"\nf: \"a\\u0001\"\n", "a: \"500\"\nb: 500k\nc: \"yes\"\nd: \"- x\"\ne: \"\"\nf: \"a\\u0001\"\n"},
		{"as written", "a: '- 1/4\" \\'\nb: 'it''s: so'\n", "a: '- 1/4\" \\'\nb: \"it's: so\"\n"},
		{"as written", "a: {b: , c: d}\ne: [f: g]\n", "a: {b, c: d}\ne: [{f: g}]\n"},
		{"as written", "---\na: 1\n... # x\n", "a: 1\n# x\n"},
		{"as written", "\ufeffa: 1\r\nb: 2 # c\r\n", "a: 1\nb: 2   # c\n"},
		{"block", "a: {b: [1, 2]}\n", "a:\n  b:\n    - 1\n    - 2\n"},
		{"fit", "a:\n  b:\n    - 1\n    - 2\nc: 3\n", "a: {b: [1, 2]}\nc: 3\n"},
		{"narrow", "a:\n  bb: {c: some text, d: e}\n  f: g\n", "a:\n  bb:\n    c: some text\n    d: e\n  f: g\n"},
		{"narrow", "a:\n  b: long enough for a\n  ccc: d\n  e: block\n", "a:\n  b:   long enough for a\n  ccc: d\n  e:   block\n"},
		{"airy", "a: 1\n# b\nc: 2\n", "a: 1\n\n# b\nc: 2\n"},
		{"dense", "a: 1\n\n# b\n\nc: 2\n", "a: 1\n# b\nc: 2\n"},
		{"loom", "# file\n\n# about joins\njoins: [a --   b, ccc -- d: e] # j\n# about title\ntitle: t\n", "# file\n\n# about title\ntitle: t\n\n# about joins\njoins:\n  - a   -- b\n  - ccc -- d: e\n  # j\n"},
	} {
		if got := Format(parsed(t, c.text), styles[c.style]); got != c.want {
			t.Errorf("%s: %q becomes\n%s\nwant\n%s", c.style, c.text, got, c.want)
		}
	}
}

func TestFormatLeavesBrokenFilesAlone(t *testing.T) {
	text := "a: [1\n  b: &x 2\n"
	doc, _ := Parse(diag.NewText("a", text))
	if got := Format(doc, Style{}); got != text {
		t.Errorf("became %q", got)
	}
}

// commentsOf are a text's comments, in order.
func commentsOf(doc *Document) []string {
	var out []string
	for _, c := range doc.comments {
		out = append(out, c.text)
	}
	return out
}

// sameTree shows a tree without what the styles may change: blanks in texts,
// quotes, and the order of keys.
func sameTree(n *node) string {
	if n == nil {
		return ""
	}
	var kids []string
	for _, c := range n.children {
		kid := sameTree(c.value)
		if c.key != nil {
			kid = oneSpace(c.key.value) + "=" + kid
		}
		kids = append(kids, kid)
	}
	if n.kind == Mapping {
		slices.Sort(kids)
	}
	return fmt.Sprintf("%d(%q%s)", n.kind, oneSpace(n.value), strings.Join(kids, ","))
}

// checkFormat holds for every document and style: each comment once, in order
// (but where keys are put in order), the same values, and nothing left to do.
func checkFormat(t interface{ Fatalf(string, ...any) }, doc *Document, name string) {
	out := Format(doc, styles[name])
	again, l := Parse(diag.NewText("out", out))
	if len(l) > 0 {
		t.Fatalf("%s:\n%s\nbecomes\n%s\nwhich is broken: %v", name, doc.Text.Data, out, l)
	}
	want, got := commentsOf(doc), commentsOf(again)
	if name == "loom" {
		slices.Sort(want)
		slices.Sort(got)
	}
	if !slices.Equal(got, want) {
		t.Fatalf("%s:\n%s\nbecomes\n%s\nwith the comments %q, want %q", name, doc.Text.Data, out, got, want)
	}
	if got, want := sameTree(again.root), sameTree(doc.root); got != want {
		t.Fatalf("%s:\n%s\nbecomes\n%s\nwith the values\n%s, want\n%s", name, doc.Text.Data, out, got, want)
	}
	if got, want := typedTree(out), typedTree(doc.Text.Data); name != "loom" && got != want {
		t.Fatalf("%s:\n%s\nbecomes\n%s\nwhich YAML takes as\n%s, want\n%s", name, doc.Text.Data, out, got, want)
	}
	if twice := Format(again, styles[name]); twice != out {
		t.Fatalf("%s:\n%s\nbecomes\n%s\nand then\n%s", name, doc.Text.Data, out, twice)
	}
}

// typedTree is what the library alone makes of a text, with numbers and truth
// values told from texts.
func typedTree(text string) string {
	var x any
	if err := yaml.Load([]byte(text), &x); err != nil || x == nil {
		return ""
	}
	return fmt.Sprintf("%#v", x)
}

// withComment puts a comment into a text at an offset, the rest on a new line
// behind some spaces, and reports whether YAML takes it for a comment there.
func withComment(text, tree string, off, spaces int, name string) (string, bool) {
	out := text[:off] + " #" + name + "\n" + strings.Repeat(" ", spaces) + text[off:]
	if rest := strings.TrimLeft(text[off:], " "); strings.HasPrefix(rest, "\n") && spaces == 0 {
		out = text[:off] + " #" + name + rest
	}
	after, l := Parse(diag.NewText("a", out))
	return out, len(l) == 0 && sameTree(after.root) == tree && slices.Contains(commentsOf(after), "#"+name)
}

var commentBases = []string{loomFile, awkward, "", "{}", "a: [b, {c: d}, [e]]\n", "- a\n- b:\n    c: d\n"}

// TestCommentsSurviveEverywhere puts one comment at every place of every base
// text that YAML allows one at, with the rest of the line at several columns.
func TestCommentsSurviveEverywhere(t *testing.T) {
	places := 0
	for _, base := range commentBases {
		tree := sameTree(parsed(t, base).root)
		for off := range len(base) + 1 {
			for _, spaces := range []int{0, 2, 5} {
				text, ok := withComment(base, tree, off, spaces, "c1")
				if !ok {
					continue
				}
				places++
				for name := range styles {
					checkFormat(t, parsed(t, text), name)
				}
			}
		}
	}
	if places < 400 {
		t.Errorf("only %d places were tried", places)
	}
	t.Logf("%d places in each of %d styles", places, len(styles))
}

// TestCommentsSurviveTogether puts many numbered comments into one text.
func TestCommentsSurviveTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.SampledFrom(commentBases), rapid.Custom(drawText)).Draw(t, "base")
		first, _ := Parse(diag.NewText("a", text))
		tree := sameTree(first.root)
		for i := range rapid.IntRange(1, 12).Draw(t, "comments") {
			off := rapid.IntRange(0, len(text)).Draw(t, "offset")
			spaces := rapid.SampledFrom([]int{0, 0, 1, 2, 3, 4, 6}).Draw(t, "spaces")
			if more, ok := withComment(text, tree, off, spaces, fmt.Sprint("c", i)); ok {
				text = more
			}
		}
		doc, l := Parse(diag.NewText("a", text))
		if len(l) > 0 {
			t.Fatalf("%q: %v", text, l)
		}
		for name := range styles {
			checkFormat(t, doc, name)
		}
	})
}

// drawText draws a document: random trees of keys, lists and awkward texts in
// random layouts.
func drawText(t *rapid.T) string {
	var b strings.Builder
	drawBlock(t, &b, 0, 3)
	if _, l := Parse(diag.NewText("a", b.String())); len(l) > 0 {
		t.Fatalf("the generator made %q: %v", b.String(), l)
	}
	return b.String()
}

var drawnTexts = []string{"a", "b c", "1", "~", "''", "'#x'", "\"p\\nq\"", "x#y", "'a: b'", "\"- c\"", "'{d}'", "e, f", "-1", "--", "a -- b", "it's", "é", "'  s '", "y: z"}

func drawBlock(t *rapid.T, b *strings.Builder, indent, depth int) {
	list := rapid.Bool().Draw(t, "list")
	for i := range rapid.IntRange(1, 3).Draw(t, "entries") {
		b.WriteString(strings.Repeat("\n", rapid.SampledFrom([]int{0, 0, 0, 1, 2}).Draw(t, "blank")))
		b.WriteString(strings.Repeat(" ", indent))
		if list {
			b.WriteString("-")
		} else {
			fmt.Fprintf(b, "k%d:", i)
		}
		switch kind := rapid.IntRange(0, 5).Draw(t, "kind"); {
		case kind == 0 && depth > 0:
			b.WriteString("\n")
			drawBlock(t, b, indent+rapid.IntRange(1, 4).Draw(t, "indent"), depth-1)
		case kind == 1 && depth > 0:
			b.WriteString(" " + drawFlow(t, depth) + "\n")
		case kind == 2:
			in := strings.Repeat(" ", indent+2)
			b.WriteString(" " + rapid.SampledFrom([]string{"|", ">", "|-", ">-", "|+"}).Draw(t, "block") + "\n" + in + "l1\n" + in + " l2\n\n" + in + "l3\n")
		case kind == 3:
			b.WriteString("\n")
		default:
			text := rapid.SampledFrom(drawnTexts).Draw(t, "text")
			if text == "y: z" {
				text = "y"
			}
			b.WriteString(" " + text + "\n")
		}
	}
}

func drawFlow(t *rapid.T, depth int) string {
	var kids []string
	list := rapid.Bool().Draw(t, "flow list")
	for i := range rapid.IntRange(0, 4).Draw(t, "flow entries") {
		kid := rapid.SampledFrom(drawnTexts).Draw(t, "text")
		if kid == "e, f" || !list && kid == "y: z" || kid == "--" {
			kid = "g"
		}
		if depth > 0 && rapid.IntRange(0, 3).Draw(t, "deeper") == 0 {
			kid = drawFlow(t, depth-1)
		}
		if !list {
			kid = fmt.Sprintf("k%d: %s", i, kid)
		}
		kids = append(kids, kid)
	}
	body := strings.Join(kids, rapid.SampledFrom([]string{", ", ",", ",\n          "}).Draw(t, "comma"))
	if list {
		return "[" + body + "]"
	}
	return "{" + body + "}"
}

func FuzzFormat(f *testing.F) {
	for _, s := range append(append([]string{}, parseSeeds...), commentBases...) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		doc, l := Parse(diag.NewText("a", text))
		if l.HasErrors() {
			return
		}
		for name := range styles {
			checkFormat(t, doc, name)
		}
	})
}

func BenchmarkFormat(b *testing.B) {
	doc := parsed(b, manyJoins(5000))
	b.SetBytes(int64(len(doc.Text.Data)))
	b.ReportAllocs()
	for b.Loop() {
		Format(doc, loomStyle)
	}
}
