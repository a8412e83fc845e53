package server_test

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// tryOffline visits the page on a static host, ends the host, and goes on: the
// page opens, proves, draws, searches, and keeps what is saved in the browser.
// The second core is kept from the second visit on.
func tryOffline(t *testing.T, b context.Context, size [2]int64) {
	address, stop := static(t)
	v := call(t, b, size, address, "")
	v.press("One single coil, volume and tone")
	v.proved()
	edited := strings.Replace(v.text(), "title: ", "title: Turnstone, ", 1)
	v.setText(edited)
	v.press("Save")
	v.until(`document.querySelector("lw-masthead .where").textContent === "saved, in this browser"`)
	v.until(`navigator.serviceWorker.controller`)
	v.do(chromedp.Reload())
	v.until(`(caches.match("paper.wasm").then(r => globalThis.rest = !!r), globalThis.rest)`)
	stop()
	v.do(chromedp.Navigate(address+"/#"), chromedp.Reload())
	v.until(`document.querySelector("h1")?.textContent.startsWith("Turnstone") || document.querySelector(".cards button")`)
	v.press("Open")
	v.press("one-single-coil.yaml")
	v.proved()
	if v.text() != edited {
		t.Errorf("what was saved is not what was opened:\n%s", v.text())
	}
	v.press("Find wiring")
	v.until(`[...document.querySelectorAll("lw-find button")].some(b => b.textContent.startsWith("Use this wiring"))`)
	v.shot("offline")
}

// tryTabs edits one loom of the browser in two tabs: what one saves is
// offered to the other beside its own.
func tryTabs(t *testing.T, b context.Context, size [2]int64) {
	address, _ := static(t)
	v := call(t, b, size, address, "")
	v.press("One single coil, volume and tone")
	v.proved()
	first := v.text()
	v.setText(strings.Replace(first, "title: ", "title: Knot, ", 1))
	v.press("Save")
	v.until(`document.querySelector("lw-masthead .where").textContent.startsWith("saved")`)
	ctx, done := chromedp.NewContext(v.ctx)
	t.Cleanup(done)
	other := &visit{T: t, ctx: ctx, address: address, size: size}
	other.do(chromedp.EmulateViewport(size[0], size[1]), chromedp.Navigate(address+"/#file=one-single-coil.yaml"))
	other.proved()
	v.setText(strings.Replace(first, "title: ", "title: Dunlin, ", 1))
	other.setText(strings.Replace(first, "title: ", "title: Godwit, ", 1))
	other.press("Save")
	other.until(`document.querySelector("lw-masthead .where").textContent.startsWith("saved")`)
	v.until(`document.querySelector(".clash pre")?.textContent.includes("title: Godwit")`)
	v.press("Take the file's (mine stays in undo)")
	v.until(`document.querySelector("#loom-text").value.includes("title: Godwit")`)
	v.press("Undo")
	v.until(`document.querySelector("#loom-text").value.includes("title: Dunlin")`)
}

// tryDark looks at the dark page with axe-core: contrast above all.
func tryDark(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t, phaseLoom)
	v := call(t, b, size, address, "")
	v.do(dark)
	v.until(`document.querySelector(".cards button")`)
	v.axe("open")
	v.press(phaseLoom)
	v.proved()
	v.shot("bench")
	v.axe("bench")
}
