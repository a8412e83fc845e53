package png

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"loomwright/internal/scene"
)

// canvas is the picture, and where it may be painted: inside clip and, where
// there is a mask, as far as the mask says.
type canvas struct {
	img    *image.RGBA
	clip   image.Rectangle
	mask   *image.Alpha
	raster *vector.Rasterizer
}

// fill lays a colour over the polygons (pixels, non-zero winding).
func (c *canvas) fill(polys [][]scene.Point, ink scene.Color) {
	box := c.load(polys)
	if box.Empty() {
		return
	}
	src := image.NewUniform(color.NRGBA{ink.R, ink.G, ink.B, ink.A})
	if c.mask == nil {
		c.raster.Draw(c.img, box, src, image.Point{})
		return
	}
	draw.DrawMask(c.img, box, src, image.Point{}, c.coverage(box), box.Min, draw.Over)
}

// narrow confines painting to polygons, inside what it is confined to.
func (c *canvas) narrow(polys [][]scene.Point) {
	box := c.load(polys)
	if box.Empty() {
		c.clip = image.Rectangle{}
		return
	}
	c.mask = c.coverage(box)
	c.clip = box
}

// coverage is the loaded polygons as a mask, times the mask in force.
func (c *canvas) coverage(box image.Rectangle) *image.Alpha {
	out := image.NewAlpha(box)
	c.raster.DrawOp = draw.Src
	c.raster.Draw(out, box, image.Opaque, image.Point{})
	if c.mask == nil {
		return out
	}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row, in := out.Pix[out.PixOffset(box.Min.X, y):], c.mask.Pix[c.mask.PixOffset(box.Min.X, y):]
		for x := range box.Dx() {
			row[x] = uint8((int(row[x])*int(in[x]) + 127) / 255)
		}
	}
	return out
}

// load puts polygons into the rasteriser, which then covers their box within
// the clip; an empty box loads nothing.
func (c *canvas) load(polys [][]scene.Point) image.Rectangle {
	box := pixelBox(polys).Intersect(c.clip)
	if box.Empty() {
		return box
	}
	if c.raster == nil {
		c.raster = new(vector.Rasterizer)
	}
	c.raster.Reset(box.Dx(), box.Dy())
	corner := scene.Pt(float64(box.Min.X), float64(box.Min.Y))
	w, h := float64(box.Dx()), float64(box.Dy())
	for _, poly := range polys {
		for i, b := range poly {
			a := poly[(i+len(poly)-1)%len(poly)]
			c.edge(a.Sub(corner), b.Sub(corner), w, h)
		}
	}
	return box
}

// pixelBox is the smallest box of whole pixels around polygons; inside out for
// none.
func pixelBox(polys [][]scene.Point) image.Rectangle {
	lo, hi := scene.Pt(math.Inf(1), math.Inf(1)), scene.Pt(math.Inf(-1), math.Inf(-1))
	for _, poly := range polys {
		for _, p := range poly {
			lo = scene.Pt(min(lo.X, p.X), min(lo.Y, p.Y))
			hi = scene.Pt(max(hi.X, p.X), max(hi.Y, p.Y))
		}
	}
	return image.Rectangle{
		Min: image.Pt(pixel(math.Floor(lo.X)), pixel(math.Floor(lo.Y))),
		Max: image.Pt(pixel(math.Ceil(hi.X)), pixel(math.Ceil(hi.Y))),
	}
}

// pixel is a whole number that fits, whatever is outside the picture.
func pixel(v float64) int { return int(min(max(v, -1<<20), 1<<20)) }

// edge hands one edge to the rasteriser, cut to a box of w × h. What is above
// or below counts for nothing; what is beside the box is moved to its side,
// where it covers as much.
func (c *canvas) edge(a, b scene.Point, w, h float64) {
	if a.Y > b.Y {
		c.cut(b, a, w, h, true)
	} else {
		c.cut(a, b, w, h, false)
	}
}

// cut is edge with a above b; up says that the edge runs from b to a.
func (c *canvas) cut(a, b scene.Point, w, h float64, up bool) {
	if b.Y <= 0 || a.Y >= h || a.Y == b.Y {
		return
	}
	whole := b.Sub(a)
	at := func(t float64) scene.Point { return a.Add(whole.Mul(t)) }
	stops := [4]float64{max(0, -a.Y/whole.Y), 1, 1, min(1, (h-a.Y)/whole.Y)}
	if whole.X != 0 {
		left, right := -a.X/whole.X, (w-a.X)/whole.X
		stops[1] = min(max(min(left, right), stops[0]), stops[3])
		stops[2] = min(max(max(left, right), stops[0]), stops[3])
	} else {
		stops[1], stops[2] = stops[3], stops[3]
	}
	for i := range 3 {
		p, q := at(stops[i]), at(stops[i+1])
		if stops[i] < stops[i+1] {
			c.line(p, q, w, h, up)
		}
	}
}

func (c *canvas) line(p, q scene.Point, w, h float64, up bool) {
	if up {
		p, q = q, p
	}
	c.raster.MoveTo(float32(min(max(p.X, 0), w)), float32(min(max(p.Y, 0), h)))
	c.raster.LineTo(float32(min(max(q.X, 0), w)), float32(min(max(q.Y, 0), h)))
}
