package source

import (
	"slices"
	"strings"
)

// note is a comment on its way to the printed file.
type note struct {
	text   string
	inline bool // it stood behind something on its line
	blank  bool // a blank line stood above it
}

// piece is a node as it will be printed, with the comments that belong to it.
type piece struct {
	key     string // printed, with quotes where needed; "" in a list
	named   bool   // it has a key
	name    string // the key's text
	flowKey string // the key as printed in {…}
	widest  int    // columns of the widest head of its kids, once asked for
	value   string
	style   style
	kind    Kind
	raw     []string // lines of a literal or folded text
	kids    []*piece
	layout  Layout
	lead    []note // above it
	after   []note // between its key, or dash, and its value
	trail   []note // behind it, on its line: one at most
	tail    []note // below the last of its kids
	blank   bool   // a blank line stood above it
	line    string // all of it on one line, when block is false
	block   bool   // it is printed on several lines
}

// builder makes pieces of nodes. Each comment is taken once, in the order of
// the text, by the first place that it can belong to.
type builder struct {
	doc      *Document
	style    Style
	comments []comment // not yet taken
	pushed   []note    // taken inside {} or [], to be taken by what comes next
	path     []string
}

// document returns the comments of the file as a whole (those above a blank
// line at its head), and the top piece.
func (b *builder) document() (head []note, top *piece) {
	root := b.doc.root
	if root == nil {
		return b.before(len(b.doc.Text.Data)), nil
	}
	first := root.at
	if len(root.children) > 0 {
		first = root.children[0].start()
	}
	above := b.before(first.off)
	end := place{off: len(b.doc.Text.Data), line: 1 << 60}
	top = &piece{}
	b.fill(top, root, end, 0)
	top.tail = append(top.tail, b.before(end.off)...)
	if len(root.children) == 0 {
		return above, top
	}
	cut := headLength(above, top.kids[0].blank)
	top.kids[0].lead = append(above[cut:], top.kids[0].lead...)
	b.order(top)
	return above[:cut], top
}

// headLength is how many of the comments above the first entry stand above a
// blank line.
func headLength(above []note, blank bool) int {
	if blank {
		return len(above)
	}
	for i := len(above) - 1; i > 0; i-- {
		if above[i].blank {
			return i
		}
	}
	return 0
}

// before takes the comments in front of an offset.
func (b *builder) before(off int) []note {
	n := 0
	for n < len(b.comments) && b.comments[n].at.off < off {
		n++
	}
	return b.take(n)
}

// take takes what was pushed back and the next n comments.
func (b *builder) take(n int) []note {
	notes := b.pushed
	b.pushed = nil
	for _, c := range b.comments[:n] {
		line := b.doc.Text.Line(c.at.line)
		own := strings.TrimLeft(line, " \t"+byteOrderMark)
		inline := !strings.HasPrefix(own, "#")
		notes = append(notes, note{text: c.text, inline: inline, blank: !inline && b.blankAbove(c.at.line)})
	}
	b.comments = b.comments[n:]
	return notes
}

func (b *builder) blankAbove(line int) bool {
	return line > 1 && strings.TrimSpace(b.doc.Text.Line(line-1)) == ""
}

// behind takes the comment that stands behind a place on its line.
func (b *builder) behind(at place, limit place) []note {
	if len(b.pushed) > 0 || len(b.comments) == 0 || b.comments[0].at.line != at.line || b.comments[0].at.off >= limit.off {
		return nil
	}
	return b.take(1)
}

// below takes the comments below the last child of a block that are indented
// at least as far as its children, up to the next node.
func (b *builder) below(col int, limit place) []note {
	n := 0
	for n < len(b.comments) && b.comments[n].at.off < limit.off && b.comments[n].at.col >= col {
		n++
	}
	return b.take(n)
}

// fill makes a piece of a node; limit is where the next node starts, above the
// column of the block around it.
func (b *builder) fill(p *piece, n *node, limit place, above int) {
	p.kind, p.style, p.value, p.layout = n.kind, n.style, n.value, b.style.at(b.path)
	switch {
	case n.kind == Scalar && (p.style == literal || p.style == folded):
		p.hoist(b.before(n.end.off))
		p.setBlock(b.doc.Text.Data[n.at.off:n.end.off], n.indent)
	case n.kind == Scalar && p.layout.Text != nil:
		p.value = p.layout.Text(p.value)
	case n.kind == Mapping || n.kind == Sequence:
		b.kids(p, n, limit)
		if n.style == flow {
			p.tail = b.before(n.end.off)
		} else if col := n.at.col; col > above {
			p.tail = b.below(col, limit)
		} else {
			p.tail = b.below(col+1, limit)
		}
		if len(b.path) > 0 {
			b.order(p)
		}
	}
}

func (b *builder) kids(p *piece, n *node, limit place) {
	p.kids = make([]*piece, len(n.children))
	for i, c := range n.children {
		next := limit
		switch {
		case i+1 < len(n.children):
			next = n.children[i+1].start()
		case n.style == flow:
			next = n.end
		}
		p.kids[i] = b.kid(p, c, next, n.at.col)
	}
}

// kid makes the piece of one child.
func (b *builder) kid(parent *piece, c child, next place, above int) *piece {
	start := c.start()
	k := &piece{lead: b.before(start.off), blank: b.blankAbove(start.line)}
	name := "[]"
	if c.key != nil {
		k.named, k.name, name = true, c.key.value, c.key.value
		if parent.layout.KeyText != nil {
			k.name = parent.layout.KeyText(k.name)
		}
		k.key, k.flowKey = scalarText(k.name, c.key.style, false), scalarText(k.name, c.key.style, true)
		if len(c.value.children) > 0 {
			k.after = b.behind(c.key.end, c.value.at)
		} else {
			k.hoist(b.before(c.value.at.off))
		}
	}
	b.path = append(b.path, name)
	b.fill(k, c.value, next, above)
	b.path = b.path[:len(b.path)-1]
	if k.trail = b.behind(c.value.end, next); len(k.kids) == 0 && len(k.tail) > 0 {
		inside := append(k.tail, k.trail...)
		k.trail, k.tail, b.pushed = inside[:1], nil, inside[1:]
	}
	if !k.named && len(k.kids) > 0 {
		k.hoist(k.kids[0].lead)
		k.kids[0].lead = nil
	}
	return k
}

// hoist moves comments that stand between a key, or dash, and what is printed
// on its line to the lines above it.
func (p *piece) hoist(notes []note) {
	if len(notes) > 0 {
		p.lead = append(p.lead, notes...)
		p.lead[len(p.lead)-len(notes)].blank, p.blank = p.blank, false
	}
}

// order puts the kids in the order of the layout's keys.
func (b *builder) order(p *piece) {
	rank := func(k *piece) int {
		if i := slices.Index(p.layout.Keys, k.name); i >= 0 {
			return i
		}
		return len(p.layout.Keys)
	}
	if p.kind == Mapping && len(p.layout.Keys) > 0 {
		slices.SortStableFunc(p.kids, func(a, b *piece) int { return rank(a) - rank(b) })
	}
}
