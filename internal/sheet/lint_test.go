package sheet

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/build"
	"loomwright/internal/proof"
	"loomwright/internal/scene"
)

// placed is a text with its box on the page; own tells pages that this package
// lays out from drawings, which have a linter of their own.
type placed struct {
	text scene.Text
	box  scene.Rect
}

// textsOf lists the texts of items that are seen: a clip hides what is outside.
func textsOf(items []scene.Item, at scene.Transform, clip scene.Rect) (out []placed) {
	for _, it := range items {
		switch it := it.(type) {
		case scene.Text:
			box := at.ApplyRect(letters(it))
			if clip == (scene.Rect{}) {
				out = append(out, placed{it, box})
			}
		case scene.Group:
			inner := clip
			if it.Clip != (scene.Rect{}) {
				inner = it.Clip
			}
			out = append(out, textsOf(it.Items, it.Place.Then(at), inner)...)
		}
	}
	return out
}

// letters is the box of a text's capitals.
func letters(t scene.Text) scene.Rect {
	b := t.Bounds()
	mid := b.Center().Y
	return scene.Rect{Min: scene.Pt(b.Min.X, mid-0.36*t.Size), Max: scene.Pt(b.Max.X, mid+0.36*t.Size)}
}

// lint checks pages: every text on the page, drawn with glyphs that exist, and
// apart from all others.
func lint(t *testing.T, pages []scene.Scene) {
	t.Helper()
	for n, p := range pages {
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		page := scene.Box(0, 0, p.Width, p.Height).Grow(-3)
		all := textsOf(p.Items, scene.Transform{}, scene.Rect{})
		drawn := isDrawing(&p)
		for i, a := range all {
			if !page.Contains(a.box) {
				t.Errorf("page %d: %q leaves the page: %v", n+1, a.text.Content, a.box)
			}
			if m := scene.MissingGlyphs(a.text.Content); len(m) > 0 {
				t.Errorf("page %d: %q has no glyphs for %q", n+1, a.text.Content, string(m))
			}
			for _, b := range all[:i] {
				if !drawn && overlap(a.box, b.box) {
					t.Errorf("page %d: %q lies on %q", n+1, a.text.Content, b.text.Content)
				}
			}
		}
	}
}

// overlap leaves a hair for words that follow one another on a line.
func overlap(a, b scene.Rect) bool { return a.Grow(-0.05).Overlaps(b.Grow(-0.05)) }

// isDrawing reports whether a page is the drawing's, which has its own linter.
func isDrawing(p *scene.Scene) bool {
	return slices.ContainsFunc(p.Items, func(it scene.Item) bool {
		g, ok := it.(scene.Group)
		return ok && g.Class == "loom"
	})
}

func TestExamplesLieWellOnPaper(t *testing.T) {
	for _, name := range exampleNames(t) {
		data := read(t, name+".yaml", string(mustRead(t, name)))
		in := Input{Graph: data, Rows: proof.Prove(data).Rows, Plan: build.Order(data)}
		d := Compose(in)
		lint(t, d.Pages(scene.A4))
		lint(t, d.Pages(scene.Letter))
		if t.Failed() {
			t.Fatalf("in %s", name)
		}
	}
	for _, name := range few {
		d := Compose(example(t, name))
		lint(t, d.Pages(scene.A4))
		lint(t, d.Pages(scene.Letter))
	}
}

// randomLoom is a loom of any parts, joined at random, under long names.
func randomLoom(seed uint64) string {
	lib := shelf()
	var ids []string
	for _, id := range lib.IDs() {
		if !strings.HasPrefix(id, "codes/") && !strings.HasPrefix(id, "jack/") && !strings.HasPrefix(id, "output/") {
			ids = append(ids, id)
		}
	}
	rng := rand.New(rand.NewPCG(seed, 3))
	var b strings.Builder
	fmt.Fprintf(&b, "loomwright: 1\ntitle: %q\nparts:\n  jack: {is: jack/mono}\n", strings.Repeat("A rather long title, ", 1+rng.IntN(6)))
	names := []string{"jack.tip", "jack.sleeve"}
	for i := range 2 + rng.IntN(5) {
		id := ids[rng.IntN(len(ids))]
		p, _ := lib.Part(id)
		name := fmt.Sprintf("part-with-a-long-name-%d", i)
		fmt.Fprintf(&b, "  %s: {is: %s}\n", name, id)
		for _, t := range p.Terminals {
			names = append(names, name+"."+t.Name)
		}
	}
	b.WriteString("joins:\n")
	for range 1 + rng.IntN(20) {
		if x, y := names[rng.IntN(len(names))], names[rng.IntN(len(names))]; x != y {
			fmt.Fprintf(&b, "  - %s -- %s\n", x, y)
		}
	}
	return b.String()
}

// Random looms, long names and strange titles are laid out too.
func TestAnythingLiesOnPaper(t *testing.T) {
	for seed := range uint64(25) {
		text := randomLoom(seed)
		g := read(t, "random.yaml", text)
		d := Compose(Input{Graph: g, Rows: proof.Prove(g).Rows, Plan: build.Order(g)})
		lint(t, d.Pages(scene.A4))
		if t.Failed() {
			t.Fatalf("seed %d:\n%s", seed, text)
		}
	}
}

// What is missing is left out, and nothing breaks.
func TestPoorInput(t *testing.T) {
	for _, text := range []string{
		"loomwright: 1\nparts: {}\n",
		"loomwright: 1\nparts:\n  volume: {is: pot/standard}\n",
		"loomwright: 1\nparts:\n  jack: {is: jack/mono}\n",
		"loomwright: 1\ntitle: \"\\u4e2d ** \\u2028 <b>\"\nparts:\n  jack: {is: jack/mono}\n  a: {is: pot/standard}\njoins:\n  - a.cw -- jack.tip\n",
	} {
		g := read(t, "poor.yaml", text)
		in, _ := Gather(g)
		d := Compose(in)
		if _, err := d.PDF(Print{}); err != nil {
			t.Errorf("%v\n%s", err, text)
		}
		if _, err := d.HTML(); err != nil {
			t.Errorf("%v\n%s", err, text)
		}
	}
}
