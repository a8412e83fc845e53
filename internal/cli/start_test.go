package cli_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// BenchmarkStart runs the built command as a shell does: what a user waits for
// before anything is said.
func BenchmarkStart(b *testing.B) {
	bin := filepath.Join(b.TempDir(), "loomwright")
	if out, err := exec.Command("go", "build", "-o", bin, "../../cmd/loomwright").CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	loom := "../../examples/twin-coil-series-parallel.yaml"
	for _, c := range []struct {
		name string
		args []string
	}{
		{"help", []string{"--help"}},
		{"parts", []string{"parts"}},
		{"check", []string{"check", loom}},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				cmd := exec.Command(bin, c.args...)
				cmd.Env = append(os.Environ(), "XDG_CONFIG_HOME="+b.TempDir())
				if out, err := cmd.CombinedOutput(); err != nil {
					b.Fatalf("%v\n%s", err, out)
				}
			}
		})
	}
}
