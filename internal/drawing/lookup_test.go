package drawing

import (
	"strings"
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/scene"
)

// TestEndsAndLengths: every run's ends are found at its terminals, and its
// length is at least the straight distance.
func TestEndsAndLengths(t *testing.T) {
	files := exampleFiles(t)
	for _, name := range []string{"a-one-twin-coil", "three-single-coils-5way", "left-handed-tapped-coil"} {
		g := graphOf(t, name, files[name])
		d := drawn(t, g, Options{})
		found := 0
		for i, r := range g.Runs {
			p, okA := d.EndOf(i, r.A, false)
			q, okB := d.EndOf(i, r.B, false)
			if !okA || !okB {
				continue
			}
			found++
			if l := d.RunLength(i); l < p.Dist(q)-0.1 {
				t.Errorf("%s: run %d is %.1f mm, its ends %.1f mm apart", name, i+1, l, p.Dist(q))
			}
			for _, term := range []int{r.A, r.B} {
				s := &d.Plan.Spots[term]
				at, _ := d.EndOf(i, term, false)
				if !s.InCase && !s.InFan && at.Dist(s.At) > 0.02 {
					t.Errorf("%s: run %d ends %.2f mm from %s", name, i+1, at.Dist(s.At), g.Terms[term].Name)
				}
			}
		}
		if found < 9 {
			t.Errorf("%s: the ends of %d runs were found", name, found)
		}
	}
}

// TestLitMovesNothing: lighting another setting changes no lane and no tag.
func TestLitMovesNothing(t *testing.T) {
	g := graphOf(t, "b", exampleFiles(t)["b-two-twin-coils"])
	d := drawn(t, g, Options{})
	lit := 0
	for _, row := range proof.Prove(g).Rows {
		l := d.Lit(&row.Setting, row.LiveRuns)
		for i := range d.Wires {
			if !samePoints(d.Wires[i].Points, l.Wires[i].Points) {
				t.Fatalf("%s: wire %d has moved", row.Name, i)
			}
		}
		lit += len(l.flows)
		found := false
		for x := range textsOf(l) {
			found = found || strings.Contains(x, row.Name)
		}
		if !found {
			t.Errorf("the drawing does not say %q", row.Name)
		}
	}
	if lit < 20 || len(d.flows) != 0 {
		t.Errorf("%d strands lit, %d in the plain drawing", lit, len(d.flows))
	}
}

func textsOf(d *Drawing) map[string]bool {
	out := map[string]bool{}
	for t := range scene.Texts(d.Scene().Items) {
		out[t.Content] = true
	}
	return out
}
