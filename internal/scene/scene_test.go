package scene_test

import (
	"math"
	"strings"
	"testing"

	"loomwright/internal/scene"
	"loomwright/internal/scene/scenetest"
)

func page(items ...scene.Item) scene.Scene { return scene.Scene{Width: 100, Height: 100, Items: items} }

func TestCheckRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	line := scene.Segment(scene.Pt(0, 0), scene.Pt(1, 1))
	deep := scene.Group{}
	for range 80 {
		deep = scene.Group{Items: []scene.Item{deep}}
	}
	for want, s := range map[string]scene.Scene{
		"page width is NaN":        {Width: nan, Height: 1},
		"has no area":              {Width: 0, Height: 1},
		"outline's point is NaN":   page(scene.Path{Outline: scene.Segment(scene.Pt(0, nan), scene.Pt(1, 1))}),
		"control point is +Inf":    page(scene.Path{Outline: scene.Outline{}.Move(0, 0).Cubic(scene.Pt(inf, 0), scene.Pt(0, 0), scene.Pt(1, 1))}),
		"start with a MoveTo":      page(scene.Path{Outline: scene.Outline{}.Line(1, 1)}),
		"stroke width is -1":       page(scene.Path{Outline: line, Stroke: scene.Stroke{Width: -1}}),
		"a dash is NaN":            page(scene.Path{Outline: line, Stroke: scene.Stroke{Width: 1, Dash: []float64{nan}}}),
		"dash pattern of 0 mm":     page(scene.Path{Outline: line, Stroke: scene.Stroke{Width: 1, Dash: []float64{0, 0}}}),
		"text size is -3":          page(scene.Text{Size: -3}),
		"text turn is NaN":         page(scene.Text{Size: 3, Turn: nan}),
		"fade is 2":                page(scene.Group{Fade: 2}),
		"fade is NaN":              page(scene.Group{Fade: nan}),
		"group a: ID \"a\" is us":  page(scene.Group{ID: "a"}, scene.Group{ID: "a"}),
		"is not a name":            page(scene.Group{ID: "a b"}),
		"kept for painters":        page(scene.Group{ID: "_clip1"}),
		"data key":                 page(scene.Group{Data: map[string]string{"onClick=": "x"}}),
		"only http, https":         page(scene.Group{Link: "javascript:alert(1)"}),
		"spaces and letters":       page(scene.Group{Link: "https://example.org/\nx"}),
		"scale on the page":        page(scene.Group{Place: scene.Transform{Scale: 1e4}, Items: []scene.Item{scene.Group{Place: scene.Transform{Scale: 1e4}}}}),
		"nested more than 64 deep": page(deep),
		"an item is <nil>":         page(nil),
	} {
		if err := s.Check(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Check = %v, want it to say %q", err, want)
		}
	}
}

func TestCheckNamesTheGroup(t *testing.T) {
	bad := scene.Group{ID: "volume", Items: []scene.Item{scene.Group{Title: "lug", Items: []scene.Item{scene.Text{Size: -1}}}}}
	if err := page(bad).Check(); err == nil || !strings.HasPrefix(err.Error(), "group volume > lug: ") {
		t.Errorf("Check = %v", err)
	}
}

func TestCheckAccepts(t *testing.T) {
	for _, s := range []scene.Scene{
		scenetest.Rich(), scenetest.Big(500),
		page(scene.Text{Content: "bad \xff\x00 bytes", Size: 3}),
		page(scene.Path{}, scene.Group{Link: "#volume"}, scene.Group{Link: "mailto:bench@example.org"}),
	} {
		if err := s.Check(); err != nil {
			t.Errorf("refused: %v", err)
		}
	}
}

// Anchors and baselines: where the first letter stands, by hand.
func TestLayoutAnchors(t *testing.T) {
	w := scene.TextWidth("BU 7", 2, scene.Regular)
	for _, c := range []struct {
		text        scene.Text
		start, base float64
	}{
		{scene.Text{}, 0, 0},
		{scene.Text{Anchor: scene.Middle, Baseline: scene.Central}, -w / 2, scene.CapHeight},
		{scene.Text{Anchor: scene.End, Baseline: scene.CapTop}, -w, 2 * scene.CapHeight},
	} {
		c.text.Content, c.text.Size = "BU 7", 2
		line := c.text.Layout(false)
		if math.Abs(line.Start-c.start) > 1e-9 || math.Abs(line.Base-c.base) > 1e-9 || math.Abs(line.Width-w) > 1e-9 {
			t.Errorf("start %g base %g, want %g %g", line.Start, line.Base, c.start, c.base)
		}
	}
}

// A text in a mirrored group is readable and covers the mirrored place.
func TestMirroredTextCoversItsPlace(t *testing.T) {
	mirror := scene.Mirrored(50)
	for _, text := range []scene.Text{
		{At: scene.Pt(10, 20), Content: "lug 1", Size: 3},
		{At: scene.Pt(10, 20), Content: "lug 1", Size: 3, Anchor: scene.Middle, Turn: -90},
		{At: scene.Pt(10, 20), Content: "lug 1", Size: 3, Anchor: scene.End, Turn: 25},
	} {
		line := text.Layout(true)
		frame := line.Frame.Then(mirror)
		if frame.Mirror {
			t.Fatal("the words are mirrored")
		}
		from, to := scene.Pt(line.Start, 0), scene.Pt(line.Start+line.Width, 0)
		plain := text.Layout(false)
		wantA := mirror.Apply(plain.Frame.Apply(scene.Pt(plain.Start, 0)))
		wantB := mirror.Apply(plain.Frame.Apply(scene.Pt(plain.Start+plain.Width, 0)))
		if a, b := frame.Apply(from), frame.Apply(to); !near(a, wantB, 1e-9) || !near(b, wantA, 1e-9) {
			t.Errorf("turn %g: runs from %v to %v, the place is %v to %v", text.Turn, a, b, wantB, wantA)
		}
	}
}

// Runs lie end to end and spell the text.
func TestRunsSpellTheText(t *testing.T) {
	text := scene.Text{Content: "∥4.7 kΩ∥漢 ⏚", Size: 3}
	line := text.Layout(false)
	spelt, x := "", 0.0
	for _, r := range line.Runs {
		if math.Abs(r.X-x) > 1e-9 {
			t.Errorf("%q starts at %g, the one before ends at %g", r.Content, r.X, x)
		}
		spelt, x = spelt+r.Content, x+r.Width
	}
	if spelt != text.Content || math.Abs(x-line.Width) > 1e-9 || math.Abs(x-scene.TextWidth(text.Content, 3, scene.Regular)) > 1e-9 {
		t.Errorf("spelt %q over %g of %g", spelt, x, line.Width)
	}
	if line.Runs[3].Kind != scene.MissingRun || len(line.Runs[3].Glyph.Lines) == 0 {
		t.Errorf("the rune that nobody has is %+v", line.Runs[3])
	}
}

func TestGroupBounds(t *testing.T) {
	square := scene.Path{Outline: scene.Rectangle(scene.Box(0, 0, 10, 10)), Fill: scene.Black}
	g := scene.Group{Place: scene.Transform{Move: scene.Pt(20, 0), Turn: 90}, Clip: scene.Box(0, 0, 4, 100), Items: []scene.Item{square}}
	if got, want := g.Bounds(), scene.Box(10, 0, 10, 4); !near(got.Min, want.Min, 1e-9) || !near(got.Max, want.Max, 1e-9) {
		t.Errorf("box %v, want %v", got, want)
	}
	pen := scene.Path{Outline: scene.Segment(scene.Pt(0, 0), scene.Pt(10, 0)), Stroke: scene.Stroke{Color: scene.Black, Width: 2}}
	if got := pen.Bounds(); got != scene.Box(-1, -1, 12, 2) {
		t.Errorf("a stroked line covers %v", got)
	}
	if got := scene.Bounds(nil); !got.Empty() {
		t.Errorf("nothing covers %v", got)
	}
}
