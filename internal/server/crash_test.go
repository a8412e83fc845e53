package server_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// changed serves the built page as a plain host does, with some files changed on
// their way.
func changed(t *testing.T, change func(name, body string) string) (address string) {
	t.Helper()
	needPage(t)
	dist := http.Dir("../../web/dist")
	plain := http.FileServer(dist)
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		if !strings.HasSuffix(name, ".js") {
			plain.ServeHTTP(w, r)
			return
		}
		body, err := os.ReadFile(filepath.Join(string(dist), filepath.Base(name)))
		if err != nil {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/javascript")
		_, _ = w.Write([]byte(change(name, string(body))))
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// breaker spoils the memory of a running core when it is asked about a text
// with these words: the next call runs into a trap.
const breaker = `
const begin = WebAssembly.instantiate;
let core;
WebAssembly.instantiate = async (...a) => (core = await begin(...a));
self.addEventListener("message", (e) => {
	if (core && String(e.data.ask?.text).includes("break the core")) new Uint8Array(core.exports.mem.buffer).fill(255);
});
`

// tryCrash lets the core crash under an edit: the page says so, the text stays,
// and the next edit is proved and drawn by a core begun anew.
func tryCrash(t *testing.T, b context.Context, size [2]int64) {
	address := changed(t, func(name, body string) string {
		if name == "worker.js" {
			return breaker + body
		}
		return body
	})
	v := call(t, b, size, address, "")
	v.press("One single coil, volume and tone")
	v.proved()
	v.setText(v.text() + "# break the core\n")
	v.until(`document.querySelector(".notice.trouble")?.textContent.includes("The core stopped")`)
	v.shot("stopped")
	if !strings.Contains(v.text(), "# break the core") {
		t.Error("the text is lost")
	}
	v.setText(strings.Replace(v.text(), "# break the core", "# Knot", 1))
	v.proved()
	v.until(`!document.querySelector("lw-table .stale")`)
	v.press("Put away")
	v.until(`!document.querySelector(".notice.trouble")`)
}

// tryUpdate meets a newer version of the page: it is offered, and taken whole
// when asked for; the loom stays.
func tryUpdate(t *testing.T, b context.Context, size [2]int64) {
	newer := false
	address := changed(t, func(name, body string) string {
		if newer && name == "page.js" {
			return body + "\n;globalThis.newerPage = true;"
		}
		if newer && name == "offline.js" {
			return strings.Replace(body, `"loomwright-"`, `"loomwright-newer-"`, 1)
		}
		return body
	})
	v := call(t, b, size, address, "")
	v.press("One single coil, volume and tone")
	v.proved()
	edited := strings.Replace(v.text(), "title: ", "title: Godwit, ", 1)
	v.setText(edited)
	v.until(`navigator.serviceWorker.controller`)
	newer = true
	value[bool](v, `navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => true)`)
	v.until(`[...document.querySelectorAll(".notice button")].some(b => b.textContent === "Use it now")`)
	if value[bool](v, `!!globalThis.newerPage`) {
		t.Error("the newer version was taken unasked")
	}
	v.press("Use it now")
	v.until(`globalThis.newerPage`)
	v.until(`document.querySelector("#loom-text")`)
	if v.text() != edited {
		t.Errorf("after the update the loom is\n%s", v.text())
	}
	v.until(`caches.keys().then(k => globalThis.kept = k.join()) && globalThis.kept && globalThis.kept.split(",").length === 1`)
}
