package sheet

import (
	"fmt"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/swap"
)

// Made is what became of one row of a table of customers: a loom file and its
// sheet, or why there is none.
type Made struct {
	Name string
	Line int         // of the table
	Swap swap.Result // Text is the loom file
	PDF  []byte      // nil: no sheet
	Why  []string    // for a row without a sheet, the reasons; else what to look at
}

// Failed reports whether a row has no sheet.
func (m *Made) Failed() bool { return m.PDF == nil }

// Make swaps the parts of one customer and prints the sheet. It depends on its
// arguments alone, so that rows can be made on all cores; whatever a row holds,
// the others can be made.
func Make(text *diag.Text, lib *part.Library, row swap.Row, base string, p Print) (m Made) {
	m = Made{Name: row.Name, Line: row.Line}
	defer func() {
		if r := recover(); r != nil {
			m.PDF, m.Why = nil, append(m.Why, fmt.Sprintf("a mistake of Loomwright's own: %v", r))
		}
	}()
	named := *text
	named.Name = row.Name + ".yaml"
	m.Swap = row.Do(&named, lib)
	m.Why = append(m.Why, m.Swap.Why...)
	if m.Swap.Text == "" {
		m.Why = append(m.Why, reasons(&m.Swap)...)
		return m
	}
	in, _ := Gather(m.Swap.Graph)
	in.For, in.Link = row.For, Link{Base: base, File: named.Name}
	d := Compose(in)
	pdf, err := d.PDF(p)
	if err != nil {
		m.Why = append(m.Why, err.Error())
		return m
	}
	m.PDF = pdf
	return m
}

// reasons are the errors of a refused swap.
func reasons(r *swap.Result) []string {
	var out []string
	for _, f := range r.Findings {
		if f.Severity == diag.Error {
			text := f.Message
			if f.Hint != "" && !strings.Contains(f.Hint, "\n") {
				text += " (" + f.Hint + ")"
			}
			out = append(out, text)
		}
	}
	if len(out) == 0 && len(r.Why) == 0 {
		out = append(out, string(r.Verdict))
	}
	return out
}
