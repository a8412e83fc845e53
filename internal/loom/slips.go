package loom

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
)

// slips puts what a mark of the text does to a file in a user's words: a decimal
// comma, which ends an entry between braces, and a colon without a space, which
// is no colon. What else is said of the cut value is left out.
func slips(list diag.List, text *diag.Text) diag.List {
	cut := map[diag.Pos]bool{} // where a value that a comma cut begins
	var out, left diag.List
	for _, d := range list {
		if d.Code == "unknown-key" {
			before, key := around(text, d.Span)
			value := before[strings.LastIndexAny(before, " :{[")+1:] // "5," of "5,8k"
			name, rest, colon := strings.Cut(key, ":")
			switch {
			case strings.HasSuffix(value, ",") && startsWithDigit(value) && startsWithDigit(key):
				d.Code, d.Hint = "value-syntax", strings.TrimSuffix(value, ",")+"."+key
				d.Message = fmt.Sprintf("%q has a decimal comma, and here a comma ends an entry: write a point", value+key)
				d.Span.Start.Col -= len([]rune(value))
				cut[d.Span.Start] = true
				left = append(left, d)
				continue
			case colon && name != "" && rest != "" && !strings.Contains(name, " "):
				d.Message, d.Hint = fmt.Sprintf("%q lacks the space after the colon", key), name+": "+rest
			}
		}
		out = append(out, d)
	}
	out = slices.DeleteFunc(out, func(d diag.Diagnostic) bool { return cut[d.Span.Start] })
	return append(out, left...)
}

// around is the line before a span, and what the span covers of it.
func around(text *diag.Text, s diag.Span) (before, covered string) {
	line := []rune(text.Line(s.Start.Line))
	from, to := min(max(s.Start.Col-1, 0), len(line)), min(max(s.End.Col-1, 0), len(line))
	if s.End.Line != s.Start.Line || to < from {
		to = len(line)
	}
	return string(line[:from]), string(line[from:to])
}

func startsWithDigit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }
