package server_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"loomwright/internal/server"
)

// TestSweep: only what a killed save left goes, and only once it is old.
func TestSweep(t *testing.T) {
	_, folder := handler(t)
	now := time.Now()
	stale, fresh := now.Add(-61*time.Second), now.Add(-59*time.Second)
	keeps := []string{"one.yaml", ".other.yaml.ABCDEFG2.tmp", ".one.yaml.tmp", "one.yaml.ABCDEFG2.tmp",
		".one.yaml.abcdefg2.tmp", ".one.txt.ABCDEFG2.tmp", ".one.yaml.ABCDEFG2.tmp.bak", ".hidden/.one.yaml.ABCDEFG2.tmp",
		"shelf/.one.yaml.ABCDEFG2.tmp"}
	goes := []string{".one.yaml.ABCDEFG2.tmp", ".godwit.yml.ZZZZ7777.tmp", "deeper/.knot v2.yaml.ABCDEFG2.tmp"}
	for _, name := range slices.Concat(keeps, goes) {
		file := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		write(t, file, "loomwright: 1\n")
		at := stale
		if name == keeps[1] {
			at = fresh
		}
		if err := os.Chtimes(file, at, at); err != nil {
			t.Fatal(err)
		}
	}
	outside := filepath.Join(filepath.Dir(folder), "outside.yaml")
	link := filepath.Join(folder, ".link.yaml.ABCDEFG2.tmp")
	if err := os.Symlink(outside, link); err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = root.Close() }()
	server.Sweep(root, now)
	for _, name := range keeps {
		if _, err := os.Lstat(filepath.Join(folder, name)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, name := range goes {
		if _, err := os.Lstat(filepath.Join(folder, name)); err == nil {
			t.Errorf("%s is still there", name)
		}
	}
	for _, name := range []string{link, outside} {
		if _, err := os.Lstat(name); err != nil {
			t.Error(err)
		}
	}
}
