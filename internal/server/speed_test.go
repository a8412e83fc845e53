package server_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// BenchmarkCold measures from an empty browser to the first usable view, as it
// is and at 4 times less CPU with 10 Mbit/s.
func BenchmarkCold(b *testing.B) {
	measure(b, func(t *testing.T, browser context.Context) {
		for _, slow := range []bool{false, true} {
			var times []float64
			for range 5 {
				address, _ := serve(t, phaseLoom)
				v := call(t, browser, desktop, "about:blank", "")
				if slow {
					v.do(command(emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4}),
						command(network.Enable, network.EnableParams{}),
						command(network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{MatchedNetworkConditions: []*network.Conditions{
							{Latency: 40, DownloadThroughput: 10e6 / 8, UploadThroughput: 10e6 / 8}}}))
				}
				v.do(chromedp.Navigate(address + "/"))
				v.until(`performance.getEntriesByName("usable").length`)
				times = append(times, value[float64](v, `performance.getEntriesByName("usable")[0].startTime`))
			}
			report(b, map[bool]string{false: "cold", true: "cold-slow"}[slow], times)
		}
	})
}

// BenchmarkEdit measures from a changed text to the new table and the new
// drawing, in a loom of twelve settings, and the memory of the cores.
func BenchmarkEdit(b *testing.B) {
	const loom = "loom-without-pickups.yaml"
	measure(b, func(t *testing.T, browser context.Context) {
		address, _ := serve(t, loom)
		v := call(t, browser, desktop, address, "#file="+loom)
		v.proved()
		if n := value[int](v, `document.querySelectorAll("[data-row]").length`); n != 12 {
			t.Fatalf("%d settings", n)
		}
		value[bool](v, `(performance.clearMeasures(), true)`)
		line := value[string](v, `document.querySelector("#loom-text").value.split("\n").find(l => / -- .*: bare/.test(l))`)
		text := v.text()
		for i := range 20 {
			changed := text
			if i%2 == 0 {
				changed = strings.Replace(text, line+"\n", "", 1)
			}
			v.setText(changed)
			v.until(fmt.Sprintf(`performance.getEntriesByName("text to drawing").length > %d`, i))
		}
		for _, what := range []string{"text to table", "text to drawing"} {
			report(b, strings.ReplaceAll(what, " ", "-"), value[[]float64](v, `performance.getEntriesByName(`+quoted(what)+`).map(e => e.duration)`))
		}
		for _, role := range []string{"edit", "draw"} {
			bytes := value[float64](v, `Math.max(...performance.getEntriesByName("memory of the core").filter(e => e.detail.role === `+quoted(role)+`).map(e => e.detail.bytes))`)
			b.ReportMetric(bytes/1e6, "MB-"+role)
		}
	})
}

// BenchmarkKnob turns a knob for three seconds, a step each frame.
func BenchmarkKnob(b *testing.B) {
	measure(b, func(t *testing.T, browser context.Context) {
		address, _ := serve(t, phaseLoom)
		v := call(t, browser, desktop, address, "#file="+phaseLoom)
		v.proved()
		const turn = `new Promise(done => {
			const knob = document.querySelector(".knob input"), line = document.querySelector(".curve .line");
			const gaps = []; let last = performance.now(), begun = last, curves = 0;
			new MutationObserver(() => curves++).observe(line, { attributes: true });
			const step = now => {
				gaps.push(now - last); last = now;
				knob.value = String(5 + 4.9 * Math.sin(now / 400));
				knob.dispatchEvent(new Event("input", { bubbles: true }));
				if (now - begun < 3000) requestAnimationFrame(step);
				else done([gaps.length / 3, curves / 3, gaps.sort((a, b) => a - b)[Math.floor(gaps.length * 0.95)]]);
			};
			requestAnimationFrame(step);
		})`
		out := value[[]float64](v, turn)
		b.ReportMetric(out[0], "frames/s")
		b.ReportMetric(out[1], "curves/s")
		b.ReportMetric(out[2], "ms-frame-p95")
	})
}

// measure runs something once, whatever b.N is.
func measure(b *testing.B, do func(t *testing.T, browser context.Context)) {
	if b.N > 1 {
		return
	}
	ok := testing.RunTests(func(string, string) (bool, error) { return true, nil }, []testing.InternalTest{{Name: b.Name(), F: func(t *testing.T) {
		needPage(t)
		do(t, browser(t))
	}}})
	if !ok {
		b.Fail()
	}
}

func report(b *testing.B, name string, times []float64) {
	slices.Sort(times)
	b.ReportMetric(times[len(times)/2], "ms-"+name)
	b.ReportMetric(times[len(times)-1], "ms-worst-"+name)
}
