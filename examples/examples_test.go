package examples_test

import (
	"io/fs"
	"slices"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/proof"
)

// A comment at the top of a file declares what its proof may or must find:
// "# allows: code", "# finds: code", "# also: code, code". The line that
// causes a mistake ends in the comment "# <- here".
const mark = "# <- here"

// file is one example with what its comments declare.
type file struct {
	name                string
	text                string
	says                string // first comment line
	finds, also, allows []string
	marked              []int // lines with the mark
	proved              bench.Checked
}

// read proves every file that a pattern finds, and fails when there are fewer
// than expected.
func read(t *testing.T, pattern string, atLeast int) []file {
	t.Helper()
	names, err := fs.Glob(examples.Files, pattern)
	if err != nil || len(names) < atLeast {
		t.Fatalf("%d files found as %s, at least %d expected (%v)", len(names), pattern, atLeast, err)
	}
	b := bench.New()
	var out []file
	for _, name := range names {
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f := file{name: name, text: string(data), proved: b.Check(name, string(data))}
		f.declared()
		out = append(out, f)
	}
	return out
}

func sound(t *testing.T) []file  { return read(t, "*.yaml", 12) }
func broken(t *testing.T) []file { return read(t, "broken/*.yaml", 16) }

// declared reads the comments.
func (f *file) declared() {
	for i, line := range strings.Split(f.text, "\n") {
		if strings.HasSuffix(line, mark) {
			f.marked = append(f.marked, i+1)
		}
		comment, ok := strings.CutPrefix(line, "# ")
		if !ok {
			continue
		}
		if i == 0 {
			f.says = comment
		}
		for key, list := range map[string]*[]string{"finds: ": &f.finds, "also: ": &f.also, "allows: ": &f.allows} {
			if codes, ok := strings.CutPrefix(comment, key); ok {
				*list = strings.Split(codes, ", ")
			}
		}
	}
}

// loud lists the codes of a proof's errors and warnings.
func (f *file) loud() []string {
	var out []string
	for _, d := range f.proved.Findings {
		if d.Severity > diag.Info && !slices.Contains(out, d.Code) {
			out = append(out, d.Code)
		}
	}
	return out
}

// Every example is proved without error or warning, except for what it says it
// allows, and what it allows is there.
func TestExamplesHold(t *testing.T) {
	for _, f := range sound(t) {
		t.Run(f.name, func(t *testing.T) {
			if !strings.HasPrefix(f.says, "Saltmarsh Bench, ") {
				t.Errorf("the first line does not say whom it is for: %q", f.says)
			}
			if len(f.proved.Rows) == 0 {
				t.Error("not proved")
			}
			for _, d := range f.proved.Findings {
				if d.Severity > diag.Info && !slices.Contains(f.allows, d.Code) {
					t.Errorf("line %d: %s [%s]", d.Span.Start.Line, d.Message, d.Code)
				}
			}
			for _, code := range f.allows {
				if !slices.Contains(f.loud(), code) {
					t.Errorf("it allows %s, which is not found", code)
				}
			}
		})
	}
}

// Every setting of every example has a wanted sound, and it is heard.
func TestWantedSoundsAreHeard(t *testing.T) {
	for _, f := range sound(t) {
		for _, r := range f.proved.Rows {
			switch {
			case r.Wanted == nil:
				t.Errorf("%s: nothing is wanted with %s", f.name, r.Name)
			case r.Wanted.Met == proof.Unsure && slices.Contains(f.allows, "sound-unsure"):
			case r.Wanted.Met != proof.Yes:
				t.Errorf("%s: with %s wanted %s, heard %s", f.name, r.Name, r.Wanted.Sound, r.Heard)
			}
		}
	}
}

// Every broken loom yields the finding that names its mistake on the marked
// line, and no finding that it does not declare.
func TestBrokenAreFound(t *testing.T) {
	for _, f := range broken(t) {
		t.Run(f.name, func(t *testing.T) {
			if f.says == "" || len(f.finds) != 1 || len(f.marked) != 1 {
				t.Fatalf("says %q, finds %v, marks lines %v: one of each is expected", f.says, f.finds, f.marked)
			}
			if !slices.ContainsFunc(f.proved.Findings, func(d diag.Diagnostic) bool {
				return d.Code == f.finds[0] && d.Span.File == f.name && d.Span.Start.Line == f.marked[0]
			}) {
				t.Errorf("%s is not found on line %d", f.finds[0], f.marked[0])
			}
			declared := slices.Sorted(slices.Values(append(slices.Clone(f.finds), f.also...)))
			if got := slices.Sorted(slices.Values(f.loud())); !slices.Equal(got, declared) {
				t.Errorf("found %v, declared %v", got, declared)
			}
		})
	}
}

// Every declared code exists, and every error and warning of the proof has a
// broken loom that shows it.
func TestEveryFindingIsShown(t *testing.T) {
	var shown, known []string
	for _, f := range append(sound(t), broken(t)...) {
		shown = slices.Concat(shown, f.finds, f.also, f.allows)
	}
	for _, c := range bench.Codes() {
		known = append(known, c.Code)
	}
	for _, code := range shown {
		if !slices.Contains(known, code) {
			t.Errorf("%q is declared, and is no code", code)
		}
	}
	for _, c := range proof.Codes() {
		if c.Severity > diag.Info && !slices.Contains(shown, c.Code) {
			t.Errorf("no example shows %s: %s", c.Code, c.Says)
		}
	}
}

// The examples stand in the canonical layout.
func TestExamplesAreFormatted(t *testing.T) {
	b := bench.New()
	for _, f := range append(sound(t), broken(t)...) {
		if got, list := b.Format(f.name, f.text); got != f.text || list.HasErrors() {
			t.Errorf("%s is not in the canonical layout (%v)", f.name, list)
		}
	}
}
