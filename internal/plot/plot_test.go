package plot

import (
	"bytes"
	"fmt"
	"image"
	"io/fs"
	"math"
	"os"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/png"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
	"loomwright/internal/svg"
	"loomwright/internal/wiring"
	"loomwright/library"
)

// example draws a shipped loom: its first setting with its band, and others.
func example(t testing.TB, name string) Plot {
	t.Helper()
	text, err := fs.ReadFile(examples.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	l, list := loom.Read(diag.NewText(name, string(text)), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
	if list.HasErrors() {
		t.Fatal(list)
	}
	g, _ := wiring.Build(l)
	m, list := electrics.New(g, electrics.Options{})
	if m == nil {
		t.Fatal(list)
	}
	full, first := setting.FullUp(g), setting.Nth(g, 0)
	p := Plot{Title: l.Title, Unit: OverOneCoil, Band: Likely(m.Band(first.At, full))}
	for i := range min(setting.Count(g), MaxLines) {
		s := setting.Nth(g, i)
		p.Lines = append(p.Lines, Response(s.Name, m.Curve(s.At, full)))
	}
	return p
}

// Every example's plot is a scene that all painters take, of words that they
// have, and the same every time.
func TestExamplesDraw(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no examples (%v)", err)
	}
	for _, n := range names {
		s := Draw(example(t, n))
		if err := s.Check(); err != nil {
			t.Errorf("%s: %v", n, err)
		}
		for _, text := range texts(s.Items) {
			if missing := scene.MissingGlyphs(text.Content); missing != nil {
				t.Errorf("%s: no glyphs for %q", n, missing)
			}
		}
	}
	once, err := svg.Paint(Draw(example(t, names[0])), svg.Options{})
	if err != nil {
		t.Fatal(err)
	}
	twice, _ := svg.Paint(Draw(example(t, names[0])), svg.Options{})
	if string(once) != string(twice) {
		t.Error("two drawings of one plot differ")
	}
}

func texts(items []scene.Item) []scene.Text {
	var out []scene.Text
	for _, i := range items {
		switch x := i.(type) {
		case scene.Text:
			out = append(out, x)
		case scene.Group:
			out = append(out, texts(x.Items)...)
		}
	}
	return out
}

// All that is written stays on the page, and no two texts cover each other.
func TestTextsKeepApart(t *testing.T) {
	p := example(t, "twin-coil-series-parallel.yaml")
	p.Notes = []string{"a note that is long enough to need more than one line of the key if the plot is no wider than a hand, as it is on paper and on a phone"}
	s := Draw(p)
	page := scene.Box(0, 0, s.Width, s.Height)
	all := texts(s.Items)
	for i, a := range all {
		if !page.Contains(a.Bounds()) {
			t.Errorf("%q leaves the page", a.Content)
		}
		for _, b := range all[:i] {
			if a.Bounds().Overlaps(b.Bounds()) {
				t.Errorf("%q and %q cover each other", a.Content, b.Content)
			}
		}
	}
}

// A point lies where its frequency and level say: decades at equal distances,
// steps of dB likewise.
func TestPlacesOnAxes(t *testing.T) {
	p := Plot{Lines: []Line{{Hz: []float64{20, 20e3}, DB: []float64{0, -30}}}, Width: 100, Height: 80}
	a := p.axes()
	if d := a.x(1000) - a.x(100); math.Abs(d-(a.x(10000)-a.x(1000))) > 1e-9 || math.Abs(a.x(20)-a.box.Min.X) > 1e-9 {
		t.Errorf("decades are not evenly apart: %g mm", d)
	}
	if math.Abs((a.y(-6)-a.y(0))-(a.y(-12)-a.y(-6))) > 1e-9 || a.y(a.high) != a.box.Min.Y {
		t.Error("levels are not evenly apart")
	}
	if a.high < 0 || a.low > -30 || math.Mod(a.high, 6) != 0 {
		t.Errorf("axis from %g to %g dB", a.low, a.high)
	}
}

// Silence, nothing and wild numbers are drawn without leaving the page's limits.
func TestWildCurves(t *testing.T) {
	for _, lines := range [][]Line{
		nil,
		{{Name: "open"}},
		{{Name: "silent", Hz: []float64{20, 20e3}, DB: []float64{-200, -200}}},
		{{Name: "wild", Hz: []float64{20, 1000, 20e3}, DB: []float64{1e9, -1e9, 3}, Mark: Mark{Hz: 1e6, DB: 0, Text: "off"}}},
	} {
		if err := Draw(Plot{Title: "x", Lines: lines}).Check(); err != nil {
			t.Errorf("%v: %v", lines, err)
		}
	}
	if d := Draw(Plot{Lines: []Line{{Name: "lever middle"}}}).Desc; !strings.Contains(d, "lever middle: nothing") {
		t.Errorf("in words: %q", d)
	}
}

// Curves are told apart without colour: no two pens share a dash pattern, and
// all of them and the words are dark enough on the field and the shade (WCAG
// 2.2, 1.4.11 and 1.4.3: 3 to 1 for lines, 4.5 to 1 for words).
func TestReadableInGrey(t *testing.T) {
	for i, a := range pens {
		for _, b := range pens[:i] {
			if len(a.Dash) == len(b.Dash) && (len(a.Dash) == 0 || a.Dash[0] == b.Dash[0]) {
				t.Errorf("pens %v and %v are dashed alike", a, b)
			}
		}
		for _, ground := range []scene.Color{paperOf, shade} {
			if c := scene.Contrast(scene.Grey(a.Color), scene.Grey(ground)); c < 3 {
				t.Errorf("pen %d: contrast %.1f", i, c)
			}
		}
	}
	for _, c := range []scene.Color{ink, faint} {
		if r := scene.Contrast(c, paperOf); r < 4.5 {
			t.Errorf("words: contrast %.1f", r)
		}
	}
}

// The pixel where the chosen curve must be has the curve's colour, and grey in a
// grey print. PLOT_OUT names a folder for the pictures, to be looked at.
func TestPicture(t *testing.T) {
	const dpi = 150
	for _, name := range []string{"twin-coil-series-parallel", "three-single-coils-5way", "two-twin-coils-phase"} {
		p := example(t, name+".yaml")
		s := Draw(p)
		p.Width, p.Height = s.Width, s.Height
		a := p.axes()
		at := len(p.Lines[0].Hz) / 3
		x, y := a.x(p.Lines[0].Hz[at])*dpi/25.4, a.y(p.Lines[0].DB[at])*dpi/25.4
		for _, grey := range []bool{false, true} {
			data, err := png.Paint(s, png.Options{DPI: dpi, Grey: grey})
			if err != nil {
				t.Fatal(err)
			}
			picture, _, err := image.Decode(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			want := pens[0].Color
			if grey {
				want = scene.Grey(want)
			}
			r, g, b, _ := picture.At(int(x), int(y)).RGBA()
			if got := (scene.Color{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8), A: 255}); scene.Difference(got, want) > 3 {
				t.Errorf("%s: %v where the curve must be %v", name, got, want)
			}
			if dir := os.Getenv("PLOT_OUT"); dir != "" {
				if err := os.WriteFile(fmt.Sprintf("%s/%s-%v.png", dir, name, grey), data, 0o600); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	p := example(b, "twin-coil-series-parallel.yaml")
	for b.Loop() {
		Draw(p)
	}
}
