package source

import (
	"fmt"
	"reflect"
	"strings"

	"loomwright/internal/diag"
)

// ShapeKind is what a shape accepts.
type ShapeKind string

// The shape kinds.
const (
	AnyShape     ShapeKind = ""        // anything, unless Any or Of says more
	NullShape    ShapeKind = "null"    // nothing written
	ScalarShape  ShapeKind = "scalar"  // any scalar, as its text
	StringShape  ShapeKind = "string"  // a scalar that is text (Node.IsText)
	NumberShape  ShapeKind = "number"  // an unquoted number
	IntegerShape ShapeKind = "integer" // an unquoted whole number
	BoolShape    ShapeKind = "bool"    // unquoted true, false; yes, no
	MapShape     ShapeKind = "map"     // Fields, or free keys with Values
	SeqShape     ShapeKind = "seq"     // a list of Values
)

// Shape is the structure that a type accepts. The JSON Schema is made from it.
type Shape struct {
	Kind    ShapeKind
	Doc     string
	Pattern string       // of a StringShape: a regular expression, anchored as needed, in what RE2 and ECMA 262 share
	Enum    []string     // of a ScalarShape: the texts accepted
	Any     []Shape      // accepts what any of these accepts; Kind is then empty
	Of      reflect.Type // the shape of this Go type; Kind is then empty
	Values  *Shape       // of a map's free keys, or of a list's items
	Fields  []Field      // of a map with fixed keys
	Fixed   bool         // a map has no keys but Fields
	Min     int          // items, or keys of a map, at least
	Max     int          // at most; 0: any number
}

// Field is one fixed key of a map shape.
type Field struct {
	Name     string
	Required bool
	Shape    Shape
}

// Unmarshaler is a type that reads its own node. It is called with every kind
// but Null.
type Unmarshaler interface {
	UnmarshalSource(n Node, l *diag.List)
}

// Shaper tells what a custom type accepts structurally; it must agree with
// what its UnmarshalSource accepts.
type Shaper interface {
	SourceShape() Shape
}

var (
	stringType      = reflect.TypeFor[String]()
	spanType        = reflect.TypeFor[diag.Span]()
	nodeType        = reflect.TypeFor[Node]()
	unmarshalerType = reflect.TypeFor[Unmarshaler]()
	shaperType      = reflect.TypeFor[Shaper]()
)

// SourceShape implements Shaper.
func (*Map[T]) SourceShape() Shape {
	return Shape{Kind: MapShape, Values: &Shape{Of: reflect.TypeFor[T]()}}
}

// SourceShape implements Shaper.
func (*Seq[T]) SourceShape() Shape {
	return Shape{Kind: SeqShape, Values: &Shape{Of: reflect.TypeFor[T]()}}
}

// ShapeOf is the structure that Decode accepts for a Go type, one level deep:
// what is inside refers to Go types by Of. It panics on a type that Decode
// cannot fill, a mistake of the program.
func ShapeOf(t reflect.Type) Shape {
	switch {
	case reflect.PointerTo(t).Implements(shaperType):
		return reflect.New(t).Interface().(Shaper).SourceShape()
	case t == nodeType:
		return Shape{}
	case t == stringType:
		return Shape{Kind: ScalarShape}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return Shape{Any: []Shape{{Kind: NullShape}, {Of: t.Elem()}}}
	case reflect.Slice:
		return Shape{Kind: SeqShape, Values: &Shape{Of: t.Elem()}}
	case reflect.Struct:
		return structShape(t)
	case reflect.String:
		return Shape{Kind: ScalarShape}
	case reflect.Bool:
		return Shape{Kind: BoolShape}
	case reflect.Int, reflect.Int64:
		return Shape{Kind: IntegerShape}
	case reflect.Float64:
		return Shape{Kind: NumberShape}
	}
	panic(fmt.Sprintf("source: no YAML is decoded into %v", t))
}

func structShape(t reflect.Type) Shape {
	s := Shape{Kind: MapShape, Fixed: true}
	for _, f := range planOf(t).fields {
		shape := withEnum(f.typ, f.enum)
		shape.Doc = f.doc
		s.Fields = append(s.Fields, Field{Name: f.name, Required: f.required, Shape: shape})
	}
	return s
}

// withEnum is a type's shape with a oneof tag's words for its scalars.
func withEnum(t reflect.Type, enum []string) Shape {
	switch {
	case len(enum) == 0:
		return Shape{Of: t}
	case t.Kind() == reflect.Slice:
		items := withEnum(t.Elem(), enum)
		return Shape{Kind: SeqShape, Values: &items}
	case t.Kind() == reflect.Pointer:
		return Shape{Any: []Shape{{Kind: NullShape}, withEnum(t.Elem(), enum)}}
	}
	return Shape{Kind: ScalarShape, Enum: enum}
}

// plan is how a struct is filled from a mapping.
type plan struct {
	fields []field
	names  []string
	byName map[string]int
	span   []int // index of the field that takes the node's span, nil for none
}

// field is one key of a struct.
type field struct {
	name     string
	index    []int
	typ      reflect.Type
	required bool
	enum     []string
	doc      string
}

// plans keep the plan of each struct type while a document is decoded.
type plans map[reflect.Type]*plan

func (p plans) of(t reflect.Type) *plan {
	if p[t] == nil {
		p[t] = planOf(t)
	}
	return p[t]
}

// planOf reads a struct's tags: yaml:"name", yaml:",inline" for an embedded
// struct, required:"true", oneof:"a|b|c", doc:"…", source:"span".
func planOf(t reflect.Type) *plan {
	p := &plan{byName: map[string]int{}}
	p.add(t, nil)
	for i, f := range p.fields {
		p.names = append(p.names, f.name)
		p.byName[f.name] = i
	}
	return p
}

func (p *plan) add(t reflect.Type, above []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		index := append(append([]int{}, above...), i)
		name, option, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		switch {
		case option == "inline":
			p.add(f.Type, index)
		case f.Tag.Get("source") == "span" && f.Type == spanType:
			p.span = index
		case name != "" && name != "-":
			p.fields = append(p.fields, field{
				name: name, index: index, typ: f.Type, enum: words(f.Tag.Get("oneof")),
				required: f.Tag.Get("required") == "true", doc: f.Tag.Get("doc"),
			})
		}
	}
}

func words(tag string) []string {
	if tag == "" {
		return nil
	}
	return strings.Split(tag, "|")
}
