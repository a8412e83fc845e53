package cli

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"loomwright": func() { os.Exit(Run(os.Args[1:], Streams{os.Stdin, os.Stdout, os.Stderr})) },
	})
}

// TestScripts runs command lines as a user types them.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_CONFIG_HOME", e.WorkDir+"/config") // nobody's own shelf
			e.Setenv("HOME", e.WorkDir)
			return nil
		},
	})
}
