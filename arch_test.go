package loomwright_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// layers reads the one table of folders: ARCHITECTURE.md. A row is
// "| 3 | `loom` `other` | … |".
func layers(t *testing.T) map[string]int {
	t.Helper()
	data, err := os.ReadFile("ARCHITECTURE.md")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]int{}
	name := regexp.MustCompile("`([a-z/]+)`")
	for _, line := range strings.Split(string(data), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) < 4 {
			continue
		}
		layer, err := strconv.Atoi(strings.TrimSpace(cells[1]))
		if err != nil {
			continue
		}
		for _, m := range name.FindAllStringSubmatch(cells[2], -1) {
			out[m[1]] = layer
		}
	}
	return out
}

// folderOf turns an import path or a file's folder into the table's name.
func folderOf(p string) string {
	return strings.TrimPrefix(strings.TrimPrefix(p, "loomwright/"), "internal/")
}

// TestImportsGoDown holds every import of product code against the table: to a
// strictly lower layer, and no folder that the table does not know.
func TestImportsGoDown(t *testing.T) {
	layer := layers(t)
	if len(layer) < 10 {
		t.Fatalf("only %d folders found in the table of ARCHITECTURE.md", len(layer))
	}
	checked := 0
	walkGo(t, func(file string) {
		from := folderOf(filepath.ToSlash(filepath.Dir(file)))
		if strings.HasSuffix(file, "_test.go") || from == "." || strings.HasPrefix(from, "tools") {
			return
		}
		own, known := layer[from]
		if !known {
			t.Errorf("%s: the table of ARCHITECTURE.md does not know %s", file, from)
			return
		}
		for _, imported := range importsOf(t, file) {
			checked++
			to := folderOf(imported)
			below, ok := layer[to]
			switch {
			case !ok:
				t.Errorf("%s imports %s, which the table does not know", file, to)
			case below >= own:
				t.Errorf("%s (layer %d) imports %s (layer %d): imports go down", from, own, to, below)
			}
		}
	})
	if checked < 20 {
		t.Errorf("only %d imports were checked: the walk is broken", checked)
	}
}

// TestProofDoesNotKnowTheSolver: proof checks what search found.
func TestProofDoesNotKnowTheSolver(t *testing.T) {
	walkGo(t, func(file string) {
		if !strings.HasPrefix(filepath.ToSlash(file), "internal/proof/") {
			return
		}
		for _, imported := range importsOf(t, file) {
			if base := path.Base(imported); base == "sat" || base == "synthesis" {
				t.Errorf("%s imports %s", file, imported)
			}
		}
	})
}

func walkGo(t *testing.T, do func(file string)) {
	t.Helper()
	err := filepath.WalkDir(".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || d.Name() == "node_modules" || p != "." && strings.HasPrefix(d.Name(), ".")) {
			return filepath.SkipDir
		}
		if strings.HasSuffix(p, ".go") {
			do(p)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// importsOf lists the imports of a file that are this module's own.
func importsOf(t *testing.T, file string) []string {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, s := range f.Imports {
		p, err := strconv.Unquote(s.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(p, "loomwright/") {
			out = append(out, p)
		}
	}
	return out
}

// TestCoreStaysSmall keeps servers and databases out of the browser's core.
func TestCoreStaysSmall(t *testing.T) {
	cmd := exec.Command("go", "list", "-deps", "./cmd/loomwasm")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	deps := strings.Fields(string(out))
	if len(deps) < 30 {
		t.Fatalf("only %d packages listed", len(deps))
	}
	for _, d := range deps {
		if d == "net/http" || strings.HasPrefix(d, "database/") || strings.Contains(d, "sqlite") || strings.Contains(d, "spf13") {
			t.Errorf("the browser's core imports %s", d)
		}
	}
}
