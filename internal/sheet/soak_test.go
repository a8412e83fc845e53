//go:build soak

package sheet

import (
	"runtime"
	"testing"

	"loomwright/internal/scene"
)

// Every example with its drawing, on both papers, in colour and grey: well laid
// out, and small.
func TestAllSheets(t *testing.T) {
	for _, name := range exampleNames(t) {
		d := Compose(example(t, name))
		for _, paper := range []scene.Size{scene.A4, scene.Letter} {
			lint(t, d.Pages(paper))
			data, err := d.PDF(Print{Paper: paper, Grey: paper == scene.Letter})
			if err != nil {
				t.Fatal(err)
			}
			if len(data) > 400_000 {
				t.Errorf("%s takes %d bytes", name, len(data))
			}
		}
		if t.Failed() {
			t.Fatalf("in %s", name)
		}
	}
}

// Two hundred sheets leave no more in memory than twenty.
func TestConstantMemory(t *testing.T) {
	in := example(t, few[0])
	var first, last uint64
	for n := range 200 {
		d := Compose(in)
		if _, err := d.PDF(Print{}); err != nil {
			t.Fatal(err)
		}
		if n == 19 || n == 199 {
			runtime.GC()
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			first, last = last, m.HeapAlloc
		}
	}
	if last > first+first/10+500_000 {
		t.Errorf("%d bytes after 20 sheets, %d after 200", first, last)
	}
}
