package sheet

import (
	"runtime"
	"testing"

	"loomwright/internal/scene"
)

// A full sheet: content and PDF, the loom proved and drawn.
func BenchmarkSheet(b *testing.B) {
	in := example(b, "two-twin-coils-phase")
	in.Link = Link{Base: "https://bench.example/#", Loom: "abc"}
	size := 0
	for b.Loop() {
		d := Compose(in)
		data, err := d.PDF(Print{})
		if err != nil {
			b.Fatal(err)
		}
		size = len(data)
	}
	b.ReportMetric(float64(size)/1000, "kB")
}

// Everything from the graph on: proof, numbers, order, drawing, sheet.
func BenchmarkFromGraph(b *testing.B) {
	g := example(b, "two-twin-coils-phase").Graph
	for b.Loop() {
		in, _ := Gather(g)
		d := Compose(in)
		if _, err := d.PDF(Print{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Two hundred sheets, one after the other: what stays in memory.
func BenchmarkTwoHundredSheets(b *testing.B) {
	in := example(b, "two-twin-coils-phase")
	for b.Loop() {
		var most, first uint64
		for n := range 200 {
			d := Compose(in)
			if _, err := d.PDF(Print{Paper: scene.Letter}); err != nil {
				b.Fatal(err)
			}
			if n%20 == 19 {
				runtime.GC()
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				if first == 0 {
					first = m.HeapAlloc
				}
				most = max(most, m.HeapAlloc)
			}
		}
		b.ReportMetric(float64(first)/1e6, "MB-after-20")
		b.ReportMetric(float64(most)/1e6, "MB-most")
	}
}
