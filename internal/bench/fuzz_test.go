package bench

import (
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"loomwright/internal/diag"
	"loomwright/library"
)

// FuzzCheck runs the whole way of a loom file. Nothing may panic, every finding
// has a place in its file, and the same input gives the same answer.
func FuzzCheck(f *testing.F) {
	for _, text := range seeds(f) {
		f.Add(text)
	}
	f.Add(twelve)
	b := New()
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<14 {
			return
		}
		c := b.Check("loom.yaml", text)
		inPlace(t, c.Findings, func(file string) *diag.Text {
			if file == "loom.yaml" {
				return c.Text
			}
			return b.TextOf(file)
		})
		again := b.Check("loom.yaml", text)
		if got, want := table(again.Rows)+listed(again.Findings), table(c.Rows)+listed(c.Findings); got != want {
			t.Errorf("two answers:\n%s\n%s", want, got)
		}
	})
}

// seeds are the looms of all cases, and the examples.
func seeds(f *testing.F) []string {
	var out []string
	files, err := filepath.Glob(cases)
	if err != nil || len(files) == 0 {
		f.Fatalf("no cases found (%v)", err)
	}
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		if err != nil {
			f.Fatal(err)
		}
		for _, part := range a.Files {
			if part.Name == "loom.yaml" {
				out = append(out, string(part.Data))
			}
		}
	}
	return out
}

// inPlace asks that every finding is of a known code and stands in its text.
func inPlace(t *testing.T, list diag.List, text func(file string) *diag.Text) {
	t.Helper()
	known := map[string]bool{}
	for _, c := range Codes() {
		known[c.Code] = true
	}
	for _, d := range list {
		if !known[d.Code] || d.Message == "" {
			t.Errorf("no record of %s: %q", d.Code, d.Message)
		}
		src := text(d.Span.File)
		if src == nil {
			t.Errorf("%s points into %q, which nobody has read: %s", d.Code, d.Span.File, d.Message)
			continue
		}
		lines := strings.Count(src.Data, "\n") + 1
		if s := d.Span; s.Start.Line < 1 || s.Start.Col < 1 || s.End.Line > lines || s.End.Line < s.Start.Line ||
			s.Start.Line == s.End.Line && s.End.Col < s.Start.Col {
			t.Errorf("%s points to %v of a text of %d lines: %s", d.Code, s, lines, d.Message)
		}
	}
}

// FuzzPart reads a part file from a shelf and uses the part in a loom.
func FuzzPart(f *testing.F) {
	err := fs.WalkDir(library.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.Contains(p, "rotary") {
			return err
		}
		data, err := fs.ReadFile(library.Files, p)
		f.Add(string(data))
		return err
	})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, file string) {
		if len(file) > 1<<13 {
			return
		}
		usesPart(t, rand.New(rand.NewPCG(1, 1)), file)
	})
}
