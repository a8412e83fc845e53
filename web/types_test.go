package web_test

import (
	"encoding"
	"flag"
	"fmt"
	"os"
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/synthesis"
)

var update = flag.Bool("update", false, "write src/types.gen.ts")

// TestTypes holds the page's types against the Go types that the core answers
// with; with -update it writes them.
func TestTypes(t *testing.T) {
	g := generator{done: map[string]reflect.Type{}}
	for _, v := range []any{bench.Ask{}, bench.Failure{}, bench.Begin{}, bench.PartLine{}, bench.OpenLoom{}, bench.Checkup{}, bench.Traced{}, bench.Levels{},
		bench.Measured{}, bench.Edited{}, bench.Formatted{}, bench.Pictured{}, bench.Sketch{}, bench.Wishes{}, bench.Judged{}, bench.Found{}, bench.Choices{}, bench.Worded{}, bench.LeadStep{}, bench.LugStep{}, bench.Composed{}, bench.Compared{}, bench.Circuitry{}, bench.StageCheck{}, synthesis.Progress{}} {
		if _, err := g.typeOf(reflect.TypeOf(v)); err != nil {
			t.Fatal(err)
		}
	}
	slices.Sort(g.out)
	want := "// Generated from Go by `go test ./web -run TestTypes -update`. Do not edit.\n\n" + strings.Join(g.out, "\n")
	if *update {
		if err := os.WriteFile("src/types.gen.ts", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("src/types.gen.ts")
	if err != nil || string(got) != want {
		t.Errorf("src/types.gen.ts is not what the Go types say (%v): run go test ./web -run TestTypes -update", err)
	}
}

// generator collects interfaces by name.
type generator struct {
	done map[string]reflect.Type
	out  []string
}

// textual reports types that JSON writes as text.
func textual(t reflect.Type) bool {
	text := reflect.TypeFor[encoding.TextMarshaler]()
	return t.Implements(text) || reflect.PointerTo(t).Implements(text)
}

func (g *generator) typeOf(t reflect.Type) (string, error) {
	if textual(t) || t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Uint8 {
		return "string", nil
	}
	switch t.Kind() {
	case reflect.String:
		return "string", nil
	case reflect.Bool:
		return "boolean", nil
	case reflect.Int, reflect.Int64, reflect.Uint64, reflect.Float64:
		return "number", nil
	case reflect.Pointer:
		return g.typeOf(t.Elem())
	case reflect.Slice, reflect.Array:
		of, err := g.typeOf(t.Elem())
		return of + "[]", err
	case reflect.Map:
		of, err := g.typeOf(t.Elem())
		return "Record<string, " + of + ">", err
	case reflect.Struct:
		return nameOf(t), g.structure(t)
	}
	return "", fmt.Errorf("%s has no type in JSON", t)
}

// nameOf is a type's name on the page: bench's own as they are, others with
// their package in front.
func nameOf(t reflect.Type) string {
	pkg := path.Base(t.PkgPath())
	if pkg == "bench" {
		return t.Name()
	}
	return strings.ToUpper(pkg[:1]) + pkg[1:] + t.Name()
}

func (g *generator) structure(t reflect.Type) error {
	name := nameOf(t)
	if before, ok := g.done[name]; ok {
		if before != t {
			return fmt.Errorf("two types are called %s", name)
		}
		return nil
	}
	g.done[name] = t
	var b strings.Builder
	fmt.Fprintf(&b, "export interface %s {\n", name)
	if err := g.fields(&b, t); err != nil {
		return err
	}
	b.WriteString("}\n")
	g.out = append(g.out, b.String())
	return nil
}

func (g *generator) fields(b *strings.Builder, t reflect.Type) error {
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "-" || !f.IsExported() {
			continue
		}
		if f.Anonymous && name == "" {
			if err := g.fields(b, f.Type); err != nil {
				return err
			}
			continue
		}
		if name == "" {
			name = f.Name
		}
		of, err := g.typeOf(f.Type)
		if err != nil {
			return fmt.Errorf("%s.%s: %w", t, f.Name, err)
		}
		switch {
		case strings.Contains(options, "omitempty") || f.Type.Kind() == reflect.Pointer:
			fmt.Fprintf(b, "  %s?: %s;\n", name, of)
		case f.Type.Kind() == reflect.Slice && of != "string":
			fmt.Fprintf(b, "  %s: %s | null;\n", name, of)
		default:
			fmt.Fprintf(b, "  %s: %s;\n", name, of)
		}
	}
	return nil
}
