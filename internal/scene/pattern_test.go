package scene_test

import (
	"math"
	"testing"

	"loomwright/internal/scene"
)

// An offset circle is a circle: clockwise on the page, its right is inside.
func TestOffsetCircle(t *testing.T) {
	c := scene.Pt(0, 0)
	for _, d := range []float64{2, -2} {
		for _, p := range scene.Offset(scene.Circle(c, 10), d).Flatten(0.01)[0].Points {
			if got := p.Dist(c); math.Abs(got-(10-d)) > 0.02 {
				t.Fatalf("offset by %g: a point at radius %g", d, got)
			}
		}
	}
}

func TestOffsetCornerIsMitred(t *testing.T) {
	o := scene.Offset(scene.Polyline(0, scene.Pt(0, 0), scene.Pt(10, 0), scene.Pt(10, 10)), 1)
	for i, want := range []scene.Point{{X: 0, Y: 1}, {X: 9, Y: 1}, {X: 9, Y: 10}} {
		if !near(o[i].P, want, 1e-9) {
			t.Errorf("point %d is %v, want %v", i, o[i].P, want)
		}
	}
}

// Ticks stand evenly, square to the line and centred on it.
func TestTicks(t *testing.T) {
	o := scene.Ticks(scene.Segment(scene.Pt(0, 5), scene.Pt(12, 5)), 2, 0.8, 0)
	if len(o) != 12 {
		t.Fatalf("%d segments, want 6 ticks of 2", len(o))
	}
	for i := range 6 {
		a, b := o[2*i].P, o[2*i+1].P
		x := 1 + 2*float64(i)
		if !near(a, scene.Pt(x, 4.6), 1e-9) || !near(b, scene.Pt(x, 5.4), 1e-9) {
			t.Errorf("tick %d from %v to %v", i, a, b)
		}
	}
	lean := scene.Ticks(scene.Segment(scene.Pt(0, 5), scene.Pt(12, 5)), 2, 0.8, 30)
	if box := lean.Bounds(); math.Abs(box.Height()-0.8) > 1e-9 {
		t.Errorf("leaning ticks are %g high, want the same 0.8", box.Height())
	}
}

// The strands of a twist mirror each other, cross every pitch, and each leads
// at every other crossing.
func TestTwist(t *testing.T) {
	pair := scene.Twist(scene.Segment(scene.Pt(0, 0), scene.Pt(12, 0)), 3, 2)
	pa, pb := pair.A.Flatten(1)[0].Points, pair.B.Flatten(1)[0].Points
	crossings := 0
	for i := range pa {
		if !near(pa[i], scene.Pt(pb[i].X, -pb[i].Y), 1e-9) {
			t.Fatalf("%v and %v are not mirror images", pa[i], pb[i])
		}
		if near(pa[i], pb[i], 1e-9) {
			crossings++
		}
	}
	if crossings != 5 {
		t.Errorf("%d meetings, want 5: both ends and 3 crossings", crossings)
	}
	pieces := pair.OverEdge.Flatten(1)
	if len(pieces) != 2 {
		t.Fatalf("strand a leads %d times, want 2 of 3", len(pieces))
	}
	for i, x := range []float64{3, 9} {
		if place, _ := pieces[i].At(pieces[i].Length() / 2); !near(place, scene.Pt(x, 0), 0.02) {
			t.Errorf("it leads at %v, want the crossing at %g", place, x)
		}
	}
}

func TestBraidAndDots(t *testing.T) {
	line := scene.Segment(scene.Pt(0, 0), scene.Pt(10, 0))
	if o := scene.Braid(line, 2, 3); len(o) != 20 || math.Abs(o.Bounds().Height()-3) > 1e-9 {
		t.Errorf("braid of %d segments, %v", len(o), o.Bounds())
	}
	at, heading := scene.Dots(line, 5)
	if len(at) != 2 || !near(at[1], scene.Pt(7.5, 0), 1e-9) || heading[1] != 0 {
		t.Errorf("dots at %v heading %v", at, heading)
	}
}
