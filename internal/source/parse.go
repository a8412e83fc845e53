package source

import (
	"errors"
	"fmt"
	"io"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"loomwright/internal/diag"
)

// Limits of a file, far beyond any real one, so that memory stays bounded.
const (
	MaxBytes = 1 << 20 // of the whole file
	MaxNodes = 200_000 // keys, values and lists
	MaxDepth = 64      // lists in lists and keys in keys
)

// Parse reads one YAML document of maps, lists and scalars. Every text that is
// no such document gives at least one error; the document is then without
// (or with part of) its tree, and Decode and Format leave it alone as far as
// they must. Parse never panics.
func Parse(text *diag.Text) (*Document, diag.List) {
	p := &parser{doc: &Document{Text: text}}
	p.parse()
	p.doc.broken = p.list.HasErrors()
	return p.doc, p.list
}

// parser holds one file while it is read.
type parser struct {
	doc  *Document
	list diag.List
	bom  int // 1 when the text starts with a byte order mark
}

// byteOrderMark may start a file that was written on some systems.
const byteOrderMark = "\ufeff"

func (p *parser) parse() {
	p.doc.unread = true
	data := p.doc.Text.Data
	if p.tooLarge(data) || p.badCharacters(data) {
		return
	}
	if strings.HasPrefix(data, byteOrderMark) {
		p.bom = 1
	}
	top, ok := p.load(strings.TrimPrefix(data, byteOrderMark))
	if !ok {
		return
	}
	s := newScanner(p)
	if top != nil {
		root := s.node(top, -1)
		p.setRoot(root)
	}
	s.gap(place{off: len(data), line: 1 << 60})
	p.doc.comments = s.comments
	p.doc.unread = s.lost
}

// setRoot takes the tree's top node, which is a map, a list or nothing.
func (p *parser) setRoot(root *node) {
	switch {
	case root.kind == Scalar:
		p.fail("yaml-top", root.at, root.end, "the file is one text: it needs keys with values", "")
	case root.kind != Null:
		p.doc.root = root
	}
}

func (p *parser) fail(code string, from, to place, message, hint string) {
	span := diag.Span{File: p.doc.Text.Name, Start: diag.Pos{Line: from.line, Col: from.col}, End: diag.Pos{Line: to.line, Col: to.col}}
	p.list.Add(diag.Diagnostic{Code: code, Severity: diag.Error, Span: span, Message: message, Hint: hint})
}

// tooLarge refuses a file by its size and by its marks that separate nodes,
// before anything is built of it.
func (p *parser) tooLarge(data string) bool {
	start := place{line: 1, col: 1}
	if len(data) > MaxBytes {
		p.fail("too-large", start, start, fmt.Sprintf("the file has %d bytes, the limit is %d", len(data), MaxBytes), "")
		return true
	}
	marks := 0
	for i := range len(data) {
		switch data[i] {
		case ',', '\n', '[', '{', ':':
			marks++
		case '-', '?':
			if i+1 < len(data) && data[i+1] == ' ' {
				marks++
			}
		}
	}
	if marks > MaxNodes {
		p.fail("too-large", start, start, fmt.Sprintf("the file has about %d keys and values, the limit is %d", marks, MaxNodes), "")
	}
	return marks > MaxNodes
}

// load has the YAML library compose the document's nodes; nil is an empty file.
func (p *parser) load(data string) (top *yaml.Node, ok bool) {
	defer func() {
		if r := recover(); r != nil {
			start := place{line: 1, col: 1}
			p.fail("yaml-syntax", start, start, fmt.Sprintf("the file cannot be read: %v", r), "")
			top, ok = nil, false
		}
	}()
	loader, err := yaml.NewLoader(strings.NewReader(data), yaml.WithPlugin(limits{}))
	if err != nil {
		panic(err) // the options are constant
	}
	var first, second yaml.Node
	if err := loader.Load(&first); err != nil {
		return nil, p.loadError(err)
	}
	switch err := loader.Load(&second); {
	case err == nil:
		at := place{line: second.Line, col: max(1, second.Column)}
		p.fail("yaml-documents", at, place{line: at.line, col: at.col + 3}, "a second document starts here: a file holds one", "")
		return nil, false
	case !p.loadError(err):
		return nil, false
	}
	if len(first.Content) == 0 {
		return nil, true
	}
	return first.Content[0], true
}

// loadError reports an error of the library; it returns true at the end of
// the text, which is none.
func (p *parser) loadError(err error) bool {
	if errors.Is(err, io.EOF) {
		return true
	}
	var one *yaml.LoadError
	var several *yaml.LoadErrors
	switch {
	case errors.As(err, &several):
		for _, e := range several.Errors {
			p.syntax(e)
		}
	case errors.As(err, &one):
		p.syntax(one)
	}
	if len(p.list) == 0 {
		start := place{line: 1, col: 1}
		p.fail("yaml-syntax", start, start, "the file cannot be read: "+err.Error(), "")
	}
	return false
}

// limits keeps the library within MaxDepth.
type limits struct{}

var errDepth = fmt.Errorf("nested deeper than %d levels", MaxDepth)

// CheckDepth implements [yaml.LoaderLimitsPlugin].
func (limits) CheckDepth(depth int, _ *yaml.DepthContext) error {
	if depth > MaxDepth {
		return errDepth
	}
	return nil
}

// CheckAlias implements [yaml.LoaderLimitsPlugin]; aliases are refused later.
func (limits) CheckAlias(int, int) error { return nil }
