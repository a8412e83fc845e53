package drawing

import (
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/scene"
)

// placedText is a text's box on the page.
type placedText struct {
	words string
	box   scene.Rect
}

// placedTexts are all words of a page, where they stand.
func placedTexts(items []scene.Item, by scene.Transform) []placedText {
	var out []placedText
	for _, it := range items {
		switch x := it.(type) {
		case scene.Group:
			out = append(out, placedTexts(x.Items, x.Place.Then(by))...)
		case scene.Text:
			if b := by.ApplyRect(x.Bounds()); !b.Empty() {
				out = append(out, placedText{x.Content, b})
			}
		}
	}
	return out
}

// checkPage: of all words of the page, head, drawing, settings and foot, none
// lies on another and none leaves the page.
func checkPage(t *testing.T, name string, d *Drawing) {
	t.Helper()
	rows := proof.Prove(d.Graph).Rows
	for _, p := range []Page{Fit, A4, Letter} {
		for _, front := range []bool{false, true} {
			on := *d
			on.Options.Page, on.Options.Rows, on.Options.Front = p, rows, front
			s := on.Scene()
			page := scene.Box(0, 0, s.Width, s.Height)
			texts := placedTexts(s.Items, scene.Transform{})
			if len(texts) < 40 {
				t.Errorf("%s: only %d words on the page", name, len(texts))
			}
			for i, a := range texts {
				if !page.Contains(a.box) {
					t.Errorf("%s: %q leaves the page", name, a.words)
				}
				for _, b := range texts[:i] {
					if a.box.Grow(-touching).Overlaps(b.box.Grow(-touching)) {
						t.Errorf("%s, page %d: %q and %q overlap", name, p, a.words, b.words)
					}
				}
			}
		}
	}
}

// touching is how far the boxes of two words may run into one another, mm: they
// have room around their letters.
const touching = 0.15
