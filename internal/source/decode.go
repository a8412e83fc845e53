package source

import (
	"reflect"
	"strings"

	"loomwright/internal/diag"
)

// Decode fills *dst from a document and reports everything that does not fit
// in one pass: unknown, missing and doubled keys, wrong kinds, values outside
// a oneof tag. Structs take mappings by their yaml tags, slices take lists,
// String and string any scalar, bool, int and float64 unquoted ones, *T may be
// left without a value, Map[T] has free keys, Node is taken as it is, and an
// Unmarshaler reads itself. It adds nothing to what Parse said when Parse found
// no tree. A dst of another type is a mistake of the program and panics.
func Decode(doc *Document, dst any) diag.List {
	var l diag.List
	if !doc.unread {
		doc.Root().Decode(dst, &l)
	}
	return l
}

// Decode fills *dst from the node and adds what does not fit to l.
func (n Node) Decode(dst any, l *diag.List) {
	d := decoder{s: n.s, l: l}
	d.value(n.n, reflect.ValueOf(dst).Elem(), nil)
}

// decoder fills Go values.
type decoder struct {
	s *session
	l *diag.List
}

func (d decoder) fail(code string, span diag.Span, message, hint string) {
	d.l.Add(diag.Diagnostic{Code: code, Severity: diag.Error, Span: span, Message: message, Hint: hint})
}

func (d decoder) span(n *node) diag.Span { return Node{n, d.s}.Span() }

// value fills v; enum are the texts that a scalar may have, nil for any.
func (d decoder) value(n *node, v reflect.Value, enum []string) {
	t := v.Type()
	switch {
	case t.Kind() == reflect.Pointer:
		if n.kind == Null && !d.isTop(n) {
			return
		}
		v.Set(reflect.New(t.Elem()))
		d.value(n, v.Elem(), enum)
	case t == nodeType:
		v.Set(reflect.ValueOf(Node{n, d.s}))
	case n.kind == Null && !d.isTop(n):
		d.noValue(n)
	case v.Addr().Type().Implements(unmarshalerType):
		if n.kind != Null {
			v.Addr().Interface().(Unmarshaler).UnmarshalSource(Node{n, d.s}, d.l)
		}
	case t == stringType:
		if d.wants(n, Scalar) {
			v.Set(reflect.ValueOf(String{Value: d.oneOf(n, enum), Span: d.span(n)}))
		}
	case t.Kind() == reflect.Struct:
		d.structure(n, v)
	case t.Kind() == reflect.Slice:
		d.slice(n, v, enum)
	default:
		d.scalar(n, v, enum)
	}
}

// isTop reports whether n stands for an empty file.
func (d decoder) isTop(n *node) bool { return d.s.doc.root == nil && n.owner == nil }

func (d decoder) noValue(n *node) {
	message := "there is no value here"
	if n.owner != nil {
		message = quoted(n.owner.value) + " has no value"
	}
	d.fail("missing-value", d.span(n), message, "")
}

// wants reports a node of the wrong kind.
func (d decoder) wants(n *node, kind Kind) bool {
	if n.kind == kind {
		return true
	}
	d.fail("wrong-kind", d.span(n), "expected "+kind.String()+", found "+n.kind.String(), "")
	return false
}

func (d decoder) slice(n *node, v reflect.Value, enum []string) {
	if !d.wants(n, Sequence) {
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.children), len(n.children)))
	for i, c := range n.children {
		d.value(c.value, v.Index(i), enum)
	}
}

// structure fills a struct by its plan.
func (d decoder) structure(n *node, v reflect.Value) {
	p := d.s.plans.of(v.Type())
	if n.kind != Null && !d.wants(n, Mapping) {
		return
	}
	if p.span != nil {
		v.FieldByIndex(p.span).Set(reflect.ValueOf(d.s.span(n.at, n.end)))
	}
	seen := make([]bool, len(p.fields))
	for _, c := range n.children {
		i, known := p.byName[c.key.value]
		if !known {
			d.unknown(c.key, p.names)
			continue
		}
		seen[i] = true
		d.value(c.value, v.FieldByIndex(p.fields[i].index), p.fields[i].enum)
	}
	for i, f := range p.fields {
		if f.required && !seen[i] {
			d.missing(n, f)
		}
	}
}

func (d decoder) unknown(key *node, names []string) {
	hint := nearest(key.value, names)
	if hint == "" {
		hint = "the keys here are " + strings.Join(names, ", ")
	}
	d.fail("unknown-key", d.span(key), "unknown key "+quoted(key.value), hint)
}

// nearest is the right name that is closest to a word; words of more than 64
// bytes are near none.
func nearest(word string, names []string) string {
	if len(word) > 64 {
		return ""
	}
	return diag.Nearest(word, names)
}

// missing reports a required key that is not there, at the key that the map
// belongs to, else at the map's first character.
func (d decoder) missing(n *node, f field) {
	from, to := n.at, place{line: n.at.line, col: n.at.col + 1}
	if n.owner != nil {
		from, to = n.owner.at, n.owner.end
	} else if len(n.children) > 0 && n.style != flow {
		to = n.children[0].key.end
	}
	message := "the key " + quoted(f.name) + " is missing"
	if f.doc != "" {
		message += ": " + f.doc
	}
	d.fail("missing-key", d.s.span(from, to), message, f.name+": ")
}

// oneOf is a scalar's text, after a check that it is one of enum.
func (d decoder) oneOf(n *node, enum []string) string {
	if len(enum) == 0 {
		return n.value
	}
	for _, word := range enum {
		if word == n.value || n.style == plain && sameNumber(word, n.value) {
			return word
		}
	}
	d.fail("bad-value", d.span(n), quoted(n.value)+" is none of "+strings.Join(enum, ", "), nearest(n.value, enum))
	return n.value
}

// UnmarshalSource implements Unmarshaler.
func (m *Map[T]) UnmarshalSource(n Node, l *diag.List) {
	d := decoder{n.s, l}
	if !d.wants(n.n, Mapping) {
		return
	}
	m.Span = n.Span()
	m.Entries = make([]Entry[T], len(n.n.children))
	for i, c := range n.n.children {
		m.Entries[i].Key = n.s.text(c.key)
		d.value(c.value, reflect.ValueOf(&m.Entries[i].Value).Elem(), nil)
	}
}

// UnmarshalSource implements Unmarshaler.
func (q *Seq[T]) UnmarshalSource(n Node, l *diag.List) {
	d := decoder{n.s, l}
	q.Span = n.Span()
	d.value(n.n, reflect.ValueOf(&q.Items).Elem(), nil)
}
