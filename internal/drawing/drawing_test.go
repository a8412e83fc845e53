package drawing

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/svg"
)

// everyWay draws a loom in every form that options give.
func everyWay(t *testing.T, text string) map[string]*Drawing {
	t.Helper()
	g := graphOf(t, "loom", text)
	rows := proof.Prove(g).Rows
	plain := drawn(t, g, Options{})
	out := map[string]*Drawing{}
	for name, o := range map[string]Options{
		"plain": {}, "marks": {Grounds: AsMarks}, "front": {Front: true}, "a4": {Page: A4}, "letter": {Page: Letter},
		"lit": {Setting: &rows[0].Setting, LiveRuns: rows[0].LiveRuns},
	} {
		out[name] = redrawn(plain, o)
	}
	return out
}

// TestScenes: every form of a drawing is a scene that painters take, with glyphs
// for all its words, none smaller than 1.8 mm before the page shrinks it, all
// of it on the page.
func TestScenes(t *testing.T) {
	files := exampleFiles(t)
	for _, name := range []string{"a-one-twin-coil", "b-two-twin-coils", "two-twin-coils-rotary"} {
		for way, d := range everyWay(t, files[name]) {
			s := d.Scene()
			if err := s.Check(); err != nil {
				t.Fatalf("%s, %s: %v", name, way, err)
			}
			if box, page := scene.Bounds(s.Items), scene.Box(-0.01, -0.01, s.Width+0.02, s.Height+0.02); !page.Contains(box) {
				t.Errorf("%s, %s: %v stands out of the page %v", name, way, box, page)
			}
			words := 0
			for x := range scene.Texts(s.Items) {
				words++
				if missing := scene.MissingGlyphs(x.Content); len(missing) > 0 {
					t.Errorf("%s, %s: no glyphs for %q", name, way, missing)
				}
				if x.Size < 1.8 {
					t.Errorf("%s, %s: %q is %.1f mm", name, way, x.Content, x.Size)
				}
			}
			if words < 40 {
				t.Errorf("%s, %s: only %d words", name, way, words)
			}
		}
	}
}

// TestSameBytes: the same loom gives the same drawing.
func TestSameBytes(t *testing.T) {
	text := exampleFiles(t)["two-twin-coils-rotary"]
	var first []byte
	for range 3 {
		out, err := svg.Paint(drawn(t, graphOf(t, "x", text), Options{}).Scene(), svg.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if first != nil && !bytes.Equal(first, out) {
			t.Fatal("two drawings of one loom differ")
		}
		first = out
	}
}

// TestNamesForPages: every run and every terminal can be found in the scene, by
// number and by title.
func TestNamesForPages(t *testing.T) {
	g := graphOf(t, "a", exampleFiles(t)["a-one-twin-coil"])
	d := drawn(t, g, Options{})
	runs, terms := map[string]bool{}, map[string]string{}
	eachGroup(d.Scene().Items, func(x scene.Group) {
		if r, ok := x.Data["run"]; ok && x.Class == "wire" {
			runs[r] = true
			if x.Title == "" || x.ID == "" {
				t.Errorf("the wire of run %s has no title or ID", r)
			}
		}
		if n, ok := x.Data["term"]; ok {
			terms[n] = x.Title
		}
	})
	for i := range g.Runs {
		if !runs[fmt.Sprint(i)] {
			t.Errorf("run %d is not in the scene", i)
		}
	}
	i, _ := g.Find("volume.pull.a.pushed")
	if title := terms[fmt.Sprint(i)]; !strings.Contains(title, "left column, lower pad") {
		t.Errorf("the pad is called %q", title)
	}
	for i := range d.Wires {
		if w := &d.Wires[i]; w.A == "bridge.orange" && !strings.Contains(d.wireTitle(w), "orange lead of bridge to volume.cw, step ") {
			t.Errorf("the orange lead is called %q", d.wireTitle(w))
		}
	}
}

func eachGroup(items []scene.Item, do func(scene.Group)) {
	for _, it := range items {
		if g, ok := it.(scene.Group); ok {
			do(g)
			eachGroup(g.Items, do)
		}
	}
}

// TestScaleBar: the bar is 50 mm of the parts, on every page.
func TestScaleBar(t *testing.T) {
	g := graphOf(t, "b", exampleFiles(t)["b-two-twin-coils"])
	plain := drawn(t, g, Options{})
	for _, page := range []Page{Fit, A4, Letter} {
		d := redrawn(plain, Options{Page: page})
		scale := 0.0
		eachGroup(d.Scene().Items, func(x scene.Group) {
			if x.ID == "loom" {
				scale = x.Place.Factor()
			}
		})
		eachGroup(d.Scene().Items, func(x scene.Group) {
			if x.ID != "scale-bar" {
				return
			}
			var bar scene.Rect
			for _, it := range x.Items {
				if p, ok := it.(scene.Path); ok {
					bar = bar.Union(p.Outline.Bounds())
				}
			}
			if math.Abs(bar.Width()-50*scale) > 1e-6 {
				t.Errorf("page %d: a bar of %.3f mm at a scale of %.3f", page, bar.Width(), scale)
			}
		})
	}
}

// TestSheets: A4 and Letter are drawn at their size (ISO 216; ANSI/ASME Y14.1),
// and Letter at no more than true size.
func TestSheets(t *testing.T) {
	g := graphOf(t, "c", exampleFiles(t)["c-three-single-coils"])
	plain := drawn(t, g, Options{})
	for page, want := range map[Page]scene.Size{A4: {Width: 297, Height: 210}, Letter: {Width: 279.4, Height: 215.9}} {
		s := redrawn(plain, Options{Page: page}).Scene()
		if got := (scene.Size{Width: s.Width, Height: s.Height}); got != want {
			t.Errorf("page %d is %v", page, got)
		}
	}
}

// TestLooksDiffer: any two colours of wire differ in grey, or by their tracer
// threads; wires and words stand out from the paper (WCAG 2.2: 1.4.11 wants 3
// to 1 of graphics, 1.4.3 4.5 to 1 of words).
func TestLooksDiffer(t *testing.T) {
	names := slices.Sorted(maps.Keys(inks))
	for i, a := range names {
		for _, b := range names[:i] {
			ga, gb := scene.Grey(inks[a]), scene.Grey(inks[b])
			if scene.Difference(ga, gb) < leastGrey && slices.Equal(threads[a], threads[b]) {
				t.Errorf("%s and %s look alike in grey", a, b)
			}
		}
		if c := scene.Contrast(edgeOf(inks[a]), paper); c < 3 {
			t.Errorf("the edge of %s has a contrast of %.1f", a, c)
		}
	}
	for _, ground := range []scene.Color{paper, cavity, materials["metal"].fill, materials["wafer"].fill, materials["board"].fill, materials["body"].fill} {
		for name, c := range map[string]scene.Color{"ink": ink, "faint ink": faintInk} {
			if got := scene.Contrast(c, ground); got < 4.5 {
				t.Errorf("%s on %s has a contrast of %.2f", name, ground.Hex(), got)
			}
		}
	}
	if c := scene.Contrast(sleeveWhite, ink); c < 4.5 {
		t.Errorf("a tag's step has a contrast of %.1f", c)
	}
}

// TestLeftHanded: the parts of a left-handed guitar lie the other way round, a
// pot's lugs still in the order of the part.
func TestLeftHanded(t *testing.T) {
	text := exampleFiles(t)["c-three-single-coils"]
	right := drawn(t, graphOf(t, "r", text), Options{})
	left := drawn(t, graphOf(t, "l", strings.Replace(text, "loomwright: 1\n", "loomwright: 1\nhand: left\n", 1)), Options{})
	at := func(d *Drawing, name string) scene.Point {
		i, _ := d.Graph.Loom.Use(name)
		return d.Plan.Parts[i].At
	}
	if !(at(right, "neck").X < at(right, "volume").X && at(right, "volume").X < at(right, "jack").X) {
		t.Error("right-handed: pickups, controls, jack are not in order")
	}
	if !(at(left, "neck").X > at(left, "volume").X && at(left, "volume").X > at(left, "jack").X) {
		t.Error("left-handed: pickups, controls, jack are not in order")
	}
	for _, d := range []*Drawing{right, left} {
		spot := func(name string) scene.Point {
			i, _ := d.Graph.Find(name)
			return d.Plan.Spots[i].At
		}
		cw, wiper, ccw, c := spot("volume.cw"), spot("volume.wiper"), spot("volume.ccw"), at(d, "volume")
		out := wiper.Sub(c).Unit()
		if side := ccw.Sub(cw).Unit(); math.Abs(side.X*out.Y-side.Y*out.X-1) > 1e-6 {
			t.Errorf("cw %v, wiper %v, ccw %v are mirrored", cw, wiper, ccw)
		}
	}
}

// TestPlaced: the loom file's places stand, to the mm, with their turns.
func TestPlaced(t *testing.T) {
	text := exampleFiles(t)["a-one-twin-coil"] + "place:\n  volume: [150, 60, 2]\n  jack: [230, 40]\n"
	d := drawn(t, graphOf(t, "p", text), Options{})
	i, _ := d.Graph.Loom.Use("volume")
	if p := d.Plan.Parts[i]; p.At != scene.Pt(150, 60) || p.Turn != 2 {
		t.Errorf("the pot stands at %v, turned %d", p.At, p.Turn)
	}
	if list := Lint(d); slices.ContainsFunc(list, func(f Flaw) bool { return f.Rule == "missing" || f.Rule == "end" }) {
		t.Error(list)
	}
}

// TestAbsurd: looms without joins, without parts to show, or with everything on
// one spot are drawn without harm.
func TestAbsurd(t *testing.T) {
	for name, text := range map[string]string{
		"no joins":  "loomwright: 1\nparts:\n  jack: {is: jack/mono}\n",
		"one spot":  exampleFiles(t)["a-one-twin-coil"] + "place:\n  volume: [50, 50]\n  jack: [50, 50]\n  bridge: [50, 50]\n",
		"far apart": exampleFiles(t)["a-one-twin-coil"] + "place:\n  volume: [-1500, 900]\n  jack: [1900, -1900]\n",
	} {
		g := graphOf(t, name, text)
		plans, _ := place.Lay(g, place.Options{})
		d, _ := Draw(g, plans, Options{})
		if err := d.Scene().Check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
