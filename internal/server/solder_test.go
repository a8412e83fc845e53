package server_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"loomwright/internal/sheet"
)

// TestSoldering goes through the work at the bench with dirty hands.
func TestSoldering(t *testing.T) {
	needPage(t)
	b := browser(t)
	for _, task := range []struct {
		name string
		try  func(*testing.T, context.Context, [2]int64)
	}{{"stages", tryStages}, {"awake", tryAwake}, {"qr", tryQR}, {"left", tryLeft}} {
		tabs(t, task.name+"/desktop", func(t *testing.T) { task.try(t, b, desktop) })
		tabs(t, task.name+"/phone", func(t *testing.T) { task.try(t, b, phone) })
	}
}

const splitLoom = "twin-coil-split.yaml"

// tryStages ticks a stage off, types a right reading, then a wrong one: it says
// where to look. A reload comes back to the same readings.
func tryStages(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, splitLoom)
	v.press("Solder")
	v.until(`document.querySelector(".end svg")`)
	last := value[int](v, `(() => { const i = document.querySelector(".place").textContent; return Number(i.match(/of (\d+)/)[1]); })()`)
	for range last {
		v.press("Done, next")
		if value[bool](v, `!!document.querySelector("lw-stage")`) {
			break
		}
	}
	v.until(`document.querySelectorAll(".readings li").length > 0`)
	v.shot("asked")
	v.axe("stage")
	v.fits("stage")
	const check = `document.querySelector("lw-stage").check.readings`
	const number = `[...document.querySelectorAll(".readings li")].findIndex(li => li.querySelector("input"))`
	right := value[string](v, check+`[`+number+`].shows`)
	v.typeReading(number, right)
	v.until(`document.querySelectorAll(".readings li")[` + number + `].className === "yes"`)
	v.typeReading(number, "blue")
	v.until(`document.querySelector(".readings .trouble")`)
	wrong := "OL"
	if strings.HasPrefix(right, "1") && len(right) == 1 || right == "OL" {
		wrong = "0.3"
	}
	v.typeReading(number, wrong)
	v.until(`document.querySelectorAll(".readings li")[` + number + `].className === "no"`)
	v.until(`document.querySelector("lw-stage .suspects button") || document.querySelector("lw-stage .say").textContent.includes("No single fault")`)
	v.until(`document.querySelector("lw-stage .rings circle") || document.querySelector("lw-stage .live")`)
	v.shot("wrong")
	v.grey("wrong-grey")
	value[bool](v, `(document.querySelector("lw-stage .paper").scrollIntoView({ block: "center" }), true)`)
	v.do(dark)
	v.shot("wrong-dark")
	v.axe("wrong")
	v.do(chromedp.Reload())
	v.until(`document.querySelectorAll(".readings li")[` + number + `]?.className === "no"`)
	v.press("On to the next step")
	v.until(`document.querySelector(".end svg")`)
	v.press("Back")
	v.until(`document.querySelector("lw-stage .readings")`)
	v.quiet()
}

// typeReading types into the box of a reading, and leaves it.
func (v *visit) typeReading(number, text string) {
	v.Helper()
	value[bool](v, `(() => { const i = document.querySelectorAll(".readings li")[`+number+`].querySelector("input"); i.focus(); i.select(); return true; })()`)
	v.keys(text + kb.Enter)
}

// tryAwake asks for the screen to stay awake, again after the page was hidden,
// and lets go when the work is left.
func tryAwake(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, splitLoom)
	value[bool](v, `(() => {
		window.locks = 0;
		Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => {
			if (kind === "screen") window.locks++;
			return { released: false, release: async function () { window.locks--; this.released = true; } };
		} } });
		return true;
	})()`)
	v.press("Solder")
	v.until(`window.locks === 1 && document.querySelector(".solder").textContent.includes("stays awake")`)
	value[bool](v, `(document.dispatchEvent(new Event("visibilitychange")), true)`)
	v.do(chromedp.Sleep(50 * time.Millisecond))
	for _, half := range []string{"Back", "Done, next"} {
		box := value[[]float64](v, `(() => { const r = `+pressableEven(half)+`.getBoundingClientRect(); return [r.width / innerWidth, r.height]; })()`)
		if box[0] < 0.48 || box[1] < 80 {
			t.Errorf("%q is %.2f of the width and %g px high", half, box[0], box[1])
		}
	}
	near := value[[]float64](v, `[...document.querySelectorAll(".views > .paper > svg")].map(s => s.getScreenCTM().a)`)
	for _, px := range near[1:] {
		if px < 5 {
			t.Errorf("a close-up shows a millimetre in %.1f px", px)
		}
	}
	value[bool](v, `(document.querySelector(".views").scrollIntoView(), true)`)
	v.shot("close")
	value[bool](v, `(document.activeElement.blur(), document.querySelector(".solder").focus(), true)`)
	v.keys(kb.ArrowRight)
	v.until(`document.querySelector(".place").textContent.startsWith("Step 2 of ")`)
	v.press("Bench")
	v.until(`window.locks === 0`)
	v.quiet()
}

// pressableEven is a button with these words, disabled or not.
func pressableEven(words string) string {
	return `[...document.querySelectorAll("button")].find(b => b.textContent.trim() === ` + quoted(words) + `)`
}

// tryQR opens what the sheet's code carries: the loom itself, in solder mode.
func tryQR(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, splitLoom)
	link := value[string](v, `(async () => { const bytes = new Uint8Array(await new Response(new Blob([document.querySelector("#loom-text").value]).stream().pipeThrough(new CompressionStream("deflate-raw"))).arrayBuffer()); return btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, ""); })()`)
	w := call(t, b, size, v.address, "#mode=solder&loom="+link)
	w.until(`document.querySelector(".end svg") && document.querySelector(".place").textContent.startsWith("Step 1 of ")`)
	w.press("Done, next")
	w.until(`document.querySelector(".place").textContent.startsWith("Step 2 of ")`)
	w.do(chromedp.Reload())
	w.until(`document.querySelector(".place")?.textContent.startsWith("Step 2 of ")`)
	w.quiet()
	x := call(t, b, size, v.address, sheet.LoomLink(v.text()))
	x.until(`document.querySelector(".end svg") && document.querySelector(".place").textContent.startsWith("Step 1 of ")`)
	if got := value[string](x, draftText); got != v.text() {
		t.Errorf("the code carries another loom: %s", got)
	}
	x.quiet()
}

// draftText is the text on the bench, as the page keeps it.
const draftText = `JSON.parse(localStorage.getItem(Object.keys(localStorage).find(k => k.startsWith("loomwright/draft/")))).text`

// tryLeft changes a loom, opens another without saving, and finds the first one
// again.
func tryLeft(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, splitLoom)
	v.sheet("Text")
	v.setText(v.text() + "# mine\n")
	v.press("Open")
	v.press("One single coil, volume and tone")
	v.proved()
	v.press("Open")
	v.press("Go on with it")
	v.until(`document.querySelector("#loom-text")?.value.endsWith("# mine\n")`)
	v.do(chromedp.Reload())
	v.until(`document.querySelector("#loom-text")?.value.endsWith("# mine\n")`)
	v.quiet()
}
