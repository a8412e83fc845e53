package source

import (
	"strings"

	yaml "go.yaml.in/yaml/v4"
)

// scalar reads one scalar and goes over its text.
func (s *scanner) scalar(y *yaml.Node, parent int) *node {
	n := &node{kind: Scalar, value: y.Value, at: s.at}
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		n.style = doubleQuoted
		s.quoted('"')
	case y.Style&yaml.SingleQuotedStyle != 0:
		n.style = singleQuoted
		s.quoted('\'')
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		n.style = literal
		if y.Style&yaml.FoldedStyle != 0 {
			n.style = folded
		}
		n.indent = s.block(parent)
	default:
		s.plain(y.Value)
		if isNull(y.Value) {
			n.kind = Null
		}
	}
	n.end = s.at
	return n
}

// isNull reports whether a plain scalar stands for nothing (YAML 1.2 core
// schema).
func isNull(s string) bool {
	return s == "" || s == "~" || s == "null" || s == "Null" || s == "NULL"
}

// plain goes over an unquoted scalar: its words as they are in its value, with
// any blanks and line breaks between them.
func (s *scanner) plain(value string) {
	if strings.HasPrefix(s.data[s.at.off:], value) && !strings.Contains(value, "\n") {
		s.skip(value)
		return
	}
	for _, word := range strings.FieldsFunc(value, isBlank) {
		for !s.done() && isBlank(rune(s.peek())) {
			s.step()
		}
		if !strings.HasPrefix(s.data[s.at.off:], word) {
			s.lose()
			return
		}
		s.skip(word)
	}
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\r' || r == '\n' }

// quoted goes over a scalar in quotes; a quote in it is doubled (”) or
// escaped (\").
func (s *scanner) quoted(quote byte) {
	if s.peek() != quote {
		s.lose()
		return
	}
	for s.step(); !s.done(); s.step() {
		switch c := s.peek(); {
		case c == '\\' && quote == '"':
			s.step()
		case c == quote && quote == '\'' && strings.HasPrefix(s.data[s.at.off+1:], "'"):
			s.step()
		case c == quote:
			s.step()
			return
		}
		if s.done() {
			return
		}
	}
}

// block goes over a literal or folded text (YAML 1.2.2 section 8.1) and returns
// the number of columns in front of its lines.
func (s *scanner) block(parent int) int {
	indent := 0
	for !s.done() && s.peek() != '\n' {
		switch c := s.peek(); {
		case c == '#':
			s.comment()
			continue
		case c >= '1' && c <= '9':
			indent = max(parent, 0) + int(c-'0')
		}
		s.step()
	}
	if indent == 0 {
		indent = max(1, parent+1, firstIndent(s.data[min(s.at.off+1, len(s.data)):]))
	}
	for end := s.at; !s.done(); {
		s.step() // the line break
		line := s.restOfLine()
		blank := strings.Trim(line, " \r") == ""
		if !blank && leadingSpaces(line) < indent || s.done() {
			s.at = end
			break
		}
		s.skip(line)
		if !blank {
			end = s.at
		} else if s.done() {
			s.at = end
			break
		}
	}
	return indent
}

// firstIndent is the number of spaces in front of the first line that has
// something on it, or of a longer blank line above it.
func firstIndent(rest string) int {
	most := 0
	for rest != "" {
		line, after, _ := strings.Cut(rest, "\n")
		most = max(most, leadingSpaces(line))
		if strings.Trim(line, " \r") != "" {
			break
		}
		rest = after
	}
	return most
}

func leadingSpaces(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }

// restOfLine is what stands from the scanner's place to the line's end.
func (s *scanner) restOfLine() string {
	line, _, _ := strings.Cut(s.data[s.at.off:], "\n")
	return line
}
