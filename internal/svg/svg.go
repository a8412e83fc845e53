// Package svg paints a scene as SVG 1.1 with the few attributes of SVG 2 that
// browsers agree on: text stays text, groups keep their names, 1 user unit is
// 1 mm, and no script, style attribute or outside reference is written.
package svg

import (
	"encoding/base64"
	"maps"
	"slices"
	"strconv"

	"loomwright/internal/scene"
)

// Options choose the form. The zero value is a file that stands alone.
type Options struct {
	// Inline is for putting into a web page: no XML header, no white paper, and
	// the groups with a title are objects to a screen reader, each by its name;
	// a file is one image.
	Inline bool
	// IDPrefix is put before every ID, so that two scenes fit in one page.
	IDPrefix string
	// Fonts are written into the file, so that it looks the same anywhere.
	// Without them the reader's fonts stand in where the Go fonts are missing.
	Fonts []FontFile
	// LockWidths makes words as wide as in the Go fonts whatever font is used,
	// so that none leaves its box.
	LockWidths bool
	// Ink changes every colour: scene.Grey, a colour vision. None: as drawn.
	Ink scene.Ink
}

// FontFile is one face of the Go fonts in TrueType form.
type FontFile struct {
	Style scene.Style
	TTF   []byte
}

// Font stacks: the Go fonts, else what is no wider on common systems.
const (
	sansStack = "Go, 'Noto Sans', 'Segoe UI', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif"
	monoStack = "'Go Mono', 'Noto Sans Mono', Consolas, Menlo, 'Liberation Mono', monospace"
)

// Paint writes the scene as SVG. It fails where scene.Check does.
func Paint(s scene.Scene, o Options) ([]byte, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	p := &painter{Options: o, out: make([]byte, 0, 1024+length(s.Items))}
	p.open(s)
	p.items(s.Items, o.Ink, false)
	p.raw("</svg>\n")
	return p.out, nil
}

// length guesses the bytes that items take, rather too many than too few.
func length(items []scene.Item) int {
	n := 0
	for _, it := range items {
		switch it := it.(type) {
		case scene.Path:
			n += 150 + 40*len(it.Outline)
		case scene.Text:
			n += 200 + len(it.Content)
		case scene.Group:
			n += 200 + len(it.Title) + len(it.Desc) + length(it.Items)
		}
	}
	return n
}

// painter appends to out; its methods are in this file by element.
type painter struct {
	Options
	out   []byte
	clips int
}

func (p *painter) open(s scene.Scene) {
	role := "img"
	if p.Inline {
		role = "graphics-document"
	} else {
		p.raw(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	}
	p.raw(`<svg xmlns="http://www.w3.org/2000/svg" width="`).num(s.Width).raw(`mm" height="`).num(s.Height)
	p.raw(`mm" viewBox="0 0 `).num(s.Width).raw(" ").num(s.Height).raw(`"`)
	p.attr("role", role)
	if s.Title != "" {
		p.attr("aria-labelledby", p.IDPrefix+"_title")
	}
	if s.Desc != "" {
		p.attr("aria-describedby", p.IDPrefix+"_desc")
	}
	p.attr("font-family", sansStack).attr("fill", "none").raw(">\n")
	p.element("title", "_title", s.Title).element("desc", "_desc", s.Desc)
	p.fontFaces()
	if !p.Inline {
		p.raw(`<rect width="`).num(s.Width).raw(`" height="`).num(s.Height).raw(`" fill="#fff"/>` + "\n")
	}
}

func (p *painter) fontFaces() {
	if len(p.Fonts) == 0 {
		return
	}
	p.raw("<style>")
	for _, f := range p.Fonts {
		p.raw("@font-face{font-family:").raw(family(f.Style))
		if f.Style.Bold {
			p.raw(";font-weight:700")
		}
		if f.Style.Italic {
			p.raw(";font-style:italic")
		}
		p.raw(";src:url(data:font/ttf;base64,")
		p.out = base64.StdEncoding.AppendEncode(p.out, f.TTF)
		p.raw(")}")
	}
	p.raw("</style>\n")
}

func family(s scene.Style) string {
	if s.Mono {
		return "'Go Mono'"
	}
	return "Go"
}

func (p *painter) items(items []scene.Item, ink scene.Ink, mirrored bool) {
	for _, it := range items {
		switch it := it.(type) {
		case scene.Path:
			p.path(it, ink)
		case scene.Text:
			p.text(it, ink, mirrored)
		case scene.Group:
			p.group(it, ink, mirrored)
		}
	}
}

func (p *painter) group(g scene.Group, ink scene.Ink, mirrored bool) {
	if g.Link != "" {
		p.raw("<a").attr("href", p.target(g.Link)).raw(">")
	}
	clip := p.clip(g.Clip)
	p.raw("<g")
	if g.ID != "" {
		p.attr("id", p.IDPrefix+g.ID)
	}
	if p.Inline && g.Title != "" {
		p.attr("role", "graphics-object")
	}
	p.class(g.Class)
	for _, key := range slices.Sorted(maps.Keys(g.Data)) {
		p.attr("data-"+key, g.Data[key])
	}
	p.transform(g.Place)
	if clip != "" {
		p.attr("clip-path", "url(#"+clip+")")
	}
	p.raw(">\n").element("title", "", g.Title).element("desc", "", g.Desc)
	p.items(g.Items, g.Ink(ink), mirrored != g.Place.Mirror)
	p.raw("</g>")
	if g.Link != "" {
		p.raw("</a>")
	}
	p.raw("\n")
}

// target puts the prefix into links to the scene's own groups.
func (p *painter) target(link string) string {
	if link[0] == '#' {
		return "#" + p.IDPrefix + link[1:]
	}
	return link
}

// clip writes the clip of a group and returns its ID, or "" for none.
func (p *painter) clip(r scene.Rect) string {
	if r == (scene.Rect{}) {
		return ""
	}
	p.clips++
	id := p.IDPrefix + "_clip" + strconv.Itoa(p.clips)
	p.raw("<clipPath").attr("id", id).raw(`><rect`)
	p.attrNum("x", r.Min.X).attrNum("y", r.Min.Y)
	p.attrNum("width", max(r.Width(), 0)).attrNum("height", max(r.Height(), 0)).raw("/></clipPath>\n")
	return id
}

// transform writes a similarity in the order SVG applies it: last first.
func (p *painter) transform(t scene.Transform) {
	if t == (scene.Transform{}) {
		return
	}
	p.raw(` transform="`)
	if t.Move != (scene.Point{}) {
		p.raw("translate(").point(t.Move).raw(")")
	}
	if t.Turn != 0 {
		p.raw("rotate(").num(t.Turn).raw(")")
	}
	if k := t.Factor(); t.Mirror {
		p.raw("scale(").num(-k).raw(" ").num(k).raw(")")
	} else if k != 1 {
		p.raw("scale(").num(k).raw(")")
	}
	p.raw(`"`)
}
