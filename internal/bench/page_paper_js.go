//go:build js && !paper

package bench

import (
	"fmt"

	"loomwright/internal/scene"
)

// paintPaper is left out of the browser's first core.
func paintPaper(_ scene.Scene, o DrawOptions) ([]byte, error) {
	return nil, fmt.Errorf("this core does not write %s", o.Format)
}

// paperCalls are left out as well.
func (d *Desk) paperCalls(func(any)) map[string]func(Ask) any { return nil }
