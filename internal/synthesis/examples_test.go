package synthesis

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/wiring"
	"loomwright/library"
	"loomwright/schemes"
)

var lib = part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})

// shipped reads the schemes that come with the program.
func shipped(t testing.TB) []Scheme {
	t.Helper()
	out, list := ReadSchemes(part.Shelf{Name: "schemes", FS: schemes.Files})
	if len(list) > 0 {
		t.Fatal(list)
	}
	return out
}

// read reads a loom that must be right.
func read(t testing.TB, name, text string) *loom.Loom {
	t.Helper()
	l, list := loom.Read(diag.NewText(name, text), lib)
	if l == nil {
		t.Fatalf("%v\n%s", list, text)
	}
	return l
}

// prove writes a wiring into its loom file and has other code prove it.
func prove(t testing.TB, l *loom.Loom, w *Wiring) (string, proof.Report) {
	t.Helper()
	text := Write(l.Doc, w.Joins)
	g, list := wiring.Build(read(t, "written", text))
	if list.HasErrors() {
		t.Fatal(list)
	}
	return text, proof.Prove(g)
}

// withoutJoins takes the joins out of a loom file.
func withoutJoins(text string) string {
	var out []string
	in := false
	for _, l := range strings.Split(text, "\n") {
		if strings.HasPrefix(l, "joins:") {
			in = true
			out = append(out, "joins: []")
			continue
		}
		if in && (strings.HasPrefix(l, " ") || l == "") {
			continue
		}
		in = false
		out = append(out, l)
	}
	return strings.Join(out, "\n")
}

// allowed are findings that a file's own circumstances cause, not the wiring.
var allowed = map[string][]string{
	"leads-unknown.yaml":          {"sound-unsure"}, // two leads that nobody has told apart
	"rotary-tone-capacitors.yaml": {"switch-idle"},  // its capacitors are in no wanted sound and no scheme
}

// TestExamplesFoundAgain takes the joins out of every example, and takes every
// loom to begin from as it is; the wiring found must be proved, without a finding
// of any weight.
func TestExamplesFoundAgain(t *testing.T) {
	examples, _ := filepath.Glob("../../examples/*.yaml")
	starts, _ := filepath.Glob("../../starts/*.yaml")
	if len(examples) < 15 || len(starts) < 5 {
		t.Fatalf("only %d examples and %d starts found", len(examples), len(starts))
	}
	for _, file := range append(examples, starts...) {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			l := read(t, name, withoutJoins(string(data)))
			r, list := Find(l, Options{Schemes: shipped(t), Library: lib})
			if r.Status != Found || !r.Smallest {
				t.Fatalf("%v, smallest %v: %v", r.Status, r.Smallest, list)
			}
			text, report := prove(t, l, &r.Wirings[0])
			for _, d := range report.Findings {
				if d.Severity > diag.Info && !slices.Contains(allowed[name], d.Code) {
					t.Errorf("%s: %s\n%s", d.Code, d.Message, text)
				}
			}
			if n := len(r.Wirings[0].Crowded); n > 0 {
				t.Errorf("crowded lugs: %v", r.Wirings[0].Crowded)
			}
		})
	}
}
