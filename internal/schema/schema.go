// Package schema makes JSON Schemas (draft 2020-12) from the Go types that the
// source decoder fills: what the decoder accepts structurally the schema
// accepts, and the reverse.
package schema

import (
	"encoding/json"
	"reflect"
	"strconv"
	"strings"

	"github.com/invopop/jsonschema"

	"loomwright/internal/source"
)

// For returns the JSON Schema of v's type, indented, with a line break at the
// end. Descriptions are the types' doc tags. A type that the decoder cannot
// fill panics, as it does in Decode.
func For(v any, title string) ([]byte, error) {
	t := reflect.TypeOf(v)
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	b := builder{defs: jsonschema.Definitions{}, names: map[reflect.Type]string{}}
	root := b.shape(source.ShapeOf(t))
	root.Version, root.Title = jsonschema.Version, title
	if len(b.defs) > 0 {
		root.Definitions = b.defs
	}
	text, err := json.MarshalIndent(root, "", "  ")
	return append(text, '\n'), err
}

// builder gathers the definitions of named types.
type builder struct {
	defs  jsonschema.Definitions
	names map[reflect.Type]string
}

// shape is the schema of one shape.
func (b builder) shape(s source.Shape) *jsonschema.Schema {
	out := b.bare(s)
	if s.Doc != "" {
		out.Description = s.Doc
	}
	return out
}

func (b builder) bare(s source.Shape) *jsonschema.Schema {
	switch {
	case s.Of != nil:
		return b.goType(s.Of)
	case len(s.Any) > 0:
		return b.anyOf(s.Any)
	}
	switch s.Kind {
	case source.NullShape:
		return &jsonschema.Schema{Type: "null"}
	case source.ScalarShape:
		return scalar(s.Enum)
	case source.StringShape:
		return &jsonschema.Schema{Type: "string", Pattern: s.Pattern}
	case source.NumberShape:
		return &jsonschema.Schema{Type: "number"}
	case source.IntegerShape:
		return &jsonschema.Schema{Type: "integer", Minimum: "-9007199254740992", Maximum: "9007199254740992"}
	case source.BoolShape:
		return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Type: "boolean"}, {Enum: []any{"yes", "no"}}}}
	case source.MapShape:
		return b.mapping(s)
	case source.SeqShape:
		return &jsonschema.Schema{Type: "array", Items: b.shape(*s.Values), MinItems: count(s.Min), MaxItems: count(s.Max)}
	}
	return &jsonschema.Schema{}
}

func (b builder) anyOf(shapes []source.Shape) *jsonschema.Schema {
	out := &jsonschema.Schema{}
	for _, s := range shapes {
		out.AnyOf = append(out.AnyOf, b.shape(s))
	}
	return out
}

// count is a limit on a number of items; 0 is none.
func count(n int) *uint64 {
	if n == 0 {
		return nil
	}
	limit := uint64(n)
	return &limit
}

// scalar accepts a string, number or boolean: the decoder takes the text of any.
func scalar(enum []string) *jsonschema.Schema {
	if len(enum) == 0 {
		return &jsonschema.Schema{Extras: map[string]any{"type": []string{"string", "number", "boolean"}}}
	}
	out := &jsonschema.Schema{}
	for _, word := range enum {
		out.Enum = append(out.Enum, word)
		if typed := plainValue(word); typed != nil {
			out.Enum = append(out.Enum, typed)
		}
	}
	return out
}

// plainValue is the number or truth value that a word is when it stands
// without quotes, else nil.
func plainValue(word string) any {
	switch strings.ToLower(word) {
	case "true":
		return true
	case "false":
		return false
	}
	if x, err := strconv.ParseFloat(word, 64); err == nil && strings.Trim(word, "+-.0123456789eE") == "" {
		return x
	}
	return nil
}

// mapping is the schema of a map with fixed or free keys.
func (b builder) mapping(s source.Shape) *jsonschema.Schema {
	out := &jsonschema.Schema{Type: "object", MinProperties: count(s.Min), MaxProperties: count(s.Max)}
	if len(s.Fields) > 0 {
		out.Properties = jsonschema.NewProperties()
	}
	for _, f := range s.Fields {
		out.Properties.Set(f.Name, b.shape(f.Shape))
		if f.Required {
			out.Required = append(out.Required, f.Name)
		}
	}
	switch {
	case s.Values != nil:
		out.AdditionalProperties = b.shape(*s.Values)
	case s.Fixed:
		out.AdditionalProperties = jsonschema.FalseSchema
	}
	return out
}

// goType is the schema of a Go type: a named one is defined once and referred
// to.
func (b builder) goType(t reflect.Type) *jsonschema.Schema {
	if t.PkgPath() == "" || strings.Contains(t.Name(), "[") || t == reflect.TypeFor[source.String]() || t == reflect.TypeFor[source.Node]() {
		return b.shape(source.ShapeOf(t))
	}
	name, known := b.names[t]
	if !known {
		name = b.freeName(t)
		b.names[t] = name
		b.defs[name] = nil // taken while the type itself is looked at
		b.defs[name] = b.shape(source.ShapeOf(t))
	}
	return &jsonschema.Schema{Ref: "#/$defs/" + name}
}

// freeName is the type's name, with its package where two types share it.
func (b builder) freeName(t reflect.Type) string {
	if _, taken := b.defs[t.Name()]; taken {
		return strings.ReplaceAll(t.String(), ".", "-")
	}
	return t.Name()
}
