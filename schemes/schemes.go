// Package schemes carries the control schemes: how volumes, tones, blends and
// treble bleeds are hooked up between pickups, switches and jack.
package schemes

import "embed"

// Files holds <name>.yaml; see README.md for the layout.
//
//go:embed *.yaml
var Files embed.FS
