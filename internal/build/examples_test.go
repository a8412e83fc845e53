package build_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/build"
	"loomwright/internal/wiring"
)

var update = flag.Bool("update", false, "write testdata anew; then read the difference")

// plan writes a plan as someone at the bench reads it.
func plan(g *wiring.Graph) string {
	var b strings.Builder
	p := build.Order(g)
	for i, s := range p.Steps {
		if i == 0 || s.Stage != p.Steps[i-1].Stage {
			fmt.Fprintf(&b, "%s: %s\n", s.Where, p.Stages[s.Stage].Name)
		}
		fmt.Fprintf(&b, "%3d %s\n", s.Number, s.Do)
		for _, n := range s.Notes {
			fmt.Fprintf(&b, "    - %s\n", n)
		}
	}
	for _, l := range p.Loose {
		fmt.Fprintf(&b, "tail %s: %s\n", g.Terms[l.Term].Name, l.For)
	}
	for _, l := range build.Parts(g) {
		fmt.Fprintf(&b, "%d × %s %s (%s) depth %s, shaft %s, hole %s\n", l.Count, l.Part, l.Value, strings.Join(l.Names, ", "), l.Body.Depth, l.Body.Shaft, l.Body.Hole)
	}
	return b.String()
}

// Each of these was read line by line as the owner of a bench would, before it
// was written down.
func TestExamplesAsRead(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) < 12 {
		t.Fatalf("%d examples written down (%v)", len(files), err)
	}
	lib := shelf()
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txt") + ".yaml"
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		got := plan(read(t, lib, string(data)))
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s is planned otherwise (run with -update and read the difference):\n%s", name, got)
		}
	}
}
