package schematic

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// drawn is a diagram with what the checks need of it.
type drawn struct {
	l    *layout
	r    *router
	lost []int
}

func drawWhole(g *wiring.Graph) drawn {
	l, r, lost := lay(whole(g, setting.Nth(g, 0).At))
	return drawn{l, r, lost}
}

// segment is a straight piece of wire as painted.
type segment struct{ a, b scene.Point }

func (s segment) holds(p scene.Point) bool {
	lo := scene.Pt(min(s.a.X, s.b.X), min(s.a.Y, s.b.Y))
	hi := scene.Pt(max(s.a.X, s.b.X), max(s.a.Y, s.b.Y))
	const e = 1e-6
	return p.X >= lo.X-e && p.X <= hi.X+e && p.Y >= lo.Y-e && p.Y <= hi.Y+e
}

func (s segment) ends(p scene.Point) bool { return s.a.Dist(p) < 1e-6 || s.b.Dist(p) < 1e-6 }

// painted takes wires and dots out of the painted items.
func painted(items []scene.Item) (segs []segment, dots []scene.Point) {
	for _, it := range items {
		for _, in := range it.(scene.Group).Items {
			p := in.(scene.Path)
			if p.Fill.A > 0 {
				dots = append(dots, p.Outline.Bounds().Center())
				continue
			}
			for i := 0; i+1 < len(p.Outline); i += 2 {
				segs = append(segs, segment{p.Outline[i].P, p.Outline[i+1].P})
			}
		}
	}
	return segs, dots
}

// joinedOnPaper merges wires as a reader does: at a dot all that meet there, at
// a corner the two that end there. Wires that cross are not joined.
func joinedOnPaper(segs []segment, dots []scene.Point) []int {
	root := make([]int, len(segs))
	for i := range root {
		root[i] = i
	}
	var find func(i int) int
	find = func(i int) int {
		if root[i] != i {
			root[i] = find(root[i])
		}
		return root[i]
	}
	for i := range segs {
		for k := range segs[:i] {
			corner := segs[i].ends(segs[k].a) || segs[i].ends(segs[k].b)
			dot := slices.ContainsFunc(dots, func(d scene.Point) bool { return segs[i].holds(d) && segs[k].holds(d) })
			if corner || dot {
				root[find(i)] = find(k)
			}
		}
	}
	for i := range root {
		root[i] = find(i)
	}
	return root
}

// Read back from the paper, pins are joined as in the loom: nets of the graph's
// own links, merged here by other code.
func TestWiresAreTheNets(t *testing.T) {
	check := func(t *testing.T, g *wiring.Graph) {
		d := drawWhole(g)
		segs, dots := painted(d.r.paintWires(d.l))
		piece := joinedOnPaper(segs, dots)
		net := mergedLinks(g)
		type found struct{ piece, net, term int }
		var pins []found
		for _, s := range d.l.symbols {
			for i, p := range s.pins {
				at := s.at(i).mm()
				k := slices.IndexFunc(segs, func(sg segment) bool { return sg.ends(at) })
				if k >= 0 {
					pins = append(pins, found{piece[k], net[p.term], p.term})
				}
				alone := p.net != d.l.ground && !sharesNet(d.l, p)
				if grounded := p.net == d.l.ground; k < 0 && !alone && !grounded && !slices.Contains(d.lost, d.r.node(s.at(i))) {
					t.Errorf("%s has no wire", g.Terms[p.term].Name)
				}
			}
		}
		for i, a := range pins {
			for _, b := range pins[:i] {
				if (a.piece == b.piece) != (a.net == b.net) && len(d.lost) == 0 {
					t.Errorf("%s and %s: joined on paper %v, in the loom %v", g.Terms[a.term].Name, g.Terms[b.term].Name, a.piece == b.piece, a.net == b.net)
				}
			}
		}
	}
	eachExample(t, check)
	eachRandom(t, 20, check)
}

func sharesNet(l *layout, p pin) bool {
	n := 0
	for _, s := range l.symbols {
		for _, q := range s.pins {
			if q.net == p.net {
				n++
			}
		}
	}
	return n > 1
}

// mergedLinks gives every terminal the smallest terminal it is joined to.
func mergedLinks(g *wiring.Graph) []int {
	net := make([]int, len(g.Terms))
	for i := range net {
		net[i] = i
	}
	for changed := true; changed; {
		changed = false
		for _, l := range g.Links {
			if m := min(net[l.A], net[l.B]); net[l.A] != m || net[l.B] != m {
				net[l.A], net[l.B], changed = m, m, true
			}
		}
	}
	return net
}

// Every wire of the examples finds its way; of random looms, which no one would
// solder, all but a few.
func TestEveryWireFindsItsWay(t *testing.T) {
	eachExample(t, func(t *testing.T, g *wiring.Graph) {
		if c := Whole(g, setting.Nth(g, 0)); c.Lost > 0 {
			t.Errorf("%d pins have no wire", c.Lost)
		}
	})
	lost, looms := 0, 0
	eachRandom(t, 30, func(_ *testing.T, g *wiring.Graph) {
		looms++
		if Whole(g, setting.Nth(g, 0)).Lost > 0 {
			lost++
		}
	})
	if t.Logf("%d of %d random looms have a wire without a way", lost, looms); lost > 3 {
		t.Errorf("%d of %d random looms have a wire without a way", lost, looms)
	}
}

// Symbols do not overlap, and no wire goes through one.
func TestNothingOverlaps(t *testing.T) {
	check := func(t *testing.T, g *wiring.Graph) {
		d := drawWhole(g)
		segs, _ := painted(d.r.paintWires(d.l))
		for i, s := range d.l.symbols {
			lo, hi := s.box()
			body := scene.Rect{Min: lo.mm(), Max: hi.mm()}.Grow(-0.1)
			for _, o := range d.l.symbols[:i] {
				lo, hi := o.box()
				if body.Overlaps(scene.Rect{Min: lo.mm(), Max: hi.mm()}) {
					t.Errorf("%s lies on %s", s.title, o.title)
				}
			}
			for _, sg := range segs {
				if body.Overlaps(boxOf(sg).Grow(0.01)) {
					t.Errorf("a wire from %v to %v goes through %s", sg.a, sg.b, s.title)
				}
			}
		}
		checkWords(t, Whole(g, setting.Nth(g, 0)).Scene)
	}
	eachExample(t, check)
	eachRandom(t, 20, check)
}

func boxOf(s segment) scene.Rect {
	return scene.Rect{Min: scene.Pt(min(s.a.X, s.b.X), min(s.a.Y, s.b.Y)), Max: scene.Pt(max(s.a.X, s.b.X), max(s.a.Y, s.b.Y))}
}

// placed is a text of a scene with its box on the page.
type placed struct {
	text scene.Text
	box  scene.Rect
}

func textsOf(items []scene.Item, at scene.Transform) (out []placed) {
	for _, it := range items {
		switch it := it.(type) {
		case scene.Text:
			out = append(out, placed{it, at.ApplyRect(tight(it))})
		case scene.Group:
			out = append(out, textsOf(it.Items, it.Place.Then(at))...)
		}
	}
	return out
}

// tight is the box of the letters without room for what hangs below the line.
func tight(t scene.Text) scene.Rect {
	b := t.Bounds()
	mid := b.Center().Y
	return scene.Rect{Min: scene.Pt(b.Min.X, mid-0.4*t.Size), Max: scene.Pt(b.Max.X, mid+0.4*t.Size)}
}

// checkWords checks that all words are on the page, apart, and drawn with
// glyphs that exist.
func checkWords(t *testing.T, s scene.Scene) {
	t.Helper()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	page := scene.Box(0, 0, s.Width, s.Height)
	all := textsOf(s.Items, scene.Transform{})
	if len(all) == 0 {
		t.Error("no words")
	}
	for i, a := range all {
		if !page.Contains(a.box) {
			t.Errorf("%q leaves the page: %v", a.text.Content, a.box)
		}
		if m := scene.MissingGlyphs(a.text.Content); len(m) > 0 {
			t.Errorf("%q has no glyphs for %q", a.text.Content, string(m))
		}
		for _, b := range all[:i] {
			if a.box.Overlaps(b.box) {
				t.Errorf("%q lies on %q", a.text.Content, b.text.Content)
			}
		}
	}
}

// The diagram of a setting holds the coils that the proof hears, and no other.
func TestSettingHoldsWhatIsHeard(t *testing.T) {
	eachExample(t, func(t *testing.T, g *wiring.Graph) {
		if len(g.Unknown) > 0 {
			t.Skip("which coil a lead belongs to is not known")
		}
		for _, row := range proof.Prove(g).Rows {
			if row.Output != proof.Sounding {
				continue
			}
			silent := slices.Concat(row.Off, row.Shorted, row.Hanging)
			c := Setting(g, row.Setting)
			all := textsOf(c.Scene.Items, scene.Transform{})
			for i := range g.Coils {
				name := g.Coils[i].Name
				drawn := slices.ContainsFunc(all, func(p placed) bool { return p.text.Content == strings.ReplaceAll(name, ".", " ") })
				if heard := !slices.Contains(silent, name); drawn != heard {
					t.Errorf("%s: %s is heard %v, drawn %v", row.Name, name, heard, drawn)
				}
			}
			if c.Lost > 0 {
				t.Errorf("%s: %d pins have no wire", row.Name, c.Lost)
			}
		}
	})
}

func TestSameSceneTwice(t *testing.T) {
	eachExample(t, func(t *testing.T, g *wiring.Graph) {
		a, b := Whole(g, setting.Nth(g, 0)), Whole(g, setting.Nth(g, 0))
		if a.Scene.Width != b.Scene.Width || len(textsOf(a.Scene.Items, scene.Transform{})) != len(textsOf(b.Scene.Items, scene.Transform{})) {
			t.Error("two diagrams of one loom differ")
		}
	})
}

// A contact table without a common is drawn contact by contact.
func TestSplit(t *testing.T) {
	crossed := [][][]int{{{1, 2}, {3, 4}}, {{1, 3}, {2, 4}}}
	if got := split(crossed); len(got) != 4 {
		t.Errorf("%d contacts, want 4: %v", len(got), got)
	}
	bridging := [][][]int{{{0, 1}}, {{0, 1, 2}}, {{0, 2}}}
	got := split(bridging)
	if len(got) != 1 || got[0].common != 0 || !slices.Equal(got[0].closed[0], []int{0, 1}) || !slices.Equal(got[0].closed[1], []int{1, 2}) {
		t.Errorf("a bridging pole is %v", got)
	}
}

// Ink on paper: WCAG 2.2, 1.4.3 asks for 4.5.
func TestContrast(t *testing.T) {
	for _, c := range []scene.Color{ink, faint} {
		if r := scene.Contrast(c, scene.White); r < 4.5 || math.IsNaN(r) {
			t.Errorf("%v on white has contrast %.2f", c, r)
		}
	}
}

func BenchmarkWhole(b *testing.B) {
	lib := shelf()
	g := read(b, lib, randomLoomText)
	at := setting.Nth(g, 0)
	for b.Loop() {
		Whole(g, at)
	}
}

const randomLoomText = `
loomwright: 1
parts:
  neck: {is: pickup/twin-coil}
  bridge: {is: pickup/twin-coil}
  toggle: {is: switch/toggle-3way}
  volume: {is: pot/push-pull-lugs, track: 500k audio}
  tone: {is: pot/push-pull-lugs, track: 500k audio}
  cap: {is: capacitor/film, value: 22n}
  jack: {is: jack/mono}
joins:
  - neck.north.start -- toggle.a.neck
  - neck.north.finish, neck.south.finish -- tone.pull.a
  - neck.south.start -- tone.case
  - tone.pull.a.pulled -- tone.case
  - bridge.north.start -- toggle.a.bridge
  - bridge.north.finish, bridge.south.finish -- volume.pull.a
  - bridge.south.start -- volume.case
  - volume.pull.a.pulled -- volume.case
  - toggle.a -- volume.cw
  - cap.a -- volume.cw
  - cap.b -- tone.wiper
  - tone.ccw -- tone.case
  - tone.case -- volume.case
  - volume.ccw -- volume.case
  - volume.wiper -- jack.tip
  - volume.case -- jack.sleeve
`
