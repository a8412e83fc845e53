package swap

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

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
func (r Row) Do(text *diag.Text, lib *part.Library, find Finder) Result {
	return Do(text, lib, r.Request, find)
}

// plainHeads are the columns that are not of a part.
var plainHeads = []string{"name", "for", "title", "hand"}

// maxTable bounds the rows of a table.
const maxTable = 10_000

// ReadTable reads a table of customers' parts, as CSV (RFC 4180) with commas,
// or as spreadsheets write it: with semicolons or tabs, a byte order mark, a
// first line that names the separator. The first row has the heads name, for,
// title, hand, and part.key such as bridge.code, lever.is, volume.track; an empty
// field leaves the part as it is. Rows that cannot be read are left out and are
// findings; the others stand.
func ReadTable(text *diag.Text) ([]Row, diag.List) {
	t := table{text: text, seen: map[string]int{}}
	data := strings.TrimPrefix(text.Data, "\ufeff")
	comma, data := separator(data)
	t.csv = csv.NewReader(strings.NewReader(data))
	t.csv.Comma, t.csv.TrimLeadingSpace, t.csv.FieldsPerRecord = comma, true, -1
	heads, err := t.csv.Read()
	if err != nil {
		t.fail(1, 0, "the table has no row of heads that can be read")
		return nil, t.list
	}
	if !t.readHeads(heads) {
		return nil, t.list
	}
	var out []Row
	for {
		fields, err := t.csv.Read()
		if errors.Is(err, io.EOF) {
			return out, t.list
		}
		if len(out) == maxTable {
			t.fail(1, 0, fmt.Sprintf("the table has more than %d rows", maxTable))
			return out, t.list
		}
		if row, ok := t.row(fields, err); ok {
			out = append(out, row)
		}
	}
}

// separator is what parts the fields of a table: the one that its first line
// names ("sep=;"), which is emptied, or the one that is commonest in the heads.
func separator(data string) (comma rune, rest string) {
	first, after, _ := strings.Cut(data, "\n")
	if named, ok := strings.CutPrefix(strings.ToLower(strings.TrimRight(first, "\r")), "sep="); ok && len(named) == 1 {
		return rune(named[0]), "\n" + after
	}
	comma = ','
	for _, c := range ";\t" {
		if strings.Count(first, string(c)) > strings.Count(first, string(comma)) {
			comma = c
		}
	}
	return comma, data
}

// table is a table while it is read.
type table struct {
	text  *diag.Text
	csv   *csv.Reader
	heads []string
	list  diag.List
	seen  map[string]int // lines by name, capitals and small letters alike
}

// fail notes a finding on a line, at a byte of it unless that is 0.
func (t *table) fail(line, col int, message string) {
	if before := t.text.Line(line); col > 1 && col <= len(before) {
		col = utf8.RuneCountInString(before[:col-1]) + 1
	}
	t.list.Add(diag.Diagnostic{Code: "swap-table", Severity: diag.Error, Span: t.text.Span(line, max(col, 1), 1), Message: message})
}

// readHeads checks the columns. A column without a head must be empty.
func (t *table) readHeads(heads []string) bool {
	line, _ := t.csv.FieldPos(0)
	for i, h := range heads {
		_, col := t.csv.FieldPos(i)
		h = strings.ToLower(strings.TrimSpace(h))
		if use, key, isPart := strings.Cut(strings.TrimSpace(heads[i]), "."); isPart {
			h = use + "." + strings.ToLower(key)
		}
		switch {
		case !isHead(h):
			d := diag.Nearest(h, plainHeads)
			t.fail(line, col, fmt.Sprintf("%q is no head: write %s, or part.key with the keys %s", h, strings.Join(plainHeads, ", "), strings.Join(keys, ", ")))
			t.list[len(t.list)-1].Hint = d
		case h != "" && slices.Contains(t.heads, h):
			t.fail(line, col, fmt.Sprintf("the head %q stands twice", h))
		}
		t.heads = append(t.heads, h)
	}
	if !slices.Contains(t.heads, "name") {
		t.fail(line, 0, "the table needs a column with the head name")
	}
	return !t.list.HasErrors()
}

func isHead(h string) bool {
	use, key, isPart := strings.Cut(h, ".")
	return h == "" || slices.Contains(plainHeads, h) || isPart && use != "" && slices.Contains(keys, key)
}

// row reads one row; false for one that is empty or cannot be read.
func (t *table) row(fields []string, err error) (Row, bool) {
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		t.fail(bad.StartLine, bad.Column, "this row cannot be read: "+bad.Err.Error())
		return Row{}, false
	}
	line, _ := t.csv.FieldPos(0)
	row := Row{Line: line}
	empty := true
	for i, f := range fields {
		_, col := t.csv.FieldPos(i)
		f = strings.TrimSpace(f)
		switch {
		case f == "":
			continue
		case i >= len(t.heads) || t.heads[i] == "":
			t.fail(line, col, fmt.Sprintf("%q stands in a column without a head", f))
			return Row{}, false
		case !utf8.ValidString(f) || strings.ContainsFunc(f, unicode.IsControl):
			t.fail(line, col, fmt.Sprintf("what stands under %s is not plain text in UTF-8: save the table as CSV in UTF-8", t.heads[i]))
			return Row{}, false
		}
		empty = false
		row.set(t.heads[i], f)
	}
	return row, !empty && t.named(&row, len(fields))
}

// named checks that a row has a name of its own.
func (t *table) named(row *Row, fields int) bool {
	col := 0
	if at := slices.Index(t.heads, "name"); at < fields {
		_, col = t.csv.FieldPos(at)
	}
	switch before, twice := t.seen[strings.ToLower(row.Name)]; {
	case !isFileName(row.Name):
		t.fail(row.Line, col, fmt.Sprintf("%q cannot name a file: write letters, digits, - and _", row.Name))
		return false
	case twice:
		t.fail(row.Line, col, fmt.Sprintf("the name %q stands on line %d already", row.Name, before))
		return false
	}
	t.seen[strings.ToLower(row.Name)] = row.Line
	return true
}

// set takes one field.
func (r *Row) set(head, value string) {
	switch head {
	case "name":
		r.Name = value
	case "for":
		r.For = value
	case "title":
		r.Request.Title = value
	case "hand":
		r.Request.Hand = value
	default:
		use, key, _ := strings.Cut(head, ".")
		*r.Request.change(use).field(key) = value
	}
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

// isFileName reports whether a name is one for files everywhere: letters of any
// script, digits, and marks in the middle.
func isFileName(s string) bool {
	return s != "" && s[0] != '-' && !strings.ContainsFunc(s, func(r rune) bool {
		return r != '-' && r != '_' && !unicode.In(r, unicode.L, unicode.M, unicode.Nd)
	})
}
