package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	stdpng "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"loomwright/internal/oracle"
	"loomwright/internal/png"
	"loomwright/internal/scene"
	"loomwright/internal/scene/faces"
	"loomwright/internal/scene/scenetest"
	"loomwright/internal/svg"
)

// dpi of the comparison: four device pixels per CSS pixel. Browsers and Cairo
// move letters to whole pixels, which is then at most 0.033 mm.
const dpi = 384

// What two paintings of Rich may differ by, in steps of 255 (see
// scenetest.Apart). Measured with Chromium and Poppler 22.12: mean 0.55 to
// 0.78, worst 46 to 58, all of it letters moved to whole pixels. The harm below
// measures 137 and more.
const (
	meanApart  = 1.2
	worstApart = 80
)

// The three painters show the same page, as three independent programs see it:
// Chromium the SVG, Poppler the PDF, our own rasteriser the PNG.
func TestPaintersAgree(t *testing.T) {
	s := scenetest.Rich()
	pictures := map[string]*image.RGBA{
		"svg": chromium(t, s), "pdf": poppler(t, s), "png": own(t, s),
	}
	for _, pair := range [][2]string{{"svg", "png"}, {"pdf", "png"}, {"svg", "pdf"}} {
		mean, worst := scenetest.Apart(pictures[pair[0]], pictures[pair[1]])
		t.Logf("%s against %s: mean %.2f, worst %.1f", pair[0], pair[1], mean, worst)
		if mean > meanApart || worst > worstApart {
			t.Errorf("%s and %s differ by mean %.2f, worst %.1f; at most %.2f and %.1f", pair[0], pair[1], mean, worst, meanApart, float64(worstApart))
		}
	}
}

// The comparison has teeth: it rejects small harm done to the scene.
func TestComparisonRejectsHarm(t *testing.T) {
	right := own(t, scenetest.Rich())
	for name, harm := range map[string]func(*scene.Scene){
		"moved by 0.3 mm": func(s *scene.Scene) {
			s.Items = []scene.Item{scene.Group{Place: scene.Moved(0.3, 0), Items: s.Items}}
		},
		"larger by 1 %": func(s *scene.Scene) {
			s.Items = []scene.Item{scene.Group{Place: scene.Transform{Scale: 1.01}, Items: s.Items}}
		},
		"smaller dots":       func(s *scene.Scene) { dash(s, 3)[0] = 0.3 },
		"other dashes":       func(s *scene.Scene) { dash(s, 1)[0] = 3.7 },
		"one wire missing":   func(s *scene.Scene) { s.Items = s.Items[1:] },
		"scale bar missing":  func(s *scene.Scene) { s.Items = s.Items[:len(s.Items)-2] },
		"last words missing": func(s *scene.Scene) { s.Items = s.Items[:len(s.Items)-1] },
	} {
		s := scenetest.Rich()
		harm(&s)
		mean, worst := scenetest.Apart(own(t, s), right)
		t.Logf("%s: mean %.2f, worst %.1f", name, mean, worst)
		if mean <= meanApart && worst <= worstApart {
			t.Errorf("%s: not noticed", name)
		}
	}
}

// dash is the pattern on a wire of Rich.
func dash(s *scene.Scene, wire int) []float64 {
	return s.Items[wire].(scene.Group).Items[2].(scene.Path).Stroke.Dash
}

func own(t *testing.T, s scene.Scene) *image.RGBA {
	t.Helper()
	img, err := png.Image(s, png.Options{DPI: dpi})
	if err != nil {
		t.Fatal(err)
	}
	return img.(*image.RGBA)
}

// poppler is the PDF's first page as Poppler draws it through Cairo, which
// leaves edges where they are (pdftoppm moves them to whole pixels).
func poppler(t *testing.T, s scene.Scene) *image.RGBA {
	t.Helper()
	tool := oracle.Need(t, "pdftocairo")
	file, err := Paint([]scene.Scene{s}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out")
	write(t, in, file)
	run(t, tool, "-r", fmt.Sprint(dpi), "-png", "-singlefile", in, out)
	return cropped(t, out+".png", s, dpi)
}

// chromium is the SVG as a browser draws it, with the fonts in the file.
func chromium(t *testing.T, s scene.Scene) *image.RGBA {
	t.Helper()
	tool := oracle.Need(t, "chromium")
	var fonts []svg.FontFile
	for i, ttf := range faces.TTF {
		fonts = append(fonts, svg.FontFile{Style: scenetest.Styles[i], TTF: ttf})
	}
	file, err := svg.Paint(s, svg.Options{Fonts: fonts})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.svg"), filepath.Join(dir, "out.png")
	write(t, in, file)
	run(t, tool, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--user-data-dir="+filepath.Join(dir, "profile"), "--hide-scrollbars", "--font-render-hinting=none",
		fmt.Sprintf("--force-device-scale-factor=%d", dpi/96),
		fmt.Sprintf("--window-size=%d,%d", int(s.Width/25.4*96)+20, int(s.Height/25.4*96)+20),
		"--screenshot="+out, "file://"+in)
	return cropped(t, out, s, dpi)
}

// cropped reads a picture and cuts it to the page.
func cropped(t *testing.T, name string, s scene.Scene, dpi float64) *image.RGBA {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	page := image.Rect(0, 0, int(s.Width*dpi/25.4+0.5), int(s.Height*dpi/25.4+0.5))
	if !page.In(img.Bounds()) {
		t.Fatalf("%s is %v, smaller than the page %v", name, img.Bounds(), page)
	}
	out := image.NewRGBA(page)
	draw.Draw(out, page, img, image.Point{}, draw.Src)
	return out
}

func write(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func run(t *testing.T, tool string, args ...string) string {
	t.Helper()
	out, err := exec.CommandContext(t.Context(), tool, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", filepath.Base(tool), err)
	}
	return string(out)
}
