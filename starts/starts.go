// Package starts carries loom files to begin from: parts and wanted sounds for
// the usual guitars, joins left to you or to the search.
package starts

import "embed"

// Files holds <name>.yaml; the first comment line says what it is for.
//
//go:embed *.yaml
var Files embed.FS
