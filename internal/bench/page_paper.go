//go:build !js || paper

package bench

import (
	"fmt"
	"time"

	"loomwright/internal/pdf"
	"loomwright/internal/png"
	"loomwright/internal/scene"
)

// paintPaper writes a scene with its own fonts inside. The browser's core is
// built without it, at half the size; its second core has it.
func paintPaper(s scene.Scene, o DrawOptions) ([]byte, error) {
	switch o.Format {
	case PDF:
		var ink scene.Ink
		if o.Grey {
			ink = scene.Grey
		}
		return pdf.Paint([]scene.Scene{s}, pdf.Options{Created: time.Time{}, Ink: ink})
	case PNG:
		dpi := o.DPI
		if dpi == 0 {
			dpi = 150
		}
		return png.Paint(s, png.Options{DPI: dpi, Grey: o.Grey})
	}
	return nil, fmt.Errorf("there is no picture format %q", o.Format)
}
