package source

import (
	"strings"
	"unicode/utf8"

	yaml "go.yaml.in/yaml/v4"
)

// plainWords turn the library's messages into what a writer of the file can
// act on. The first whose text is in the message holds.
var plainWords = []struct{ in, message, hint string }{
	{"found a tab character", "the line is indented with a tab: YAML indents with spaces", ""},
	{"mapping values are not allowed", "a key (text with a colon and a space) cannot stand here", "put quotes around a text that has a colon and a space in it, or check the indentation"},
	{"did not find expected ',' or ']'", "the list is not closed with ]", ""},
	{"did not find expected ',' or '}'", "the braces are not closed with }", ""},
	{"cannot start any token", "a text cannot start with this character", "put quotes around the text"},
	{"found unexpected end of stream", "the quotes are not closed", ""},
	{"found unexpected document indicator", "the quotes are not closed", ""},
	{"did not find expected '-' indicator", "this line does not belong to the list above it", "start it with - or indent it as the keys above the list"},
	{"did not find expected key", "this line does not belong to the keys above it", "indent it like its neighbours"},
	{"could not find expected ':'", "a key without a colon and a space after it", ""},
	{"found unknown escape character", "an escape that YAML does not know", "use single quotes where a \\ is meant as it stands"},
	{"block sequence entries are not allowed", "a list item cannot stand here", "start the list on the next line"},
	{"unknown anchor", "aliases (*name) are not used in these files", "write the value out"},
	{"did not find expected <document start>", "this does not belong to what stands above it", ""},
	{"incompatible YAML document", "directives (%) are not used in these files", "take the line out"},
	{"levels", errDepth.Error(), ""},
}

// syntax reports one error of the library at its place.
func (p *parser) syntax(e *yaml.LoadError) {
	at := p.mark(e.Mark)
	code, message, hint := "yaml-syntax", e.Message, ""
	for _, w := range plainWords {
		if strings.Contains(e.Message, w.in) || strings.Contains(e.Error(), w.in) {
			message, hint = w.message, w.hint
			break
		}
	}
	switch {
	case message == errDepth.Error():
		code, message = "too-large", "the file is "+message
	case strings.Contains(message, "not used in these files"):
		code = "yaml-feature"
	case strings.Contains(e.Message, "tab character"), strings.HasPrefix(strings.TrimLeft(p.doc.Text.Line(at.line), " "), "\t"):
		if code = "yaml-tab"; p.tabs() {
			return
		}
	case strings.HasSuffix(message, "not closed") || strings.Contains(message, "not closed with"):
		if e.ContextMark.Line > 0 {
			at = p.mark(e.ContextMark)
		}
	}
	p.fail(code, at, place{line: at.line, col: at.col + 1}, message, hint)
}

// mark is a place that the library names, moved into the text.
func (p *parser) mark(m yaml.Mark) place {
	at := place{line: max(1, m.Line), col: max(1, m.Column)}
	if at.line == 1 {
		at.col += p.bom
	}
	lines := 1 + strings.Count(p.doc.Text.Data, "\n")
	if at.line > lines || at.line == lines && p.doc.Text.Line(lines) == "" && lines > 1 {
		at.line = min(at.line, lines)
		for at.line > 1 && strings.TrimSpace(p.doc.Text.Line(at.line)) == "" {
			at.line--
		}
		at.col = utf8.RuneCountInString(p.doc.Text.Line(at.line)) + 1
	}
	return at
}

// tabs reports every line that is indented with a tab, and whether there is one.
func (p *parser) tabs() bool {
	found := false
	for i, line := range strings.Split(p.doc.Text.Data, "\n") {
		rest := strings.TrimLeft(line, " ")
		if strings.HasPrefix(rest, "\t") && strings.TrimSpace(rest) != "" {
			col := len(line) - len(rest) + 1
			tabs := len(rest) - len(strings.TrimLeft(rest, "\t"))
			found = true
			p.fail("yaml-tab", place{line: i + 1, col: col}, place{line: i + 1, col: col + tabs}, plainWords[0].message, "")
		}
	}
	return found
}

// badCharacters refuses bytes that are no UTF-8, control characters, and line
// breaks that other programs do not count as such.
func (p *parser) badCharacters(data string) bool {
	const most = 20
	at := place{line: 1, col: 1}
	for i := 0; i < len(data) && len(p.list) < most; {
		r, size := rune(data[i]), 1
		if r >= utf8.RuneSelf {
			r, size = utf8.DecodeRuneInString(data[i:])
		}
		if name := refused(r, size, data[i:], i); name != "" {
			p.fail("yaml-character", at, place{line: at.line, col: at.col + 1}, name+" cannot stand in a file", "")
		}
		i += size
		at.col++
		if r == '\n' {
			at.line, at.col = at.line+1, 1
		}
	}
	return len(p.list) > 0
}

// refused names a character that a file may not hold, or is "".
func refused(r rune, size int, rest string, off int) string {
	switch {
	case r >= ' ' && r < 0x7f || r == '\n' || r == '\t':
		return ""
	case r == '\r':
		if strings.HasPrefix(rest, "\r\n") {
			return ""
		}
		return "a carriage return without a line feed"
	case r == utf8.RuneError && size == 1:
		return "a byte that is not UTF-8"
	case r < ' ' || r >= 0x7f && r <= 0x9f:
		return "a control character"
	case r == 0x2028 || r == 0x2029:
		return "a line separator other than a line feed"
	case r == 0xfeff && off > 0:
		return "a byte order mark inside the text"
	case r == 0xfffe || r == 0xffff:
		return "a character that Unicode leaves unused"
	}
	return ""
}
