package server_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// TestNew puts looms together from an empty page, as a person would who knows
// no syntax: on a phone by touch, at a desk by mouse, and by keys alone.
func TestNew(t *testing.T) {
	needPage(t)
	b := browser(t)
	for _, task := range []struct {
		name string
		try  func(*testing.T, context.Context, [2]int64)
	}{{"lever", tryNewLever}, {"leads", tryNewLeads}, {"switch", tryNewSwitch}, {"impossible", tryNewImpossible}, {"tones", tryNewTones}} {
		tabs(t, task.name+"/desktop", func(t *testing.T) { task.try(t, b, desktop) })
		tabs(t, task.name+"/phone", func(t *testing.T) { task.try(t, b, phone) })
	}
	tabs(t, "keys", func(t *testing.T) { tryNewKeys(t, b) })
	tabs(t, "bench", func(t *testing.T) { tryLeadsOnBench(t, b) })
}

// begin opens an empty page and goes to its first step.
func begin(t *testing.T, b context.Context, size [2]int64) *visit {
	t.Helper()
	address, _ := serve(t)
	v := call(t, b, size, address, "")
	v.press("Put one together, step by step")
	v.until(`document.querySelector("lw-new fieldset select")`)
	return v
}

// light asks for the light page again.
var light = command(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "light"}}})

// looked keeps a picture in light and dark, and holds a view against axe-core
// and fingers.
func (v *visit) looked(name string) {
	v.Helper()
	v.shot(name)
	v.fits(name)
	v.axe(name)
	v.do(dark)
	v.shot(name + "-dark")
	v.do(light)
}

// selects chooses an option of the select whose label begins with words, within a
// part of the page.
func (v *visit) selects(within, label, option string) {
	v.Helper()
	const find = `(() => {
		const l = [...document.querySelectorAll(%q)].filter(e => e.checkVisibility()).flatMap(e => [...e.querySelectorAll("label")]).find(l => l.textContent.trim().startsWith(%q));
		const s = l?.querySelector("select"), o = s && [...s.options].find(o => o.textContent.trim() === %q);
		if (!o) return false;
		s.focus(); s.value = o.value; s.dispatchEvent(new Event("change", { bubbles: true })); return true;
	})()`
	v.until(fmt.Sprintf(find, within, label, option))
}

// enter types into the box whose label begins with words.
func (v *visit) enter(label, text string) {
	v.Helper()
	const find = `(() => {
		const l = [...document.querySelectorAll("label")].filter(e => e.checkVisibility()).find(l => l.textContent.trim().startsWith(%q));
		const i = l?.querySelector("input, textarea");
		if (!i) return false;
		i.focus(); i.select?.(); return true;
	})()`
	v.until(fmt.Sprintf(find, label))
	v.keys(text)
	value[bool](v, `(document.activeElement.dispatchEvent(new Event("change", { bubbles: true })), true)`)
}

// found waits for a wiring, uses it, and waits until all of it is heard.
func (v *visit) found() {
	v.Helper()
	v.press("Find wiring")
	const use = `[...document.querySelectorAll("lw-find button")].find(b => b.textContent.includes("Use this wiring"))`
	v.until(use)
	v.looked("found")
	value[bool](v, use+`.click() || true`)
	v.proved()
	v.until(`document.querySelectorAll("[data-row]").length > 1 && !document.querySelector(".met-no")`)
}

// card presses the first card whose bold words, or whose words below them, are these.
func (v *visit) card(words string) {
	v.Helper()
	found := fmt.Sprintf(`[...document.querySelectorAll(".cards button")].find(b => b.checkVisibility() && [...b.childNodes].some(n => n.nodeType !== Node.COMMENT_NODE && n.textContent.trim() === %q || n.querySelector?.("strong")?.textContent === %[1]q))`, words)
	v.until(found)
	at := value[[]float64](v, `(() => { const b = `+found+`; b.scrollIntoView({ block: "center" }); const r = b.getBoundingClientRect(); return [r.x + r.width / 2, r.y + Math.min(20, r.height / 2)]; })()`)
	v.tapAt(at)
}

// tryNewLever: two pickups with four leads each, one by its maker's wording and
// one by a code, on a lever; a step back loses nothing.
func tryNewLever(t *testing.T, b context.Context, size [2]int64) {
	v := begin(t, b, size)
	v.selects("fieldset", "It is", "twin coil (humbucking)") // the first place: neck
	v.selects("fieldset:last-of-type", "It is", "twin coil (humbucking)")
	v.until(`document.querySelectorAll("fieldset .picture:not(.none)").length === 2`)
	v.looked("pickups")
	v.press("Next: leads")
	v.press("As the maker says it")
	v.enter("Type what the paper says", "yellow is start of the screw coil, grey its finish; brown is start of the slug coil, turquoise its finish; bare is ground")
	v.until(`document.querySelectorAll("lw-leads li").length === 5`)
	v.looked("wording")
	value[bool](v, `[...document.querySelectorAll("lw-leads")].at(-1).querySelectorAll(".chips button")[1].click() || true`)
	v.selects("lw-leads", "Code", "dunlin")
	v.until(`document.querySelectorAll("lw-leads li").length === 10`)
	v.press("Next: switches")
	v.until(`document.querySelector(".pictured .picture")`)
	v.looked("switches")
	v.card("5-way lever, four poles")
	v.until(`document.querySelector("[aria-label='Chosen switches'] li")`)
	v.press("Next: controls")
	v.card("one volume, one tone")
	v.until(`document.querySelectorAll(".part-line").length === 3`)
	v.looked("controls")
	v.press("Next: sounds")
	v.until(`document.querySelectorAll(".setting").length === 5`)
	v.looked("sounds")
	v.press("Back")
	v.press("Back")
	v.until(`document.querySelector("[aria-label='Chosen switches'] li")`)
	v.press("Next: controls")
	v.until(`document.querySelector(".cards [aria-pressed=true]")`)
	v.press("Next: sounds")
	v.card("bridge; bridge.north parallel neck.south; neck parallel bridge; neck series bridge; neck")
	v.until(`document.querySelectorAll(".setting .heard").length === 5`)
	// and one of them by tapping
	value[bool](v, `document.querySelectorAll(".setting")[3].click() || true`)
	for _, word := range []string{"neck", "series", "bridge"} {
		v.press("add " + word)
	}
	v.looked("tapping")
	v.press("Want this")
	v.press("Next: wiring")
	v.until(`document.querySelectorAll("lw-table [data-row]").length === 5`)
	v.press("Find wiring")
	v.press("Stop the search")
	v.until(`document.querySelector("p.spoken").textContent === "the search is stopped" && document.activeElement.textContent === "Find wiring"`)
	v.found()
	v.shot("bench")
	for _, want := range []string{"yellow: south.start", "grey: south.finish", "bare: shield", "code: dunlin", "with: lever toward neck, hear: neck series bridge"} {
		if text := v.text(); !strings.Contains(text, want) {
			t.Errorf("the loom does not say %q:\n%s", want, text)
		}
	}
	v.sheet("Drawing")
	v.shot("drawn")
	v.quiet()
}

// reading answers what the wizard asks of a pickup whose coils are on the pairs
// of leads; the first of a pair goes up as steel touches its coil.
func (v *visit) reading(pairs [][2]string) {
	v.Helper()
	for range 16 {
		v.until(`document.querySelector("#wizard-head") && !document.querySelector(".wizard .main:disabled") && /^(Reading|What)/.test(document.querySelector("#wizard-head").textContent)`)
		head := value[string](v, `document.querySelector("#wizard-head").textContent`)
		if strings.HasPrefix(head, "What") {
			return
		}
		probes := value[[]string](v, `[...document.querySelectorAll(".probes strong")].map(e => e.textContent)`)
		at := slices.IndexFunc(pairs, func(p [2]string) bool { return slices.Contains(probes, p[0]) && slices.Contains(probes, p[1]) })
		first := value[bool](v, `/first coil/.test(document.querySelector(".wizard .say").textContent)`)
		taps := value[bool](v, `!!document.querySelector(".answers")`)
		switch {
		case taps && (at < 0 || first != (at == 0)):
			v.press("Does not move")
		case taps && probes[0] == pairs[at][0]:
			v.press("Up")
		case taps:
			v.press("Down")
		case at < 0:
			v.press("Open: OL or 1")
		default:
			v.enter("The meter shows", []string{"4.05", "4k1"}[at])
			v.press("That is it")
			if at == 0 { // without a unit it may be either
				v.press("4.05 kΩ")
			}
		}
		v.until(`document.querySelector("#wizard-head").textContent !== ` + quoted(head))
	}
	v.Fatal("the wizard does not come to an end")
}

// describe tells the wizard what a pickup looks like.
func (v *visit) describe(leads ...string) {
	v.Helper()
	for _, c := range leads {
		v.press(c)
	}
	v.until(`document.querySelectorAll(".colours [aria-pressed=true]").length === 4`)
}

// tryNewLeads: a pickup that nobody knows, through the wizard.
func tryNewLeads(t *testing.T, b context.Context, size [2]int64) {
	v := begin(t, b, size)
	v.selects("fieldset:last-of-type", "It is", "twin coil (humbucking)")
	v.press("Next: leads")
	v.press("Find out with a meter")
	v.describe("pink", "blue", "violet", "orange")
	v.looked("look")
	v.press("Begin with the readings")
	v.until(`/^Reading 1/.test(document.querySelector("#wizard-head").textContent)`)
	v.looked("reading")
	v.enter("The meter shows", "80")
	v.press("That is it")
	v.until(`document.querySelector(".wizard [role=alert]")`)
	v.shot("odd")
	v.reading([][2]string{{"orange", "pink"}, {"violet", "blue"}})
	v.looked("told")
	v.press("Back")
	v.until(`/^Reading/.test(document.querySelector("#wizard-head").textContent)`)
	v.reading([][2]string{{"orange", "pink"}, {"violet", "blue"}})
	v.press("Use these leads")
	v.until(`document.querySelectorAll("lw-leads li").length === 5`)
	v.press("Next: switches")
	v.press("Next: controls")
	v.press("Another scheme")
	v.card("one volume")
	v.selects(".part-line", "is", "push-pull pot with lugs")
	v.press("Next: sounds")
	v.until(`document.querySelectorAll(".setting").length === 2`)
	value[bool](v, `document.querySelectorAll(".cards button")[0].click() || true`)
	v.until(`document.querySelectorAll(".setting .heard").length === 2`)
	v.press("Next: wiring")
	v.found()
	if text := v.text(); !strings.Contains(text, "bare: shield") || strings.Contains(text, "unknown") || !strings.Contains(text, "bridge.orange") {
		t.Errorf("the leads are not in the loom:\n%s", text)
	}
	v.shot("bench")
	v.quiet()
}

// tryNewSwitch: a switch that nobody knows, two pickups: a 6-lug toggle that
// is one half on and on.
func tryNewSwitch(t *testing.T, b context.Context, size [2]int64) {
	v := begin(t, b, size)
	v.selects("fieldset", "It is", "single coil")
	v.selects("fieldset:last-of-type", "It is", "single coil")
	v.press("Next: leads")
	v.press("Next: switches")
	v.press("A switch that nobody knows: find its contacts with a meter")
	v.enter("Positions", "2")
	v.until(`document.querySelectorAll("input.short").length === 2`)
	v.enter("What you call the switch", "old toggle")
	v.looked("look")
	v.press("Begin with the readings")
	meets := map[string]string{"up": "1 2,4 5", "down": "2 3,5 6"}
	for range 20 {
		v.until(`document.querySelector("#wizard-head") && !document.querySelector(".wizard .main:disabled")`)
		head := value[string](v, `document.querySelector("#wizard-head").textContent`)
		if strings.HasPrefix(head, "What") {
			break
		}
		on := value[string](v, `document.querySelector(".probes strong").textContent`)
		_, position, _ := strings.Cut(head, "switch at ")
		beeps := 0
		for _, lug := range value[[]string](v, `[...document.querySelectorAll(".lugs button")].map(b => b.textContent)`) {
			if slices.ContainsFunc(strings.Split(meets[position], ","), func(g string) bool { return strings.Contains(g, on) && strings.Contains(g, lug) }) {
				v.press("lug " + lug)
				beeps++
			}
		}
		if beeps == 1 {
			v.looked("sweep")
			v.press("This one beeps")
		} else {
			v.press("None of them")
		}
		v.until(`document.querySelector("#wizard-head").textContent !== ` + quoted(head))
	}
	v.looked("told")
	v.press("Use this switch")
	v.until(`document.querySelector("[aria-label='Chosen switches'] li")`)
	v.press("Next: controls")
	v.card("one volume, one tone")
	v.press("Next: sounds")
	v.until(`document.querySelectorAll(".setting").length === 2`)
	v.card("bridge; neck")
	v.press("Next: wiring")
	v.found()
	if text := v.text(); !strings.Contains(text, "switch/old-toggle") || !strings.Contains(text, "own:") {
		t.Errorf("the switch is not in the loom:\n%s", text)
	}
	v.shot("bench")
	v.quiet()
}

// tryNewImpossible asks for more than a switch can do: the page says why, and
// each way out is a button; the choices are there to go back to.
func tryNewImpossible(t *testing.T, b context.Context, size [2]int64) {
	v := begin(t, b, size)
	v.selects("fieldset", "It is", "twin coil (humbucking)")
	v.selects("fieldset:last-of-type", "It is", "twin coil (humbucking)")
	v.press("Next: leads")
	v.press("Next: switches")
	v.card("3-way leaf toggle")
	v.press("Next: controls")
	v.card("one volume, one tone")
	v.press("Next: sounds")
	v.until(`document.querySelectorAll(".setting").length === 3`)
	v.card("bridge; neck parallel bridge; neck")
	value[bool](v, `document.querySelectorAll(".setting")[1].click() || true`)
	v.press("neck series bridge")
	v.press("Next: wiring")
	v.press("Find wiring")
	const out = `[...document.querySelectorAll("lw-find button")].filter(b => /^(Use|Give up)/.test(b.textContent.trim()))`
	v.until(out + `.length`)
	v.looked("why")
	value[bool](v, `(`+out+`)[0].click() || true`)
	v.until(`!document.querySelector("lw-find ul")`)
	v.press("Find wiring")
	v.until(`[...document.querySelectorAll("lw-find button")].some(b => b.textContent.includes("Use this wiring"))`)
	v.press("Back")
	v.until(`document.querySelectorAll(".setting").length >= 3`)
	v.shot("again")
	v.quiet()
}

// tryNewKeys does a whole loom with the keyboard alone.
func tryNewKeys(t *testing.T, b context.Context) {
	address, _ := serve(t)
	v := call(t, b, desktop, address, "")
	v.until(pressable("Put one together, step by step"))
	to := func(what string) {
		t.Helper()
		for range 120 {
			if value[bool](v, fmt.Sprintf(`(() => { const e = document.activeElement; return !!(e && (%s)); })()`, what)) {
				return
			}
			v.keys(kb.Tab)
		}
		v.shot("failed")
		t.Fatalf("Tab never leads to %s", what)
	}
	push := func(words string) {
		t.Helper()
		to(`e.tagName === "BUTTON" && (e.textContent.trim().replace(/\s+/g, " ") === ` + quoted(words) + ` || e.querySelector("strong")?.textContent === ` + quoted(words) + `)`)
		v.keys(kb.Enter)
		v.do(chromedp.Sleep(0))
	}
	push("Put one together, step by step")
	v.until(`document.querySelector("fieldset select")`)
	to(`e.closest("fieldset")?.querySelector("legend").textContent.startsWith("bridge")`)
	v.keys("twin coil")
	v.until(`document.querySelector("fieldset .picture:not(.none)")`)
	push("Next: leads")
	v.until(`document.activeElement.id === "step-head"`)
	push("Next: switches")
	v.until(`document.activeElement.id === "step-head" && /switches/.test(document.activeElement.textContent)`)
	push("mini toggle, two poles, on-on")
	v.until(`document.querySelector("[aria-label='Chosen switches'] li")`)
	push("Next: controls")
	v.until(`document.activeElement.id === "step-head" && /controls/.test(document.activeElement.textContent)`)
	push("Another scheme")
	push("one volume")
	push("Next: sounds")
	v.until(`document.querySelectorAll(".setting").length === 2`)
	to(`e.className === "setting"`)
	v.keys(kb.Enter)
	v.until(`document.querySelector("lw-picker .chips button")`)
	to(`e.textContent.trim() === "bridge"`)
	v.keys(kb.Enter)
	v.until(`document.querySelectorAll(".setting .heard").length === 1 && document.activeElement.className === "setting"`)
	to(`e.textContent.trim() === "bridge.north"`)
	v.keys(kb.Enter)
	v.until(`document.querySelectorAll(".setting .heard").length === 2`)
	push("Next: wiring")
	v.until(`document.querySelectorAll("lw-table [data-row]").length === 2`)
	push("Find wiring")
	v.until(`[...document.querySelectorAll("lw-find button")].some(b => b.textContent.includes("Use this wiring"))`)
	to(`e.tagName === "BUTTON" && e.textContent.includes("Use this wiring")`)
	v.keys(kb.Enter)
	v.proved()
	v.until(`document.querySelectorAll("[data-row]").length === 2 && !document.querySelector(".met-no")`)
	v.quiet()
}

// tryLeadsOnBench finds the leads of a pickup of an open loom.
func tryLeadsOnBench(t *testing.T, b context.Context) {
	v, _ := open(t, b, desktop, "leads-unknown.yaml")
	v.press("The 4 parts, and what is known of them")
	v.press("Find the leads of bridge with a meter")
	v.describe("turquoise", "brown", "blue", "pink")
	v.press("Begin with the readings")
	v.reading([][2]string{{"turquoise", "brown"}, {"blue", "pink"}})
	v.press("Use these leads")
	v.until(`document.querySelector("#loom-text").value.includes("turquoise: ")`)
	v.quiet()
}
