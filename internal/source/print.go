package source

import (
	"slices"
	"strings"
)

// printer makes lines of pieces.
type printer struct {
	width  int
	lines  []line
	groups int
}

// group numbers the lines of one map or list: only they are aligned.
func (p *printer) group() int {
	p.groups++
	return p.groups
}

// emit adds a line; no blank line stands right below a line that opens a map
// or list.
func (p *printer) emit(l line) {
	if n := len(p.lines); n > 0 && p.lines[n-1].opens {
		l.blank = false
	}
	p.lines = append(p.lines, l)
}

// notes prints comments on lines of their own.
func (p *printer) notes(notes []note, indent int) {
	for _, n := range notes {
		p.emit(line{indent: indent, text: n.text, blank: n.blank})
	}
}

// top prints the whole tree; apart keeps a blank line between the file's own
// comments and it.
func (p *printer) top(top *piece, apart bool) {
	if len(top.kids) == 0 {
		p.emit(line{text: emptyText(top.kind), blank: apart})
		p.notes(top.tail, 0)
		return
	}
	for _, k := range top.kids {
		p.measure(top, k, 0)
	}
	start := len(p.lines)
	p.entries(top, 0, "", p.group(), "")
	p.lines[start].blank = p.lines[start].blank || apart
}

// measure settles what is printed on one line.
func (p *printer) measure(parent, k *piece, indent int) {
	switch {
	case k.raw != nil:
		k.block = true
	case k.kind == Null:
		k.line = k.value
	case k.kind == Scalar:
		k.line = scalarText(k.value, k.style, false)
	case len(k.kids) == 0:
		k.line = emptyText(k.kind)
	default:
		room := p.width - indent - columns(k.head()) - parent.padding(k) - 1
		if k.line = k.flowText(room); k.line != "" {
			return
		}
		k.block = true
		for _, kid := range k.kids {
			p.measure(k, kid, indent+2)
		}
	}
}

// head is what stands in front of a piece's value.
func (k *piece) head() string {
	if k.named {
		return k.key + ":"
	}
	return "-"
}

// padding is the most that aligning may put between a kid's key and value.
func (p *piece) padding(k *piece) int {
	if !p.layout.Align {
		return 0
	}
	if p.widest == 0 {
		for _, kid := range p.kids {
			p.widest = max(p.widest, columns(kid.head()))
		}
	}
	return min(keySpread, p.widest-columns(k.head()))
}

func emptyText(kind Kind) string {
	if kind == Mapping {
		return "{}"
	}
	return "[]"
}

// entries prints the kids of a map or list. The prefix, dashes of the lists
// that it is the first item of, stands in front of the first line; column is
// the token to align that line at.
func (p *printer) entries(parent *piece, indent int, prefix string, group int, column string) {
	if column == "" {
		column = parent.layout.Column
	}
	for i, k := range parent.kids {
		notes, blank := parent.spaced(k, i)
		if prefix == "" {
			p.notes(notes, indent)
		}
		p.entry(parent, k, indent, prefix, group, column, blank)
		prefix = ""
	}
	p.notes(parent.tail, indent)
}

// spaced gives the comments above a kid, and whether a blank line stands
// between them and the kid, by the layout's rule for blank lines.
func (p *piece) spaced(k *piece, i int) (notes []note, blank bool) {
	notes, blank = slices.Clone(k.lead), k.blank
	first := &blank
	if len(notes) > 0 {
		first = &notes[0].blank
	}
	switch p.layout.Blank {
	case NoBlank:
		for n := range notes {
			notes[n].blank = false
		}
		blank = false
	case EachBlank:
		*first = *first || i > 0
	}
	return notes, blank
}

// opens reports whether a piece is a key with a block of entries below it.
func (k *piece) opens() bool { return k.named && k.block && k.raw == nil }

// entry prints one kid without the comments above it.
func (p *printer) entry(parent, k *piece, indent int, prefix string, group int, column string, blank bool) {
	l := line{indent: indent - len(prefix), text: prefix + k.head(), group: group, blank: blank}
	switch {
	case k.raw != nil:
		l.text += " " + k.raw[0]
		p.emit(l)
		for _, text := range k.raw[1:] {
			p.emit(line{indent: indent + 2, text: text, raw: true})
		}
	case k.opens():
		p.open(k, l, indent)
	case k.block:
		p.item(k, l, indent, prefix, column)
	default:
		l.setValue(parent, k, column)
		for _, n := range k.trail {
			l.note = n.text
		}
		p.emit(l)
	}
}

// open prints a key and the block below it.
func (p *printer) open(k *piece, l line, indent int) {
	if len(k.after) > 0 {
		l.note = k.after[0].text
	}
	l.opens = true
	p.emit(l)
	p.entries(k, indent+2, "", p.group(), "")
	p.notes(k.trail, indent+2)
}

// item prints an item of a list that is itself a block, from the dash's line on.
func (p *printer) item(k *piece, dash line, indent int, prefix, column string) {
	group := p.group()
	if len(k.kids) > 1 || k.kind == Sequence {
		column = ""
	} else if column != "" {
		group = dash.group
	}
	start := len(p.lines)
	p.entries(k, indent+2, prefix+"- ", group, column)
	p.lines[start].blank = dash.blank && !p.afterOpening(start)
	p.notes(k.trail, indent+2)
}

func (p *printer) afterOpening(at int) bool { return at > 0 && p.lines[at-1].opens }

// flowText is a map or list on one line, or "" when that takes more room than
// there is, its layout is a block, or something in it needs lines.
func (k *piece) flowText(room int) string {
	if len(k.after) > 0 || k.layout.Flow == Block || k.layout.Flow == AsWritten && k.style != flow {
		return ""
	}
	text, ok := k.inFlow(room)
	if !ok || columns(text) > room {
		return ""
	}
	return text
}

// inFlow is a piece inside {…} or […].
func (k *piece) inFlow(room int) (text string, ok bool) {
	switch {
	case k.raw != nil || len(k.tail) > 0:
		return "", false
	case k.kind == Null:
		return k.value, true
	case k.kind == Scalar:
		return scalarText(k.value, k.style, true), true
	}
	var b strings.Builder
	for i, kid := range k.kids {
		text, ok := kid.inFlow(room)
		if !ok || kid.hasNotes() || !kid.named && text == "" || b.Len() > 4*room {
			return "", false
		}
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(kid.keyInFlow(text))
	}
	if k.kind == Mapping {
		return "{" + b.String() + "}", true
	}
	return "[" + b.String() + "]", true
}

func (k *piece) hasNotes() bool { return len(k.lead)+len(k.after)+len(k.trail) > 0 }

// keyInFlow puts a kid's key in front of its text; a key with no value stands
// alone.
func (k *piece) keyInFlow(text string) string {
	switch {
	case !k.named:
		return text
	case text == "":
		return k.flowKey
	}
	return k.flowKey + ": " + text
}
