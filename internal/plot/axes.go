package plot

import (
	"math"
	"strconv"

	"loomwright/internal/scene"
)

// axes maps Hz and dB to mm.
type axes struct {
	box        scene.Rect
	from, to   float64 // Hz
	low, high  float64 // dB
	step       float64 // dB between lines
	legendRows int
	unit       string
}

// Sizes in mm.
const (
	left, right = 13.0, 5.0
	top         = 15.0 // heading and notes of the strings
	bottom      = 12.0 // Hz
	keyRow      = 4.6
	small       = 2.7 // em of numbers
	plain       = 3.1 // em of words
)

// spanDB is the least that an axis spans, and mostDB the most.
const (
	spanDB = 24
	mostDB = 60
)

// axes fits the curves: whole steps of dB, at most 60 dB down from the top.
func (p *Plot) axes() *axes {
	a := &axes{from: 20, to: 20e3, step: 6, legendRows: p.keyRows(), unit: p.Unit}
	if a.unit == "" {
		a.unit = "dB"
	}
	a.box = scene.Rect{Min: scene.Pt(left, top), Max: scene.Pt(p.Width-right, p.Height-bottom-keyRow*float64(a.legendRows)-1)}
	lo, hi := math.Inf(1), math.Inf(-1)
	add := func(hz, db []float64) {
		if len(hz) > 0 {
			a.from, a.to = min(a.from, hz[0]), max(a.to, hz[len(hz)-1])
		}
		if l, h := extremes(db); l < h || l != 0 {
			lo, hi = min(lo, l), max(hi, h)
		}
	}
	for _, l := range p.Lines {
		add(l.Hz, l.DB)
	}
	if p.Band != nil {
		add(p.Band.Hz, p.Band.Lo)
		add(p.Band.Hz, p.Band.Hi)
	}
	if lo > hi {
		lo, hi = 0, 0
	}
	a.high = a.step * math.Ceil((hi+3)/a.step) // room for words over a peak
	a.low = max(a.step*math.Floor(lo/a.step), a.high-mostDB)
	a.low = min(a.low, a.high-spanDB)
	return a
}

// x and y are the places of a frequency and a level.
func (a *axes) x(hz float64) float64 {
	return a.box.Min.X + a.box.Width()*math.Log(hz/a.from)/math.Log(a.to/a.from)
}

// far keeps a point that is far below the axis on the page.
const far = 60

func (a *axes) y(db float64) float64 {
	db = min(max(db, a.low-far), a.high+far)
	return a.box.Max.Y - a.box.Height()*(db-a.low)/(a.high-a.low)
}

// strings are the open strings in standard tuning, from E2 (A4 = 440 Hz).
var strings6 = []struct {
	name string
	hz   float64
}{{"E", 82.41}, {"A", 110}, {"D", 146.83}, {"G", 196}, {"B", 246.94}, {"E", 329.63}}

var (
	ink     = scene.RGB(0x2b2f33)
	faint   = scene.RGB(0x6a7076)
	lineOf1 = scene.RGB(0xdfe2e4) // grid
	lineOf2 = scene.RGB(0xc3c8cc) // grid, whole decades
	paperOf = scene.RGB(0xfcfbf8)
)

// paper is what lies behind the curves: the field, its lines and numbers.
func (a *axes) paper() []scene.Item {
	out := []scene.Item{scene.Path{Class: "field", Outline: scene.Rectangle(a.box), Fill: paperOf}}
	for decade := 10.0; decade <= a.to; decade *= 10 {
		for n := 1.0; n < 10; n++ {
			if hz := n * decade; hz >= a.from && hz <= a.to {
				out = append(out, a.upright(hz, n)...)
			}
		}
	}
	for db := a.low; db <= a.high+1e-9; db += a.step {
		out = append(out, a.level(db, lineOf1))
		text := strconv.FormatFloat(db, 'f', 0, 64)
		if db > 0 {
			text = "+" + text
		}
		out = append(out, word(scene.Pt(a.box.Min.X-1.6, a.y(db)), text, small, scene.End, scene.Central))
	}
	if a.low < 0 && a.high > 0 {
		out = append(out, a.level(0, lineOf2))
	}
	out = append(out, word(scene.Pt(3, a.box.Min.Y-2.4), a.unit, small, scene.Start, scene.Alphabetic))
	return append(out, a.tuning()...)
}

func (a *axes) level(db float64, c scene.Color) scene.Item {
	y := a.y(db)
	return scene.Path{Outline: scene.Segment(scene.Pt(a.box.Min.X, y), scene.Pt(a.box.Max.X, y)), Stroke: scene.Stroke{Color: c, Width: 0.15}}
}

// upright is the line of a frequency, with its number at 1, 2 and 5.
func (a *axes) upright(hz, n float64) []scene.Item {
	c, x := lineOf1, a.x(hz)
	if n == 1 {
		c = lineOf2
	}
	out := []scene.Item{scene.Path{Outline: scene.Segment(scene.Pt(x, a.box.Min.Y), scene.Pt(x, a.box.Max.Y)), Stroke: scene.Stroke{Color: c, Width: 0.15}}}
	if n != 1 && n != 2 && n != 5 {
		return out
	}
	text := strconv.FormatFloat(hz, 'f', -1, 64)
	if hz >= 1000 {
		text = strconv.FormatFloat(hz/1000, 'f', -1, 64) + "k"
	}
	if hz*2 > a.to {
		text += " Hz"
	}
	return append(out, word(scene.Pt(x, a.box.Max.Y+1.8), text, small, scene.Middle, scene.CapTop))
}

// tuning shows where the open strings lie.
func (a *axes) tuning() []scene.Item {
	var out []scene.Item
	y := a.box.Min.Y
	for _, s := range strings6 {
		if s.hz < a.from || s.hz > a.to {
			continue
		}
		x := a.x(s.hz)
		out = append(out, scene.Path{Outline: scene.Segment(scene.Pt(x, y-1.6), scene.Pt(x, y)), Stroke: scene.Stroke{Color: faint, Width: 0.25}},
			word(scene.Pt(x, y-2.4), s.name, small*0.86, scene.Middle, scene.Alphabetic))
	}
	if x := a.x(strings6[5].hz); len(out) > 0 {
		out = append(out, word(scene.Pt(x+3.4, y-2.4), "open strings", small*0.86, scene.Start, scene.Alphabetic))
	}
	return out
}

// frame is two sides of the field, over the curves.
func (a *axes) frame() []scene.Item {
	o := scene.Outline{}.Move(a.box.Min.X, a.box.Min.Y).Line(a.box.Min.X, a.box.Max.Y).Line(a.box.Max.X, a.box.Max.Y)
	return []scene.Item{scene.Path{Outline: o, Stroke: scene.Stroke{Color: faint, Width: 0.3}}}
}

func word(at scene.Point, text string, size float64, anchor scene.Anchor, base scene.Baseline) scene.Text {
	return scene.Text{At: at, Content: text, Size: size, Anchor: anchor, Baseline: base, Color: faint}
}
