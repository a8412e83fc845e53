// Package server answers on this machine's own address: the page, and the
// looms of one folder that the page reads and saves. It computes nothing.
package server

import (
	"bytes"
	"compress/gzip"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"os"
	"path"
	"strings"
	"time"

	"loomwright/web"
)

// Handler serves the page and the *.yaml looms below one folder; nothing
// outside it is read or written, whatever links say. Requests for another host
// than loopback, or from another site's page, are refused. parts is the user's
// own shelf, nil for none; it is only read.
func Handler(folder *os.Root, parts fs.FS) http.Handler {
	f := &files{root: folder}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /api/looms", f.list)
	mux.HandleFunc("GET /api/looms/{name...}", f.read)
	mux.HandleFunc("PUT /api/looms/{name...}", f.save)
	mux.HandleFunc("GET /api/shelf", shelf(parts))
	mux.HandleFunc("GET /", asset)
	return guard(mux)
}

// notBuilt is shown where `go build` made the program without the page.
const notBuilt = `<!doctype html><html lang="en"><title>Loomwright</title>
<h1>The page is not built in</h1>
<p>This program was built without it. Run <code>make</code> in Loomwright's folder, which builds the page with Go alone, and start it again.</p>
<p>Meanwhile <code>loomwright check</code> and <code>loomwright draw</code> do the same work in a terminal.</p>
`

// asset answers with a file of the page, packed as the browser takes it.
func asset(w http.ResponseWriter, r *http.Request) {
	if !web.Built() {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(http.StatusServiceUnavailable)
		_, _ = io.WriteString(w, notBuilt)
		return
	}
	name := strings.TrimPrefix(path.Clean(r.URL.Path), "/")
	if name == "" {
		name = "index.html"
	}
	data, encoding := packed(name, r.Header.Get("Accept-Encoding"))
	if data == nil {
		http.NotFound(w, r)
		return
	}
	h := w.Header()
	h.Set("Content-Type", typeOf(name))
	h.Set("Vary", "Accept-Encoding")
	h.Set("ETag", tagOf(data))
	if encoding != "" {
		h.Set("Content-Encoding", encoding)
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

// packed finds a file in the best encoding that is accepted; nil: there is none.
func packed(name, accepts string) (data []byte, encoding string) {
	for _, e := range []struct{ header, suffix string }{{"br", "br"}, {"gzip", "gz"}} {
		if takes(accepts, e.header) {
			if data, err := web.Asset(name, e.suffix); err == nil {
				return data, e.header
			}
		}
	}
	data, err := web.Asset(name, "gz")
	if err != nil {
		return nil, ""
	}
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, ""
	}
	plain, err := io.ReadAll(z)
	if err != nil {
		return nil, ""
	}
	return plain, ""
}

// takes reports whether an Accept-Encoding header names an encoding (RFC 9110,
// section 12.5.3) without refusing it.
func takes(header, encoding string) bool {
	for _, field := range strings.Split(header, ",") {
		name, weight, _ := strings.Cut(strings.TrimSpace(field), ";")
		if strings.EqualFold(strings.TrimSpace(name), encoding) {
			q := strings.TrimPrefix(strings.ReplaceAll(weight, " ", ""), "q=")
			return strings.Trim(q, "0.") != "" || weight == ""
		}
	}
	return false
}

func typeOf(name string) string {
	switch path.Ext(name) {
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".wasm":
		return "application/wasm"
	case ".webmanifest":
		return "application/manifest+json"
	}
	return mime.TypeByExtension(path.Ext(name))
}
