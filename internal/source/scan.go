package source

import (
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
)

// scanner walks once over the text, beside the library's nodes, which it knows
// the starts of. It finds where each node ends, and every comment, as those
// stand only between scalars.
type scanner struct {
	p        *parser
	data     string
	at       place
	comments []comment
	lost     bool // the text does not follow the nodes
}

func newScanner(p *parser) *scanner {
	s := &scanner{p: p, data: p.doc.Text.Data, at: place{line: 1, col: 1}}
	if p.bom > 0 {
		s.step()
	}
	return s
}

// step goes over one character.
func (s *scanner) step() {
	_, size := utf8.DecodeRuneInString(s.data[s.at.off:])
	if s.data[s.at.off] == '\n' {
		s.at = place{s.at.off + 1, s.at.line + 1, 1}
		return
	}
	s.at.off += size
	s.at.col++
}

func (s *scanner) done() bool { return s.at.off >= len(s.data) }

// peek is the byte at the scanner's place, 0 at the end.
func (s *scanner) peek() byte {
	if s.done() {
		return 0
	}
	return s.data[s.at.off]
}

func (a place) before(b place) bool {
	return a.line < b.line || a.line == b.line && a.col < b.col
}

// of is where the library says that a node starts.
func (s *scanner) of(y *yaml.Node) place {
	to := place{line: y.Line, col: y.Column}
	if to.line == 1 {
		to.col += s.p.bom
	}
	return to
}

// gap goes over what stands between nodes, up to a place: blanks, marks and
// comments.
func (s *scanner) gap(to place) {
	for !s.done() && s.at.before(to) {
		switch c := s.peek(); c {
		case ' ', '\t', '\r', '\n', '-', ':', ',', '.', '[', ']', '{', '}':
			s.step()
		case '#':
			s.comment()
		case '?':
			s.refuse(1, "keys marked with ? are not used in these files")
		case '%':
			s.refuse(s.wordLen(), "directives (%) are not used in these files")
		case '!', '&':
			s.property()
		default:
			s.lose()
			return
		}
	}
}

// lose ends the reading of a text that the nodes do not fit, which happens
// behind features that are refused.
func (s *scanner) lose() {
	if !s.p.list.HasErrors() {
		s.p.fail("yaml-syntax", s.at, place{line: s.at.line, col: s.at.col + 1}, "the text cannot be read from here on", "")
	}
	s.lost = true
	for !s.done() {
		s.step()
	}
}

func (s *scanner) comment() {
	at := s.at
	end := strings.IndexByte(s.data[at.off:], '\n')
	if end < 0 {
		end = len(s.data) - at.off
	}
	text := s.data[at.off : at.off+end]
	s.comments = append(s.comments, comment{at: at, text: strings.TrimRight(text, " \t\r")})
	s.skip(text)
}

// skip goes over a text that stands at the scanner's place.
func (s *scanner) skip(text string) {
	s.at.off += len(text)
	if n := strings.Count(text, "\n"); n > 0 {
		s.at.line += n
		s.at.col = 1
		text = text[strings.LastIndexByte(text, '\n')+1:]
	}
	s.at.col += utf8.RuneCountInString(text)
}

// wordLen is the length of the word at the scanner's place.
func (s *scanner) wordLen() int {
	if n := strings.IndexAny(s.data[s.at.off:], " \t\r\n,[]{}"); n >= 0 {
		return n
	}
	return len(s.data) - s.at.off
}

// refuse reports a feature of YAML that is not used and goes over its bytes.
func (s *scanner) refuse(bytes int, message string) {
	from := s.at
	s.skip(s.data[s.at.off : s.at.off+bytes])
	s.p.fail("yaml-feature", from, s.at, message, "write the value out where it is meant")
}

// property refuses a tag or an anchor.
func (s *scanner) property() {
	message := "anchors (&name) are not used in these files"
	if s.peek() == '!' {
		message = "tags (!name) are not used in these files"
	}
	s.refuse(max(1, s.wordLen()), message)
}

// node reads one node and all in it; parent is the column count in front of
// the block that it stands in.
func (s *scanner) node(y *yaml.Node, parent int) *node {
	s.gap(s.of(y))
	for c := s.peek(); c == '!' || c == '&'; c = s.peek() {
		s.property()
		s.blanks()
	}
	switch y.Kind {
	case yaml.MappingNode, yaml.SequenceNode:
		return s.collection(y)
	case yaml.AliasNode:
		n := &node{kind: Scalar, value: "*" + y.Value, at: s.at}
		s.refuse(min(len(s.data)-s.at.off, len(y.Value)+1), "aliases (*name) are not used in these files")
		n.end = s.at
		return n
	}
	return s.scalar(y, parent)
}

// blanks goes over blanks, line breaks and comments.
func (s *scanner) blanks() {
	for !s.done() {
		switch s.peek() {
		case ' ', '\t', '\r', '\n':
			s.step()
		case '#':
			s.comment()
		default:
			return
		}
	}
}

func (s *scanner) collection(y *yaml.Node) *node {
	n := &node{kind: Sequence, at: s.at}
	if y.Kind == yaml.MappingNode {
		n.kind = Mapping
	}
	if y.Style&yaml.FlowStyle != 0 {
		n.style = flow
	}
	bracket := s.peek()
	closing := map[byte]byte{'[': ']', '{': '}'}[bracket]
	closed := n.style == flow && closing != 0 && (n.kind == Mapping) == (bracket == '{')
	if closed {
		s.step()
	}
	n.children = s.children(y, n)
	switch {
	case closed:
		s.close(closing)
		n.end = s.at
	case len(n.children) > 0:
		n.end = n.children[len(n.children)-1].value.end
	default:
		n.end = s.at
	}
	return n
}

// close goes over the bracket that ends a flow collection.
func (s *scanner) close(bracket byte) {
	for !s.done() {
		switch c := s.peek(); {
		case c == bracket:
			s.step()
			return
		case c == '#':
			s.comment()
		case strings.IndexByte(" \t\r\n,:?", c) >= 0:
			s.step()
		default:
			s.lose()
			return
		}
	}
}

func (s *scanner) children(y *yaml.Node, n *node) []child {
	indent := y.Column - 1
	if n.kind == Sequence {
		out := make([]child, len(y.Content))
		for i, item := range y.Content {
			out[i] = child{value: s.node(item, indent)}
		}
		return out
	}
	out := make([]child, 0, len(y.Content)/2)
	keys := newKeys(s.p, len(y.Content)/2)
	for i := 0; i+1 < len(y.Content); i += 2 {
		key := s.node(y.Content[i], indent)
		value := s.node(y.Content[i+1], indent)
		value.owner = key
		if keys.accept(key) {
			out = append(out, child{key, value})
		}
	}
	return out
}
