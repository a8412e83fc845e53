package synthesis

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/source"
)

// Join is one line of a loom file's joins: a run, or several to one place.
type Join struct {
	From    []string `json:"from"`
	To      string   `json:"to"`
	Options string   `json:"options,omitempty"`
}

// String is the join as a loom file has it.
func (j Join) String() string {
	s := strings.Join(j.From, ", ") + " -- " + j.To
	if j.Options != "" {
		s += ": " + j.Options
	}
	return s
}

// lines groups the task's runs: the leads of one pickup that go to one place
// share a line.
func (t *task) lines() []Join {
	var out []Join
	var uses []int
	for _, r := range t.runs {
		a, b := r.a, r.b
		if t.isLug(a) && !t.isLug(b) {
			a, b = b, a
		}
		from, to := t.g.Terms[a].Name, t.g.Terms[b].Name
		i := slices.IndexFunc(out, func(j Join) bool { return j.To == to && j.Options == r.options })
		if i >= 0 && !t.isLug(a) && uses[i] == t.g.Terms[a].Use {
			out[i].From = append(out[i].From, from)
			continue
		}
		out = append(out, Join{[]string{from}, to, r.options})
		use := -1
		if !t.isLug(a) {
			use = t.g.Terms[a].Use
		}
		uses = append(uses, use)
	}
	return out
}

// Write returns the loom file with joins added, in the canonical layout, with
// all comments kept.
func Write(doc *source.Document, joins []Join) string {
	var lines []string
	for _, j := range joins {
		lines = append(lines, "  - "+j.String())
	}
	text := insert(doc, lines)
	parsed, list := source.Parse(diag.NewText(doc.Text.Name, text))
	if list.HasErrors() {
		return text
	}
	return source.Format(parsed, loom.Layout())
}

// insert puts lines behind the last join of a file, or makes a list of joins.
func insert(doc *source.Document, lines []string) string {
	if len(lines) == 0 {
		return doc.Text.Data
	}
	rows := strings.Split(strings.TrimSuffix(doc.Text.Data, "\n"), "\n")
	for _, e := range doc.Root().Entries() {
		if e.Key.Value != "joins" {
			continue
		}
		items := e.Value.Items()
		if n := len(items); n > 0 && items[n-1].Span().End.Line > e.Key.Span.Start.Line {
			at := items[n-1].Span().End.Line
			return strings.Join(slices.Insert(rows, at, lines...), "\n") + "\n"
		}
		for _, item := range items { // a flow list on one line: written out anew
			lines = slices.Insert(lines, 0, "  - "+item.Scalar().Value)
		}
		from, to := e.Key.Span.Start.Line-1, e.Value.Span().End.Line
		comment := commentOf(rows[to-1])
		block := append([]string{"joins:" + comment}, lines...)
		return strings.Join(slices.Replace(rows, from, to, block...), "\n") + "\n"
	}
	return strings.Join(append(append(rows, "joins:"), lines...), "\n") + "\n"
}

// commentOf is the comment at the end of a line that holds an empty list.
func commentOf(row string) string {
	if i := strings.Index(row, " #"); i >= 0 {
		return row[i:]
	}
	return ""
}
