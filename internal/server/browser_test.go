package server_test

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"loomwright/internal/bench"
	"loomwright/internal/oracle"
	"loomwright/internal/server"
	"loomwright/web"
)

// Sizes of the screens that the page is tried at, px.
var (
	phone   = [2]int64{360, 740}
	desktop = [2]int64{1360, 900}
)

// visit is one person at one browser, with a folder of looms of their own.
type visit struct {
	*testing.T
	ctx     context.Context
	address string
	size    [2]int64
	noise   []string // what the browser's console said
}

// needPage skips aloud where the page was not built; CI builds it.
func needPage(t *testing.T) {
	t.Helper()
	if web.Built() {
		return
	}
	if os.Getenv("CI") == "true" {
		t.Fatal("the page is not built: make page comes first")
	}
	t.Skip("the page is not built (make page): it was not tried in a browser")
}

// laidPhase is the loom that most tasks are done with, with the places of its
// parts written into it: its first drawing then takes a tenth of the time.
var laidPhase = sync.OnceValues(func() (string, error) {
	data, err := os.ReadFile(filepath.Join("../../examples", phaseLoom))
	if err != nil {
		return "", err
	}
	b := bench.New()
	s, err := bench.NewDesk(b).Sketch(bench.Ask{Name: phaseLoom, Text: string(data)})
	if err != nil || len(s.Places) == 0 {
		return "", fmt.Errorf("%s is not laid out: %w", phaseLoom, err)
	}
	text := string(data) + "place:\n"
	for _, part := range slices.Sorted(maps.Keys(s.Places)) {
		at := s.Places[part]
		text += fmt.Sprintf("  %s: [%.2f, %.2f, %g]\n", part, at[0], at[1], at[2])
	}
	text, list := b.Format(phaseLoom, text)
	if list.HasErrors() {
		return "", fmt.Errorf("%v", list)
	}
	return text, nil
})

// serve answers for a folder that holds copies of examples.
func serve(t *testing.T, looms ...string) (address, folder string) {
	t.Helper()
	folder = t.TempDir()
	for _, name := range looms {
		data, err := os.ReadFile(filepath.Join("../../examples", name))
		text := string(data)
		if name == phaseLoom {
			text, err = laidPhase()
		}
		if err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(folder, name), text)
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	s := httptest.NewServer(server.Handler(root, nil))
	t.Cleanup(s.Close)
	return s.URL, folder
}

// browser starts Chromium with a profile of its own.
func browser(t *testing.T) context.Context {
	t.Helper()
	path := oracle.Need(t, "chromium")
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(path), chromedp.NoFirstRun, chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU,
		chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true), chromedp.Flag("no-proxy-server", true),
		chromedp.WSURLReadTimeout(40 * time.Second),
	}
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(allocator)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// tabs does a task in a tab of its own, beside other tasks: as many at a time as
// there are processors.
func tabs(t *testing.T, name string, task func(*testing.T)) {
	t.Run(name, func(t *testing.T) {
		t.Parallel()
		task(t)
	})
}

// call opens the page at a size.
func call(t *testing.T, browser context.Context, size [2]int64, address, fragment string) *visit {
	t.Helper()
	ctx, done := chromedp.NewContext(browser, chromedp.WithNewBrowserContext())
	t.Cleanup(done)
	v := &visit{T: t, ctx: ctx, address: address, size: size}
	viewport := []chromedp.EmulateViewportOption{}
	if size[0] < 600 {
		viewport = append(viewport, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	v.do(chromedp.EmulateViewport(size[0], size[1], viewport...))
	if err := chromedp.Listen(v.ctx, v.listen); err != nil {
		t.Fatal(err)
	}
	target := address + "/" + fragment
	if strings.HasPrefix(address, "about:") {
		target = address
	}
	v.do(command(cdplog.Enable, cdp.Empty{}), chromedp.Navigate(target))
	return v
}

// command is a command of the browser's protocol whose answer does not matter.
func command[P, R any](c cdp.Command[P, R], params P) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, c, params)
		return err
	})
}

// listen keeps what a clean page never says.
func (v *visit) listen(ev any) {
	switch ev := ev.(type) {
	case *runtime.EventExceptionThrown:
		v.noise = append(v.noise, (&chromedp.ExceptionError{ExceptionDetails: ev.ExceptionDetails}).Error())
	case *cdplog.EventEntryAdded:
		if ev.Entry.Level == cdplog.EntryLevelError {
			v.noise = append(v.noise, ev.Entry.Text+" "+ev.Entry.URL)
		}
	}
}

func (v *visit) do(steps ...chromedp.Action[chromedp.Void]) {
	v.Helper()
	if err := chromedp.Do(v.ctx, steps...); err != nil {
		v.shot("failed")
		v.Fatalf("%v (console: %v)", err, v.noise)
	}
}

// dark asks for the dark page, with less motion.
var dark = command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
	{Name: "prefers-color-scheme", Value: "dark"}, {Name: "prefers-reduced-motion", Value: "reduce"}}})

// until waits for a JavaScript expression to be true.
func (v *visit) until(what string) {
	v.Helper()
	ctx, done := context.WithTimeout(v.ctx, 40*time.Second)
	defer done()
	for {
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+what+")"))
		if err != nil {
			v.shot("failed")
			v.Fatalf("waited for %s: %v (console: %v)", what, err, v.noise)
		}
		if ok {
			return
		}
		time.Sleep(15 * time.Millisecond)
	}
}

// value evaluates an expression.
func value[T any](v *visit, expression string) T {
	v.Helper()
	out, err := chromedp.Run(v.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		v.shot("failed")
		v.Fatalf("%s: %v (console: %v)", expression, err, v.noise)
	}
	return out
}

// pressable is the first visible button, summary or row that says the words.
func pressable(words string) string {
	return fmt.Sprintf(`[...document.querySelectorAll("button, summary, [role=row]")].find(b => b.checkVisibility() && !b.disabled && [b.textContent.trim().replace(/\s+/g, " "), b.getAttribute("aria-label"), b.querySelector(".name")?.textContent].includes(%q))`, words)
}

// press clicks the first visible button with these words, once it stays where it
// is and nothing lies over it.
func (v *visit) press(words string) {
	v.Helper()
	found := pressable(words)
	v.until(`(() => {
		const b = ` + found + `, was = globalThis.found;
		globalThis.found = undefined;
		if (!b) return;
		b.scrollIntoView({ block: "center" });
		const r = b.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + r.height / 2;
		globalThis.found = [x, y];
		return was?.[0] === x && was[1] === y && (b === document.elementFromPoint(x, y) || b.contains(document.elementFromPoint(x, y)));
	})()`)
	v.tapAt(value[[]float64](v, `globalThis.found`))
}

// tapAt clicks with the mouse, or taps with a finger on a phone.
func (v *visit) tapAt(at []float64) {
	v.Helper()
	if v.size[0] > 600 {
		v.do(chromedp.MouseClickXY(at[0], at[1]))
		return
	}
	finger := []*input.TouchPoint{{X: at[0], Y: at[1]}}
	v.do(command(input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchStart, TouchPoints: finger}),
		command(input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{}}))
}

// proved waits for table and drawing of the text as it is.
func (v *visit) proved() {
	v.Helper()
	v.until(`document.querySelector("[data-row]")`)
	v.until(`document.querySelector("lw-drawing svg") && !document.querySelector("lw-drawing .stale")`)
	v.until(`!document.querySelector(".settings[aria-busy=true]")`)
	v.do(chromedp.Sleep(30 * time.Millisecond))
}

func (v *visit) text() string { return value[string](v, `document.querySelector("#loom-text").value`) }

// shot keeps a picture of the page.
func (v *visit) shot(name string) {
	v.Helper()
	png, err := chromedp.Run(v.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		return // the browser is gone; the test fails by itself
	}
	folder := filepath.Join("..", "..", "out", "page")
	if os.MkdirAll(folder, 0o755) == nil {
		file := strings.ReplaceAll(v.Name(), "/", "-") + "-" + name + ".png"
		_ = os.WriteFile(filepath.Join(folder, file), png, 0o644)
	}
}

// quiet fails on anything in the console.
func (v *visit) quiet() {
	v.Helper()
	for _, n := range v.noise {
		v.Errorf("the console says: %s", n)
	}
}

// axe runs axe-core (WCAG 2.2 A and AA, best practices) over the page as it is.
func (v *visit) axe(where string) {
	v.Helper()
	source, err := os.ReadFile("../../web/testdata/vendor/axe-core/axe.min.js")
	if err != nil {
		v.Fatal(err)
	}
	value[bool](v, string(source)+";true")
	raw := value[string](v,
		`axe.run(document, { resultTypes: ["violations"] }).then(r => JSON.stringify({ passes: r.passes.length, bad: r.violations.map(x => ({ id: x.id, help: x.help, nodes: x.nodes.slice(0, 4).map(n => n.html.slice(0, 200)) })) }))`)
	var result struct {
		Passes int
		Bad    []struct {
			ID, Help string
			Nodes    []string
		}
	}
	if err := json.Unmarshal([]byte(raw), &result); err != nil {
		v.Fatal(err)
	}
	if result.Passes < 5 {
		v.Errorf("%s: axe-core passed only %d rules: it did not see the page", where, result.Passes)
	}
	for _, b := range result.Bad {
		v.Errorf("%s: axe-core: %s (%s): %s", where, b.ID, b.Help, strings.Join(b.Nodes, "\n    "))
	}
}

// static serves the built page as a plain host would: files and nothing else,
// below a folder of the site. stop ends it.
func static(t *testing.T) (address string, stop func()) {
	t.Helper()
	if _, err := os.Stat("../../web/dist/index.html"); err != nil {
		t.Skip("web/dist is not built here (make page): the page on a static host was not tried")
	}
	s := httptest.NewServer(http.StripPrefix("/tools/loom", http.FileServer(http.Dir("../../web/dist"))))
	t.Cleanup(s.Close)
	return s.URL + "/tools/loom", s.Close
}

// drag moves the mouse from one place to another with its button down.
func (v *visit) drag(from, to []float64) {
	v.Helper()
	v.do(chromedp.DragAndDropXY(from[0], from[1], to[0], to[1], 6))
}

// keys types keys of github.com/chromedp/chromedp/kb, one after another.
func (v *visit) keys(keys string, with ...chromedp.Modifier) {
	v.Helper()
	v.do(chromedp.KeyEvent(keys, chromedp.KeyModifiers(with...)))
}

// terminal is where a terminal of the drawing is on the screen.
func (v *visit) terminal(name string) []float64 {
	v.Helper()
	const find = `(() => {
		const view = document.querySelector("lw-drawing"), c = view.canvas;
		const g = [...c.svg.querySelectorAll("[data-term]")].find(g => g.dataset.name === %q);
		c.svg.scrollIntoView({ block: "center" });
		const p = c.screen(Number(g.dataset.term));
		return [p.x, p.y];
	})()`
	return value[[]float64](v, fmt.Sprintf(find, name))
}

// tapTerminal taps a terminal; where several lie under the finger the drawing
// comes nearer first.
func (v *visit) tapTerminal(name string) {
	v.Helper()
	const armed = `(document.querySelector(".rings .armed")?.getAttribute("cx") ?? "") + " " + document.querySelector("#loom-text").value.length`
	before := value[string](v, armed)
	for range 3 {
		v.tapAt(v.terminal(name))
		v.do(chromedp.Sleep(150 * time.Millisecond))
		if value[string](v, armed) != before {
			return
		}
	}
	v.Fatalf("%s cannot be tapped", name)
}

// sheet shows a sheet of the bench on a phone; a desktop shows them all.
func (v *visit) sheet(words string) {
	v.Helper()
	if v.size[0] < 900 {
		v.press(words)
	}
}
