package server_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// longLoom takes a search a quarter of a minute: six coils, six sounds.
const longLoom = `loomwright: 1
title: Six coils on a rotary
scheme: none
parts:
  a: {is: pickup/single-coil}
  b: {is: pickup/single-coil}
  c: {is: pickup/single-coil}
  d: {is: pickup/single-coil}
  e: {is: pickup/single-coil}
  f: {is: pickup/single-coil}
  s: {is: switch/rotary-4p6}
  jack: {is: jack/mono}
joins: []
sounds:
  - {with: s 1, hear: a series b}
  - {with: s 2, hear: a parallel c}
  - {with: s 3, hear: c series d}
  - {with: s 4, hear: c parallel e}
  - {with: s 5, hear: e series f}
  - {with: s 6, hear: (a series b) parallel (e series f)}
`

const findWiring = `[...document.querySelectorAll("lw-find button")].some(b => b.textContent === "Find wiring")`

// tryCancel stops a long search that says how far it is; meanwhile the table
// follows an edit, and afterwards the loom is as it was and another search runs.
func tryCancel(t *testing.T, b context.Context, size [2]int64) {
	address, folder := serve(t)
	write(t, filepath.Join(folder, "long.yaml"), longLoom)
	v := call(t, b, size, address, "#file=long.yaml")
	v.proved()
	whole := v.text()
	v.press("Find wiring")
	v.until(`/joins so far/.test(document.querySelector("lw-find [role=status]")?.textContent)`)
	v.shot("searching")
	v.setText(strings.Replace(whole, "Six coils", "Knot, six coils", 1))
	v.until(`document.querySelector("h1").textContent.startsWith("Knot") && document.querySelector("lw-find [role=status]")?.textContent.startsWith("Searching")`)
	v.setText(whole)
	v.press("Stop the search")
	v.until(findWiring)
	if v.text() != whole {
		t.Errorf("the loom changed:\n%s", v.text())
	}
	easy, err := os.ReadFile("../../starts/one-twin-coil.yaml")
	if err != nil {
		t.Fatal(err)
	}
	v.setText(string(easy))
	v.until(`!document.querySelector("lw-table .stale") && document.querySelectorAll("[data-row]").length === 2`)
	v.press("Find wiring")
	v.until(`[...document.querySelectorAll("lw-find button")].some(b => b.textContent.startsWith("Use this wiring"))`)
	const memory = `Math.max(...performance.getEntriesByName("memory of the core").filter(e => e.detail.role === "search").map(e => e.detail.bytes))`
	if bytes := value[float64](v, memory); bytes > 128e6 || bytes <= 0 {
		t.Errorf("the search took %.0f MB of memory", bytes/1e6)
	}
	v.quiet()
}

// tryWays asks for what cannot be, and takes each way out that is offered: a
// wish given up, and another switch. Both times a wiring is found then.
func tryWays(t *testing.T, b context.Context, size [2]int64) {
	start, err := os.ReadFile("../../starts/two-twin-coils.yaml")
	if err != nil {
		t.Fatal(err)
	}
	impossible := strings.Replace(string(start), "neck parallel bridge", "neck series bridge", 1)
	address, folder := serve(t)
	write(t, filepath.Join(folder, "new.yaml"), impossible)
	v := call(t, b, size, address, "#file=new.yaml")
	v.proved()
	for i, way := range []struct{ words, gone string }{
		{"Give up neck series bridge with toggle middle", "neck series bridge"},
		{"Use mini toggle, two poles, on-off-on for toggle", "switch/toggle-3way"},
	} {
		v.press("Find wiring")
		v.until(pressable(way.words))
		if i == 0 {
			v.shot("ways")
			v.axe("ways")
			v.fits("ways")
		}
		v.press(way.words)
		v.until(`!document.querySelector("#loom-text").value.includes(` + quoted(way.gone) + `)`)
		v.until(`!document.querySelector("lw-table .stale") && ` + findWiring)
		v.press("Find wiring")
		v.until(`[...document.querySelectorAll("lw-find button")].some(b => b.textContent.startsWith("Use this wiring"))`)
		v.press("Undo")
		v.until(`document.querySelector("#loom-text").value === ` + quoted(impossible))
		v.until(findWiring)
	}
	tryWaysTogether(v)
	tryDemands(v)
	v.quiet()
}

const offered = `[...document.querySelectorAll("lw-find button")].some(b => b.textContent.startsWith("Use this wiring"))`

// tryWaysTogether asks for what no single wish given up makes possible: two are
// given up by one button, and another order of the lever's sounds by another.
func tryWaysTogether(v *visit) {
	v.Helper()
	text := `loomwright: 1
parts:
  neck:    {is: pickup/single-coil}
  middle:  {is: pickup/single-coil}
  bridge:  {is: pickup/single-coil}
  lever:   {is: switch/lever-5way}
  volume:  {is: pot/standard, track: 250k audio}
  strings: {is: ground/string}
  jack:    {is: jack/mono}
sounds:
  - {with: lever bridge, hear: bridge}
  - {with: lever toward bridge, hear: neck parallel bridge}
  - {with: lever middle, hear: bridge parallel middle}
  - {with: lever toward neck, hear: middle}
  - {with: lever neck, hear: neck}
`
	for _, way := range []struct {
		words  string
		wishes int
	}{{"Give up these 2", 3}, {"Take it in this order", 5}} {
		v.setText(text)
		v.until(`document.querySelectorAll("[data-row]").length === 5 && ` + findWiring)
		v.press("Find wiring")
		v.until(pressable(way.words))
		v.shot("together")
		v.fits("together")
		v.press(way.words)
		v.until(fmt.Sprintf(`document.querySelector("#loom-text").value.split("hear:").length === %d && document.querySelector("#loom-text").value !== %s`, way.wishes+1, quoted(text)))
		v.until(`!document.querySelector("lw-table .stale") && ` + findWiring)
		v.press("Find wiring")
		v.until(offered)
	}
}

// tryDemands demands what cannot be had, and takes the demand back.
func tryDemands(v *visit) {
	v.Helper()
	v.setText(`loomwright: 1
parts:
  a: {is: pickup/single-coil}
  b: {is: pickup/single-coil}
  s: {is: switch/dpdt-on-on}
  jack: {is: jack/mono}
sounds:
  - {with: s up, hear: a series b}
  - {with: s down, hear: a parallel b}
`)
	v.until(`document.querySelectorAll("[data-row]").length === 2 && ` + findWiring)
	v.press("More choices")
	value[bool](v, `[...document.querySelectorAll("lw-find label")].find(l => l.textContent.includes("Hum must")).querySelector("input").click() || true`)
	v.selects("lw-find", "Wires on a lug", "4 at most")
	v.press("Find wiring")
	v.until(pressable("Allow this and search again"))
	v.shot("demands")
	v.axe("demands")
	v.fits("demands")
	v.press("Allow this and search again")
	v.until(offered)
	if value[bool](v, `[...document.querySelectorAll("lw-find label")].find(l => l.textContent.includes("Hum must")).querySelector("input").checked`) {
		v.Error("the demand is still made")
	}
}

// tryKeysOnly goes by keyboard alone from an empty page to a wiring that is
// found, and a drawing that is exported.
func tryKeysOnly(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t)
	v := call(t, b, size, address, "")
	into := t.TempDir()
	v.do(command(cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: into, BrowserContextID: chromedp.FromContext(v.ctx).BrowserContextID}))
	v.until(`document.querySelector(".cards button")`)
	enter := func(words string) {
		t.Helper()
		v.until(pressable(words))
		v.tabTo(`document.activeElement.textContent.trim().startsWith(` + quoted(words) + `)`)
		v.keys(kb.Enter)
	}
	enter("One twin coil, series or parallel on a push-pull volume")
	v.proved()
	enter("Find wiring")
	v.until(`[...document.querySelectorAll("lw-find button")].some(b => b.textContent.startsWith("Use this wiring"))`)
	v.tabTo(`document.activeElement.textContent.trim().startsWith("Use this wiring")`)
	v.keys(kb.Enter)
	v.until(`document.querySelectorAll(".met-yes").length === document.querySelectorAll("[data-row]").length`)
	v.proved()
	enter("Print, export, share")
	enter("Drawing as SVG")
	for range 400 {
		names, _ := filepath.Glob(filepath.Join(into, "*.svg"))
		if len(names) == 1 {
			v.quiet()
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Error("no drawing was exported")
}
