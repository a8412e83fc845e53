// Package png paints a scene as pixels: an image of a page at a number of dots
// per inch, 25.4 mm to the inch exactly.
//
// Outlines are flattened and stroked here and filled by x/image/vector on the
// box of each shape alone (rasterx was tried: its scanner goes over the whole
// page for every shape, 24 ms each at 200 dpi). Every polygon that strokes leave
// turns the same way, so overlaps never cancel.
package png

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	stdpng "image/png"
	"math"

	"loomwright/internal/scene"
)

// Options choose the picture.
type Options struct {
	DPI  float64   // dots per inch, 10 to 2400
	Grey bool      // black-and-white print: one channel, by luminance
	Ink  scene.Ink // changes every colour; none: as drawn
}

// maxPixels keeps a picture under a quarter of a gigabyte.
const maxPixels = 64 << 20

// Paint writes the scene as a PNG file that names its resolution. It fails
// where scene.Check does, and for a picture that is too large.
func Paint(s scene.Scene, o Options) ([]byte, error) {
	img, err := Image(s, o)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := stdpng.Encode(&out, img); err != nil {
		return nil, err
	}
	return withResolution(out.Bytes(), o.DPI), nil
}

// Image paints the scene on white: an *image.RGBA, or an *image.Gray for Grey.
// Its size is the page's, rounded to whole pixels; the scale is not rounded.
func Image(s scene.Scene, o Options) (image.Image, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if !(o.DPI >= 10 && o.DPI <= 2400) {
		return nil, fmt.Errorf("%g dots per inch are not from 10 to 2400", o.DPI)
	}
	scale := o.DPI / 25.4
	w, h := math.Round(s.Width*scale), math.Round(s.Height*scale)
	if w < 1 || h < 1 || w*h > maxPixels {
		return nil, errors.New("the picture has no pixel or too many: change the dots per inch")
	}
	ink := o.Ink
	if o.Grey {
		ink = func(c scene.Color) scene.Color { return scene.Grey(o.Ink.Of(c)) }
	}
	p := &painter{canvas: newCanvas(int(w), int(h)), scale: scale}
	p.items(s.Items, state{place: scene.Transform{Scale: scale}, ink: ink})
	if o.Grey {
		return toGray(p.img), nil
	}
	return p.img, nil
}

// toGray keeps one channel of a picture whose channels are alike.
func toGray(img *image.RGBA) *image.Gray {
	out := image.NewGray(img.Rect)
	for i := range out.Pix {
		out.Pix[i] = img.Pix[4*i]
	}
	return out
}

func newCanvas(w, h int) canvas {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	return canvas{img: img, clip: img.Rect}
}
