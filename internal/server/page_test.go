package server_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

const phaseLoom = "two-twin-coils-phase.yaml"

// TestPage does each task as a person would, on a phone by touch and at a desk
// by mouse and keys. Pictures are kept in out/page.
func TestPage(t *testing.T) {
	needPage(t)
	b := browser(t)
	for _, task := range []struct {
		name  string
		try   func(*testing.T, context.Context, [2]int64)
		phone bool
	}{
		{"look", tryLook, true}, {"choose", tryChoose, true}, {"wire", tryWire, true}, {"keys", tryKeys, false}, {"text", tryText, true},
		{"wish", tryWish, true}, {"find", tryFind, true}, {"knob", tryKnob, false}, {"save", trySave, false}, {"solder", trySolder, true}, {"meter", tryMeter, true}, {"fault", tryFault, true}, {"move", tryMove, true}, {"link", tryLink, false}, {"beside", tryBeside, false},
		{"offline", tryOffline, false}, {"tabs", tryTabs, false}, {"dark", tryDark, false},
		{"markup", tryMarkup, false}, {"crash", tryCrash, false}, {"cancel", tryCancel, true}, {"ways", tryWays, true}, {"keysonly", tryKeysOnly, false}, {"update", tryUpdate, false}, {"export", tryExport, false},
	} {
		tabs(t, task.name+"/desktop", func(t *testing.T) { task.try(t, b, desktop) })
		if task.phone {
			tabs(t, task.name+"/phone", func(t *testing.T) { task.try(t, b, phone) })
		}
	}
}

// open opens a loom from the folder.
func open(t *testing.T, b context.Context, size [2]int64, loom string) (*visit, string) {
	t.Helper()
	address, folder := serve(t, loom)
	v := call(t, b, size, address, "#file="+loom)
	v.proved()
	return v, folder
}

// tryLook looks at every sheet, with axe-core, and holds sizes of targets and
// the width of the page against what fingers and a small screen need.
func tryLook(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t, phaseLoom)
	v := call(t, b, size, address, "")
	v.until(`document.querySelector(".cards button")`)
	v.shot("open")
	v.fits("open")
	v.axe("open")
	v.press(phaseLoom)
	v.proved()
	for _, sheet := range []string{"Settings", "Drawing", "Curve", "Text"} {
		v.sheet(sheet)
		v.shot(strings.ToLower(sheet))
		v.fits(sheet)
		v.axe(sheet)
		if size == desktop {
			break
		}
	}
	v.press("The 9 parts, and what is known of them")
	v.until(`document.querySelector(".part-line")`)
	v.press("Print, export, share")
	v.do(chromedp.Sleep(0))
	v.shot("parts")
	v.fits("parts")
	v.axe("parts")
	v.quiet()
}

// fits fails where a target is smaller than 44 px or the page scrolls sideways.
func (v *visit) fits(where string) {
	v.Helper()
	small := value[[]string](v, `[...document.querySelectorAll("button, select, input:not([type=checkbox]), summary, textarea, [role=row][tabindex], label.check")].filter(e => e.checkVisibility()).map(e => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.height < 43.5 || r.width < 43.5).map(([e, r]) => e.outerHTML.slice(0, 120) + " " + r.width + "x" + r.height)`)
	for _, s := range small {
		v.Errorf("%s: a target is too small for a finger: %s", where, s)
	}
	if wide := value[float64](v, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
		v.Errorf("%s: the page is %g px wider than the screen", where, wide)
	}
}

// lit lists the runs that the drawing lights.
func (v *visit) lit() []int {
	v.Helper()
	return value[[]int](v, `[...new Set([...document.querySelectorAll("lw-drawing .wire.live")].map(g => Number(g.dataset.run)))].sort((a, b) => a - b)`)
}

// tryChoose chooses a setting: drawing and curve follow.
func tryChoose(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.until(`document.querySelector(".curve")`)
	before := v.lit()
	v.sheet("Settings")
	v.press("toggle neck, tone pushed")
	v.until(`document.querySelector(".curve")?.getAttribute("aria-label").startsWith("toggle neck, tone pushed: resonance at ")`)
	neck := v.lit()
	if len(before) == 0 || len(neck) == 0 || slices.Equal(before, neck) {
		t.Errorf("bridge lights %v, neck lights %v", before, neck)
	}
	v.shot("neck")
	if size == phone {
		return
	}
	v.keys(kb.ArrowDown)
	v.until(`document.activeElement.querySelector(".name")?.textContent === "toggle neck, tone pulled" && document.activeElement.getAttribute("aria-selected") === "true"`)
	v.keys(kb.Home)
	v.until(`document.querySelector("[aria-selected=true] .name").textContent === "toggle bridge, tone pushed"`)
	if again := v.lit(); !slices.Equal(again, before) {
		t.Errorf("back at the bridge lights %v, before %v", again, before)
	}
	v.quiet()
}

// tryWire cuts a wire on the drawing, follows the finding, and puts the wire in
// again; undo and redo.
func tryWire(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	whole := v.text()
	v.sheet("Drawing")
	v.press("The 19 wires by name")
	v.press("toggle.a – volume.cw")
	v.until(`document.querySelector("lw-drawing .wire.chosen")`)
	v.press("Cut this wire")
	v.until(`!document.querySelector("#loom-text").value.includes("toggle.a      -- volume.cw")`)
	v.proved()
	v.sheet("Settings")
	v.until(`document.querySelectorAll(".findings .error").length > 0`)
	v.shot("cut")
	v.sheet("Drawing")
	from, to := v.terminal("toggle.a"), v.terminal("volume.cw")
	if size == phone {
		v.tapTerminal("toggle.a")
		v.until(`document.querySelector(".rings .armed") && document.querySelector("lw-drawing .do strong").textContent === "toggle.a"`)
		v.shot("armed")
		v.press("All of it")
		v.tapTerminal("volume.cw")
	} else {
		v.drag(from, to)
	}
	v.until(`/toggle\.a +-- volume\.cw\n|volume\.cw +-- toggle\.a\n/.test(document.querySelector("#loom-text").value)`)
	v.proved()
	v.until(`document.querySelectorAll(".findings .error").length === 0`)
	v.press("Undo")
	v.press("Undo")
	v.until(`document.querySelector("lw-masthead .where").textContent.startsWith("saved")`)
	if v.text() != whole {
		t.Errorf("undone twice is not the text as it was:\n%s", v.text())
	}
	v.press("Redo")
	v.until(`document.querySelector("lw-masthead .where").textContent.startsWith("not saved")`)
	v.quiet()
}

// tryKeys puts a wire in and cuts it with keys alone.
func tryKeys(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t)
	v := call(t, b, size, address, "")
	v.until(`document.querySelector(".cards button")`)
	v.tabTo(`document.activeElement.textContent.trim() === "One single coil, volume and tone"`)
	v.keys(kb.Enter)
	v.proved()
	v.tabTo(`document.activeElement.dataset?.term !== undefined`)
	first := value[string](v, `document.activeElement.dataset.name`)
	v.keys(kb.Enter)
	v.until(`document.querySelector("lw-drawing .do strong")`)
	v.keys(kb.ArrowRight + kb.ArrowRight)
	second := value[string](v, `document.activeElement.dataset.name`)
	if first == second {
		t.Fatalf("the arrows stay at %s", first)
	}
	v.keys(kb.Enter)
	v.until(`/` + first + ` +-- ` + second + `/.test(document.querySelector("#loom-text").value)`)
	v.proved()
	v.until(`document.activeElement.dataset?.term !== undefined`)
	v.shot("joined")
	v.keys("w")
	v.until(`document.querySelector("lw-drawing .wire.chosen")`)
	v.keys(kb.Delete)
	v.until(`document.querySelector("#loom-text").value.includes("joins: []")`)
	v.keys("z", chromedp.ModifierCtrl)
	v.until(`/` + first + ` +-- ` + second + `/.test(document.querySelector("#loom-text").value)`)
	v.quiet()
}

// tabTo presses Tab until something is true.
func (v *visit) tabTo(what string) {
	v.Helper()
	for range 80 {
		v.keys(kb.Tab)
		if value[bool](v, what) {
			return
		}
	}
	v.Fatalf("Tab never leads to %s", what)
}

// tryText types a mistake: the finding stands, the table stays; put right, all
// follows.
func tryText(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.sheet("Text")
	good := v.text()
	bad := strings.Replace(good, "- volume.ccw", "- volume.ccx", 1)
	v.setText(bad)
	v.sheet("Settings")
	v.until(`[...document.querySelectorAll(".findings .error")].some(e => e.textContent.includes("ccx"))`)
	v.until(`document.querySelector("lw-table .stale") && document.querySelectorAll("[data-row]").length === 6`)
	v.shot("mistake")
	v.axe("mistake")
	v.sheet("Text")
	v.setText(good)
	v.sheet("Settings")
	v.until(`!document.querySelector("lw-table .stale") && document.querySelector(".fine")`)
	v.quiet()
}

// setText replaces the text as typing would.
func (v *visit) setText(text string) {
	v.Helper()
	value[bool](v, `(() => { const t = document.querySelector("#loom-text"); t.focus(); t.value = `+quoted(text)+`; t.dispatchEvent(new Event("input", { bubbles: true })); return true; })()`)
}

// tryWish begins a new loom and says by tapping what is wanted.
func tryWish(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t)
	v := call(t, b, size, address, "")
	v.press("Two twin coils on a 3-way toggle, two volumes, two tones")
	v.proved()
	v.shot("new")
	v.press("toggle middle")
	v.press("Change what is wanted here")
	v.press("neck.north parallel bridge.south")
	v.until(`/with: toggle middle, hear: neck.north parallel bridge.south/.test(document.querySelector("#loom-text").value)`)
	for _, word := range []string{"neck", "series", "bridge.north"} {
		v.press("add " + word)
	}
	v.press("Want this")
	v.until(`/with: toggle middle, hear: neck series bridge.north/.test(document.querySelector("#loom-text").value)`)
	v.until(`document.querySelector("[aria-selected=true] .more").textContent.includes("neck.north series neck.south")`)
	v.shot("wished")
	v.axe("wish")
	v.fits("wish")
	v.quiet()
}

// tryKnob turns a knob with keys: curve and level follow, and come back.
func tryKnob(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.until(`document.querySelector(".curve .line")`)
	const line = `document.querySelector(".curve .line:not(.other)").getAttribute("d")`
	const figures = `[...document.querySelectorAll("[data-row] .num")].map(e => e.textContent).join()`
	before, still := value[string](v, line), value[string](v, figures)
	value[bool](v, `(document.querySelector(".knob input").focus(), true)`)
	v.keys(strings.Repeat(kb.ArrowLeft, 30))
	v.until(`document.querySelector(".knob output").textContent === "7.0" && ` + line + ` !== ` + quoted(before))
	v.until(figures + ` !== ` + quoted(still))
	v.shot("turned")
	v.press("All back where they rest")
	v.until(line + ` === ` + quoted(before) + ` && ` + figures + ` === ` + quoted(still))
	v.quiet()
}

// trySave saves to disk; a change on disk shows; two changes are both offered,
// and a second tab does not overwrite the first.
func trySave(t *testing.T, b context.Context, size [2]int64) {
	v, folder := open(t, b, size, phaseLoom)
	file := filepath.Join(folder, phaseLoom)
	edited := strings.Replace(v.text(), "Whimbrel thinline", "Knot thinline", 1)
	v.setText(edited)
	v.press("Save")
	v.until(`document.querySelector("lw-masthead .where").textContent.startsWith("saved")`)
	holds(t, file, edited)
	outside := strings.Replace(edited, "Knot thinline", "Godwit thinline", 1)
	write(t, file, outside)
	v.until(`document.querySelector("#loom-text").value.includes("Godwit thinline")`)
	mine := strings.Replace(edited, "Knot thinline", "Dunlin thinline", 1)
	v.setText(mine)
	other := strings.Replace(edited, "Knot thinline", "Curlew thinline", 1)
	write(t, file, other)
	v.press("Save")
	v.until(`document.querySelector(".clash")`)
	v.shot("clash")
	v.axe("clash")
	holds(t, file, other)
	v.press("Keep mine, and write it over the file")
	v.until(`!document.querySelector(".clash") && document.querySelector("lw-masthead .where").textContent.startsWith("saved")`)
	holds(t, file, mine)
	v.noise = slices.DeleteFunc(v.noise, func(n string) bool { return strings.Contains(n, "412") })
	v.quiet()
}

func holds(t *testing.T, file, want string) {
	t.Helper()
	got, err := os.ReadFile(file)
	if err != nil || string(got) != want {
		t.Errorf("%s does not hold what it should (%v)", filepath.Base(file), err)
	}
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// trySolder ticks steps off, and finds its place again after a reload.
func trySolder(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.press("Solder")
	v.until(`document.querySelector(".close svg .wire.live")`)
	v.shot("first")
	v.axe("solder")
	v.fits("solder")
	v.press("Done, next")
	v.press("Done, next")
	v.until(`document.querySelector(".place").textContent.startsWith("Step 3 of ")`)
	v.do(chromedp.Reload())
	v.until(`document.querySelector(".place")?.textContent.startsWith("Step 3 of ")`)
	v.until(`document.querySelector(".close svg .wire.live")`)
	v.shot("third")
	v.press("Back")
	v.until(`document.querySelector(".place").textContent.includes("done")`)
	v.quiet()
}

// tryMeter enters readings, a right one and wrong ones.
func tryMeter(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.press("Meter")
	v.until(`document.querySelector(".digits")`)
	shown := value[string](v, `document.querySelector(".digits").textContent.replace("The meter shows", "").trim()`)
	for entered, want := range map[string]string{strings.ReplaceAll(strings.TrimSuffix(shown, "Ω"), " ", ""): "✓", "12": "Less", "4M": "More", "open": "path"} {
		value[bool](v, `(() => { const i = document.querySelector(".reading input"); i.value = `+quoted(entered)+`; i.dispatchEvent(new Event("input", { bubbles: true })); return true; })()`)
		v.until(`document.querySelector(".verdict").textContent.includes(` + quoted(want) + `)`)
	}
	v.shot("meter")
	v.axe("meter")
	v.fits("meter")
	v.quiet()
}

// tryFault measures a loom whose output reads open: the suspects are in the
// drawing; then one that reads as it should throughout: nothing is wrong.
func tryFault(t *testing.T, b context.Context, size [2]int64) {
	const loom = "twin-coil-split.yaml"
	v, _ := open(t, b, size, loom)
	v.press("Meter")
	v.press("Begin, the cavity is open")
	v.until(`document.querySelector("lw-fault .now") && document.querySelectorAll("lw-fault .rings circle").length === 2`)
	v.shot("first")
	v.axe("fault")
	v.fits("fault")
	const next = `document.querySelector("lw-fault").judged.next`
	v.say("OL")
	v.until(`document.querySelector(".suspects button")`)
	v.press(value[string](v, `document.querySelector(".suspects button").textContent.trim().replace(/\\s+/g, " ")`))
	v.until(`document.querySelectorAll("lw-fault .wire.live, lw-fault .rings text").length > 0`)
	v.shot("suspects")
	v.do(chromedp.Reload())
	v.until(`document.querySelector(".suspects button")`)
	v.press("Begin again")
	v.press("Begin, the cavity is open")
	for range 40 {
		v.until(`document.querySelector("lw-fault .now") || document.querySelector("lw-fault").judged && !` + next)
		if value[bool](v, `!`+next) {
			break
		}
		v.say(value[string](v, next+`.shows`))
	}
	v.until(`document.querySelector("lw-fault").judged.verdict === "nothing wrong is found"`)
	v.shot("right")
	v.quiet()
}

// say answers the question of the meter, and waits until that is taken in.
func (v *visit) say(what string) {
	v.Helper()
	taken := value[int](v, `document.querySelector("lw-fault").seen.answers?.length ?? 0`)
	value[bool](v, `(() => {
		const said = `+quoted(what)+`, now = document.querySelector("lw-fault .now"), input = now.querySelector("input");
		if (input) {
			input.value = said;
			input.dispatchEvent(new Event("input", { bubbles: true }));
		}
		[...now.querySelectorAll("button")].find(b => b.textContent === (input ? "That is it" : said)).click();
		return true;
	})()`)
	v.until(fmt.Sprintf(`document.querySelector("lw-fault").seen.answers?.length > %d`, taken))
}

// tryMove drags a part, nudges one by button, and lets the layout decide again.
func tryMove(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, "stacked-coil-kill-switch.yaml")
	whole := v.text()
	v.sheet("Drawing")
	v.press("Move parts")
	if size == desktop {
		const jack = `(() => { const r = document.querySelector("lw-drawing .part[data-part=jack]").getBoundingClientRect(); return [r.x + r.width * 0.8, r.y + r.height / 2]; })()`
		value[bool](v, `(document.querySelector("lw-drawing svg").scrollIntoView({ block: "center" }), true)`)
		at := value[[]float64](v, jack)
		v.drag(at, []float64{at[0] - 5, at[1] + 40})
		v.until(`/place:\n +jack: \[/.test(document.querySelector("#loom-text").value)`)
		v.proved()
		v.shot("moved")
		if now := value[[]float64](v, jack); now[1] < at[1]+5 {
			t.Errorf("the jack was at %v and is at %v", at, now)
		}
		v.press("Undo")
		v.until(`!document.querySelector("#loom-text").value.includes("place:")`)
		v.proved()
	}
	v.press(value[string](v, `[...document.querySelectorAll("[aria-label]")].find(b => b.ariaLabel.endsWith(" to the right")).ariaLabel`)) // in mm or inches
	v.until(`/place:\n +[a-z-]+: \[/.test(document.querySelector("#loom-text").value)`)
	v.proved()
	v.press("Let the layout decide")
	v.until(`document.querySelector("#loom-text").value === ` + quoted(whole))
	v.fits("move")
	v.axe("move")
	v.quiet()
}

// tryFind begins a new loom and has a wiring found: every wanted sound is heard.
// Then it asks for what cannot be, and takes a way out.
func tryFind(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t)
	v := call(t, b, size, address, "")
	v.press("One twin coil, series or parallel on a push-pull volume")
	v.proved()
	v.press("Find wiring")
	const use = `[...document.querySelectorAll("lw-find button")].find(b => b.textContent.includes("Use this wiring"))`
	v.until(use)
	v.shot("found")
	v.axe("found")
	v.fits("found")
	value[bool](v, use+`.click() || true`)
	v.until(`document.querySelectorAll("[data-row]").length > 1 && document.querySelectorAll(".met-yes").length === document.querySelectorAll("[data-row]").length`)
	v.proved()
	v.shot("wired")
	v.press("Undo")
	v.until(`document.querySelector("#loom-text").value.includes("joins: []")`)
	v.quiet()
}
