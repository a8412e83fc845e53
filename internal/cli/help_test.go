package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"loomwright/examples"
)

var shellWord = regexp.MustCompile(`'[^']*'|"[^"]*"|\S+`)

// TestHelpExamplesRun types the examples of every command's help, guitar.yaml
// being one of the example looms that has the parts they name: none may end as
// a command line that could not run (status 2).
func TestHelpExamplesRun(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir()) // nobody's own shelf
	t.Chdir(t.TempDir())
	for _, dir := range []string{"shelf/codes", "shelf/switch"} {
		if err := os.MkdirAll(filepath.FromSlash(dir), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	lines := 0
	for _, c := range Root().Commands() {
		for line := range strings.Lines(c.Example) {
			if line = strings.TrimSpace(line); line != "" {
				lines++
				typed(t, line)
			}
		}
	}
	if lines < 10 {
		t.Errorf("%d examples found", lines)
	}
}

// typed runs a line, with one example loom after the other until one fits.
func typed(t *testing.T, line string) {
	t.Helper()
	said := ""
	for _, name := range []string{"three-single-coils-5way", "two-twin-coils-tone-at-output", "two-twin-coils-4p5t", "two-single-coils-3way"} {
		text, err := examples.Files.ReadFile(name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile("guitar.yaml", text, 0o600); err != nil {
			t.Fatal(err)
		}
		var status int
		status, said = runLine(t, line)
		asked := strings.Contains(said, "stopped before the end") // a command that asks, and got no answers
		if status != 2 || asked {
			return
		}
	}
	t.Errorf("%s\n%s", line, said)
}

// runLine runs a line as a shell would, > included.
func runLine(t *testing.T, line string) (status int, said string) {
	t.Helper()
	line, file, _ := strings.Cut(line, " > ")
	words := shellWord.FindAllString(line, -1)
	for i, w := range words {
		words[i] = strings.Trim(w, `'"`)
	}
	var out, talk bytes.Buffer
	status = Run(words[1:], Streams{strings.NewReader(""), &out, &talk})
	if file != "" {
		if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return status, talk.String()
}
