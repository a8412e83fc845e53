package schematic

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/wiring"
	"loomwright/library"
)

func shelf() *part.Library {
	return part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
}

func read(t testing.TB, lib *part.Library, text string) *wiring.Graph {
	t.Helper()
	l, list := loom.Read(diag.NewText("loom.yaml", text), lib)
	if l == nil {
		t.Fatalf("%v\n%s", list, text)
	}
	g, _ := wiring.Build(l)
	return g
}

// eachExample runs a check on every example.
func eachExample(t *testing.T, do func(t *testing.T, g *wiring.Graph)) {
	t.Helper()
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 12 {
		t.Fatalf("%d examples (%v)", len(names), err)
	}
	lib := shelf()
	for _, name := range names {
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(name, func(t *testing.T) { do(t, read(t, lib, string(data))) })
	}
}

// eachRandom runs a check on looms whose parts and joins are drawn at random.
func eachRandom(t *testing.T, looms uint64, do func(t *testing.T, g *wiring.Graph)) {
	t.Helper()
	lib := shelf()
	for seed := range looms {
		text := randomLoom(rand.New(rand.NewPCG(seed, 11)), lib)
		do(t, read(t, lib, text))
		if t.Failed() {
			t.Fatalf("in the loom of seed %d:\n%s", seed, text)
		}
	}
}

func randomLoom(rng *rand.Rand, lib *part.Library) string {
	var ids []string
	for _, id := range lib.IDs() {
		if !strings.HasPrefix(id, "codes/") && !strings.HasPrefix(id, "jack/") && !strings.HasPrefix(id, "output/") {
			ids = append(ids, id)
		}
	}
	var b strings.Builder
	b.WriteString("loomwright: 1\nparts:\n  jack: {is: jack/mono}\n")
	names := []string{"jack.tip", "jack.sleeve"}
	for i := range 3 + rng.IntN(6) {
		id := ids[rng.IntN(len(ids))]
		p, _ := lib.Part(id)
		fmt.Fprintf(&b, "  p%d: {is: %s}\n", i, id)
		for _, t := range p.Terminals {
			names = append(names, fmt.Sprintf("p%d.%s", i, t.Name))
		}
	}
	b.WriteString("joins:\n  - jack.tip -- " + names[2+rng.IntN(len(names)-2)] + "\n")
	for range 4 + rng.IntN(24) {
		a, z := names[rng.IntN(len(names))], names[rng.IntN(len(names))]
		if a != z {
			fmt.Fprintf(&b, "  - %s -- %s\n", a, z)
		}
	}
	return b.String()
}
