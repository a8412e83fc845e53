// Package schematic draws what a loom is and not where it lies: the circuit
// diagram of the whole loom or of one setting, in the symbols of IEC 60617 as
// far as they are known from memory, and for each setting a small strip with
// the chain of its coils. Both are laid out by rule.
package schematic

import (
	"loomwright/internal/scene"
)

// Colours of the diagrams: all of them print in black and white.
var (
	ink   = scene.RGB(0x1c2127)
	faint = scene.RGB(0x6b7076)
)

// pen is a line of the diagrams.
func pen(width float64) scene.Stroke {
	return scene.Stroke{Color: ink, Width: width, Cap: scene.RoundCap, Join: scene.RoundJoin}
}

// words is a line of text in the diagrams.
func words(content string, at scene.Point, size float64, anchor scene.Anchor) scene.Text {
	return scene.Text{At: at, Content: content, Size: size, Anchor: anchor, Baseline: scene.Central, Color: ink}
}
