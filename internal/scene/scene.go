// Package scene is a drawing as a list of shapes and words, in millimetres,
// x to the right and y down the page. The packages svg, png and pdf paint the
// same scene. Everything is a value: painters change nothing, and the same
// scene gives the same bytes.
package scene

//go:generate go run gen_metrics.go

// Scene is one drawing or one page. Items are painted in order, later ones on
// top, on paper (white, or nothing where the painter can leave it open).
type Scene struct {
	Width, Height float64 // mm
	Title, Desc   string  // what a screen reader says: short name, long text
	Items         []Item
}

// Item is a Path, a Text or a Group.
type Item interface {
	// Bounds is the box of all that is painted, in the coordinates of the list
	// the item stands in.
	Bounds() Rect
	item()
}

// Path is an outline, filled first and stroked on top. Fills follow the
// non-zero winding rule; open pieces are filled as if closed.
type Path struct {
	Class   string // words for a page's style sheet
	Outline Outline
	Fill    Color
	Stroke  Stroke
}

// Stroke is a pen: centred on the outline, Width mm wide.
type Stroke struct {
	Color Color
	Width float64   // mm; 0 paints nothing
	Dash  []float64 // mm on, off, on …; an odd count is gone through twice; none: solid
	Phase float64   // mm into the pattern at which a piece starts
	Cap   Cap
	Join  Join
}

// Cap is the end of an open piece and of each dash.
type Cap int

// The ends: cut at the end point, a half disc beyond it, half a width beyond it.
const (
	Butt Cap = iota
	RoundCap
	Square
)

// Join is the outer corner between two segments.
type Join int

// The corners. A mitre longer than MiterLimit widths is bevelled.
const (
	Miter Join = iota
	RoundJoin
	Bevel
)

// MiterLimit is the longest mitre in stroke widths, the initial value of SVG 2
// (13.5.4, stroke-miterlimit).
const MiterLimit = 4

// Anchor says which point of a text's width stands at Text.At.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Baseline says which height of a text stands at Text.At.
type Baseline int

// The baselines: the letters' foot, the middle of the capitals, their top.
const (
	Alphabetic Baseline = iota
	Central
	CapTop
)

// Text is one line of words. It is never mirrored: in a mirrored group it
// covers the mirrored place and stays readable.
type Text struct {
	Class    string
	At       Point
	Content  string
	Size     float64 // the em in mm: capitals are 0.72 of it high; 1 pt is 0.3528 mm
	Style    Style
	Anchor   Anchor
	Baseline Baseline
	Turn     float64 // degrees clockwise about At
	Color    Color
	Halo     Halo
}

// Halo is an outline behind the letters, Width mm beyond their edge.
type Halo struct {
	Color Color
	Width float64
}

// Group is items that belong together: a part, a wire, a terminal.
type Group struct {
	ID          string // unique in the scene; XML name characters
	Class       string
	Title, Desc string            // accessible name, long text
	Link        string            // http, https, mailto, or #id
	Data        map[string]string // data-* attributes for a page's script
	Place       Transform
	Clip        Rect    // in the group's own coordinates; zero: none
	Fade        float64 // 0 as drawn … 1 paper: how far every colour is mixed with white
	Items       []Item
}

func (Path) item()  {}
func (Text) item()  {}
func (Group) item() {}

// Size is a sheet of paper in mm.
type Size struct{ Width, Height float64 }

// Paper sizes, upright: ISO 216 A4, and Letter of ANSI/ASME Y14.1 (8.5 by 11 in).
var (
	A4     = Size{210, 297}
	Letter = Size{215.9, 279.4}
)

// Landscape is the sheet lying down.
func (s Size) Landscape() Size { return Size{max(s.Width, s.Height), min(s.Width, s.Height)} }
