package png

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	stdpng "image/png"
	"math"
	"testing"

	"loomwright/internal/scene"
	"loomwright/internal/scene/scenetest"
)

func picture(t testing.TB, dpi float64, items ...scene.Item) *image.RGBA {
	t.Helper()
	img, err := Image(scene.Scene{Width: 50.8, Height: 50.8, Items: items}, Options{DPI: dpi})
	if err != nil {
		t.Fatal(err)
	}
	return img.(*image.RGBA)
}

// ink is how much of a picture is black, in mm².
func ink(img *image.RGBA, dpi float64) float64 {
	sum := 0.0
	for i := 0; i < len(img.Pix); i += 4 {
		sum += 1 - float64(img.Pix[i])/255
	}
	return sum * 25.4 / dpi * 25.4 / dpi
}

func closeTo(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*want {
		t.Errorf("%s covers %.3f mm², want %.3f", what, got, want)
	}
}

// Areas of strokes and fills against closed forms.
func TestAreas(t *testing.T) {
	line := scene.Segment(scene.Pt(10.03, 20.07), scene.Pt(40.03, 20.07))
	slanted := line.Transformed(scene.Turned(33, scene.Pt(25, 25)))
	corner := scene.Polyline(0, scene.Pt(10, 40), scene.Pt(30, 40), scene.Pt(30, 20))
	circle := scene.Circle(scene.Pt(25, 25), 12)
	ring := append(scene.Circle(scene.Pt(25, 25), 12), scene.Circle(scene.Pt(25, 25), 5).Reversed()...)
	pen := func(w float64, c scene.Cap, j scene.Join, dash ...float64) scene.Stroke {
		return scene.Stroke{Color: scene.Black, Width: w, Cap: c, Join: j, Dash: dash}
	}
	for name, c := range map[string]struct {
		path scene.Path
		want float64
	}{
		"a line":               {scene.Path{Outline: line, Stroke: pen(2, scene.Butt, 0)}, 30 * 2},
		"a round-ended line":   {scene.Path{Outline: slanted, Stroke: pen(2, scene.RoundCap, 0)}, 30*2 + math.Pi},
		"a square-ended line":  {scene.Path{Outline: slanted, Stroke: pen(2, scene.Square, 0)}, 32 * 2},
		"dashes":               {scene.Path{Outline: slanted, Stroke: pen(2, scene.Butt, 0, 3, 2)}, 18 * 2},
		"dots":                 {scene.Path{Outline: line, Stroke: pen(2, scene.RoundCap, 0, 0, 4)}, 8 * math.Pi},
		"a mitred corner":      {scene.Path{Outline: corner, Stroke: pen(4, scene.Butt, scene.Miter)}, 40*4 - 4 + 4},
		"a round corner":       {scene.Path{Outline: corner, Stroke: pen(4, scene.Butt, scene.RoundJoin)}, 40*4 - 4 + math.Pi},
		"a bevelled corner":    {scene.Path{Outline: corner, Stroke: pen(4, scene.Butt, scene.Bevel)}, 40*4 - 4 + 2},
		"a disc":               {scene.Path{Outline: circle, Fill: scene.Black}, math.Pi * 144},
		"a ring with a hole":   {scene.Path{Outline: ring, Fill: scene.Black}, math.Pi * (144 - 25)},
		"a stroked circle":     {scene.Path{Outline: circle, Stroke: pen(1.5, scene.Butt, scene.Miter)}, 2 * math.Pi * 12 * 1.5},
		"a thin circle":        {scene.Path{Outline: circle, Stroke: pen(0.1, scene.Butt, scene.RoundJoin)}, 2 * math.Pi * 12 * 0.1},
		"a stroke over itself": {scene.Path{Outline: scene.Polyline(0, scene.Pt(10, 25), scene.Pt(40, 25), scene.Pt(40, 35), scene.Pt(25, 35), scene.Pt(25, 10)), Stroke: pen(2, scene.Butt, scene.Miter)}, 80*2 - 4},
	} {
		closeTo(t, name, ink(picture(t, 254, c.path), 254), c.want, 0.003)
	}
}

// Dashes are painted wherever their ends fall: in a corner, too, they have a
// direction.
func TestDashesInCorners(t *testing.T) {
	for i := range 160 {
		x, y := 2.5*float64(1+i%8), 2.5*float64(1+i/40)
		up, along, back := 2.5*float64(1+i%7), 2.5*float64(1+i/7%5), 2.5*float64(1+i/35%4)
		o := scene.Polyline(0, scene.Pt(x, y+up), scene.Pt(x, y), scene.Pt(x+along, y), scene.Pt(x+along, y+back), scene.Pt(x, y+back), scene.Pt(x, y+back+15))
		polys := strokePolygons(o, scene.Stroke{Width: 0.25, Dash: []float64{1.1, 0.9}, Join: scene.Join(i % 3)}, scene.Transform{Scale: 150 / 25.4})
		if len(polys) == 0 {
			t.Error("nothing is painted")
		}
		for _, poly := range polys {
			for _, p := range poly {
				if math.IsNaN(p.X + p.Y) {
					t.Fatalf("loop %d: a polygon has no place: %v", i, poly)
				}
			}
		}
	}
}

// Every glyph of the fonts covers what its outline encloses (the shoelace
// formula on a fine flattening), placed by its advance.
func TestLettersAreTheFonts(t *testing.T) {
	text := scene.Text{At: scene.Pt(5, 30), Content: "Hf8", Size: 12, Color: scene.Black}
	area := 0.0
	for _, c := range read[0]().outline(text.Content, text, 5, 30).Flatten(1e-4) {
		for i, b := range c.Points {
			a := c.Points[(i+len(c.Points)-1)%len(c.Points)]
			area += (a.X*b.Y - b.X*a.Y) / 2
		}
	}
	closeTo(t, "Hf8", ink(picture(t, 254, text), 254), math.Abs(area), 0.003)
	box := text.Bounds()
	img := picture(t, 254, text)
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y).R < 250 && (float64(x) < box.Min.X*10-1 || float64(x) > box.Max.X*10+1 || float64(y) < box.Min.Y*10-1 || float64(y) > box.Max.Y*10+1) {
				t.Fatalf("ink at %d, %d outside %v", x, y, box)
			}
		}
	}
}

// The scale bar is 100 mm long at any resolution, within 0.02 mm.
func TestScaleBar(t *testing.T) {
	for _, dpi := range []float64{96, 200, 203.2, 300} {
		img, err := Image(scenetest.Rich(), Options{DPI: dpi})
		if err != nil {
			t.Fatal(err)
		}
		y := int((scenetest.BarY + 0.75) * dpi / 25.4)
		length := 0.0
		for x := range img.Bounds().Dx() {
			length += 1 - float64(color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y)/255
		}
		if got := length * 25.4 / dpi; math.Abs(got-(scenetest.BarTo-scenetest.BarFrom)) > 0.02 {
			t.Errorf("at %g dpi the bar is %.3f mm long", dpi, got)
		}
	}
}

func TestClip(t *testing.T) {
	square := scene.Path{Outline: scene.Rectangle(scene.Box(0, 0, 20, 20)), Fill: scene.Black}
	inner := scene.Group{Clip: scene.Box(5, 5, 100, 100), Items: []scene.Item{square}}
	outer := scene.Group{Place: scene.Transform{Move: scene.Pt(25, 5), Turn: 30}, Clip: scene.Box(0, 0, 10, 10), Items: []scene.Item{inner}}
	closeTo(t, "two clips", ink(picture(t, 254, outer), 254), 25, 0.003)
	after := scene.Path{Outline: scene.Rectangle(scene.Box(40, 40, 2, 2)), Fill: scene.Black}
	closeTo(t, "a clip and what comes after", ink(picture(t, 254, outer, after), 254), 29, 0.003)
	nothing := scene.Group{Clip: scene.Box(500, 500, 1, 1), Items: []scene.Item{square}}
	if got := ink(picture(t, 254, nothing), 254); got != 0 {
		t.Errorf("a clip off the page lets %g mm² through", got)
	}
}

func TestAlphaAndGrey(t *testing.T) {
	half := scene.Path{Outline: scene.Rectangle(scene.Box(0, 0, 50.8, 50.8)), Fill: scene.RGB(0xff0000).Alpha(0.5)}
	if got := picture(t, 50, half).RGBAAt(10, 10); got != (color.RGBA{255, 127, 127, 255}) {
		t.Errorf("half red on white is %v", got)
	}
	s := scenetest.Rich()
	img, err := Image(s, Options{DPI: 100, Grey: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := img.(*image.Gray); !ok {
		t.Errorf("a grey picture is a %T", img)
	}
}

// The file names its resolution and any reader opens it.
func TestFile(t *testing.T) {
	file, err := Paint(scenetest.Rich(), Options{DPI: 300})
	if err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	if got := img.Bounds().Size(); got != image.Pt(1500, 1125) {
		t.Errorf("%v pixels, want 5 × 3.75 in at 300 dpi", got)
	}
	chunk := bytes.Index(file, []byte("pHYs"))
	if chunk < 0 || binary.BigEndian.Uint32(file[chunk+4:]) != 11811 { // 300 / 0.0254
		t.Errorf("no pHYs of 11811 pixels per metre at %d", chunk)
	}
	again, err := Paint(scenetest.Rich(), Options{DPI: 300})
	if err != nil || !bytes.Equal(file, again) {
		t.Error("the same scene gave other bytes")
	}
}

func TestRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		s   scene.Scene
		dpi float64
	}{
		"no resolution": {scene.Scene{Width: 10, Height: 10}, 0},
		"NaN":           {scene.Scene{Width: 10, Height: 10}, math.NaN()},
		"too large":     {scene.Scene{Width: 9e4, Height: 9e4}, 300},
		"a bad scene":   {scene.Scene{Width: 10, Height: math.NaN()}, 100},
	} {
		if img, err := Image(c.s, Options{DPI: c.dpi}); err == nil {
			t.Errorf("%s: painted %v", name, img.Bounds())
		}
	}
}

// What is far outside costs nothing and colours nothing it should not.
func TestFarOutside(t *testing.T) {
	far := scene.Limit
	big := scene.Path{Outline: scene.Polygon(scene.Pt(-far, -far), scene.Pt(far, -far), scene.Pt(far, far), scene.Pt(-far, far)), Fill: scene.Black}
	closeTo(t, "a shape around the page", ink(picture(t, 100, big), 100), 50.8*50.8, 1e-6)
	half := scene.Path{Outline: scene.Polygon(scene.Pt(-far, -far), scene.Pt(far, -far), scene.Pt(far, 25.4), scene.Pt(-far, 25.4)), Fill: scene.Black}
	closeTo(t, "its upper half", ink(picture(t, 100, half), 100), 50.8*25.4, 1e-6)
	slant := scene.Path{Outline: scene.Polygon(scene.Pt(-far, -far), scene.Pt(far, far), scene.Pt(-far, far)), Fill: scene.Black}
	closeTo(t, "below the diagonal", ink(picture(t, 100, slant), 100), 50.8*50.8/2, 0.001)
}

// Whatever numbers and words come in, there is a picture or an error.
func FuzzImage(f *testing.F) {
	for _, s := range scenetest.WildSeeds {
		f.Add(s.A, s.B, s.C, s.D, s.Words)
	}
	f.Fuzz(func(t *testing.T, a, b, c, d float64, words string) {
		img, err := Image(scenetest.Wild(a, b, c, d, words), Options{DPI: 30})
		if (img == nil) == (err == nil) {
			t.Errorf("picture %v, error %v", img, err)
		}
	})
}
