package schematic

import (
	"testing"

	"loomwright/internal/scene"
	"loomwright/internal/wiring"
)

// segmentsOf cuts a painted line into its straight pieces.
func segmentsOf(o scene.Outline) (out []segment) {
	for _, c := range o.Flatten(0.01) {
		for i := 1; i < len(c.Points); i++ {
			out = append(out, segment{c.Points[i-1], c.Points[i]})
		}
	}
	return out
}

// armsOf are the moving contacts of a pole as painted, in the diagram: the thick
// lines of its symbol; of a pot, the thin line of its wiper.
func armsOf(s *symbol, l *layout) (out []segment) {
	g := s.paint(l).(scene.Group)
	pen := bodyPen
	if s.kind == potSymbol {
		pen = wirePen
	}
	for _, it := range g.Items {
		if p, ok := it.(scene.Path); ok && p.Stroke.Width == pen && (s.kind == poleSymbol || p.Outline.Bounds().Height() == 0) {
			out = append(out, segmentsOf(p.Outline.Transformed(g.Place))...)
		}
	}
	return out
}

// far is how far a point is from a straight piece, mm.
func far(p scene.Point, s segment) float64 {
	along := s.b.Sub(s.a)
	t := min(max((p.Sub(s.a).X*along.X+p.Sub(s.a).Y*along.Y)/(along.Len()*along.Len()), 0), 1)
	return p.Dist(s.a.Add(along.Mul(t)))
}

// Every pole of a switch, and every gang of a pot, is joined to the others by
// broken lines that end on its arms, go through no other symbol and along no wire.
func TestPolesAreLinked(t *testing.T) {
	links, gangs := 0, 0
	check := func(t *testing.T, g *wiring.Graph) {
		d := drawWhole(g)
		if len(d.l.unlinked) > 0 {
			return // said in words: counted below
		}
		together := map[string]int{}
		for _, s := range d.l.symbols {
			if s.kind == poleSymbol || s.kind == potSymbol {
				together[moverName(g, s)]++
			}
		}
		wires, _ := painted(d.r.paintWires(d.l))
		for i := range d.l.linked {
			k := &d.l.linked[i]
			pieces := segmentsOf(d.r.paintLink(k).(scene.Path).Outline)
			links++
			if k.a.kind == potSymbol {
				gangs++
			}
			together[moverName(g, k.a)]--
			if onArm := func(p scene.Point, s *symbol) bool {
				for _, arm := range armsOf(s, d.l) {
					if far(p, arm) < 0.02 {
						return true
					}
				}
				return false
			}; !onArm(pieces[0].a, k.a) || !onArm(pieces[len(pieces)-1].b, k.b) {
				t.Errorf("the line from %s to %s does not end on arms", k.a.title, k.b.title)
			}
			for _, p := range pieces {
				d.checkPiece(t, p, k, wires)
			}
		}
		for mover, left := range together {
			if left != 1 {
				t.Errorf("%d poles or gangs of %s hang on no line", left-1, mover)
			}
		}
	}
	eachExample(t, check)
	eachRandom(t, 20, check)
	if links < 20 || gangs == 0 {
		t.Errorf("only %d lines, %d of them between gangs", links, gangs)
	}
}

func moverName(g *wiring.Graph, s *symbol) string {
	if s.kind == potSymbol {
		return "knob " + g.Knobs[s.knob].Name
	}
	return "switch " + g.Switches[s.sw].Name
}

// checkPiece holds one straight piece of a linkage against symbols and wires.
func (d *drawn) checkPiece(t *testing.T, p segment, k *linkage, wires []segment) {
	t.Helper()
	for _, s := range d.l.symbols {
		lo, hi := s.box()
		if s != k.a && s != k.b && boxOf(p).Grow(0.01).Overlaps((scene.Rect{Min: lo.mm(), Max: hi.mm()}).Grow(-0.1)) {
			t.Errorf("the line from %s to %s goes through %s", k.a.title, k.b.title, s.title)
		}
	}
	for _, w := range wires {
		b := boxOf(p)
		same := b.Width() < 0.01 == (boxOf(w).Width() < 0.01)
		if same && b.Grow(0.01).Overlaps(boxOf(w).Grow(0.01)) {
			t.Errorf("the line from %s to %s runs along a wire", k.a.title, k.b.title)
		}
	}
}

// In the examples every linkage finds its way; of random looms all but a few.
func TestLinkagesFindTheirWay(t *testing.T) {
	eachExample(t, func(t *testing.T, g *wiring.Graph) {
		if d := drawWhole(g); len(d.l.unlinked) > 0 {
			t.Errorf("no line for %v", d.l.unlinked)
		}
	})
	missing := 0
	eachRandom(t, 30, func(_ *testing.T, g *wiring.Graph) {
		if g.Hot >= 0 && len(drawWhole(g).l.unlinked) > 0 {
			missing++
		}
	})
	if t.Logf("%d of 30 random looms lack a line", missing); missing > 6 {
		t.Errorf("%d of 30 random looms lack a line", missing)
	}
}

// The screen of the jack's wire is drawn where the loom has one, and joined to
// the sleeve where it is soldered there.
func TestScreenOfTheJack(t *testing.T) {
	for text, want := range map[string][2]bool{
		"jack.tip": {}, "jack.tip: screened, braid p.case": {true, false}, "jack.tip: screened, braid p.case -- jack.sleeve": {true, true},
	} {
		g := read(t, shelf(), "loomwright: 1\nparts:\n  n: {is: pickup/single-coil}\n  p: {is: pot/standard, track: 250k audio}\n  jack: {is: jack/mono}\njoins:\n"+
			"  - n.coil.start -- p.cw\n  - n.coil.finish, p.ccw -- p.case\n  - p.case -- jack.sleeve\n  - p.wiper -- "+text+"\n")
		for _, s := range drawWhole(g).l.symbols {
			if s.kind == jackSymbol && (s.screened != want[0] || s.braided != want[1]) {
				t.Errorf("%s: screened %v, to the sleeve %v", text, s.screened, s.braided)
			}
		}
	}
}
