package drawing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/build"
	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/scene"
)

// wordsIn are all words of a scene.
func wordsIn(items []scene.Item) []string {
	var out []string
	for x := range scene.Texts(items) {
		out = append(out, x.Content)
	}
	return out
}

// checkEveryStepIsFound: each number of the steps of work stands in a tag, those
// that only join a tail and those that only look at a touch too.
func checkEveryStepIsFound(t *testing.T, name string, d *Drawing) {
	t.Helper()
	found := map[string]bool{}
	for _, s := range wordsIn(d.Loom().Items) {
		for _, n := range strings.FieldsFunc(s, func(r rune) bool { return r == '→' || r == ' ' || r == '(' || r == ')' || r == ',' }) {
			found[n] = true
		}
	}
	for _, s := range build.Order(d.Graph).Steps {
		if !found[fmt.Sprint(s.Number)] {
			t.Errorf("%s: step %d is not on the drawing: %s", name, s.Number, s.Do)
		}
	}
}

// checkKey: the colour key has every look of the wires, and no other.
func checkKey(t *testing.T, name string, d *Drawing) {
	t.Helper()
	used := map[string]bool{}
	for i := range d.Wires {
		for _, word := range lookWords(&d.Wires[i]) {
			used[word] = true
		}
	}
	key := map[string]bool{}
	for _, e := range d.keyEntries() {
		if key[e.word] {
			t.Errorf("%s: %q is twice in the key", name, e.word)
		}
		key[e.word] = true
		if !used[e.word] {
			t.Errorf("%s: %q is in the key and on no wire", name, e.word)
		}
	}
	for word := range used {
		if !key[word] {
			t.Errorf("%s: %q is on a wire and not in the key", name, word)
		}
	}
}

// lookWords are what a key has to say of a wire.
func lookWords(w *Wire) []string {
	var out []string
	switch look := w.Look; {
	case look.Kind == BareWire:
		out = append(out, "bare or braid")
	case look.Kind == ComponentLead:
		out = append(out, "part's own lead")
	case look.Colour.Base == "":
		out = append(out, "colour not known")
	default:
		out = append(out, look.Colour.String())
	}
	if w.Look.Kind == ScreenedCable {
		out = append(out, "screened")
	}
	if w.Look.Sleeved {
		out = append(out, "sleeved")
	}
	if w.with >= 0 {
		out = append(out, "twisted pair")
	}
	return out
}

// checkTwistIsDrawn: a pair that the file calls twisted is drawn so, short or long.
func checkTwistIsDrawn(t *testing.T, name string, d *Drawing) {
	t.Helper()
	want, have := 0, 0
	for i := range d.Plan.Strands {
		if d.Plan.Strands[i].Pair >= 0 {
			want++
		}
	}
	for i := range d.Wires {
		if d.Wires[i].with >= 0 {
			have++
		}
	}
	if want != have {
		t.Errorf("%s: %d pairs, %d drawn twisted", name, want, have)
	}
}

// checkColoursAvoidLeads: a wire from the reel has no colour of a pickup's lead.
func checkColoursAvoidLeads(t *testing.T, name string, d *Drawing) {
	t.Helper()
	leads := d.leadColours()
	for i := range d.Wires {
		s := d.strandOf(&d.Wires[i])
		if s == nil || s.Lead >= 0 || s.Core >= 0 || s.Wire.Colour != "" || d.onGround(d.Graph.Runs[s.Run].A) {
			continue
		}
		if c := d.Wires[i].Look.Colour.Base; c != "" && leads[c] {
			t.Errorf("%s: %s has a lead's colour", name, d.wireTitle(&d.Wires[i]))
		}
	}
}

// TestBand: every setting has its strip on the page, the one that is shown a
// frame, and what has no room is counted.
func TestBand(t *testing.T) {
	for _, name := range []string{"two-twin-coils-4p5t", "two-twin-coils-independent-volumes"} {
		g := graphOf(t, name, exampleFiles(t)[name])
		rows := proof.Prove(g).Rows
		d := redrawn(drawn(t, g, Options{}), Options{Rows: rows, Setting: &rows[1].Setting, LiveRuns: rows[1].LiveRuns})
		for _, p := range []Page{Fit, A4, Letter} {
			d.Options.Page = p
			s := d.Scene()
			if err := s.Check(); err != nil {
				t.Fatal(err)
			}
			words := wordsIn(s.Items)
			for _, r := range rows {
				if !slices.Contains(words, r.Name) {
					t.Errorf("%s: no strip for %q", name, r.Name)
				}
			}
			if box, page := scene.Bounds(s.Items), scene.Box(-0.01, -0.01, s.Width+0.02, s.Height+0.02); !page.Contains(box) {
				t.Errorf("%s: %v stands out of the page %v", name, box, page)
			}
			if n := len(classed(s.Items, "shown")); n != 1 {
				t.Errorf("%s: %d settings are marked as shown", name, n)
			}
		}
	}
	many := band{cells: make([]bandCell, 40)}
	for i := range many.cells {
		many.cells[i].w, many.cells[i].h = 50, 10
	}
	if many.lay(200); len(many.cells) != 3*bandRows || many.more != 40-3*bandRows {
		t.Errorf("%d settings laid out, %d left over", len(many.cells), many.more)
	}
}

// classed are the paths of a class.
func classed(items []scene.Item, class string) []scene.Path {
	var out []scene.Path
	for _, it := range items {
		switch x := it.(type) {
		case scene.Group:
			out = append(out, classed(x.Items, class)...)
		case scene.Path:
			if x.Class == class {
				out = append(out, x)
			}
		}
	}
	return out
}

// checkNoSpikes: a component's lead is bent round, nowhere to a point.
func checkNoSpikes(t *testing.T, name string, d *Drawing) {
	t.Helper()
	for i := range d.Wires {
		w := &d.Wires[i]
		if w.Root == nil {
			continue
		}
		p := w.Outline.Flatten(flatness)[0].Points
		for k := 2; k < len(p); k++ {
			in, on := p[k-1].Sub(p[k-2]).Unit(), p[k].Sub(p[k-1]).Unit()
			if in.X*on.X+in.Y*on.Y < 0.4 {
				t.Errorf("%s: %s has a spike at %.1f", name, d.wireTitle(w), p[k-1])
			}
		}
	}
}

// TestLabelLint: a name between two lugs, and one that is missing, are flaws.
func TestLabelLint(t *testing.T) {
	plain := drawn(t, graphOf(t, "b", exampleFiles(t)["b-two-twin-coils"]), Options{})
	for what, harm := range map[string]func(d *Drawing, t int){
		"missing": func(d *Drawing, t int) { delete(d.labels, t) },
		"between": func(d *Drawing, t int) {
			s := &d.Plan.Spots[t]
			l := d.labels[t]
			l.At = s.At.Add(scene.Toward(0).Mul(2.5))
			for o := range d.Plan.Spots {
				if q := &d.Plan.Spots[o]; o != t && q.Part == s.Part && !q.InCase && q.At.Dist(s.At) < 6 {
					l.At = s.At.Lerp(q.At, 0.5)
				}
			}
			d.labels[t] = l
		},
	} {
		d := redrawn(plain, Options{})
		for _, j := range d.joints {
			if s := &d.Plan.Spots[j.Term]; s.Label == "wiper" {
				harm(d, j.Term)
				break
			}
		}
		if !slices.ContainsFunc(Lint(d), func(f Flaw) bool { return f.Rule == "label" }) {
			t.Errorf("no flaw after a name is %s", what)
		}
	}
}

// TestSizeNotKnown: a part without an outline says that its box is none.
func TestSizeNotKnown(t *testing.T) {
	g := graphOf(t, "a", exampleFiles(t)["a-one-twin-coil"])
	for u := range g.Loom.Uses {
		if use := &g.Loom.Uses[u]; use.Name == "jack" {
			bare := *use.Part
			bare.Outline = nil
			use.Part = &bare
		}
	}
	plans, _ := place.Lay(g, place.Options{Plans: 1})
	d, _ := Draw(g, plans, Options{})
	if !slices.Contains(wordsIn(d.Loom().Items), "size not known") {
		t.Error("the jack's box is drawn as if its size were known")
	}
}
