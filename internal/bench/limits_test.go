package bench

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// manyJoins is a loom of n joins: pickups on joints, a few of them on the
// output, and wishes that do not hold.
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

// grid is a mesh of coils, n by n joints.
func grid(n int) string {
	var parts, joins strings.Builder
	coils := 0
	coil := func(a, b string) {
		fmt.Fprintf(&parts, "  p%d: {is: pickup/single-coil}\n", coils)
		fmt.Fprintf(&joins, "  - p%d.coil.start -- %s\n  - p%d.coil.finish -- %s\n", coils, a, coils, b)
		coils++
	}
	for y := range n {
		for x := range n {
			fmt.Fprintf(&parts, "  j%d-%d: {is: splice/joint}\n", x, y)
			at := fmt.Sprintf("j%d-%d.joint", x, y)
			if x > 0 {
				coil(fmt.Sprintf("j%d-%d.joint", x-1, y), at)
			}
			if y > 0 {
				coil(fmt.Sprintf("j%d-%d.joint", x, y-1), at)
			}
		}
	}
	fmt.Fprintf(&joins, "  - j0-0.joint -- jack.tip\n  - j%d-%d.joint -- jack.sleeve\n", n-1, n-1)
	return "loomwright: 1\nparts:\n  jack: {is: jack/mono}\n" + parts.String() + "joins:\n" + joins.String()
}

// chain is n coils in series.
func chain(n int) string {
	var parts, joins strings.Builder
	before := "jack.tip"
	for i := range n {
		fmt.Fprintf(&parts, "  p%d: {is: pickup/single-coil}\n", i)
		fmt.Fprintf(&joins, "  - %s -- p%d.coil.start\n", before, i)
		before = fmt.Sprintf("p%d.coil.finish", i)
	}
	return "loomwright: 1\nparts:\n  jack: {is: jack/mono}\n" + parts.String() + "joins:\n" + joins.String() + "  - " + before + " -- jack.sleeve\n"
}

// ceiling is the memory that any of the largest looms may take, in bytes.
const ceiling = 256 << 20

// TestLimits: the largest looms are answered, or refused by a clear limit, in
// bounded memory.
func TestLimits(t *testing.T) {
	missed := "sounds:\n  - {with: s1 up, hear: p1}\n"
	for _, c := range []struct {
		name, text string
		rows       int    // 0: not proved
		says       string // of the finding that refuses it
	}{
		{"5,000 joins and wishes that do not hold", manyJoins(5000), 5, ""},
		{"more joins than are read", manyJoins(20001), 0, "more than 20000 joins"},
		{"wrong names alone", strings.ReplaceAll(manyJoins(5000), ".north", ".nroth"), 0, ""},
		{"more wishes than are read", slides(1) + "sounds:\n" + strings.Repeat("  - {hear: p0}\n", 4097), 0, "4097 wanted sounds"},
		{"more parts than are read", chain(400), 0, "401 parts are more than the 400"},
		{"399 coils in series", chain(399), 1, ""},
		{"a mesh of 144 coils", grid(9), 1, ""},
		{"4,096 settings", slides(12), 4096, ""},
		{"2,048 of 4,096 wishes missed", slides(12) + missed, 4096, ""},
		{"8,192 settings", strings.Replace(slides(12), "joins:", "  s12: {is: switch/slide-dpdt}\njoins:", 1), 0, "more than 4096 settings"},
		{"4,096 settings of 500 terminals", strings.Replace(slides(12), "joins:", strings.Join(strips(80), "")+"joins:", 1), 0, "and it has 5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			got := New().Check(c.name, c.text)
			runtime.ReadMemStats(&after)
			if grown := int64(after.HeapSys) - int64(before.HeapInuse); grown > ceiling {
				t.Errorf("takes %d MB", grown>>20)
			}
			if len(got.Rows) != c.rows {
				t.Errorf("%d settings, want %d; %v", len(got.Rows), c.rows, got.Findings[:min(3, len(got.Findings))])
			}
			if c.rows > 0 {
				return
			}
			if len(got.Findings) == 0 || c.says != "" && got.Findings[0].Code != "loom-limit" || !strings.Contains(got.Findings[0].Message, c.says) {
				t.Errorf("refused by %v, want a limit that says %q", got.Findings[:min(3, len(got.Findings))], c.says)
			}
		})
	}
}

// strips are terminal strips that nothing is soldered to.
func strips(n int) []string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprintf("  t%d: {is: splice/strip-4}\n", i))
	}
	return out
}
