// Package faces is the six Go fonts, in the order of scene's Style.Face, for the
// painters that put glyphs on paper.
package faces

import (
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gobolditalic"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// Count is how many faces there are.
const Count = 6

// TTF are the fonts as TrueType files.
var TTF = [Count][]byte{goregular.TTF, gobold.TTF, goitalic.TTF, gobolditalic.TTF, gomono.TTF, gomonobold.TTF}

var parsed = func() (out [Count]func() *sfnt.Font) {
	for i := range out {
		out[i] = sync.OnceValue(func() *sfnt.Font {
			f, err := sfnt.Parse(TTF[i])
			if err != nil {
				panic(err) // a font that is compiled in
			}
			return f
		})
	}
	return out
}()

// Font is a face, parsed when first asked for.
func Font(face int) *sfnt.Font { return parsed[face]() }
