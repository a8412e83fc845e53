package server_test

import (
	"context"
	"strings"
	"testing"
)

// tryNewTones: three single coils on a 5-way lever with one volume, a tone for
// two of them and a treble bleed, as far as what prints: nothing but choices.
func tryNewTones(t *testing.T, b context.Context, size [2]int64) {
	v := begin(t, b, size)
	for _, place := range []string{"fieldset", "fieldset:nth-of-type(2)", "fieldset:last-of-type"} {
		v.selects(place, "It is", "single coil")
	}
	v.press("Next: leads")
	v.press("Next: switches")
	v.card("5-way lever, two poles")
	v.until(`document.querySelector(".cards .main em")`) // the card says that it is chosen
	v.press("Next: controls")
	v.until(`document.querySelectorAll(".part-line").length === 4 && document.querySelectorAll(".chips [aria-pressed=true]").length === 2`)
	v.tick("with a treble bleed")
	v.until(`document.querySelectorAll(".part-line").length === 5`)
	v.looked("tones")
	v.press("bridge")
	v.until(`document.querySelectorAll(".part-line").length === 6`)
	v.press("bridge")
	v.press("Next: sounds")
	v.card("the usual sounds")
	v.until(`document.querySelectorAll(".setting .heard").length === 5`)
	v.press("Next: wiring")
	v.found()
	text := v.text()
	for _, want := range []string{"bleed.a ", "bleed.b ", "lever.b.3 -- neck-tone.wiper", "bleed/parallel, capacitor: 1n, resistor: 150k"} {
		if !strings.Contains(text, want) {
			t.Errorf("the loom does not say %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "bridge-tone") {
		t.Error("the bridge has a tone that was taken away")
	}
	v.until(`document.querySelector(".next .main")`)
	v.press("Print the sheet")
	v.until(`document.activeElement.textContent === "Build sheet as PDF" && document.activeElement.checkVisibility()`)
	v.fits("print")
	v.quiet()
}

// tick ticks the box whose label begins with words.
func (v *visit) tick(label string) {
	v.Helper()
	v.until(`(() => { const l = [...document.querySelectorAll("label.check")].find(l => l.checkVisibility() && l.textContent.trim().startsWith(` + quoted(label) + `)); l?.querySelector("input").click(); return !!l; })()`)
}
