package server_test

import (
	"context"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"loomwright/internal/server"
)

// TestBench does the tasks of the bench that go beyond one loom and one
// setting, as a person would. Pictures are kept in out/page.
func TestBench(t *testing.T) {
	needPage(t)
	b := browser(t)
	for _, task := range []struct {
		name string
		try  func(*testing.T, context.Context, [2]int64)
	}{
		{"settings", trySettings}, {"looms", tryLooms}, {"circuit", tryCircuit}, {"habit", tryHabit}, {"shelf", tryShelf}, {"pointers", tryPointers},
	} {
		tabs(t, task.name+"/desktop", func(t *testing.T) { task.try(t, b, desktop) })
		tabs(t, task.name+"/phone", func(t *testing.T) { task.try(t, b, phone) })
	}
}

// fromList chooses in a list by its words, as keys would.
func (v *visit) fromList(list, words string) {
	v.Helper()
	v.until(`[...document.querySelectorAll(` + quoted(list) + `)].some(s => s.checkVisibility() && [...s.options].some(o => o.textContent.trim() === ` + quoted(words) + `))`)
	value[bool](v, `(() => {
		const s = [...document.querySelectorAll(`+quoted(list)+`)].find(s => s.checkVisibility());
		s.selectedIndex = [...s.options].findIndex(o => o.textContent.trim() === `+quoted(words)+`);
		s.dispatchEvent(new Event("change", { bubbles: true }));
		return true;
	})()`)
}

// grey shows the page as a printer without colours would.
func (v *visit) grey(name string) {
	v.Helper()
	v.do(command(emulation.SetEmulatedVisionDeficiency, emulation.SetEmulatedVisionDeficiencyParams{Type: "achromatopsia"}))
	v.shot(name)
	v.do(command(emulation.SetEmulatedVisionDeficiency, emulation.SetEmulatedVisionDeficiencyParams{Type: "none"}))
}

// trySettings lays one setting beside another: its curve is dashed, and words
// say how they differ.
func trySettings(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.sheet("Curve")
	v.fromList("lw-beside select", "toggle neck, tone pushed")
	v.until(`document.querySelector(".curve .line.other")`)
	v.until(`document.querySelector(".beside")?.textContent.includes("dB louder") || document.querySelector(".beside")?.textContent.includes("quieter") || document.querySelector(".beside")?.textContent.includes("as loud")`)
	says := value[string](v, `document.querySelector(".beside").textContent`)
	for _, want := range []string{"here ", "hum: ", "resonance at "} {
		if !strings.Contains(says, want) {
			t.Errorf("the difference in words has no %q: %s", want, says)
		}
	}
	value[bool](v, `(document.querySelector("lw-curve").scrollIntoView(), true)`)
	v.shot("beside")
	v.grey("beside-grey")
	v.axe("beside")
	v.fits("beside")
	v.fromList("lw-beside select", "no other setting")
	v.until(`!document.querySelector(".curve .line.other") && !document.querySelector(".beside")`)
	v.quiet()
}

// tryLooms holds the loom as it is, changes it, and reads the difference in
// table and curve; then it takes another loom beside it.
func tryLooms(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.sheet("Curve")
	v.press("Compare with another loom")
	v.press("This loom as it is now, while I change it")
	v.until(`document.querySelector(".beside")?.textContent.includes("about as loud")`)
	v.sheet("Text")
	v.setText(strings.Replace(v.text(), "500k audio", "250k audio", 1))
	v.sheet("Curve")
	v.until(`document.querySelector(".beside")?.textContent.includes("quieter") || document.querySelector(".beside")?.textContent.includes("darker")`)
	v.shot("changed")
	v.sheet("Settings")
	v.until(`document.querySelectorAll("[data-row] .num .there").length >= 6`)
	value[bool](v, `(document.querySelector(".settings").scrollIntoView(), true)`)
	v.shot("there")
	v.do(dark)
	v.shot("there-dark")
	v.axe("there")
	v.fits("there")
	v.sheet("Curve")
	v.press("Put " + phaseLoom + " as it was away")
	v.until(`!document.querySelector(".there")`)
	v.fromList("lw-beside details select", "twin-coil-split.yaml")
	v.until(`document.querySelector(".beside .foot")?.textContent.includes("pickups differ")`)
	v.shot("other")
	v.quiet()
}

// tryCircuit opens the circuit diagram, follows a setting, and shows what that
// leaves.
func tryCircuit(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	v.sheet("Drawing")
	v.press("Circuit diagram with toggle bridge, tone pushed")
	v.until(`document.querySelector(".diagram svg text")`)
	whole := value[int](v, `document.querySelectorAll(".diagram svg *").length`)
	value[bool](v, `(document.querySelector("lw-circuit").scrollIntoView(), true)`)
	v.shot("whole")
	v.grey("whole-grey")
	v.axe("circuit")
	v.fits("circuit")
	v.press("Only what this setting leaves of it")
	v.until(`document.querySelector(".diagram svg")?.textContent.includes("toggle bridge")`)
	if one := value[int](v, `document.querySelectorAll(".diagram svg *").length`); one >= whole {
		t.Errorf("one setting has %d pieces, the whole loom %d", one, whole)
	}
	v.shot("one")
	v.sheet("Settings")
	v.press("toggle neck, tone pulled")
	v.sheet("Drawing")
	v.until(`document.querySelector(".diagram svg")?.textContent.includes("toggle neck, tone pulled")`)
	v.quiet()
}

// tryHabit chooses the US: words and paper follow, and stay after a reload; names
// in the loom do not change.
func tryHabit(t *testing.T, b context.Context, size [2]int64) {
	v, _ := open(t, b, size, phaseLoom)
	text := v.text()
	v.fromList(".habit select", "UK")
	v.press("Solder")
	v.until(`document.querySelector(".order")`)
	uk := value[string](v, `document.querySelector("lw-solder").textContent`)
	v.fromList(".habit select", "US")
	v.until(`document.documentElement.lang === "en-US" && document.querySelector("lw-solder").textContent !== ` + quoted(uk))
	us := value[string](v, `document.querySelector("lw-solder").textContent`)
	if !strings.Contains(uk, "earth") || !strings.Contains(us, "grounds on the cases") {
		t.Errorf("UK: %.200s\nUS: %.200s", uk, us)
	}
	v.shot("us")
	v.do(chromedp.Reload())
	v.until(`document.documentElement.lang === "en-US" && document.querySelector(".order")`)
	v.press("Bench")
	v.proved()
	v.sheet("Text")
	v.press("Print, export, share")
	if paper := value[string](v, `[...document.querySelectorAll(".export select option")].find(o => o.selected).textContent`); paper != "Letter" {
		t.Errorf("the US prints on %s", paper)
	}
	if v.text() != text {
		t.Error("the habit changed the loom")
	}
	v.quiet()
}

// tryShelf opens a loom with a part of the user's own beside the looms, and
// another once that part changes on disk.
func tryShelf(t *testing.T, b context.Context, size [2]int64) {
	standard, err := os.ReadFile("../../library/pot/standard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	address, folder := serveParts(t, map[string]string{"pot/godwit.yaml": string(standard)})
	write(t, filepath.Join(folder, "own.yaml"), "loomwright: 1\ntitle: Knot with a pot of its own\nparts:\n  coil: {is: pickup/single-coil}\n  volume: {is: pot/godwit, track: 250k audio}\n  jack: {is: jack/mono}\njoins:\n  - coil.coil.start -- volume.cw\n  - coil.coil.finish -- jack.sleeve\n  - volume.ccw -- jack.sleeve\n  - volume.wiper -- jack.tip\n")
	v := call(t, b, size, address, "#file=own.yaml")
	v.proved()
	if errors := value[int](v, `document.querySelectorAll(".findings .error").length`); errors > 0 {
		t.Errorf("%d errors", errors)
	}
	v.sheet("Text")
	v.press("The 3 parts, and what is known of them")
	v.until(`document.querySelector("lw-parts").textContent.includes("godwit") || [...document.querySelectorAll("lw-parts option")].some(o => o.value === "pot/godwit")`)
	v.shot("own")
	write(t, filepath.Join(folder, "shelf", "pot", "godwit.yaml"), "loomwright-part: 1\nnonsense: [")
	value[bool](v, `(document.dispatchEvent(new Event("visibilitychange")), true)`)
	v.sheet("Settings")
	v.until(`document.querySelectorAll(".findings .error").length > 0`)
	v.shot("broken")
	v.quiet()
}

// serveParts serves a folder without looms, and with a shelf beside them.
func serveParts(t *testing.T, parts map[string]string) (address, folder string) {
	t.Helper()
	folder = t.TempDir()
	for name, text := range parts {
		file := filepath.Join(folder, server.Shelf, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		write(t, file, text)
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	shelf, err := root.OpenRoot(server.Shelf)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = shelf.Close() })
	s := httptest.NewServer(server.Handler(root, shelf.FS()))
	t.Cleanup(s.Close)
	return s.URL, folder
}

// tryPointers goes from a finding to its wire, and from the wire to the finding.
func tryPointers(t *testing.T, b context.Context, size [2]int64) {
	address, _ := serve(t)
	v := call(t, b, size, address, "#example=broken/neighbour-lug-of-a-lever.yaml")
	v.proved()
	v.until(`document.querySelector("lw-findings li.chosen") || ([...document.querySelectorAll("button.finding")][window.at = ((window.at ?? -1) + 1) % document.querySelectorAll("button.finding").length].click(), false)`)
	v.shot("finding")
	v.sheet("Drawing")
	v.until(`document.querySelector("lw-drawing .wire.chosen") && document.querySelector("lw-drawing .about")?.textContent.length > 10`)
	v.press("Leave it")
	v.until(`!document.querySelector("lw-findings li.chosen") && !document.querySelector("lw-drawing .about")`)
	v.quiet()
}
