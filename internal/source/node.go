// Package source turns YAML text into a positioned tree, decodes that tree
// into Go values with every error placed, and prints it in one canonical
// layout that keeps all comments.
package source

import "loomwright/internal/diag"

// Kind is what a node is.
type Kind int

// The kinds. Null is a key or list item with nothing (or null, or ~) written
// after it.
const (
	Null Kind = iota
	Scalar
	Mapping
	Sequence
)

// kindWords say in a message what stands in the text.
var kindWords = [...]string{"nothing", "a text", "keys with values", "a list"}

func (k Kind) String() string { return kindWords[k] }

// String is a scalar: its text (500k and "500k" alike give 500k) and its span,
// quotes included.
type String struct {
	Value string
	Span  diag.Span
}

// Entry is one key with its value.
type Entry[T any] struct {
	Key   String
	Value T
}

// Map is a mapping with free keys; the file's order is kept.
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

// Seq is a list that knows its own span; a plain slice decodes as well.
type Seq[T any] struct {
	Items []T
	Span  diag.Span
}

// Document is one parsed file. Nothing changes it after Parse.
type Document struct {
	Text     *diag.Text
	root     *node // nil: an empty file
	comments []comment
	broken   bool // Parse found errors: not to be formatted
	unread   bool // Parse found no tree: not to be decoded
}

// Root is the document's top node; it is Null in an empty file.
func (d *Document) Root() Node {
	s := &session{doc: d, plans: plans{}}
	if d.root == nil {
		return Node{&node{at: place{line: 1, col: 1}, end: place{line: 1, col: 1}}, s}
	}
	return Node{d.root, s}
}

// style is how a node was written.
type style byte

const (
	plain style = iota
	singleQuoted
	doubleQuoted
	literal
	folded
	flow // {…} or […]
)

// place is a position as byte offset, line and column.
type place struct{ off, line, col int }

// node is one node of the tree.
type node struct {
	kind     Kind
	style    style
	indent   int    // of a literal or folded text: columns in front of its lines
	value    string // of a scalar; of a Null that is written out: null or ~
	at, end  place
	owner    *node // the key of which this is the value, nil in lists and at the top
	children []child
}

// child is an entry of a mapping or, with a nil key, an item of a list.
type child struct{ key, value *node }

// start is where the child's key, or the item itself, begins.
func (c child) start() place {
	if c.key != nil {
		return c.key.at
	}
	return c.value.at
}

// comment is one comment, from # to the end of its line.
type comment struct {
	at   place
	text string
}

// session is what the nodes of one decoding share.
type session struct {
	doc   *Document
	plans plans
}

// Node is one place in a document's tree.
type Node struct {
	n *node
	s *session
}

// Kind is what the node is.
func (n Node) Kind() Kind { return n.n.kind }

// Span is the node's own text: a scalar with its quotes, a map or list from
// its first to its last character. Of a Null it is the key that has no value.
func (n Node) Span() diag.Span {
	if n.n.kind == Null && n.n.value == "" && n.n.owner != nil {
		return n.s.span(n.n.owner.at, n.n.owner.end)
	}
	return n.s.span(n.n.at, n.n.end)
}

func (s *session) span(from, to place) diag.Span {
	return diag.Span{
		File:  s.doc.Text.Name,
		Start: diag.Pos{Line: from.line, Col: from.col},
		End:   diag.Pos{Line: to.line, Col: to.col},
	}
}

// Scalar is the node's text; the zero String when it is no scalar.
func (n Node) Scalar() String {
	if n.n.kind != Scalar {
		return String{}
	}
	return String{Value: n.n.value, Span: n.Span()}
}

// IsText reports whether the node is a scalar that YAML takes as text: in
// quotes, or not like a number, true or false.
func (n Node) IsText() bool {
	if n.n.kind != Scalar || n.n.style != plain {
		return n.n.kind == Scalar
	}
	_, isNumber := number(n.n.value)
	_, isBool := boolOf(n.n)
	return !isNumber && (!isBool || n.n.value == "yes" || n.n.value == "no")
}

// Entries are the keys and values of a mapping; none of any other node.
func (n Node) Entries() []Entry[Node] {
	if n.n.kind != Mapping {
		return nil
	}
	entries := make([]Entry[Node], len(n.n.children))
	for i, c := range n.n.children {
		entries[i] = Entry[Node]{Key: n.s.text(c.key), Value: Node{c.value, n.s}}
	}
	return entries
}

func (s *session) text(n *node) String { return String{Value: n.value, Span: s.span(n.at, n.end)} }

// Items are the items of a list; none of any other node.
func (n Node) Items() []Node {
	if n.n.kind != Sequence {
		return nil
	}
	items := make([]Node, len(n.n.children))
	for i, c := range n.n.children {
		items[i] = Node{c.value, n.s}
	}
	return items
}
