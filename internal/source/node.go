// Package source turns YAML text into a positioned tree, decodes that tree
// into Go values with every error placed, and prints it in one canonical
// layout that keeps all comments.
package source

import (
	"reflect"

	"loomwright/internal/diag"
)

// Kind is what a node is.
type Kind int

// The kinds; Null is a key or item with nothing written after it.
const (
	Null Kind = iota
	Scalar
	Mapping
	Sequence
)

// String is a scalar: its text as written (without quotes) and where.
type String struct {
	Value string
	Span  diag.Span
}

// Entry is one key with its value.
type Entry[T any] struct {
	Key   String
	Value T
}

// Map is a mapping whose order is kept.
type Map[T any] struct {
	Entries []Entry[T]
	Span    diag.Span
}

// Get returns the value of a key.
func (m Map[T]) Get(key string) (T, bool) {
	for _, e := range m.Entries {
		if e.Key.Value == key {
			return e.Value, true
		}
	}
	var zero T
	return zero, false
}

// Seq is a list that knows its own span.
type Seq[T any] struct {
	Items []T
	Span  diag.Span
}

// Document is one parsed file.
type Document struct {
	Text *diag.Text
	root *node
}

type node struct{}

// Node is one place in a document's tree.
type Node struct{ n *node }

func (n Node) Kind() Kind             { return Null }
func (n Node) Span() diag.Span        { return diag.Span{} }
func (n Node) Scalar() String         { return String{} } // zero when the node is no scalar
func (n Node) Entries() []Entry[Node] { return nil }
func (n Node) Items() []Node          { return nil }

// Decode decodes the node into *dst and adds what is wrong to the list.
func (n Node) Decode(dst any, l *diag.List) {}

// Root is the document's top node.
func (d *Document) Root() Node { return Node{d.root} }

// Unmarshaler is a type that reads its own node. It is called with any kind
// but Null.
type Unmarshaler interface {
	UnmarshalSource(n Node, l *diag.List)
}

// Shaper tells what a custom type accepts structurally.
type Shaper interface {
	SourceShape() Shape
}

// ShapeKind is what a shape accepts.
type ShapeKind string

// The shape kinds.
const (
	AnyShape     ShapeKind = ""       // anything, or what Any or Of say
	ScalarShape  ShapeKind = "scalar" // any scalar, taken as its text; Pattern and Enum hold for texts that are no number
	StringShape  ShapeKind = "string" // a scalar that YAML does not read as number or boolean
	NumberShape  ShapeKind = "number" // an unquoted number
	IntegerShape ShapeKind = "integer"
	BoolShape    ShapeKind = "bool" // true false yes no
	MapShape     ShapeKind = "map"  // Fields, or free keys with Values
	SeqShape     ShapeKind = "seq"  // of Values
)

// Shape is the structure that a type accepts; the JSON Schema is made from it.
type Shape struct {
	Kind    ShapeKind
	Doc     string
	Pattern string       // regular expression (the part that RE2 and ECMA share), anchor it yourself
	Enum    []string     // the words accepted
	Any     []Shape      // accepts what any of these accepts (Kind is then empty)
	Values  *Shape       // of a map's free keys, or of a list's items
	Keys    string       // pattern of a map's free keys
	Fields  []Field      // of a map
	Of      reflect.Type // the shape of this Go type (Kind is then empty)
}

// Field is one fixed key of a map shape.
type Field struct {
	Name     string
	Required bool
	Shape    Shape
}

// Parse reads one YAML document.
func Parse(text *diag.Text) (*Document, diag.List) { return &Document{Text: text}, nil }

// Decode decodes a document into *dst.
func Decode(doc *Document, dst any) diag.List { return nil }
