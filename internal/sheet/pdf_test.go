package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loomwright/internal/oracle"
	"loomwright/internal/scene"
)

func printed(t *testing.T, d *Document, p Print) string {
	t.Helper()
	data, err := d.PDF(p)
	if err != nil {
		t.Fatal(err)
	}
	return save(t, "sheet.pdf", data)
}

// What pdftotext reads are the steps: every one, in order, with its words.
func TestPdftotextReadsTheSteps(t *testing.T) {
	tool := oracle.Need(t, "pdftotext")
	for _, name := range few {
		in := example(t, name)
		d := Compose(in)
		for _, paper := range []scene.Size{scene.A4, scene.Letter} {
			text := squashed(run(t, tool, "-raw", printed(t, &d, Print{Paper: paper}), "-"))
			steps := 0
			for _, b := range d.Blocks {
				s, ok := b.(Step)
				if !ok {
					continue
				}
				steps += max(s.To-s.Number, 0) + 1
				want := squashed(fmt.Sprintf("%s %s %s %s", s.label(), s.Do, strings.Join(s.Notes, " "), s.Good))
				_, rest, found := strings.Cut(text, want)
				if !found {
					t.Fatalf("%s: step %d is not read, or out of order: %q", name, s.Number, want)
				}
				text = rest
			}
			if steps != len(in.Plan.Steps) {
				t.Errorf("%s: %d steps on the sheet, %d in the plan", name, steps, len(in.Plan.Steps))
			}
		}
	}
}

// The first block of every sheet is what to do first, ventilation before the
// limits of fume.
func TestSafetyComesFirst(t *testing.T) {
	tool := oracle.Need(t, "pdftotext")
	d := Compose(example(t, few[0]))
	text := squashed(run(t, tool, "-raw", "-l", "1", printed(t, &d, Print{}), "-"))
	at := 0
	for _, want := range []string{"Before you start", "Photograph", "Read the jack", "Unplug", "Protect the finish", "Unsolder rather than cut",
		"Air first", "Great Britain", "0.05 mg/m³", "0.15 mg/m³", "Iron.", "Eyes.", "Lead.", "Strings and mains", "licensed practice", "Local codes"} {
		k := strings.Index(text[at:], want)
		if k < 0 {
			t.Fatalf("%q is missing on the first page, or out of order", want)
		}
		at += k
	}
}

// pixels turns a part of one page into a PNG file; outside programs count pages
// from 1. The box is in mm.
func pixels(t *testing.T, file string, page int, box scene.Rect, dpi float64) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "page")
	px := func(mm float64) string { return fmt.Sprint(int(mm / 25.4 * dpi)) }
	run(t, oracle.Need(t, "pdftoppm"), "-png", "-singlefile", "-r", fmt.Sprint(dpi), "-f", fmt.Sprint(page), "-l", fmt.Sprint(page),
		"-x", px(box.Min.X), "-y", px(box.Min.Y), "-W", px(box.Width()), "-H", px(box.Height()), file, out)
	return out + ".png"
}

func raster(t *testing.T, file string, page int, box scene.Rect, dpi float64) image.Image {
	t.Helper()
	data, err := os.ReadFile(pixels(t, file, page, box, dpi))
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// extent is the distance from the first to the last dark pixel of the row at a
// height, in mm.
func extent(img image.Image, y, dpi float64) float64 {
	first, last := -1, -1
	row := int(y / 25.4 * dpi)
	for x := range img.Bounds().Dx() {
		if color.GrayModel.Convert(img.At(x, row)).(color.Gray).Y < 128 {
			if first < 0 {
				first = x
			}
			last = x
		}
	}
	return float64(last-first+1) / dpi * 25.4
}

// The scale bars, measured in the rasterised PDF, are right within 0.2 mm.
func TestScaleBarsInPixels(t *testing.T) {
	const dpi = 300
	oracle.Need(t, "pdftoppm")
	for _, paper := range []scene.Size{scene.A4, scene.Letter} {
		in := example(t, "three-single-coils-5way")
		d := Compose(in)
		pages := d.Pages(paper)
		file := printed(t, &d, Print{Paper: paper})
		measured := 0
		for n, p := range pages {
			g, at := find(p.Items, scene.Transform{}, "bar-50-mm")
			if g == nil {
				continue
			}
			measured++
			o := at.Apply(scene.Pt(0, 1))
			img := raster(t, file, n+1, scene.Box(o.X-3, o.Y-2, 55.5, 4), dpi)
			const pen = 0.2
			if got := extent(img, 2, dpi) - pen; math.Abs(got-50) > 0.2 {
				t.Errorf("%v: the bar of 50 mm is %.2f mm", paper, got)
			}
		}
		if measured != 1 {
			t.Errorf("%d bars measured", measured)
		}
	}
}

// find looks a group up by its ID, with its place on the page.
func find(items []scene.Item, at scene.Transform, id string) (*scene.Group, scene.Transform) {
	for _, it := range items {
		g, ok := it.(scene.Group)
		if !ok {
			continue
		}
		place := g.Place.Then(at)
		if g.ID == id {
			return &g, place
		}
		if in, where := find(g.Items, place, id); in != nil {
			return in, where
		}
	}
	return nil, scene.Transform{}
}

// The holes of the template lie as far apart as the parts in the drawing, left
// and right swapped, at true size.
func TestTemplateIsTrue(t *testing.T) {
	in := example(t, "three-single-coils-5way")
	for _, paper := range []scene.Size{scene.A4, scene.Letter} {
		page := template(&in)[0].(Page).Scene(paper)
		g, at := find(page.Items, scene.Transform{}, "holes")
		if g == nil || at.Factor() != 1 || at.Turn != 0 || at.Mirror {
			t.Fatalf("the holes stand at %+v", at)
		}
		all := controls(&in)
		for i, c := range all {
			for _, o := range all[:i] {
				a, b := partAt(&in, c.use.Name), partAt(&in, o.use.Name)
				want := scene.Pt(-(a.X - b.X), a.Y-b.Y)
				if got := c.at.Sub(o.at); got.Dist(want) > 1e-9 {
					t.Errorf("%s from %s: %v, in the drawing mirrored %v", c.use.Name, o.use.Name, got, want)
				}
			}
		}
	}
	lever := control{use: &in.Graph.Loom.Uses[3], at: scene.Pt(0, 0)}
	if got := lever.holes().Bounds().Width(); math.Abs(got-(41.3+screwHole)) > 1e-9 {
		t.Errorf("the lever's screws are %.2f mm across", got)
	}
}

func partAt(in *Input, name string) scene.Point {
	for _, p := range in.Drawing.Plan.Parts {
		if p.Use >= 0 && in.Graph.Loom.Uses[p.Use].Name == name {
			return p.At
		}
	}
	return scene.Point{}
}

// An independent decoder reads the code on the page back.
func TestCodeReadBack(t *testing.T) {
	tool := oracle.Need(t, "zbarimg")
	in := example(t, few[0])
	for _, c := range []struct {
		link Link
		want string
	}{
		{Link{"https://bench.example/l#", "abc-_123", "knot.yaml"}, "https://bench.example/l#abc-_123"},
		{Link{"https://bench.example/l#", strings.Repeat("aZ09-_", 125), "knot.yaml"}, "https://bench.example/l#" + strings.Repeat("aZ09-_", 125)},
		{Link{"https://bench.example/f/", strings.Repeat("x", 801), "looms/our knot.yaml"}, "https://bench.example/f/#mode=solder&file=our+knot.yaml"},
		{Link{"https://bench.example/f/", "", `C:\looms\knot.yaml`}, "https://bench.example/f/#mode=solder&file=knot.yaml"},
	} {
		in.Link = c.link
		d := Document{Title: "code", Blocks: Compose(in).Blocks[:2]}
		corner := scene.Box(scene.A4.Width-marginSide-codeMost-5, marginTop-5, codeMost+10, codeMost+10)
		got := strings.TrimSpace(run(t, tool, "-q", "--raw", pixels(t, printed(t, &d, Print{}), 1, corner, 300)))
		if got != c.want {
			t.Errorf("read %q, want %q", got, c.want)
		}
		code := d.Blocks[0].(Head).Code
		if code.Size > codeMost || code.Size < codeLeast {
			t.Errorf("the code is %.1f mm", code.Size)
		}
	}
	in.Link = Link{}
	if code := Compose(in).Blocks[0].(Head).Code; code == nil || code.Link != "" || len(code.Square) > 0 {
		t.Errorf("without a base: %+v", code)
	}
}

// Black-and-white print has no colour in it.
func TestGreyIsGrey(t *testing.T) {
	oracle.Need(t, "pdftoppm")
	d := Compose(example(t, few[0]))
	file := printed(t, &d, Print{Grey: true})
	for n := range d.Pages(scene.A4) {
		img := raster(t, file, n+1, scene.Box(0, 0, 300, 300), 30)
		b := img.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y++ {
			for x := b.Min.X; x < b.Max.X; x++ {
				if r, g, bl, _ := img.At(x, y).RGBA(); r>>8 != g>>8 || g != bl {
					t.Fatalf("page %d has colour at %d, %d: %v", n+1, x, y, img.At(x, y))
				}
			}
		}
	}
}

func TestSameBytesTwice(t *testing.T) {
	in := example(t, few[0])
	one, two := Compose(in), Compose(in)
	a, errA := one.PDF(Print{})
	b, errB := two.PDF(Print{})
	if errA != nil || errB != nil || !bytes.Equal(a, b) {
		t.Errorf("two sheets of one loom differ (%v, %v)", errA, errB)
	}
	h, _ := one.HTML()
	k, _ := two.HTML()
	if !bytes.Equal(h, k) {
		t.Error("two HTML sheets of one loom differ")
	}
}
