package swap

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
)

// edit replaces a stretch of a text.
type edit struct {
	from, to int // bytes
	text     string
}

// edits collects changes of one text; they are made together, so that spans
// stay true.
type edits struct {
	text  *diag.Text
	lines []int // byte at which each line starts
	list  []edit
}

func newEdits(t *diag.Text) *edits {
	e := &edits{text: t, lines: []int{0}}
	for i := range len(t.Data) {
		if t.Data[i] == '\n' {
			e.lines = append(e.lines, i+1)
		}
	}
	return e
}

// at is the byte of a position; columns count runes from 1.
func (e *edits) at(p diag.Pos) int {
	if p.Line < 1 || p.Line > len(e.lines) {
		return len(e.text.Data)
	}
	start := e.lines[p.Line-1]
	for i := range e.text.Data[start:] {
		if p.Col--; p.Col < 1 {
			return start + i
		}
	}
	return len(e.text.Data)
}

func (e *edits) replace(s diag.Span, text string) {
	e.list = append(e.list, edit{e.at(s.Start), e.at(s.End), text})
}

func (e *edits) insert(at int, text string) { e.list = append(e.list, edit{at, at, text}) }

// lineEnd is the byte behind the last of a line, before its line break.
func (e *edits) lineEnd(line int) int {
	if line >= len(e.lines) {
		return len(e.text.Data)
	}
	return e.lines[line] - 1
}

// dropLines takes out what stands on the lines of a span; comments stay, each
// on a line of its own.
func (e *edits) dropLines(s diag.Span) {
	for line := s.Start.Line; line <= s.End.Line; line++ {
		from, to := e.lines[line-1], e.lineEnd(line)
		content := e.text.Data[from:to]
		if c := comment(content); c >= 0 {
			indent := len(content) - len(strings.TrimLeft(content, " "))
			e.list = append(e.list, edit{from + indent, from + c, ""})
			continue
		}
		e.list = append(e.list, edit{from, min(to+1, len(e.text.Data)), ""})
	}
}

// comment is where a comment starts on a line, or −1. Quoted marks are passed
// over.
func comment(line string) int {
	quote := byte(0)
	for i := range len(line) {
		switch c := line[i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '#' && (i == 0 || line[i-1] == ' '):
			return i
		}
	}
	return -1
}

// String is the text with all edits made; where two touch one place the first
// stands.
func (e *edits) String() string {
	slices.SortStableFunc(e.list, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.to - b.to
	})
	var b strings.Builder
	done := 0
	for _, x := range e.list {
		if x.from < done {
			continue
		}
		b.WriteString(e.text.Data[done:x.from])
		b.WriteString(x.text)
		done = x.to
	}
	b.WriteString(e.text.Data[done:])
	return b.String()
}
