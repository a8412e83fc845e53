package drawing

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/place"
	"loomwright/internal/wiring"
	"loomwright/library"
)

// graphOf reads a loom.
func graphOf(tb testing.TB, name, text string) *wiring.Graph {
	tb.Helper()
	lib := part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
	l, list := loom.Read(diag.NewText(name, text), lib)
	if l == nil {
		tb.Fatalf("%s: %v\n%s", name, list, text)
	}
	g, list := wiring.Build(l)
	if list.HasErrors() {
		tb.Fatalf("%s: %v", name, list)
	}
	return g
}

// drawn lays a loom out and draws it, with the steps of its build.
func drawn(tb testing.TB, g *wiring.Graph, o Options) *Drawing {
	tb.Helper()
	plans, list := place.Lay(g, place.Options{Keep: o.Previous.Keep()})
	if list.HasErrors() {
		tb.Fatal(list)
	}
	if o.Steps == nil {
		o.Steps = build.Order(g).StepOfRun(len(g.Runs))
	}
	d, _ := Draw(g, plans, o)
	return &d
}

// redrawn draws a loom again on the plan that was chosen.
func redrawn(d *Drawing, o Options) *Drawing {
	o.Steps = d.Options.Steps
	out, _ := Draw(d.Graph, []place.Plan{*d.Plan}, o)
	return &out
}

// exampleFiles are the looms of examples/ and of this package's testdata.
func exampleFiles(tb testing.TB) map[string]string {
	tb.Helper()
	out := map[string]string{}
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 20 {
		tb.Fatalf("%d examples found (%v)", len(names), err)
	}
	for _, n := range names {
		data, err := examples.Files.ReadFile(n)
		if err != nil {
			tb.Fatal(err)
		}
		out[strings.TrimSuffix(n, ".yaml")] = string(data)
	}
	own, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(own) < 3 {
		tb.Fatalf("%d looms found in testdata (%v)", len(own), err)
	}
	for _, n := range own {
		data, err := os.ReadFile(n)
		if err != nil {
			tb.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(n), ".yaml")] = string(data)
	}
	return out
}
