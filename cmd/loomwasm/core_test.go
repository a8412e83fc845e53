//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"loomwright/internal/oracle"
)

// asked is a loom that the core is asked about.
type asked struct {
	Name string `json:"name"`
	Text string `json:"text"`
	Draw bool   `json:"draw"`
}

// TestCoreUnderNode asks the page's own core about every start, example and
// broken loom. A first drawing, which takes most memory and the deepest stack,
// is made of every start and some examples; of all looms under the tag soak.
func TestCoreUnderNode(t *testing.T) {
	core := filepath.Join("..", "..", "web", "dist", "core.wasm")
	if _, err := os.Stat(core); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("the core is not built: make page comes first")
		}
		t.Skip("web/dist/core.wasm is not built (make page): the core was not run")
	}
	node := oracle.Need(t, "node")
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, filepath.Join("testdata", "core.cjs"), filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"), core)
	input, err := json.Marshal(allLooms(t))
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stdin = bytes.NewReader(input)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Errorf("node: %v", err)
	}
	var memory int
	said, last := cutLast(strings.TrimSpace(string(out)))
	if _, err := fmt.Sscanf(last, "memory %d", &memory); err != nil {
		t.Fatalf("the core ended before its time:\n%s", out)
	}
	if said != "" {
		t.Errorf("%s", said)
	}
	if memory > 128e6 {
		t.Errorf("the core took %d bytes of memory; 128 MB is its limit", memory)
	}
	t.Logf("memory of the core %.0f MB", float64(memory)/1e6)
}

// allLooms are all looms that come with Loomwright.
func allLooms(t *testing.T) []asked {
	t.Helper()
	var out []asked
	for _, pattern := range []string{"../../starts/*.yaml", "../../examples/*.yaml", "../../examples/broken/*.yaml"} {
		names, err := filepath.Glob(pattern)
		if err != nil || len(names) < 10 {
			t.Fatalf("%s: %d looms (%v)", pattern, len(names), err)
		}
		for i, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, asked{filepath.Base(name), string(text), drawAll || strings.Contains(name, "starts") || strings.Contains(name, "stacked") || i%8 == 3})
		}
	}
	return out
}

// cutLast parts the last line from those before it.
func cutLast(text string) (before, last string) {
	if i := strings.LastIndexByte(text, '\n'); i >= 0 {
		return text[:i], text[i+1:]
	}
	return "", text
}
