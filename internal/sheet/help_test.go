package sheet

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/scene"
	"loomwright/internal/wiring"
	"loomwright/library"
)

var shelf = sync.OnceValue(func() *part.Library {
	return part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
})

func read(t testing.TB, name, text string) *wiring.Graph {
	t.Helper()
	l, list := loom.Read(diag.NewText(name, text), shelf())
	if l == nil {
		t.Fatalf("%v\n%s", list, text)
	}
	g, _ := wiring.Build(l)
	return g
}

// example is the input of one example; gathered once.
func example(t testing.TB, name string) Input {
	t.Helper()
	gathered.Lock()
	defer gathered.Unlock()
	if in, ok := gathered.inputs[name]; ok {
		return in
	}
	data, err := examples.Files.ReadFile(name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	in, _ := Gather(read(t, name+".yaml", string(data)))
	gathered.inputs[name] = in
	return in
}

var gathered = struct {
	sync.Mutex
	inputs map[string]Input
}{inputs: map[string]Input{}}

// few are the examples that slow checks look at.
var few = []string{"two-twin-coils-phase", "three-single-coils-5way", "loom-without-pickups"}

func exampleNames(t *testing.T) []string {
	t.Helper()
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 12 {
		t.Fatalf("%d examples (%v)", len(names), err)
	}
	for i := range names {
		names[i] = strings.TrimSuffix(names[i], ".yaml")
	}
	return names
}

// save writes a file for an outside program.
func save(t *testing.T, name string, data []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

func run(t *testing.T, program string, args ...string) string {
	t.Helper()
	out, err := exec.Command(program, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	return string(out)
}

// squashed is a text with its white space made one.
func squashed(s string) string { return strings.Join(strings.Fields(s), " ") }

func mustRead(t *testing.T, name string) []byte {
	t.Helper()
	data, err := examples.Files.ReadFile(name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// runsIn lists the runs whose wires are in items of the drawing.
func runsIn(items []scene.Item) []int {
	var out []int
	for _, it := range items {
		if g, ok := it.(scene.Group); ok {
			if run := runOf(&g); run >= 0 && g.Class == "wire" {
				out = append(out, run)
			}
			out = append(out, runsIn(g.Items)...)
		}
	}
	return out
}
