//go:build !unix

package synthesis

import "time"

var started = time.Now()

// cpuTime stands in for the processor time where it cannot be asked.
func cpuTime() time.Duration { return time.Since(started) }
