package bench

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// manyJoins is a loom of n joins: pickups on joints, a few of them on the
// output, and a wish that does not hold.
func manyJoins(n int) string {
	var b strings.Builder
	b.WriteString("loomwright: 1\nparts:\n  jack: {is: jack/mono}\n  lever: {is: switch/lever-5way}\n")
	const pickups, joints = 150, 200
	for i := range pickups {
		fmt.Fprintf(&b, "  p%d: {is: pickup/twin-coil}\n", i)
	}
	for i := range joints {
		fmt.Fprintf(&b, "  j%d: {is: splice/joint}\n", i)
	}
	b.WriteString("joins:\n  - lever.a -- jack.tip\n  - j0.joint -- lever.a.1\n  - j1.joint -- jack.sleeve\n  - j2.joint -- lever.a.2\n")
	ends := []string{"north.start", "north.finish", "south.start", "south.finish", "shield"}
	for i := range n - 4 {
		fmt.Fprintf(&b, "  - p%d.%s -- j%d.joint\n", i%pickups, ends[i/pickups%len(ends)], (i*7+i/pickups)%joints)
	}
	b.WriteString("sounds:\n  - {with: lever bridge, hear: p0 parallel p1}\n  - {with: lever middle, hear: p2}\n")
	return b.String()
}

// heap is the most memory in use while f runs, in bytes, roughly.
func heap(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return max(after.HeapSys, before.HeapSys) - before.HeapInuse
}

func TestTryLimits(t *testing.T) {
	for name, text := range map[string]string{"joins": manyJoins(5000), "slides": slides(12) + "sounds:\n  - {with: s1 up, hear: p1}\n"} {
		m := heap(func() {
			c := New().Check(name, text)
			t.Log(name, len(c.Rows), len(c.Findings))
			for _, d := range c.Findings[:min(5, len(c.Findings))] {
				t.Log(d.Code, d.Message)
			}
		})
		t.Log(name, m>>20, "MB")
	}
}
