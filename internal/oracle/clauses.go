package oracle

import (
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Written is the path of a file of clauses (DIMACS) that goes away with the test.
func Written(t testing.TB, write func(io.Writer) error) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "clauses.cnf")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(write(file), file.Close()); err != nil {
		t.Fatal(err)
	}
	return path
}

// Satisfiable is what cadical or minisat says of clauses: exit code 10 for
// satisfiable and 20 for unsatisfiable, as the SAT competitions ask.
func Satisfiable(t testing.TB, program string, write func(io.Writer) error) bool {
	t.Helper()
	args := map[string][]string{"cadical": {"-q"}, "minisat": {"-verb=0"}}[program]
	err := exec.Command(Need(t, program), append(args, Written(t, write))...).Run()
	var exit *exec.ExitError
	if !errors.As(err, &exit) {
		t.Fatalf("%s: %v", program, err)
	}
	switch exit.ExitCode() {
	case 10:
		return true
	case 20:
		return false
	}
	t.Fatalf("%s: exit code %d", program, exit.ExitCode())
	return false
}
