package schema

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	yaml "go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/source"
)

// all has every shape.
type all struct {
	Version int                           `yaml:"version" required:"true" doc:"version of this layout"`
	Text    source.String                 `yaml:"text"`
	Hand    source.String                 `yaml:"hand" oneof:"left|right|1|true"`
	Words   []source.String               `yaml:"words" oneof:"up|down"`
	Yes     bool                          `yaml:"yes-or-no"`
	Size    float64                       `yaml:"size"`
	Parts   source.Map[*aPart]            `yaml:"parts" required:"true"`
	Nested  source.Seq[[]string]          `yaml:"nested"`
	Coils   *perCoil                      `yaml:"coils"`
	Name    name                          `yaml:"name"`
	Tree    tree                          `yaml:"tree"`
	Any     source.Node                   `yaml:"any"`
	Deep    source.Map[[][]source.String] `yaml:"deep"`
	shared  `yaml:",inline"`
	Span    diag.Span `yaml:"-" source:"span"`
}

type shared struct {
	About string `yaml:"about"`
}

type aPart struct {
	Is   source.String  `yaml:"is" required:"true"`
	Code *source.String `yaml:"code" oneof:"a|b"`
	Sub  *aPart         `yaml:"sub"`
}

// perCoil is one text, or one for each of up to two coils.
type perCoil struct {
	all   source.String
	coils source.Map[source.String]
}

func (p *perCoil) UnmarshalSource(n source.Node, l *diag.List) {
	if n.Kind() != source.Mapping {
		n.Decode(&p.all, l)
		return
	}
	n.Decode(&p.coils, l)
	if count := len(n.Entries()); count < 1 || count > 2 {
		l.Add(diag.Diagnostic{Code: "count", Severity: diag.Error, Span: n.Span()})
	}
}

func (perCoil) SourceShape() source.Shape {
	one := source.Shape{Kind: source.ScalarShape}
	return source.Shape{Any: []source.Shape{one, {Kind: source.MapShape, Values: &one, Min: 1, Max: 2}}}
}

// name is a text of small letters.
type name string

func (x *name) UnmarshalSource(n source.Node, l *diag.List) {
	*x = name(n.Scalar().Value)
	if !n.IsText() || *x == "" || strings.Trim(string(*x), "abcdefghijklmnopqrstuvwxyz") != "" {
		l.Add(diag.Diagnostic{Code: "name", Severity: diag.Error, Span: n.Span()})
	}
}

func (name) SourceShape() source.Shape {
	return source.Shape{Kind: source.StringShape, Pattern: "^[a-z]+$"}
}

// tree is a text, or a list of trees: a type that refers to itself.
type tree struct {
	text source.String
	kids []tree
}

func (x *tree) UnmarshalSource(n source.Node, l *diag.List) {
	if n.Kind() == source.Sequence {
		n.Decode(&x.kids, l)
		return
	}
	n.Decode(&x.text, l)
}

func (tree) SourceShape() source.Shape {
	kids := source.ShapeOf(reflect.TypeFor[[]tree]())
	return source.Shape{Any: []source.Shape{{Kind: source.ScalarShape}, kids}}
}

const valid = `version: 1
text: 4.0k
hand: left
words: [up, down]
yes-or-no: yes
size: 2.5
parts: {bridge: {is: x, code: a, sub: {is: y}}, none: }
nested: [[a, b], []]
coils: {north: 4.0k, south: 4.1k}
name: curlew
tree: [a, [b, c]]
any: {what: [ever]}
deep: {a: [[b]]}
about: x
`

// compiled is the validator of a type's schema.
func compiled(t testing.TB, v any) *jsonschema.Schema {
	t.Helper()
	text, err := For(v, "test")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("test.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("test.json")
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return s
}

// asJSON is what a JSON tool makes of a YAML text, read by the library alone.
func asJSON(t interface{ Fatalf(string, ...any) }, text string) any {
	var x any
	if err := yaml.Load([]byte(text), &x); err != nil {
		t.Fatalf("%s\n%v", text, err)
	}
	return jsonValue(x)
}

func jsonValue(x any) any {
	switch x := x.(type) {
	case map[string]any:
		for k, v := range x {
			x[k] = jsonValue(v)
		}
	case map[any]any:
		out := map[string]any{}
		for k, v := range x {
			out[fmt.Sprint(k)] = jsonValue(v)
		}
		return out
	case []any:
		for i, v := range x {
			x[i] = jsonValue(v)
		}
	}
	return x
}

// scalars replace others in mutated documents.
var scalars = []string{"left", "up", "curlew", "Curlew", "1", "1.0", "2.5", "-3", "1e300", "true", "false", "yes", "no", "~", "''", "'1'", "'true'", "\"yes\"", "4.0k", "north", "9007199254740994"}

// mutate changes one random place of a tree.
func mutate(t *rapid.T, root *yaml.Node) {
	var places []*yaml.Node
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		places = append(places, n)
		for i, c := range n.Content {
			if n.Kind != yaml.MappingNode || i%2 == 1 {
				walk(c)
			}
		}
	}
	walk(root)
	n := rapid.SampledFrom(places).Draw(t, "place")
	another := parse(t, rapid.SampledFrom(scalars).Draw(t, "scalar"))
	switch step := 1 + int(n.Kind&yaml.MappingNode)/int(yaml.MappingNode); rapid.IntRange(0, 5).Draw(t, "change") {
	case 0:
		*n = *another
	case 1:
		*n = *parse(t, rapid.SampledFrom([]string{"[]", "{}", "[a]", "{a: b}", "{a: b, c: d, e: f}", "[[a], b]", "{is: x}"}).Draw(t, "collection"))
	case 2: // take a child away
		if count := len(n.Content) / step; count > 0 {
			i := rapid.IntRange(0, count-1).Draw(t, "child")
			n.Content = slices.Delete(n.Content, i*step, (i+1)*step)
		}
	case 3: // add a child
		switch n.Kind {
		case yaml.MappingNode:
			key := rapid.SampledFrom([]string{"new", "about", "hand", "code", "coils", "is"}).Draw(t, "key")
			for i := 0; i < len(n.Content); i += 2 {
				if n.Content[i].Value == key {
					return
				}
			}
			n.Content = append(n.Content, parse(t, key), another)
		case yaml.SequenceNode:
			n.Content = append(n.Content, another)
		}
	case 4: // put one place where another is
		*n = *copyOf(rapid.SampledFrom(places).Draw(t, "other"))
	case 5: // wrap
		*n = yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Content: []*yaml.Node{copyOf(n)}}
	}
}

// copyOf is a tree of its own.
func copyOf(n *yaml.Node) *yaml.Node {
	out := *n
	out.Content = nil
	for _, c := range n.Content {
		out.Content = append(out.Content, copyOf(c))
	}
	return &out
}

func parse(t interface{ Fatalf(string, ...any) }, text string) *yaml.Node {
	var n yaml.Node
	if err := yaml.Load([]byte(text), &n); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	nulls(n.Content[0])
	return n.Content[0]
}

// nulls writes out what has no value: the library prints that as ”.
func nulls(n *yaml.Node) {
	if n.ShortTag() == "!!null" && n.Value == "" {
		n.Value = "~"
	}
	for _, c := range n.Content {
		nulls(c)
	}
}

// checkAgreement mutates valid texts: what the decoder takes as a T the schema
// takes, and the reverse.
// A finding with another code than those given is one about what the texts
// mean: such a document is no case.
func checkAgreement[T any](t *testing.T, texts []string, codes []string) {
	var zero T
	schema := compiled(t, zero)
	accepted, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		root := parse(t, rapid.SampledFrom(texts).Draw(t, "text"))
		for range rapid.IntRange(0, 3).Draw(t, "changes") {
			mutate(t, root)
		}
		out, err := yaml.Dump(root)
		if err != nil {
			t.Fatalf("%v", err)
		}
		text := string(out)
		doc, l := source.Parse(diag.NewText("a", text))
		if len(l) > 0 {
			return // not a matter of structure: a list at the top, an alias
		}
		var x T
		l = source.Decode(doc, &x)
		if slices.ContainsFunc(l, func(d diag.Diagnostic) bool { return !slices.Contains(codes, d.Code) }) {
			return
		}
		err = schema.Validate(asJSON(t, text))
		if (len(l) == 0) != (err == nil) {
			t.Fatalf("%s\nthe decoder says %v\nthe schema says %v", text, l, err)
		}
		if err == nil {
			accepted++
		} else {
			refused++
		}
	})
	if accepted < 5 || refused < 5 {
		t.Errorf("%d accepted, %d refused: the check is too one-sided", accepted, refused)
	}
}

func TestSchemaAgreesWithDecoder(t *testing.T) {
	checkAgreement[all](t, []string{valid}, append(structural(), "count", "name"))
}

// structural are the codes of the decoder itself.
func structural() []string {
	var codes []string
	for _, c := range source.Codes() {
		codes = append(codes, c.Code)
	}
	return codes
}

// TestRealFilesAgree does the same for the two kinds of file that people write,
// from real ones.
func TestRealFilesAgree(t *testing.T) {
	t.Run("loom", func(t *testing.T) { checkAgreement[loom.File](t, readAll(t, "../../examples/*.yaml"), structural()) })
	t.Run("part", func(t *testing.T) {
		checkAgreement[part.File](t, readAll(t, "../../library/[pjs]*/*.yaml"), structural())
	})
}

func TestSchemaText(t *testing.T) {
	text, err := For(all{}, "every shape")
	if err != nil {
		t.Fatal(err)
	}
	var m map[string]any
	if err := json.Unmarshal(text, &m); err != nil {
		t.Fatal(err)
	}
	if m["$schema"] != "https://json-schema.org/draft/2020-12/schema" || m["title"] != "every shape" || m["additionalProperties"] != false {
		t.Errorf("head of the schema: %v %v %v", m["$schema"], m["title"], m["additionalProperties"])
	}
	version := m["properties"].(map[string]any)["version"].(map[string]any)
	if version["description"] != "version of this layout" || version["type"] != "integer" {
		t.Errorf("version is %v", version)
	}
	if got := fmt.Sprint(m["required"]); got != "[version parts]" {
		t.Errorf("required are %s", got)
	}
	again, _ := For(&all{}, "every shape")
	if !bytes.Equal(text, again) {
		t.Error("the schema is not the same twice")
	}
}

func readAll(t *testing.T, pattern string) []string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no files in %s", pattern)
	}
	var texts []string
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(text))
	}
	return texts
}
