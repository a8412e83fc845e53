package swap

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/part"
)

// Row is one customer of a table: a name for the files, and what the loom
// becomes. Do makes the loom; a row knows nothing of the others.
type Row struct {
	Name    string
	For     string // whom the sheet is for
	Line    int    // of the table, from 1
	Request Request
}

// Do swaps the parts of one row.
func (r Row) Do(text *diag.Text, lib *part.Library) Result { return Do(text, lib, r.Request) }

// keys are the columns that a part may have.
var keys = []string{"is", "code", "track", "ohms", "value"}

// maxTable bounds the rows of a table.
const maxTable = 10_000

// ReadTable reads a table of customers' parts, as CSV (RFC 4180): the first line
// has the heads name, for, title, hand, and part.key such as bridge.code,
// lever.is, volume.track; an empty field leaves the part as it is. Rows that
// cannot be read are left out and are findings; the others stand.
func ReadTable(text *diag.Text) ([]Row, diag.List) {
	t := table{text: text, seen: map[string]int{}}
	r := csv.NewReader(strings.NewReader(text.Data))
	r.TrimLeadingSpace, r.FieldsPerRecord = true, -1
	heads, err := r.Read()
	if err != nil {
		t.fail(1, "the table has no line of heads")
		return nil, t.list
	}
	for i := range heads {
		heads[i] = strings.TrimSpace(strings.TrimPrefix(heads[i], "\ufeff"))
	}
	if !t.heads(heads) {
		return nil, t.list
	}
	var out []Row
	for {
		fields, err := r.Read()
		if errors.Is(err, io.EOF) {
			return out, t.list
		}
		if len(out) == maxTable {
			t.fail(1, fmt.Sprintf("the table has more than %d rows", maxTable))
			return out, t.list
		}
		if row, ok := t.row(r, heads, fields, err); ok {
			out = append(out, row)
		}
	}
}

// table is a table while it is read.
type table struct {
	text *diag.Text
	list diag.List
	seen map[string]int
}

func (t *table) fail(line int, message string) {
	t.list.Add(diag.Diagnostic{Code: "swap-table", Severity: diag.Error, Span: t.text.Span(line, 1, 1), Message: message})
}

// heads checks the columns.
func (t *table) heads(heads []string) bool {
	if !slices.Contains(heads, "name") {
		t.fail(1, "the table needs a column with the head name")
	}
	for i, h := range heads {
		use, key, isPart := strings.Cut(h, ".")
		known := slices.Contains([]string{"name", "for", "title", "hand"}, h) || isPart && use != "" && slices.Contains(keys, key)
		switch {
		case !known:
			t.fail(1, fmt.Sprintf("%q is no head: write name, for, title, hand, or part.key with the keys %s", h, strings.Join(keys, ", ")))
		case slices.Contains(heads[:i], h):
			t.fail(1, fmt.Sprintf("the head %q stands twice", h))
		}
	}
	return !t.list.HasErrors()
}

func (t *table) row(r *csv.Reader, heads, fields []string, err error) (Row, bool) {
	line, _ := r.FieldPos(0)
	var bad *csv.ParseError
	switch {
	case errors.As(err, &bad):
		t.fail(bad.StartLine, "this row cannot be read: "+bad.Err.Error())
		return Row{}, false
	case err != nil:
		t.fail(line, "this row cannot be read: "+err.Error())
		return Row{}, false
	case len(fields) > len(heads):
		t.fail(line, fmt.Sprintf("this row has %d fields, the table has %d heads", len(fields), len(heads)))
		return Row{}, false
	}
	row := Row{Line: line}
	for i, f := range fields {
		row.set(heads[i], strings.TrimSpace(f))
	}
	switch before, twice := t.seen[row.Name]; {
	case !isFileName(row.Name):
		t.fail(line, fmt.Sprintf("%q cannot name a file: write letters, digits, - and _", row.Name))
		return Row{}, false
	case twice:
		t.fail(line, fmt.Sprintf("the name %q stands on line %d already", row.Name, before))
		return Row{}, false
	}
	t.seen[row.Name] = line
	return row, true
}

// set takes one field.
func (r *Row) set(head, value string) {
	if value == "" {
		return
	}
	switch head {
	case "name":
		r.Name = value
		return
	case "for":
		r.For = value
		return
	case "title":
		r.Request.Title = value
		return
	case "hand":
		r.Request.Hand = value
		return
	}
	use, key, _ := strings.Cut(head, ".")
	c := r.Request.change(use)
	*map[string]*string{"is": &c.Is, "code": &c.Code, "track": &c.Track, "ohms": &c.Ohms, "value": &c.Value}[key] = value
}

// change is the change of a part, added where it is new.
func (r *Request) change(use string) *Change {
	for i := range r.Changes {
		if r.Changes[i].Use == use {
			return &r.Changes[i]
		}
	}
	r.Changes = append(r.Changes, Change{Use: use})
	return &r.Changes[len(r.Changes)-1]
}

func isFileName(s string) bool {
	return s != "" && s[0] != '-' && !strings.ContainsFunc(s, func(r rune) bool {
		return r != '-' && r != '_' && (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z')
	})
}
