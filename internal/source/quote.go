package source

import (
	"fmt"
	"strings"
	"unicode"
)

// scalarText is a scalar on one line: plain where YAML reads that back as the
// same text, else in double quotes, or in single quotes where those save
// escapes. A text that was in
// quotes keeps them where a reader could take it for a number, a truth value
// or nothing.
func scalarText(value string, was style, inFlow bool) string {
	switch {
	case isPlainSafe(value, inFlow) && (was == plain || !looksTyped(value)):
		return value
	case strings.ContainsFunc(value, needsEscape), !strings.ContainsAny(value, `"\\`):
		return doubleQuotes(value)
	}
	return "'" + strings.ReplaceAll(value, "'", "''") + "'"
}

// isPlainSafe reports whether a text can stand without quotes (YAML 1.2.2
// section 7.3.3, and a little stricter).
func isPlainSafe(s string, inFlow bool) bool {
	switch {
	case s == "", strings.TrimSpace(s) != s, strings.ContainsFunc(s, needsEscape):
		return false
	case strings.Contains(s, ": "), strings.HasSuffix(s, ":"), strings.Contains(s, " #"):
		return false
	case strings.HasPrefix(s, "---"), strings.HasPrefix(s, "..."):
		return false
	case s[0] == '-':
		return len(s) > 1 && s[1] != ' ' && !(inFlow && hasFlowMark(s))
	case strings.IndexByte("?:,[]{}#&*!|>'\"%@`", s[0]) >= 0:
		return false
	}
	return !(inFlow && hasFlowMark(s))
}

// hasFlowMark reports whether a text would end early in {…} or […].
func hasFlowMark(s string) bool { return strings.ContainsAny(s, ",[]{}?") }

// needsEscape reports whether a character can only be written in double quotes.
func needsEscape(r rune) bool {
	return r != ' ' && !unicode.IsPrint(r) || r == '\u0085' || r == '\ufeff'
}

// looksTyped reports whether a reader of YAML 1.1 or 1.2 may take a plain text
// for something other than text.
func looksTyped(s string) bool {
	switch strings.ToLower(s) {
	case "~", "null", "true", "false", "yes", "no", "on", "off", "y", "n", "<<", "=":
		return true
	}
	if strings.IndexByte("0123456789+-.", s[0]) < 0 {
		return false
	}
	low := strings.ToLower(strings.TrimLeft(s, "+-"))
	return low == ".inf" || low == ".nan" || strings.Trim(s, "0123456789abcdefABCDEFxXoO_+-.:tTzZ ") == ""
}

func doubleQuotes(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r > 0xffff && needsEscape(r):
			fmt.Fprintf(&b, `\U%08X`, r)
		case needsEscape(r):
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// setBlock keeps the lines of a literal or folded text as they are written. One
// that keeps its last line breaks (+), or that has blanks on lines of their
// own, is written in double quotes, as the blank lines behind it would be part
// of it.
func (p *piece) setBlock(written string, indent int) {
	header, body, _ := strings.Cut(written, "\n")
	header, _, _ = strings.Cut(header, "#")
	mark := header[:1]
	first := ""
	var raw []string
	for _, l := range strings.Split(body, "\n") {
		l = strings.TrimSuffix(l, "\r")
		l = l[min(indent, leadingSpaces(l)):]
		if first == "" {
			first = l
		}
		raw = append(raw, l)
	}
	if strings.Contains(header, "+") || first == "" || hasBlankLine(raw) || hasBlankLine(strings.Split(p.value, "\n")) || strings.ContainsFunc(p.value, isUnshown) {
		p.style = doubleQuoted
		return
	}
	if first[0] == ' ' || first[0] == '\t' {
		mark += "2"
	}
	if !strings.HasSuffix(p.value, "\n") {
		mark += "-"
	}
	p.raw = append([]string{mark}, raw...)
}

// isUnshown reports whether a character would not show in lines of text.
func isUnshown(r rune) bool { return r != '\n' && r != '\t' && needsEscape(r) }

// hasBlankLine reports whether a line has blanks and nothing else.
func hasBlankLine(lines []string) bool {
	for _, l := range lines {
		if l != "" && strings.Trim(l, " \t") == "" {
			return true
		}
	}
	return false
}
