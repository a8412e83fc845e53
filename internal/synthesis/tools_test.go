package synthesis

import (
	"testing/fstest"

	"loomwright/internal/loom"
	"loomwright/internal/part"
)

// partShelf is a shelf of one file.
func partShelf(name, text string) part.Shelf {
	return part.Shelf{Name: "test", FS: fstest.MapFS{name: {Data: []byte(text)}}}
}

// loomUse is one part of a loom.
type loomUse = loom.Use
