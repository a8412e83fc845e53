package scene_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/internal/scene"
)

func near(a, b scene.Point, tol float64) bool { return a.Dist(b) <= tol }

func anyTransform(rng *rand.Rand) scene.Transform {
	return scene.Transform{
		Move: scene.Pt(rng.Float64()*100-50, rng.Float64()*100-50), Turn: rng.Float64()*720 - 360,
		Scale: 0.2 + rng.Float64()*3, Mirror: rng.IntN(2) == 1,
	}
}

// Then is the composition of the maps, for random transforms and points.
func TestThenComposes(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		a, b := anyTransform(rng), anyTransform(rng)
		p := scene.Pt(rng.Float64()*100, rng.Float64()*100)
		if one, two := a.Then(b).Apply(p), b.Apply(a.Apply(p)); !near(one, two, 1e-9) {
			t.Fatalf("%v then %v of %v: %v, one after the other %v", a, b, p, one, two)
		}
	}
}

// Worked by hand: mirror, then scale, then turn a quarter clockwise, then move.
func TestTransformOrder(t *testing.T) {
	tr := scene.Transform{Mirror: true, Scale: 2, Turn: 90, Move: scene.Pt(10, 0)}
	if got := tr.Apply(scene.Pt(1, 3)); got != scene.Pt(4, -2) {
		t.Errorf("got %v, want {4 -2}", got) // (1,3) → (−1,3) → (−2,6) → (−6,−2) → (4,−2)
	}
	if got := (scene.Transform{}).Apply(scene.Pt(1, 3)); got != scene.Pt(1, 3) {
		t.Errorf("the zero transform moves to %v", got)
	}
	if got := scene.Turned(90, scene.Pt(5, 5)).Apply(scene.Pt(6, 5)); got != scene.Pt(5, 6) {
		t.Errorf("a quarter about 5, 5: %v, want exactly {5 6}", got)
	}
	if got := scene.Mirrored(4).Apply(scene.Pt(1, 2)); got != scene.Pt(7, 2) {
		t.Errorf("mirrored at 4: %v", got)
	}
}

// A circle's points lie on it, its length is 2πr, its box is exact.
func TestCircle(t *testing.T) {
	c, r := scene.Pt(3, 4), 5.0
	o := scene.Circle(c, r)
	curve := o.Flatten(1e-4)[0]
	for _, p := range curve.Points {
		if off := math.Abs(p.Dist(c) - r); off > 0.0003*r {
			t.Fatalf("%v is %g off the circle", p, off)
		}
	}
	if got, want := curve.Length(), 2*math.Pi*r; math.Abs(got-want) > 0.0003*want {
		t.Errorf("length %g, want %g", got, want)
	}
	if box := o.Bounds(); !near(box.Min, scene.Pt(-2, -1), 1e-9) || !near(box.Max, scene.Pt(8, 9), 1e-9) {
		t.Errorf("box %v", box)
	}
	if !curve.Closed || curve.Points[0] != curve.Points[len(curve.Points)-1] {
		t.Error("the circle does not close exactly")
	}
}

// The exact box of random cubics holds a fine sampling, and is touched by it.
func TestBoundsOfCubics(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	point := func() scene.Point { return scene.Pt(rng.Float64()*20, rng.Float64()*20) }
	for range 200 {
		a := point()
		o := scene.Outline{}.Move(a.X, a.Y).Cubic(point(), point(), point())
		box := o.Bounds()
		var sampled scene.Rect
		for i, p := range o.Flatten(1e-5)[0].Points {
			if i == 0 {
				sampled = scene.Rect{Min: p, Max: p}
			}
			sampled.Min = scene.Pt(min(sampled.Min.X, p.X), min(sampled.Min.Y, p.Y))
			sampled.Max = scene.Pt(max(sampled.Max.X, p.X), max(sampled.Max.Y, p.Y))
		}
		if !near(box.Min, sampled.Min, 1e-3) || !near(box.Max, sampled.Max, 1e-3) {
			t.Fatalf("%v: box %v, sampled %v", o, box, sampled)
		}
	}
}

// Flattening keeps its promise: a fine sampling is never further than tol away.
func TestFlattenKeepsTolerance(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	point := func() scene.Point { return scene.Pt(rng.Float64()*20, rng.Float64()*20) }
	for range 50 {
		a := point()
		o := scene.Outline{}.Move(a.X, a.Y).Cubic(point(), point(), point())
		coarse := o.Flatten(0.05)[0].Points
		for _, p := range o.Flatten(1e-4)[0].Points {
			if d := distance(p, coarse); d > 0.0502 {
				t.Fatalf("%v is %g from the flattened curve", p, d)
			}
		}
	}
}

// distance is from a point to a chain of straight steps.
func distance(p scene.Point, chain []scene.Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, ab := chain[i-1], chain[i].Sub(chain[i-1])
		if l := ab.Len(); l > 0 {
			t := ((p.X-a.X)*ab.X + (p.Y-a.Y)*ab.Y) / (l * l)
			best = min(best, p.Dist(a.Add(ab.Mul(min(max(t, 0), 1)))))
		}
	}
	return best
}

// A rounded corner is an arc of the radius asked for, and shrinks where the
// segment is short.
func TestPolylineCorners(t *testing.T) {
	o := scene.Polyline(2, scene.Pt(0, 0), scene.Pt(10, 0), scene.Pt(10, 10))
	onArc := 0
	for _, p := range o.Flatten(1e-3)[0].Points {
		if p.X > 8 && p.Y < 2 {
			onArc++
			if d := p.Dist(scene.Pt(8, 2)); math.Abs(d-2) > 1e-3 {
				t.Errorf("%v is %g from the corner's centre", p, d)
			}
		}
	}
	if onArc < 10 {
		t.Errorf("only %d points on the corner", onArc)
	}
	short := scene.Polyline(2, scene.Pt(0, 0), scene.Pt(10, 0), scene.Pt(10, 1), scene.Pt(20, 1))
	if box := short.Bounds(); !near(box.Min, scene.Pt(0, 0), 1e-9) || !near(box.Max, scene.Pt(20, 1), 1e-9) {
		t.Errorf("corners in a short jog overshoot: %v", box)
	}
	if got := scene.Polyline(2, scene.Pt(0, 0), scene.Pt(5, 0), scene.Pt(0, 0)); len(got) != 3 {
		t.Errorf("a line that turns back has %d segments, want 3", len(got))
	}
	if got := scene.Polyline(2); got != nil {
		t.Errorf("no points give %v", got)
	}
}

func TestAlong(t *testing.T) {
	c := scene.Segment(scene.Pt(0, 0), scene.Pt(10, 0)).Line(10, 5).Flatten(1)[0]
	place, ahead := c.At(12)
	if !near(place, scene.Pt(10, 2), 1e-12) || !near(ahead, scene.Pt(0, 1), 1e-12) {
		t.Errorf("At(12) = %v, %v", place, ahead)
	}
	if place, _ := c.At(99); place != scene.Pt(10, 5) {
		t.Errorf("beyond the end: %v", place)
	}
	if got := c.Between(8, 13).Length(); math.Abs(got-5) > 1e-12 {
		t.Errorf("Between(8, 13) is %g long", got)
	}
	back := scene.Segment(scene.Pt(0, 0), scene.Pt(10, 0)).Reversed()
	if back[0].P != scene.Pt(10, 0) || back.End() != scene.Pt(0, 0) {
		t.Errorf("reversed: %v", back)
	}
}

// Dashes on a line of 10: 3 on, 2 off from 1 mm into the pattern leaves
// 2 + 3 + 2 mm, worked by hand.
func TestDashed(t *testing.T) {
	c := scene.Segment(scene.Pt(0, 0), scene.Pt(10, 0)).Flatten(1)[0]
	want := []float64{2, 3, 1}
	got := c.Dashed([]float64{3, 2}, 1)
	if len(got) != len(want) {
		t.Fatalf("%d dashes, want %d", len(got), len(want))
	}
	for i, d := range got {
		if math.Abs(d.Length()-want[i]) > 1e-9 {
			t.Errorf("dash %d is %g long, want %g", i, d.Length(), want[i])
		}
	}
	if dots := c.Dashed([]float64{0, 2.5}, 0); len(dots) != 4 {
		t.Errorf("%d dots at 0, 2.5, 5, 7.5; want 4", len(dots))
	}
	if whole := c.Dashed(nil, 0); len(whole) != 1 {
		t.Errorf("no pattern gives %d pieces", len(whole))
	}
}
