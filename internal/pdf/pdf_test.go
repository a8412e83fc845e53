package pdf

import (
	"bytes"
	"fmt"
	"image/color"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"loomwright/internal/oracle"
	"loomwright/internal/scene"
	"loomwright/internal/scene/faces"
	"loomwright/internal/scene/scenetest"
)

var day = time.Date(2031, 3, 4, 5, 6, 7, 0, time.UTC)

func paint(t testing.TB, o Options, pages ...scene.Scene) []byte {
	t.Helper()
	out, err := Paint(pages, o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// tool runs a Poppler program on a document and returns what it prints.
func tool(t *testing.T, file []byte, name string, args ...string) string {
	t.Helper()
	path := oracle.Need(t, name)
	in := filepath.Join(t.TempDir(), "in.pdf")
	write(t, in, file)
	args = append(args, in)
	if name == "pdftotext" {
		args = append(args, "-") // to standard output, where the others print anyway
	}
	return run(t, path, args...)
}

// Words come back from pdftotext: every text on its own line here, drawn
// glyphs, words that nobody has a glyph for, and what looks like a page alias.
func TestTextComesBack(t *testing.T) {
	words := []string{
		"Saltmarsh Bench, build sheet", "volume.cw to bridge.violet: 12 mm ± 1 mm", "north ∥ south through 4.7 kΩ",
		"case ⏚, tick ☐ then ☑ or ✓", "G♯ and B♭ and ♮", "漢 and 𝄫 are missing", "{nb} pages, (a) \\b", "µ − × → ∞ ≤ ½", "1 kΩ∥22 nF", "Brachvögel żółty",
	}
	s := scene.Scene{Width: 210, Height: 297}
	for i, w := range words {
		style := scenetest.Styles[i%len(scenetest.Styles)]
		s.Items = append(s.Items, scene.Text{At: scene.Pt(20, 20+8*float64(i)), Content: w, Size: 4, Style: style, Color: scene.Black})
	}
	got := strings.Split(strings.TrimSpace(tool(t, paint(t, Options{}, s), "pdftotext", "-raw")), "\n")
	if !slices.Equal(got, words) {
		t.Errorf("read back:\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(words, "\n"))
	}
}

// Turned, mirrored, clipped and haloed words come back too, once.
func TestGroupedTextComesBack(t *testing.T) {
	text := tool(t, paint(t, Options{}, scenetest.Rich()), "pdftotext", "-raw")
	fields := strings.Join(strings.Fields(text), " ")
	for words, times := range map[string]int{
		"turned up 4.7 kΩ ∥ 22 nF": 1, "slanted ♭ words": 1, "halo on the line ✓": 1, "lug ⏚": 5, "100 mm at 1:1": 1,
	} {
		if got := strings.Count(fields, words); got != times {
			t.Errorf("%q comes back %d times, want %d, in\n%s", words, got, times, fields)
		}
	}
}

// A 100 mm bar is 100 mm within 0.2 mm in the pixels of another program, on
// both papers, upright and lying.
func TestScaleBar(t *testing.T) {
	dpi := 300.0
	path := oracle.Need(t, "pdftoppm")
	for _, size := range []scene.Size{scene.A4, scene.Letter, scene.A4.Landscape()} {
		s := simple(size)
		dir := t.TempDir()
		in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out")
		write(t, in, paint(t, Options{}, s))
		run(t, path, "-r", fmt.Sprint(dpi), "-png", "-singlefile", in, out)
		img := cropped(t, out+".png", s, dpi)
		y := int(201 * dpi / 25.4)
		length := 0.0
		for x := range img.Rect.Dx() {
			length += 1 - float64(color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y)/255
		}
		if got := length * 25.4 / dpi; math.Abs(got-100) > 0.2 {
			t.Errorf("%v: the bar is %.3f mm long", size, got)
		}
		if dx := math.Abs(float64(img.Rect.Dx()) - size.Width*dpi/25.4); dx > 1 {
			t.Errorf("%v: the page is off by %g pixels", size, dx)
		}
	}
}

func TestPagesAndInfo(t *testing.T) {
	file := paint(t, Options{Title: "Curlew ⏚ 𝄫 sheet\xff", Subject: "wiring", Created: day},
		simple(scene.A4), simple(scene.Letter), simple(scene.A4.Landscape()))
	info := tool(t, file, "pdfinfo", "-isodates", "-f", "1", "-l", "3")
	for _, want := range []string{
		"Title: +Curlew ⏚ 𝄫 sheet\uFFFD", "Subject: +wiring", "Producer: +Loomwright", "CreationDate: +2031-03-04T05:06:07",
		"ModDate: +2031-03-04T05:06:07", "Pages: +3", "Page +1 size: +595.28 x 841.89 pts",
		"Page +2 size: +612 x 792 pts", "Page +3 size: +841.89 x 595.28 pts",
	} {
		if !regexp.MustCompile(want).MatchString(info) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	if strings.Contains(info, "Author") || strings.Contains(info, "Creator:") {
		t.Errorf("somebody is named:\n%s", info)
	}
}

// Fonts are embedded subsets with a way back to Unicode.
func TestFontsAreEmbedded(t *testing.T) {
	out := tool(t, paint(t, Options{}, simple(scene.A4)), "pdffonts")
	lines := strings.Split(strings.TrimSpace(out), "\n")[2:]
	if len(lines) != 2 {
		t.Fatalf("want two fonts:\n%s", out)
	}
	for _, line := range lines {
		if !regexp.MustCompile(`TrueType +Identity-H +yes +\w+ +yes`).MatchString(line) {
			t.Errorf("not embedded with Unicode: %s", line)
		}
	}
}

func TestLinks(t *testing.T) {
	file := paint(t, Options{}, scenetest.Rich())
	if n := bytes.Count(file, []byte("/URI (https://example.org/saltmarsh?a=1&b=2)")); n != 1 {
		t.Errorf("the link stands %d times", n)
	}
	// The clipped group shows 9 × 5 mm turned by 15°: 9.99 mm wide, by hand.
	m := regexp.MustCompile(`/Rect \[([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+)\]`).FindSubmatch(file)
	var x0, x1 float64
	if m == nil {
		t.Fatal("no link area")
	}
	fmt.Sscan(string(m[1]), &x0)
	fmt.Sscan(string(m[3]), &x1)
	want := 9.99 * 72 / 25.4
	if math.Abs(x1-x0-want) > 0.05 {
		t.Errorf("the link is %.2f pt wide, want %.2f", x1-x0, want)
	}
}

func TestSmall(t *testing.T) {
	if n := len(paint(t, Options{}, simple(scene.A4))); n > 50_000 {
		t.Errorf("a simple page takes %d bytes", n)
	}
}

func TestSameSceneSameBytes(t *testing.T) {
	want := paint(t, Options{Created: day}, scenetest.Rich(), simple(scene.A4))
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			got, err := Paint([]scene.Scene{scenetest.Rich(), simple(scene.A4)}, Options{Created: day})
			if err != nil || !bytes.Equal(got, want) {
				t.Error("the same scenes gave other bytes")
			}
		})
	}
	wg.Wait()
	if later := paint(t, Options{Created: day.Add(time.Hour)}, scenetest.Rich()); bytes.Equal(later, want) {
		t.Error("the date makes no difference")
	}
}

// A closed curve with mitred corners has no thorn where it closes: its ink
// stays in its box.
func TestClosedCurveHasNoThorn(t *testing.T) {
	oval := scene.Path{
		Outline: scene.Ellipse(scene.Pt(31.237, 20.123), 14.5, 7.3).Transformed(scene.Turned(17, scene.Pt(30, 20))),
		Stroke:  scene.Stroke{Color: scene.Black, Width: 2},
	}
	s := scene.Scene{Width: 63.5, Height: 63.5, Items: []scene.Item{oval}}
	img := poppler(t, s)
	box := oval.Bounds().Grow(0.1)
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			at := scene.Pt((float64(x)+0.5)*25.4/dpi, (float64(y)+0.5)*25.4/dpi)
			if img.RGBAAt(x, y).R < 200 && !box.Contains(scene.Rect{Min: at, Max: at}) {
				t.Fatalf("ink at %v outside %v", at, box)
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	if out, err := Paint(nil, Options{}); err == nil || out != nil {
		t.Error("no page was painted")
	}
	bad := scene.Scene{Width: 10, Height: 10, Items: []scene.Item{scene.Text{Size: math.Inf(1)}}}
	if out, err := Paint([]scene.Scene{simple(scene.A4), bad}, Options{}); err == nil || out != nil {
		t.Error("a bad page was painted")
	}
}

// Whatever numbers and words come in, there is a document without anything
// that is not a number, or an error.
func FuzzPaint(f *testing.F) {
	for _, s := range scenetest.WildSeeds {
		f.Add(s.A, s.B, s.C, s.D, s.Words)
	}
	f.Fuzz(func(t *testing.T, a, b, c, d float64, words string) {
		s := scenetest.Wild(a, b, c, d, words)
		if s.Check() != nil {
			return
		}
		doc := newDocument()
		content := painted(doc, s, nil).content
		if bytes.Contains(content, []byte("NaN")) || bytes.Contains(content, []byte("Inf ")) {
			t.Error("something is not a number")
		}
	})
}

// The fonts are shared by everything that paints.
func TestFontsAreLeftAlone(t *testing.T) {
	var before [][]byte
	for _, ttf := range faces.TTF {
		before = append(before, bytes.Clone(ttf))
	}
	paint(t, Options{}, scenetest.Rich())
	for i, ttf := range faces.TTF {
		if !bytes.Equal(ttf, before[i]) {
			t.Errorf("face %d was written into", i)
		}
	}
}
