// Package oracle finds the independent programs that tests check Loomwright
// against (ngspice, cadical, pdftotext …). No product code imports it.
package oracle

import (
	"os"
	"os/exec"
	"testing"
)

// Need returns the path of an independent program. Where it is missing the
// test is skipped aloud, except under CI=true, where it fails: CI installs all
// of them, so a missing one is a broken install step.
func Need(t testing.TB, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err == nil {
		return path
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed: CI must check against it", program)
	}
	t.Skipf("%s is not installed: this outside check did not run (see README, make test)", program)
	return ""
}
