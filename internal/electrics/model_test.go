package electrics

import (
	"os"
	"path/filepath"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
	"loomwright/library"
)

var shipped = part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})

// graphOf reads a loom.
func graphOf(t testing.TB, name, text string) *wiring.Graph {
	t.Helper()
	l, list := loom.Read(diag.NewText(name, text), shipped)
	if list.HasErrors() {
		t.Fatalf("%s: %+v", name, list)
	}
	g, list := wiring.Build(l)
	if list.HasErrors() {
		t.Fatalf("%s: %+v", name, list)
	}
	return g
}

// loomFile reads a loom of testdata.
func loomFile(t testing.TB, name string) *wiring.Graph {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "looms", name+".loom"))
	if err != nil {
		t.Fatal(err)
	}
	return graphOf(t, name, string(text))
}

func modelOf(t testing.TB, g *wiring.Graph, opts Options) *Model {
	t.Helper()
	m, list := New(g, opts)
	if m == nil {
		t.Fatalf("%+v", list)
	}
	return m
}

func settingsOf(g *wiring.Graph) []setting.Setting {
	var out []setting.Setting
	for s := range setting.All(g) {
		out = append(out, s)
	}
	return out
}
