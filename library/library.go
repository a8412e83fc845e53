// Package library carries the part files and lead codes that Loomwright ships.
package library

import "embed"

// Files holds <class>/<name>.yaml and codes/<name>.yaml.
//
//go:embed */*.yaml
var Files embed.FS
