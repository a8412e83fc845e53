package route

import (
	"testing"

	"loomwright/internal/scene"
)

func term(id int, x, y float64, exits Dirs) End {
	return End{Kind: AtTerm, Term: id, Tips: []Tip{{At: scene.Pt(x, y), Exits: exits}}}
}

// near allows for edges being rounded to 1/100 mm.
func near(a, b float64) bool { return a-b < 0.2 && b-a < 0.2 }

// TestStraight: two terminals that face each other are joined by one line.
func TestStraight(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 100, 60)}
	res := Route(&b, []Wire{{A: term(0, 20, 30, Of(Right)), B: term(1, 70, 30, Of(Left))}}, Options{})
	if p := res.Paths[0]; !p.Routed || len(p.Points) != 2 || !near(res.Cost, 50) {
		t.Errorf("path %+v at %g mm, not one line of 50", p, res.Cost)
	}
}

// TestBends: a terminal that faces away costs the bends that geometry needs.
func TestBends(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 100, 60)}
	res := Route(&b, []Wire{{A: term(0, 20, 10, Of(Down)), B: term(1, 70, 30, Of(Left))}}, Options{})
	if got := res.Cost; !near(got, 70+bendCost) {
		t.Errorf("one bend over 70 mm costs %g", got)
	}
}

// TestRound: a wire goes round a foreign body and keeps its distance.
func TestRound(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 100, 60), Bodies: []Body{{Part: 5, Box: scene.Box(40, 10, 20, 40)}}}
	res := Route(&b, []Wire{{A: term(0, 20, 30, Of(Right)), B: term(1, 80, 30, Of(Left))}}, Options{})
	box := b.Bodies[0].Box
	for k := 1; k < len(res.Paths[0].Points); k++ {
		p, q := res.Paths[0].Points[k-1], res.Paths[0].Points[k]
		if around(p, q).Grow(0.1).Overlaps(box) {
			t.Errorf("%v–%v runs over the body", p, q)
		}
	}
}

// TestApart: ten wires between two columns at the pitch of lugs keep apart.
func TestApart(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 120, 90)}
	var wires []Wire
	for i := range 10 {
		y := 20 + 5*float64(i)
		to := 20 + 5*float64((i*3)%10)
		wires = append(wires, Wire{A: term(i, 20, y, Of(Right)), B: term(20+i, 100, to, Of(Left))})
		b.Lugs = append(b.Lugs, Lug{i, scene.Pt(20, y), scene.Pt(16, y)}, Lug{20 + i, scene.Pt(100, to), scene.Pt(104, to)})
	}
	res := Route(&b, wires, Options{})
	if res.Conflicts > 0 {
		t.Errorf("%d wires conflict", res.Conflicts)
	}
	for i, p := range res.Paths {
		for k, q := range res.Paths[:i] {
			if d := parallelDistance(p.Points, q.Points); d < Spacing-0.1 {
				t.Errorf("wires %d and %d run %g mm apart", i, k, d)
			}
		}
	}
}

// parallelDistance is the least distance of parallel stretches of two paths.
func parallelDistance(a, b []scene.Point) float64 {
	least := 1e9
	for i := 1; i < len(a); i++ {
		for k := 1; k < len(b); k++ {
			if (a[i-1].X == a[i].X) == (b[k-1].X == b[k].X) {
				least = min(least, segmentDistance(a[i-1], a[i], b[k-1], b[k]))
			}
		}
	}
	return least
}
