package server_test

import (
	"encoding/json"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"loomwright/internal/server"
)

// TestShelfIsServed reads a shelf as the page does: part files by path, and
// nothing else.
func TestShelfIsServed(t *testing.T) {
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	parts := fstest.MapFS{
		"pot/godwit.yaml": {Data: []byte("loomwright-part: 1\n")}, "codes/knot.yaml": {Data: []byte("loomwright-code: 1\n")},
		"notes.txt": {Data: []byte("no part")}, ".git/x.yaml": {Data: []byte("hidden")},
		"pot/huge.yaml": {Data: []byte(strings.Repeat("#", 3<<20))},
	}
	s := httptest.NewServer(server.Handler(root, parts))
	t.Cleanup(s.Close)
	r, err := s.Client().Get(s.URL + "/api/shelf")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = r.Body.Close() }()
	var got struct{ Files map[string]string }
	if err := json.NewDecoder(r.Body).Decode(&got); err != nil {
		t.Fatal(err)
	}
	if len(got.Files) != 2 || got.Files["pot/godwit.yaml"] == "" || got.Files["codes/knot.yaml"] == "" {
		t.Errorf("the shelf is %v", got.Files)
	}
}

// TestPartsAreNoLooms keeps the shelf beside the looms out of their list.
func TestPartsAreNoLooms(t *testing.T) {
	folder := t.TempDir()
	if err := os.MkdirAll(filepath.Join(folder, "shelf", "pot"), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(folder, "shelf", "pot", "godwit.yaml"), "loomwright-part: 1\n")
	write(t, filepath.Join(folder, "a.yaml"), "loomwright: 1\n")
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	s := httptest.NewServer(server.Handler(root, nil))
	t.Cleanup(s.Close)
	r, err := s.Client().Get(s.URL + "/api/looms")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = r.Body.Close() }()
	var got struct{ Looms []string }
	if err := json.NewDecoder(r.Body).Decode(&got); err != nil || len(got.Looms) != 1 || got.Looms[0] != "a.yaml" {
		t.Errorf("the looms are %v (%v)", got.Looms, err)
	}
}
