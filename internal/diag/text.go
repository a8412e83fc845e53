package diag

import (
	"strings"
	"unicode/utf8"
)

// Text is one source file held in memory, with a line index for snippets.
type Text struct {
	Name  string
	Data  string
	lines []int // byte offset of each line's start
}

// NewText indexes data; name is what messages call the file ("-" is stdin).
func NewText(name, data string) *Text {
	t := &Text{Name: name, Data: data, lines: []int{0}}
	for i := range len(data) {
		if data[i] == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
	return t
}

// Line returns line n (from 1) without its line break, or "" out of range.
func (t *Text) Line(n int) string {
	if t == nil || n < 1 || n > len(t.lines) {
		return ""
	}
	end := len(t.Data)
	if n < len(t.lines) {
		end = t.lines[n]
	}
	return strings.TrimRight(t.Data[t.lines[n-1]:end], "\r\n")
}

// Span is the span of length runes from line and column (both from 1).
func (t *Text) Span(line, col, length int) Span {
	return Span{File: t.Name, Start: Pos{line, col}, End: Pos{line, col + length}}
}

// Pos converts a byte offset to a position.
func (t *Text) Pos(offset int) Pos {
	offset = min(max(offset, 0), len(t.Data))
	line := 1
	for line < len(t.lines) && t.lines[line] <= offset {
		line++
	}
	return Pos{line, utf8.RuneCountInString(t.Data[t.lines[line-1]:offset]) + 1}
}
