package drawing

import (
	"testing"

	"loomwright/internal/proof"
)

// litIn draws a setting of a loom by its name.
func litIn(t *testing.T, text, setting string) *Drawing {
	t.Helper()
	g := graphOf(t, "lit", text)
	for _, row := range proof.Prove(g).Rows {
		if row.Name == setting {
			return drawn(t, g, Options{Setting: &row.Setting, LiveRuns: row.LiveRuns})
		}
	}
	t.Fatalf("no setting %q", setting)
	return nil
}

// flowFrom is the flow of the wire that starts at a terminal, in its direction.
func (d *Drawing) flowFrom(t *testing.T, a, b string) (flow, bool) {
	t.Helper()
	for i := range d.Wires {
		if w := &d.Wires[i]; w.A == a && w.B == b {
			f, lit := d.flows[w.Strand]
			return f, lit
		}
	}
	t.Fatalf("no wire from %s to %s", a, b)
	return 0, false
}

// TestSeriesFlow: a twin coil in series. The current comes from the sleeve
// through the south coil, the jumper and the north coil to the tip: worked out
// by hand from the joins.
func TestSeriesFlow(t *testing.T) {
	d := litIn(t, exampleFiles(t)["a-one-twin-coil"], "volume pushed")
	for _, c := range []struct {
		a, b string
		want flow
	}{
		{"bridge.orange", "volume.cw", 1},                              // hot leaves the pickup
		{"bridge.pink", "volume.pull.a", -1},                           // into the north coil
		{"bridge.blue", "volume.pull.b", 1},                            // out of the south coil
		{"bridge.violet", "volume.case", -1},                           // from ground into the south coil
		{"volume.pull.a.pushed", "volume.pull.b.pushed", -1},           // b to a
		{"volume.wiper", "jack.tip", 1},                                // to the jack
		{"the braid from volume.wiper to jack.tip", "jack.sleeve", -1}, // back from the sleeve
		{"the braid from volume.wiper to jack.tip", "volume.case", 1},
	} {
		if got, lit := d.flowFrom(t, c.a, c.b); !lit || got != c.want {
			t.Errorf("%s to %s: %d, lit %v, want %d", c.a, c.b, got, lit, c.want)
		}
	}
	for _, dark := range [][2]string{{"bridge.bare", "volume.case"}, {"strings.wire", "volume.case"}, {"volume.pull.a.pulled", "volume.case"}} {
		if _, lit := d.flowFrom(t, dark[0], dark[1]); lit {
			t.Errorf("%s to %s is lit and carries nothing", dark[0], dark[1])
		}
	}
}

// TestToneStaysDark: the leads of a tone capacitor carry no sound to the jack.
func TestToneStaysDark(t *testing.T) {
	d := litIn(t, exampleFiles(t)["b-two-twin-coils"], "selector bridge")
	for _, dark := range [][2]string{{"bridge-cap.a", "bridge-volume.cw"}, {"neck.white", "neck-volume.cw"}, {"neck-volume.wiper", "selector.a.neck"}} {
		if _, lit := d.flowFrom(t, dark[0], dark[1]); lit {
			t.Errorf("%s to %s is lit", dark[0], dark[1])
		}
	}
	if f, lit := d.flowFrom(t, "bridge-volume.wiper", "selector.a.bridge"); !lit || f != 1 {
		t.Errorf("the bridge pickup's hot: %d, lit %v", f, lit)
	}
}

// TestArrowsAreClear: no arrow lies on a tag or a crossing.
func TestArrowsAreClear(t *testing.T) {
	d := litIn(t, exampleFiles(t)["b-two-twin-coils"], "selector middle")
	n := 0
	for _, it := range d.paintArrows().Items {
		n++
		box := it.Bounds().Grow(-0.4)
		for k := range d.Tags {
			if d.Tags[k].Box().Overlaps(box) {
				t.Errorf("an arrow at %v lies on a tag", box.Center())
			}
		}
		for _, c := range d.Crossings {
			if c.At.Dist(box.Center()) < 2.5 {
				t.Errorf("an arrow at %v lies on a crossing", box.Center())
			}
		}
	}
	if n < 10 {
		t.Errorf("only %d arrows", n)
	}
}
