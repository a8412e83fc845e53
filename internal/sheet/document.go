// Package sheet puts a proved and drawn loom on paper: one content model, laid
// out as PDF pages or written as HTML. A customer can solder from it.
package sheet

import "loomwright/internal/scene"

// Document is the content of a sheet, the same for paper and screen.
type Document struct {
	Title  string
	Lang   string // BCP 47
	Footer string // at the foot of every page
	Blocks []Block
}

// Block is one piece of a document. Texts may set **bold** words apart.
type Block interface{ block() }

// Head is the top of the first page.
type Head struct {
	Title string
	Lines []string
	Code  *Code
}

// Code is the place for a QR code: the code of Link, or an empty place.
type Code struct {
	Link   string // "": an empty place
	Says   string // what it leads to
	Square scene.Outline
	Size   float64 // mm, with its quiet zone
}

// Heading starts a part of the sheet. Level 1 is the largest.
type Heading struct {
	Text    string
	Level   int
	NewPage bool // on paper
}

// Paragraph is running text.
type Paragraph struct {
	Text  string
	Small bool
	Keep  bool // on the page of what follows
}

// List is points to read, or to tick off.
type List struct {
	Items []string
	Ticks bool
}

// Table has rows under heads. Shares are the columns' widths, relative.
type Table struct {
	Name   string // for screen readers
	Heads  []string
	Shares []float64
	Rows   [][]Cell
}

// Cell is a field of a table: a picture above words, or a box to tick.
type Cell struct {
	Text  string
	Scene *scene.Scene
	Tick  bool
	Bold  bool
}

// Figure is a picture, no larger than Width × Height mm; 0: as wide as the page.
type Figure struct {
	Scene         scene.Scene
	Width, Height float64
	Exact         bool // true to size on paper: never scaled
	Caption       string
}

// Step is one solder step, or several that are one piece of work.
type Step struct {
	Number int
	To     int // number of the last of several; 0: one step
	Do     string
	Notes  []string
	Good   string
	Views  []scene.Scene // close-ups
	Last   bool          // of its stage: a reading follows
}

// Reading is a slot for what the meter shows: readings to take, or a line to
// write on.
type Reading struct {
	Title string
	Takes []Take
}

// Take is one reading to take.
type Take struct {
	Stand  string // where switches and knobs stand; "": it does not matter
	Do     string
	Right  string // what a right loom shows
	Before bool   // taken before the stage is soldered, on the loose part
}

// Page is a whole page on paper, made for its size; a figure on a screen.
type Page struct {
	Name  string
	Exact bool // true to size on paper
	Scene func(paper scene.Size) scene.Scene
}

func (Head) block()      {}
func (Heading) block()   {}
func (Paragraph) block() {}
func (List) block()      {}
func (Table) block()     {}
func (Figure) block()    {}
func (Step) block()      {}
func (Reading) block()   {}
func (Page) block()      {}
