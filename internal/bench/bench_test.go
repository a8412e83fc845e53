package bench

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/proof"
)

// twelve is a loom of twelve settings: two twin coils, each series or parallel
// on a pull, a toggle, two volumes, two tones.
const twelve = `loomwright: 1
title: Two twin coils, each series or parallel on a pull
parts:
  neck: {is: pickup/twin-coil, code: dunlin}
  bridge: {is: pickup/twin-coil, code: dunlin}
  lever: {is: switch/toggle-3way}
  v1: {is: pot/push-pull-pads, track: 500k audio}
  v2: {is: pot/push-pull-pads, track: 500k audio}
  t1: {is: pot/standard, track: 500k audio}
  t2: {is: pot/standard, track: 500k audio}
  c1: {is: capacitor/film, value: 22n}
  c2: {is: capacitor/film, value: 22n}
  strings: {is: ground/string}
  jack: {is: jack/mono}
joins:
  - neck.orange -- v1.cw
  - neck.pink -- v1.pull.a
  - neck.blue -- v1.pull.b
  - neck.violet, neck.bare -- v1.case
  - v1.pull.a.pushed -- v1.pull.b.pushed
  - v1.pull.a.pulled -- v1.case
  - v1.pull.b.pulled -- v1.cw
  - v1.ccw -- v1.case
  - bridge.orange -- v2.cw
  - bridge.pink -- v2.pull.a
  - bridge.blue -- v2.pull.b
  - bridge.violet, bridge.bare -- v2.case
  - v2.pull.a.pushed -- v2.pull.b.pushed
  - v2.pull.a.pulled -- v2.case
  - v2.pull.b.pulled -- v2.cw
  - v2.ccw -- v2.case
  - v1.case -- v2.case
  - v2.case -- t1.case
  - t1.case -- t2.case
  - t1.case -- jack.sleeve
  - strings.wire -- t1.case
  - v1.wiper -- lever.a.neck
  - v2.wiper -- lever.a.bridge
  - lever.a -- jack.tip
  - v1.cw -- t1.wiper
  - t1.ccw -- c1.a
  - c1.b -- t1.case
  - v2.cw -- t2.wiper
  - t2.ccw -- c2.a
  - c2.b -- t2.case
  - lever.case -- v1.case
sounds:
  - {with: "lever neck, v1 pushed", hear: neck}
  - {with: "lever neck, v1 pulled", hear: neck.north parallel neck.south}
  - {with: "lever bridge, v2 pushed", hear: bridge}
  - {with: "lever bridge, v2 pulled", hear: bridge.north parallel bridge.south}
  - {with: "lever middle, v1 pushed, v2 pushed", hear: neck parallel bridge}
`

// BenchmarkProve12 parses and proves twelve settings.
func BenchmarkProve12(b *testing.B) {
	bench, text := New(), diag.NewText("twelve", twelve)
	b.ReportAllocs()
	for b.Loop() {
		g, _, list := bench.graph(text)
		if list.HasErrors() {
			b.Fatal(list)
		}
		if r := proof.Prove(g); len(r.Rows) != 12 {
			b.Fatal(len(r.Rows))
		}
	}
}

// BenchmarkCheck12 is all that a face asks for: proof, and figures of each
// setting.
func BenchmarkCheck12(b *testing.B) {
	bench := New()
	if c := bench.Check("twelve", twelve); len(c.Rows) != 12 || c.Findings.HasErrors() {
		b.Fatalf("%d settings, %v", len(c.Rows), c.Findings)
	}
	b.ReportAllocs()
	for b.Loop() {
		bench.Check("twelve", twelve)
	}
}

// slides is a loom of a chain of twelve coils; each of n slides shorts one of
// them: 2^n settings.
func slides(n int) string {
	var parts, joins strings.Builder
	parts.WriteString("loomwright: 1\nparts:\n  jack: {is: jack/mono}\n  volume: {is: pot/standard, track: 500k audio}\n")
	before := "volume.cw"
	for i := range 12 {
		fmt.Fprintf(&parts, "  p%d: {is: pickup/single-coil}\n", i)
		fmt.Fprintf(&joins, "  - %s -- p%d.coil.start\n", before, i)
		if i < n {
			fmt.Fprintf(&parts, "  s%d: {is: switch/slide-dpdt}\n", i)
			fmt.Fprintf(&joins, "  - p%d.coil.start -- s%d.a\n  - p%d.coil.finish -- s%d.a.up\n", i, i, i, i)
		}
		before = fmt.Sprintf("p%d.coil.finish", i)
	}
	fmt.Fprintf(&joins, "  - %s -- jack.sleeve\n  - volume.ccw -- jack.sleeve\n  - volume.wiper -- jack.tip\n  - volume.case -- jack.sleeve\n", before)
	return parts.String() + "joins:\n" + joins.String()
}

// BenchmarkSettings shows what the proof of a setting costs in looms of more and
// more.
func BenchmarkSettings(b *testing.B) {
	for _, n := range []int{4, 6, 8, 10, 12} {
		b.Run(fmt.Sprint(1<<n), func(b *testing.B) {
			g, _, list := New().graph(diag.NewText("slides", slides(n)))
			if list.HasErrors() {
				b.Fatal(list)
			}
			b.ReportAllocs()
			for b.Loop() {
				if r := proof.Prove(g); len(r.Rows) != 1<<n {
					b.Fatal(len(r.Rows))
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N<<n), "µs/setting")
		})
	}
}
