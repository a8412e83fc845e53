package server_test

import (
	"bytes"
	"compress/flate"
	"context"
	"encoding/base64"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
)

func quoted(text string) string {
	out, _ := json.Marshal(text) // a string can always be written
	return string(out)
}

// packed is a loom as a link carries it.
func linkCode(t *testing.T, text string) string {
	t.Helper()
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, flate.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return base64.RawURLEncoding.EncodeToString(out.Bytes())
}

// tryLink carries every example in a link of at most 2,000 characters, opens a
// link in another browser, and refuses links that are damaged or too large.
func tryLink(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.press("Print, export, share")
	v.press("A link that carries this loom")
	v.until(`document.querySelector(".address textarea")?.value.includes("#loom=")`)
	link := value[string](v, `document.querySelector(".address textarea").value`)
	if len(link) > 2000 {
		t.Errorf("the link has %d characters", len(link))
	}
	t.Logf("the link of %s has %d characters", phaseLoom, len(link))
	text := v.text()
	_, fragment, _ := strings.Cut(link, "#")
	other := call(t, b, size, v.address, "#"+fragment)
	other.proved()
	if other.text() != text {
		t.Error("the link carries another text")
	}
	other.quiet()
	for what, code := range map[string]string{
		"cut short or damaged": linkCode(t, text)[:300],
		"more than a loom":     linkCode(t, strings.Repeat("a", 50<<20)),
		"does not carry":       "%3Cscript%3E",
	} {
		bad := call(t, b, size, v.address, "#loom="+code)
		bad.until(`document.querySelector(".trouble")?.textContent.includes(` + quoted(what) + `)`)
		bad.quiet()
	}
}

// tryBeside opens a loom that lies beside the page on a static host, as the code
// of a sheet names it, and says clearly what is not one.
func tryBeside(t *testing.T, b context.Context, size [2]int64) {
	needPage(t)
	loom, err := os.ReadFile("../../examples/" + phaseLoom)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{"our knot.yaml": string(loom), "page.yaml": "<!doctype html>\n<p>parts: none", "large.yaml": "parts:\n" + strings.Repeat("#\n", 200_000)}
	dist := http.FileServer(http.Dir("../../web/dist"))
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if text, ok := files[strings.TrimPrefix(r.URL.Path, "/looms/")]; ok {
			_, _ = w.Write([]byte(text))
			return
		}
		http.StripPrefix("/looms", dist).ServeHTTP(w, r)
	}))
	t.Cleanup(s.Close)
	v := call(t, b, size, s.URL+"/looms", "#mode=solder&file=our+knot.yaml")
	v.until(`document.querySelector(".place")?.textContent.startsWith("Step 1 of ")`)
	if got := value[string](v, draftText); got != string(loom) {
		t.Errorf("it is another loom: %s", got)
	}
	for file, want := range map[string]string{
		"godwit.yaml": "does not lie beside this page (404)", "page.yaml": "is no loom", "large.yaml": "is no loom",
		"../our+knot.yaml": "names no loom", "https://elsewhere.example/knot.yaml": "names no loom", ".knot.yaml": "names no loom", "index.html": "names no loom",
	} {
		bad := call(t, b, size, s.URL+"/looms", "#mode=solder&file="+file)
		bad.until(`document.querySelector(".trouble")?.textContent.includes(` + quoted(want) + `)`)
	}
}

// tryMarkup opens a loom whose title, note and names are markup: they stay text.
func tryMarkup(t *testing.T, b context.Context, size [2]int64) {
	address, folder := serve(t)
	const attack = `<img src=x onerror="document.title='got in'"><script>document.title='got in'</script>`
	loom := "loomwright: 1\ntitle: '" + strings.ReplaceAll(attack, "'", "''") + "'\nnote: '</textarea><b id=got>'\nparts:\n  coil: {is: pickup/single-coil, called: '<b id=got>coil</b>'}\n  jack: {is: jack/mono}\njoins:\n  - coil.coil.start -- jack.tip\n  - coil.coil.finish -- jack.sleeve\n"
	name := "<b id=got>.yaml"
	if err := os.WriteFile(filepath.Join(folder, name), []byte(loom), 0o644); err != nil {
		t.Fatal(err)
	}
	v := call(t, b, size, address, "")
	v.until(`document.querySelector(".files button")`)
	v.press(name)
	v.proved()
	if value[bool](v, `!!document.querySelector("#got, img, main script") || document.title.startsWith("got in")`) {
		t.Error("markup of a loom became markup of the page")
	}
	if !strings.Contains(value[string](v, `document.querySelector("h1").textContent`), "<img") {
		t.Error("the title is not shown as it is written")
	}
	v.shot("markup")
	v.quiet()
}

// tryExport downloads the drawing in each format.
func tryExport(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	into := t.TempDir()
	v.do(command(cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: into, BrowserContextID: chromedp.FromContext(v.ctx).BrowserContextID}))
	v.press("Print, export, share")
	for words, want := range map[string][2]string{"Drawing as SVG": {".svg", "<?xml"}, "Drawing as PNG": {".png", "\x89PNG"}, "Drawing as PDF": {".pdf", "%PDF-"}, "Build sheet as PDF": {"-sheet.pdf", "%PDF-"}, "Loom file": {".yaml", "# Saltmarsh"}} {
		v.press(words)
		file := filepath.Join(into, strings.TrimSuffix(phaseLoom, ".yaml")+want[0])
		for range 1200 {
			if data, err := os.ReadFile(file); err == nil && strings.HasPrefix(string(data), want[1]) {
				break
			}
			time.Sleep(50 * time.Millisecond)
		}
		data, err := os.ReadFile(file)
		if err != nil || !strings.HasPrefix(string(data), want[1]) || len(data) < 500 {
			t.Errorf("%s: %d bytes (%v)", words, len(data), err)
		}
	}
	v.quiet()
}
