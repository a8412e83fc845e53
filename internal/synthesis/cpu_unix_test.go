//go:build unix

package synthesis

import (
	"syscall"
	"time"
)

// cpuTime is the processor time that the process has taken.
func cpuTime() time.Duration {
	var r syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &r) != nil {
		return 0
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
