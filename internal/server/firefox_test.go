package server_test

import (
	"context"
	"image"
	_ "image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"loomwright/internal/oracle"
	"loomwright/internal/server"
)

// TestFirefox opens the page in Firefox, headless: its picture shows a page, and
// not an empty one.
func TestFirefox(t *testing.T) {
	needPage(t)
	firefox := oracle.Need(t, "firefox-esr")
	address := waiting(t)
	out, err := filepath.Abs(filepath.Join("..", "..", "out", "page", "firefox.png"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
		t.Fatal(err)
	}
	ctx, done := context.WithTimeout(context.Background(), 90*time.Second)
	defer done()
	cmd := exec.CommandContext(ctx, firefox, "--headless", "--no-remote", "--profile", t.TempDir(), "--window-size", "1360,900", "--screenshot", out, address+"/")
	cmd.Env = append(os.Environ(), "HOME="+t.TempDir(), "MOZ_DISABLE_CONTENT_SANDBOX=1")
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }() // only read
	picture, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if n := inked(picture); n < 20_000 {
		t.Errorf("only %d px differ from the paper: the page is empty", n)
	}
}

// waiting serves the page with a picture that arrives five seconds after the
// core was fetched: Firefox takes its picture of a page when all of it is there.
func waiting(t *testing.T) string {
	t.Helper()
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	h, fetched := server.Handler(root, nil), make(chan bool, 9)
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/":
			in := httptest.NewRecorder()
			plain := r.Clone(r.Context())
			plain.Header.Del("Accept-Encoding")
			h.ServeHTTP(in, plain)
			w.Header().Set("Content-Type", "text/html")
			_, _ = w.Write([]byte(strings.Replace(in.Body.String(), "</body>", `<img src="late.png" alt=""></body>`, 1)))
		case "/late.png":
			<-fetched
			time.Sleep(5 * time.Second)
		case "/core.wasm":
			h.ServeHTTP(w, r)
			fetched <- true
		default:
			h.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// inked counts the pixels that are not of the corner's colour.
func inked(p image.Image) int {
	b := p.Bounds()
	corner, n := p.At(b.Min.X, b.Max.Y-1), 0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if p.At(x, y) != corner {
				n++
			}
		}
	}
	return n
}
