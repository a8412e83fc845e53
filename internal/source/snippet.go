package source

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"loomwright/internal/diag"
)

// snippetWidth is how many columns of a long line a snippet shows.
const snippetWidth = 100

// Snippet shows a diagnostic of a text for a terminal: where, what, the line
// with carets under the span, hint and related places. The line is left out
// where the diagnostic is not in t; t may be nil. It ends with a line break.
//
//	curlew.yaml:5:12: error: unknown key "trak" [unknown-key]
//	      volume: {trak: 500k audio}
//	               ^^^^
//	  hint: track
func Snippet(t *diag.Text, d diag.Diagnostic) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s: %s [%s]\n", spot(d.Span), d.Severity, d.Message, d.Code)
	if t != nil && !d.Span.IsZero() && d.Span.File == t.Name {
		line, carets := underlined(t, d.Span)
		fmt.Fprintf(&b, "  %s\n  %s\n", strings.TrimRight(line, " "), carets)
	}
	if d.Hint != "" {
		fmt.Fprintf(&b, "  hint: %s\n", d.Hint)
	}
	b.WriteString(related(d.Related))
	return b.String()
}

// related lists the other places, a line for each that is said of them:
// "see curlew.yaml: on the path in lines 9, 10, 14".
func related(places []diag.Related) string {
	var b strings.Builder
	for i := 0; i < len(places); {
		r, end := places[i], i+1
		for end < len(places) && places[end].Message == r.Message && places[end].Span.File == r.Span.File {
			end++
		}
		if end == i+1 {
			fmt.Fprintf(&b, "  see %s%s\n", spot(r.Span), r.Message)
		} else {
			fmt.Fprintf(&b, "  see %s: %s in lines %s\n", r.Span.File, r.Message, linesOf(places[i:end]))
		}
		i = end
	}
	return b.String()
}

func linesOf(places []diag.Related) string {
	var lines []string
	for _, r := range places {
		if n := fmt.Sprint(r.Span.Start.Line); !slices.Contains(lines, n) {
			lines = append(lines, n)
		}
	}
	return strings.Join(lines, ", ")
}

// spot is "file:line:col: ", as much of it as is known.
func spot(s diag.Span) string {
	switch {
	case s.IsZero() && s.File == "":
		return ""
	case s.IsZero():
		return s.File + ": "
	}
	return fmt.Sprintf("%s:%d:%d: ", s.File, s.Start.Line, s.Start.Col)
}

// cell is one character of a line as a terminal shows it.
type cell struct {
	text  string
	width int
}

// underlined is the first line of a span and the carets under it.
func underlined(t *diag.Text, span diag.Span) (line, carets string) {
	cells := cellsOf(t.Line(span.Start.Line))
	from := min(span.Start.Col-1, len(cells))
	to := len(cells)
	if span.End.Line == span.Start.Line {
		to = min(max(span.End.Col-1, from), len(cells))
	}
	first, last := window(cells, from)
	to = max(from, min(to, last))
	lead, tail := "", ""
	if first > 0 {
		lead = "…"
	}
	if last < len(cells) {
		tail = "…"
	}
	line = lead + textOf(cells[first:last]) + tail
	gap := widthOf(cells[first:from]) + len([]rune(lead))
	return line, strings.Repeat(" ", gap) + strings.Repeat("^", max(1, widthOf(cells[from:to])))
}

// window is the part of a line that is shown: all of it, or about
// snippetWidth columns around a cell.
func window(cells []cell, at int) (first, last int) {
	if widthOf(cells) <= snippetWidth {
		return 0, len(cells)
	}
	room := 0
	for first = at; first > 0 && room < snippetWidth/3; first-- {
		room += cells[first-1].width
	}
	for last = at; last < len(cells) && room < snippetWidth; last++ {
		room += cells[last].width
	}
	return first, last
}

// cellsOf splits a line into characters; tabs become spaces up to the next
// multiple of four columns. What a terminal would not show, or would take for a
// command, becomes an escape: \xff for a byte that is no text, \x1b, \u202e.
func cellsOf(line string) []cell {
	var cells []cell
	col := 0
	for line != "" {
		r, size := utf8.DecodeRuneInString(line)
		c := cell{string(r), runeWidth(r)}
		switch {
		case r == '\t':
			c = cell{strings.Repeat(" ", 4-col%4), 4 - col%4}
		case r == utf8.RuneError && size == 1 || !unicode.IsGraphic(r):
			c = escaped(line[:size])
		}
		cells = append(cells, c)
		col += c.width
		line = line[size:]
	}
	return cells
}

// escaped is a character, or a byte that is none, as a Go string would spell it.
func escaped(char string) cell {
	quoted := strconv.QuoteToASCII(char)
	return cell{quoted[1 : len(quoted)-1], len(quoted) - 2}
}

func widthOf(cells []cell) int {
	w := 0
	for _, c := range cells {
		w += c.width
	}
	return w
}

func textOf(cells []cell) string {
	var b strings.Builder
	for _, c := range cells {
		b.WriteString(c.text)
	}
	return b.String()
}
