// Package diag is the language every stage speaks to the user in: source text,
// spans in it, and findings. It prints nothing; faces do.
package diag

import (
	"cmp"
	"slices"
)

// Pos is a place in a text: line and column count from 1, the column in runes.
// The zero Pos is "nowhere".
type Pos struct {
	Line int `json:"line"`
	Col  int `json:"col"`
}

// Span is a stretch of one file, End exclusive. The zero Span is "nowhere".
type Span struct {
	File  string `json:"file"`
	Start Pos    `json:"start"`
	End   Pos    `json:"end"`
}

// IsZero reports whether the span points nowhere.
func (s Span) IsZero() bool { return s.Start.Line == 0 }

// Severity orders findings: what only informs, what a player may notice, what
// is wrong.
type Severity int

// The severities, mildest first.
const (
	Info Severity = iota
	Warning
	Error
)

var severityNames = [...]string{"info", "warning", "error"}

func (s Severity) String() string { return severityNames[s] }

// MarshalText writes the severity as its word.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads the severity's word.
func (s *Severity) UnmarshalText(text []byte) error {
	*s = Severity(max(0, slices.Index(severityNames[:], string(text))))
	return nil
}

// Related points to a second place that takes part in a finding.
type Related struct {
	Span    Span   `json:"span"`
	Message string `json:"message"`
}

// Diagnostic is one finding. Code is stable across versions; Message is one
// sentence of what a player or solderer would notice; Hint can be pasted.
type Diagnostic struct {
	Code     string    `json:"code"`
	Severity Severity  `json:"severity"`
	Span     Span      `json:"span"`
	Message  string    `json:"message"`
	Hint     string    `json:"hint,omitempty"`
	Settings []string  `json:"settings,omitempty"` // names of the settings it holds in; none: all of them
	Related  []Related `json:"related,omitempty"`
}

// List collects findings; stages append, faces print.
type List []Diagnostic

// Add appends a finding.
func (l *List) Add(d Diagnostic) { *l = append(*l, d) }

// HasErrors reports whether any finding is an error.
func (l List) HasErrors() bool {
	return slices.ContainsFunc(l, func(d Diagnostic) bool { return d.Severity == Error })
}

// Worst returns the highest severity in the list, or -1 when it is empty.
func (l List) Worst() Severity {
	worst := Severity(-1)
	for _, d := range l {
		worst = max(worst, d.Severity)
	}
	return worst
}

// Sorted returns the findings by file, position, severity (worst first), code.
func (l List) Sorted() List {
	out := slices.Clone(l)
	slices.SortStableFunc(out, func(a, b Diagnostic) int {
		return cmp.Or(
			cmp.Compare(a.Span.File, b.Span.File),
			cmp.Compare(a.Span.Start.Line, b.Span.Start.Line),
			cmp.Compare(a.Span.Start.Col, b.Span.Start.Col),
			cmp.Compare(b.Severity, a.Severity),
			cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Message, b.Message),
		)
	})
	return out
}

// Code is the one record of a diagnostic code: help, man page and docs are
// made from it.
type Code struct {
	Code     string // kebab-case, stable
	Severity Severity
	Says     string // one line: what it means
	Notice   string // what a player or solderer would notice
}
