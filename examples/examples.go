// Package examples carries looms that are written out join by join and proved,
// and under broken/ looms with one mistake each.
package examples

import "embed"

// Files holds <name>.yaml and broken/<name>.yaml. The first comment line says
// whom and what a loom is for; in broken/, what the mistake is.
//
//go:embed *.yaml broken/*.yaml
var Files embed.FS
