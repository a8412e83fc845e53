package scenetest

import (
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gobolditalic"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"

	"loomwright/internal/scene"
)

// Styles are the six faces, and Fonts their TrueType files in the same order.
var (
	Styles = []scene.Style{
		{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}, {Mono: true}, {Mono: true, Bold: true},
	}
	Fonts = [][]byte{
		goregular.TTF, gobold.TTF, goitalic.TTF, gobolditalic.TTF, gomono.TTF, gomonobold.TTF,
	}
)
