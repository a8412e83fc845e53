package sheet

import (
	"fmt"

	"loomwright/internal/scene"
)

// Margins of a page in mm.
const (
	marginSide   = 15.0
	marginTop    = 14.0
	marginBottom = 17.0
	blockGap     = 2.6
)

// chunk is what stays together on a page.
type chunk struct {
	height  float64
	before  float64 // gap above, but at the top of a page
	paint   func(at scene.Point) []scene.Item
	newPage bool
	keep    bool         // not parted from the next
	page    *scene.Scene // a whole page of its own
	again   *chunk       // set at the top of the next page before what continues (a table's heads)
	inTable bool         // continues under again
}

// flow fills pages with chunks.
type flow struct {
	paper scene.Size
	pages []scene.Scene
	items []scene.Item
	y     float64
	heads *chunk
}

// width is that of the text on the page.
func (f *flow) width() float64 { return f.paper.Width - 2*marginSide }

func (f *flow) bottom() float64 { return f.paper.Height - marginBottom }

// pagesOf lays a document out on paper.
func pagesOf(d *Document, paper scene.Size) []scene.Scene {
	f := &flow{paper: paper, y: marginTop}
	var all []chunk
	for _, b := range d.Blocks {
		all = append(all, f.chunks(b)...)
	}
	for i := range all {
		f.put(all, i)
	}
	f.end()
	f.feet(d)
	return f.pages
}

// put sets one chunk, on the next page where this one is full.
func (f *flow) put(all []chunk, i int) {
	c := &all[i]
	if c.page != nil {
		f.end()
		f.pages = append(f.pages, *c.page)
		return
	}
	if c.newPage || f.y+f.gap(c)+f.together(all, i) > f.bottom() {
		f.end()
	}
	if len(f.items) == 0 && c.inTable && f.heads != nil {
		f.set(f.heads)
	}
	f.set(c)
	f.heads = c.again
}

func (f *flow) set(c *chunk) {
	f.y += f.gap(c)
	f.items = append(f.items, c.paint(scene.Pt(marginSide, f.y))...)
	f.y += c.height
}

func (f *flow) gap(c *chunk) float64 {
	if len(f.items) == 0 {
		return 0
	}
	return c.before
}

// together is the height of a chunk with what it must not be parted from.
func (f *flow) together(all []chunk, i int) float64 {
	h := all[i].height
	for all[i].keep && i+1 < len(all) && all[i+1].page == nil && !all[i+1].newPage {
		i++
		h += all[i].before + all[i].height
	}
	return min(h, f.bottom()-marginTop)
}

// end closes the page, if anything is on it.
func (f *flow) end() {
	if len(f.items) > 0 {
		f.pages = append(f.pages, scene.Scene{Width: f.paper.Width, Height: f.paper.Height, Items: f.items})
	}
	f.items, f.y = nil, marginTop
}

// feet writes the foot of every page, now that their number is known. A page
// that came whole has a foot of its own: it gets its number alone.
func (f *flow) feet(d *Document) {
	for i := range f.pages {
		p := &f.pages[i]
		number := fmt.Sprintf("%d / %d", i+1, len(f.pages))
		if p.Title != "" {
			at := scene.Pt(p.Width-9, p.Height-4)
			p.Items = append(p.Items, scene.Text{At: at, Content: number, Size: 2.5, Anchor: scene.End, Style: scene.Bold, Color: soft})
			continue
		}
		p.Title = fmt.Sprintf("%s, page %d", d.Title, i+1)
		y := p.Height - 8.6
		p.Items = append(p.Items, scene.Group{Class: "foot", Items: []scene.Item{
			scene.Path{Outline: scene.Segment(scene.Pt(marginSide, y-3.4), scene.Pt(p.Width-marginSide, y-3.4)), Stroke: scene.Stroke{Color: rule, Width: 0.2}},
			scene.Text{At: scene.Pt(marginSide, y), Content: d.Footer, Size: 2.3, Color: soft},
			scene.Text{At: scene.Pt(p.Width-marginSide, y), Content: number, Size: 2.5, Anchor: scene.End, Style: scene.Bold, Color: soft},
		}})
	}
}
