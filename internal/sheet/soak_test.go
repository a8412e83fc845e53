//go:build soak

package sheet

import (
	"fmt"
	"io/fs"
	"maps"
	"runtime"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/scene"
	"loomwright/starts"
)

// Every example and every start with its drawing, and fifty random looms, on both
// papers, in colour and grey: well laid out, and small.
func TestAllSheets(t *testing.T) {
	all := map[string]Input{}
	for _, name := range exampleNames(t) {
		all[name] = example(t, name)
	}
	names, err := fs.Glob(starts.Files, "*.yaml")
	if err != nil || len(names) < 10 {
		t.Fatalf("%d starts (%v)", len(names), err)
	}
	for _, name := range names {
		data, _ := starts.Files.ReadFile(name)
		all[name], _ = Gather(read(t, name, string(data)))
	}
	for seed := range uint64(50) {
		all[fmt.Sprint("random ", seed)], _ = Gather(read(t, "random.yaml", randomLoom(seed)))
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		t.Run(name, func(t *testing.T) {
			d := Compose(all[name])
			for _, paper := range []scene.Size{scene.A4, scene.Letter} {
				lint(t, d.Pages(paper))
				data, err := d.PDF(Print{Paper: paper, Grey: paper == scene.Letter})
				if err != nil {
					t.Fatal(err)
				}
				if len(data) > 400_000 && !strings.HasPrefix(name, "random") {
					t.Errorf("%d bytes", len(data))
				}
			}
		})
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
