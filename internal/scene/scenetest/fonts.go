package scenetest

import "loomwright/internal/scene"

// Styles are the six faces, in the order of Style.Face and of package faces.
var Styles = []scene.Style{
	{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}, {Mono: true}, {Mono: true, Bold: true},
}
