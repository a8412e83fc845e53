// Package server shows looms of one folder as pages over loopback. It computes
// nothing: the bench does.
package server

import (
	"embed"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"net"
	"net/http"
	"net/url"
	"path"
	"slices"
	"strings"

	"loomwright/internal/bench"
)

//go:embed page
var files embed.FS

// maxLoom bounds a loom file in bytes.
const maxLoom = 4 << 20

// server is one folder shown.
type server struct {
	bench *bench.Bench
	looms fs.FS
	page  *template.Template
}

// Handler serves the *.yaml looms of one folder. Requests for another host than
// loopback, or from another site's page, are refused.
func Handler(b *bench.Bench, looms fs.FS) (http.Handler, error) {
	page, err := template.New("").Funcs(template.FuncMap{"drawing": trusted}).ParseFS(files, "page/*.html")
	if err != nil {
		return nil, fmt.Errorf("the page's template: %w", err)
	}
	static, err := fs.Sub(files, "page")
	if err != nil {
		return nil, err
	}
	s := &server{bench: b, looms: looms, page: page}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.index)
	mux.HandleFunc("GET /loom/{file...}", s.loom)
	mux.Handle("GET /page.css", http.FileServerFS(static))
	mux.Handle("GET /page.js", http.FileServerFS(static))
	return guard(mux), nil
}

// trusted marks our own painter's SVG, in which every text is escaped.
func trusted(svg string) template.HTML { return template.HTML(svg) }

// guard refuses what does not come from this machine's own page, and sets a
// strict content security policy.
func guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !loopback(r.Host) || !sameOrigin(r) {
			http.Error(w, "this page answers only on this machine's own address", http.StatusForbidden)
			return
		}
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; base-uri 'none'; form-action 'self'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-cache")
		next.ServeHTTP(w, r)
	})
}

func loopback(host string) bool {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	host = strings.Trim(host, "[]")
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

func sameOrigin(r *http.Request) bool {
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	u, err := url.Parse(origin)
	return err == nil && u.Host == r.Host
}

// looms lists the loom files of the folder, broken ones in their own folder
// included.
func (s *server) names() []string {
	var out []string
	_ = fs.WalkDir(s.looms, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return nil // a folder that cannot be read shows nothing
		}
		if d.IsDir() && strings.Count(p, "/") > 2 {
			return fs.SkipDir
		}
		if strings.HasSuffix(p, ".yaml") && !d.IsDir() && len(out) < 500 {
			out = append(out, p)
		}
		return nil
	})
	slices.Sort(out)
	return out
}

func (s *server) index(w http.ResponseWriter, r *http.Request) {
	names := s.names()
	if len(names) == 0 {
		s.render(w, view{Title: "Loomwright"})
		return
	}
	http.Redirect(w, r, "/loom/"+names[0], http.StatusFound)
}

// view is what the page's template shows.
type view struct {
	Title   string
	Names   []string
	Name    string
	Checked bench.Checked
	Drawing string
	Rows    []row
}

// row is one setting on the page; Live lists the runs that carry its sound.
type row struct {
	bench.SettingLine
	Live string
}

func (s *server) loom(w http.ResponseWriter, r *http.Request) {
	name := path.Clean(r.PathValue("file"))
	if !fs.ValidPath(name) || !strings.HasSuffix(name, ".yaml") {
		http.NotFound(w, r)
		return
	}
	data, err := s.read(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		http.NotFound(w, r)
		return
	case err != nil:
		http.Error(w, "this loom file cannot be read", http.StatusInternalServerError)
		return
	}
	c := s.bench.Check(name, data)
	v := view{Title: name, Names: s.names(), Name: name, Checked: c}
	if c.Title != "" {
		v.Title = c.Title
	}
	for _, line := range bench.SettingLines(c) {
		v.Rows = append(v.Rows, row{line, liveList(line.LiveRuns)})
	}
	if d, err := s.bench.Draw(name, data, bench.DrawOptions{Format: bench.InlineSVG}); err == nil {
		v.Drawing = string(d.Picture)
	}
	s.render(w, v)
}

func liveList(runs []int) string {
	words := make([]string, len(runs))
	for i, r := range runs {
		words[i] = fmt.Sprint(r)
	}
	return strings.Join(words, " ")
}

func (s *server) read(name string) (string, error) {
	f, err := s.looms.Open(name)
	if err != nil {
		return "", err
	}
	defer func() { _ = f.Close() }() // only read
	info, err := f.Stat()
	if err != nil {
		return "", err
	}
	if info.Size() > maxLoom || info.IsDir() {
		return "", fs.ErrInvalid
	}
	data, err := fs.ReadFile(s.looms, name)
	return string(data), err
}

func (s *server) render(w http.ResponseWriter, v view) {
	var b strings.Builder
	if err := s.page.ExecuteTemplate(&b, "page.html", v); err != nil {
		http.Error(w, "the page cannot be drawn", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write([]byte(b.String()))
}
