package bench

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/source"
)

// Field is one key of a part with its value as the file has it; without a value
// the key goes.
type Field struct{ Key, Value string }

// SetPart writes one value of a part: "is", "code", "track", "value" and so on.
// An empty value takes the key away. The error is in a user's words.
func (b *Bench) SetPart(name, data, use, key, value string) (string, error) {
	if strings.ContainsAny(value, "{}[]\"'\n#,:") {
		return "", fmt.Errorf("%q cannot be a value here", value)
	}
	return b.setFields(name, data, use, []Field{{key, value}})
}

// Know writes what a meter told of a pickup's leads in place of its lead code.
func (b *Bench) Know(name, data, use string, n *LeadNotes) (string, error) {
	if n == nil {
		return "", fmt.Errorf("nothing is known of these leads")
	}
	return b.setFields(name, data, use, append(n.fields(), Field{"code", ""}))
}

// Own writes a part file into a loom, as id, and puts the part in the place of
// one of the loom.
func (b *Bench) Own(name, data, use, id, file string) (string, error) {
	entry := ownEntry(id, file)
	lines := strings.SplitAfter(data, "\n")
	at := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "own:") })
	if at < 0 {
		entry = "own:\n" + entry
		at = slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "parts:") }) - 1
	}
	if at < -1 {
		return "", fmt.Errorf("this loom has no parts")
	}
	return b.setFields(name, strings.Join(slices.Insert(lines, at+1, entry), ""), use, []Field{{"is", id}})
}

// ownEntry is a part file below its id.
func ownEntry(id, file string) string {
	return "  " + yamlWord(id) + ":\n    " + strings.ReplaceAll(strings.TrimSpace(file), "\n", "\n    ") + "\n"
}

// setFields writes fields of one part, one after another; the others stay.
func (b *Bench) setFields(name, data, use string, set []Field) (string, error) {
	for _, f := range set {
		doc, list := source.Parse(diag.NewText(name, data))
		if list.HasErrors() {
			return "", fmt.Errorf("the loom cannot be read as it stands: mend it in the text first")
		}
		node, ok := partEntry(doc, use)
		if !ok {
			return "", fmt.Errorf("this loom has no part %q", use)
		}
		data = withField(data, node, f)
	}
	out, list := b.Format(name, data)
	if list.HasErrors() {
		return "", fmt.Errorf("that value cannot be written here")
	}
	return out, nil
}

// partEntry finds a part of a loom file.
func partEntry(doc *source.Document, use string) (source.Node, bool) {
	for _, top := range doc.Root().Entries() {
		if top.Key.Value != "parts" {
			continue
		}
		for _, e := range top.Value.Entries() {
			if e.Key.Value == use && len(e.Value.Entries()) > 0 {
				return e.Value, true
			}
		}
	}
	return source.Node{}, false
}

// withField writes, adds or takes away one field of a part in the text.
func withField(data string, part source.Node, f Field) string {
	entries := part.Entries()
	at := slices.IndexFunc(entries, func(e source.Entry[source.Node]) bool { return e.Key.Value == f.Key })
	first := offset(data, entries[0].Key.Span.Start)
	switch {
	case at >= 0 && f.Value != "":
		return data[:offset(data, entries[at].Key.Span.End)] + ": " + f.Value + data[offset(data, entries[at].Value.Span().End):]
	case at >= 0 && at+1 < len(entries):
		return data[:offset(data, entries[at].Key.Span.Start)] + data[offset(data, entries[at+1].Key.Span.Start):]
	case at > 0:
		return data[:offset(data, entries[at-1].Value.Span().End)] + data[offset(data, entries[at].Value.Span().End):]
	case f.Value == "":
		return data
	case data[offset(data, part.Span().Start)] == '{':
		return data[:first] + f.Key + ": " + f.Value + ", " + data[first:]
	}
	return data[:first] + f.Key + ": " + f.Value + "\n" + strings.Repeat(" ", entries[0].Key.Span.Start.Col-1) + data[first:]
}

// offset is the byte of a position in a text; columns count runes from 1.
func offset(data string, at diag.Pos) int {
	start := 0
	for range at.Line - 1 {
		start += strings.IndexByte(data[start:], '\n') + 1
	}
	for i := range data[start:] {
		if at.Col--; at.Col < 1 {
			return start + i
		}
	}
	return len(data)
}

// LeadNotes are what is known of a pickup's leads, as a loom file takes it.
type LeadNotes struct {
	Leads  []LeadEnd         `json:"leads"`
	Inside [][]string        `json:"inside,omitempty"` // coil ends joined inside the pickup
	Ohms   map[string]string `json:"ohms,omitempty"`   // by coil
	Pole   map[string]string `json:"pole,omitempty"`   // by coil, where a compass told
}

// LeadEnd is one lead and the coil ends that it is; none: unknown.
type LeadEnd struct {
	Lead string   `json:"lead"`
	Ends []string `json:"ends"`
}

// fields are the keys of a part that say it.
func (n *LeadNotes) fields() []Field {
	var leads, inside []string
	for _, l := range n.Leads {
		ends := "unknown"
		switch len(l.Ends) {
		case 0:
		case 1:
			ends = yamlWord(l.Ends[0])
		default:
			ends = yamlList(l.Ends)
		}
		leads = append(leads, yamlWord(l.Lead)+": "+ends)
	}
	for _, group := range n.Inside {
		inside = append(inside, yamlList(group))
	}
	out := []Field{{"leads", flow("{}", leads)}, {"inside", flow("[]", inside)}, {"ohms", byCoil(n.Ohms)}}
	if len(n.Pole) > 0 {
		out = append(out, Field{"pole", byCoil(n.Pole)})
	}
	return out
}

func byCoil(values map[string]string) string {
	var out []string
	for coil, v := range values {
		out = append(out, yamlWord(coil)+": "+yamlWord(v))
	}
	slices.Sort(out)
	return flow("{}", out)
}

func yamlList(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = yamlWord(w)
	}
	return flow("[]", out)
}

// flow writes a list or map on one line; "" where it has nothing in it.
func flow(brackets string, items []string) string {
	if len(items) == 0 {
		return ""
	}
	return brackets[:1] + strings.Join(items, ", ") + brackets[1:]
}

// yamlWord is a text that YAML takes as one anywhere; the layout takes needless
// quotes away.
func yamlWord(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", " ", "\t", " ").Replace(s) + `"`
}
