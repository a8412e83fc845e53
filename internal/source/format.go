package source

import "strings"

// Flow says how a map or list is laid out.
type Flow int

// The layouts of a map or list. One that has comments inside is never put on
// one line.
const (
	AsWritten Flow = iota // flow stays flow while it fits the width, block stays block
	Block                 // one entry a line
	Fit                   // on one line when it fits the width, else block
)

// Blank says what becomes of blank lines between the entries of a map or list.
type Blank int

// The rules for blank lines.
const (
	KeepBlank Blank = iota // at most one where the author had some
	NoBlank
	EachBlank // one between all entries
)

// Layout is how one map, list or scalar is laid out.
type Layout struct {
	Keys    []string            // these keys first, in this order; the others follow as they stand
	Flow    Flow                // of this map or list
	Blank   Blank               // between its entries
	Align   bool                // the values of its one-line entries start in one column
	Column  string              // a token such as "--": aligned over neighbouring items of this list, whose blanks around it may then change
	Text    func(string) string // a scalar's text in normal form; nil: as it is
	KeyText func(string) string // the same for the keys of this map
}

// Style is how a kind of file is laid out.
type Style struct {
	Width  int                        // columns; 0 is 100
	Layout func(path []string) Layout // path: keys from the top, "[]" for a list's item; nil: zero Layout everywhere
}

func (s Style) at(path []string) Layout {
	if s.Layout == nil {
		return Layout{}
	}
	return s.Layout(path)
}

func (s Style) width() int {
	if s.Width == 0 {
		return 100
	}
	return s.Width
}

// Format prints a document in its canonical layout: two columns of indentation,
// quotes only where they are needed, every comment kept once and in order
// (it moves with its entry where keys are put in order). Formatting twice
// changes nothing. A document that Parse found errors in comes back as it is.
func Format(doc *Document, style Style) string {
	if doc.broken {
		return doc.Text.Data
	}
	b := builder{doc: doc, style: style, comments: doc.comments}
	p := printer{width: style.width()}
	head, top := b.document()
	p.notes(head, 0)
	if top != nil {
		p.top(top, len(head) > 0)
	}
	return joinLines(p.lines)
}

// joinLines aligns the lines and puts them together.
func joinLines(lines []line) string {
	alignCells(lines)
	alignComments(lines)
	var b strings.Builder
	for i, l := range lines {
		if l.blank && i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(l.whole())
		b.WriteByte('\n')
	}
	return b.String()
}
