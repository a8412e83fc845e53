package server_test

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"loomwright/internal/server"
)

// ask sends one request to a handler, as the page does unless header says else.
func ask(t *testing.T, h http.Handler, method, target, body string, header ...string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	r.Host = "127.0.0.1:7447"
	for i := 0; i < len(header); i += 2 {
		if header[i] == "Host" {
			r.Host = header[i+1]
		}
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func handler(t *testing.T) (http.Handler, string) {
	t.Helper()
	outer := t.TempDir()
	folder := filepath.Join(outer, "served")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(outer, "outside.yaml"), "secret")
	write(t, filepath.Join(folder, "one.yaml"), "loomwright: 1\n")
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	return server.Handler(root, nil), folder
}

func TestStrangersAreRefused(t *testing.T) {
	h, _ := handler(t)
	for _, c := range []struct {
		header []string
		want   int
	}{
		{nil, 200},
		{[]string{"Host", "localhost:7447"}, 200},
		{[]string{"Host", "[::1]:7447"}, 200},
		{[]string{"Origin", "http://127.0.0.1:7447"}, 200},
		{[]string{"Host", "loom.example"}, 403},            // DNS rebinding
		{[]string{"Host", "127.0.0.1.loom.example"}, 403},  //
		{[]string{"Origin", "http://loom.example"}, 403},   // another site
		{[]string{"Origin", "http://127.0.0.1:9000"}, 403}, // another program's page
		{[]string{"Origin", "null"}, 403},                  // a sandboxed frame
		{[]string{"Sec-Fetch-Site", "cross-site"}, 403},    // an image or script elsewhere
	} {
		if got := ask(t, h, "GET", "/api/looms", "", c.header...).StatusCode; got != c.want {
			t.Errorf("%v: %d, want %d", c.header, got, c.want)
		}
	}
	policy := ask(t, h, "GET", "/api/looms", "").Header.Get("Content-Security-Policy")
	if strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") || !strings.HasPrefix(policy, "default-src 'none'") {
		t.Errorf("content security policy: %s", policy)
	}
}

func TestNothingOutsideTheFolder(t *testing.T) {
	h, folder := handler(t)
	if err := os.Symlink(filepath.Join(folder, "..", "outside.yaml"), filepath.Join(folder, "link.yaml")); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"../outside.yaml", "%2e%2e/outside.yaml", "..%2foutside.yaml", "link.yaml", "/etc/hosts", "one.yaml/../../outside.yaml", "..%5coutside.yaml", "one.txt", ".hidden.yaml", "%00.yaml", ""} {
		for _, method := range []string{"GET", "PUT"} {
			r := ask(t, h, method, "/api/looms/"+name, "evil", "If-None-Match", "*")
			body, _ := io.ReadAll(r.Body)
			if r.StatusCode < 300 && method == "PUT" || strings.Contains(string(body), "secret") {
				t.Errorf("%s %s: %d %s", method, name, r.StatusCode, body)
			}
		}
	}
	holds(t, filepath.Join(folder, "..", "outside.yaml"), "secret")
}

func TestSaving(t *testing.T) {
	h, folder := handler(t)
	mark := ask(t, h, "GET", "/api/looms/one.yaml", "").Header.Get("ETag")
	for _, c := range []struct {
		what, name, body string
		header           []string
		want             int
	}{
		{"without a mark", "one.yaml", "x", nil, 412},
		{"as new over an old one", "one.yaml", "x", []string{"If-None-Match", "*"}, 412},
		{"with a wrong mark", "one.yaml", "x", []string{"If-Match", `"no"`}, 412},
		{"with the mark", "one.yaml", "loomwright: 1 # 2\n", []string{"If-Match", mark}, 204},
		{"with the mark again", "one.yaml", "x", []string{"If-Match", mark}, 412},
		{"a new one", "two.yaml", "new", []string{"If-None-Match", "*"}, 204},
		{"into a folder that is not there", "no/two.yaml", "new", []string{"If-None-Match", "*"}, 404},
		{"too large", "three.yaml", strings.Repeat("a", 4<<20+1), []string{"If-None-Match", "*"}, 413},
	} {
		if got := ask(t, h, "PUT", "/api/looms/"+c.name, c.body, c.header...).StatusCode; got != c.want {
			t.Errorf("%s: %d, want %d", c.what, got, c.want)
		}
	}
	holds(t, filepath.Join(folder, "one.yaml"), "loomwright: 1 # 2\n")
	holds(t, filepath.Join(folder, "two.yaml"), "new")
	left, err := os.ReadDir(folder)
	if err != nil || len(left) != 2 {
		t.Errorf("left in the folder: %v (%v)", left, err)
	}
	list, _ := io.ReadAll(ask(t, h, "GET", "/api/looms", "").Body)
	if want := `{"looms":["one.yaml","two.yaml"]}`; strings.TrimSpace(string(list)) != want {
		t.Errorf("listed %s, want %s", list, want)
	}
}

// TestKilledWhileSaving kills a server a hundred times while it saves: the file
// is always one of the two texts, whole. What a kill in the middle of a save
// leaves beside it shows how many of them hit one.
func TestKilledWhileSaving(t *testing.T) {
	if os.Getenv("SAVING_IN") != "" {
		saveForever(t, os.Getenv("SAVING_IN"))
		return
	}
	folder := t.TempDir()
	file := filepath.Join(folder, "one.yaml")
	texts := map[string]bool{textOf("a"): true, textOf("b"): true}
	write(t, file, textOf("a"))
	for i := range 100 {
		cmd := exec.Command(os.Args[0], "-test.run", "^TestKilledWhileSaving$")
		cmd.Env = append(os.Environ(), "SAVING_IN="+folder)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if said, err := bufio.NewReader(out).ReadString('\n'); said != "saving\n" {
			t.Fatalf("it does not save: %q (%v)", said, err)
		}
		time.Sleep(time.Duration(i%10) * time.Millisecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // the state says more
		if end := cmd.ProcessState.String(); end != "signal: killed" {
			t.Fatalf("kill %d: it ended by itself: %s", i, end)
		}
		got, err := os.ReadFile(file)
		if err != nil || !texts[string(got)] {
			t.Fatalf("kill %d: the file is torn: %d bytes (%v)", i, len(got), err)
		}
	}
	left, err := filepath.Glob(filepath.Join(folder, ".*.tmp"))
	if err != nil || len(left) == 0 {
		t.Errorf("no kill of a hundred hit a save (%v)", err)
	}
	t.Logf("%d of 100 kills were in the middle of a save", len(left))
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = root.Close() }()
	server.Sweep(root, time.Now().Add(2*time.Minute))
	if left, _ := filepath.Glob(filepath.Join(folder, ".*")); len(left) > 0 {
		t.Errorf("not swept up: %q", left)
	}
}

func textOf(letter string) string { return strings.Repeat(letter, 300_000) + "\n" }

func saveForever(t *testing.T, folder string) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	h := server.Handler(root, nil)
	for i := 0; ; i++ {
		mark := ask(t, h, "GET", "/api/looms/one.yaml", "").Header.Get("ETag")
		r := ask(t, h, "PUT", "/api/looms/one.yaml", textOf(string(rune('a'+i%2))), "If-Match", mark)
		if r.StatusCode != http.StatusNoContent {
			t.Fatal(r.Status)
		}
		if i == 0 {
			fmt.Println("saving")
		}
	}
}
