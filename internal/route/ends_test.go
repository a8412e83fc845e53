package route

import (
	"testing"

	"loomwright/internal/scene"
)

// pot is a round case of 24 mm with free exits up, left and right.
func pot(x, y float64) Zone {
	return Zone{Part: 1, Box: scene.Box(x-12, y-12, 24, 24), Round: true, Exits: Of(Up, Left, Right)}
}

// TestJoints: wires to one case end on its rim, each on a joint of its own.
func TestJoints(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 120, 90), Zones: []Zone{pot(60, 45)}}
	b.Bodies = []Body{{Part: 1, Box: b.Zones[0].Box, Round: true}}
	for k := -6.8; k < 7; k += 3.4 {
		b.Lines = append(b.Lines, scene.Pt(60+k, 45+k))
	}
	var wires []Wire
	for i := range 7 {
		wires = append(wires, Wire{A: term(i, 10, 15+8*float64(i), Of(Right)), B: End{Kind: InZone, Index: 0, Part: 1, Over: true}})
	}
	res := Route(&b, wires, Options{})
	var ends []scene.Point
	for i, p := range res.Paths {
		if !p.Routed || p.Conflict {
			t.Fatalf("wire %d: %+v", i, p)
		}
		end := p.Points[len(p.Points)-1]
		if d := end.Dist(scene.Pt(60, 45)); d > 12-jointIn+0.01 || d < 12-jointRim-1 {
			t.Errorf("wire %d ends %.1f mm from the middle", i, d)
		}
		for _, e := range ends {
			if e.Dist(end) < jointGap-0.01 {
				t.Errorf("two joints are %.2f mm apart", e.Dist(end))
			}
		}
		ends = append(ends, end)
	}
}

// TestFan: the leads of a cable take a slot each, in the order of where they
// go, and cross nowhere.
func TestFan(t *testing.T) {
	fan := Fan{Mouth: scene.Pt(10, 30), Out: Right}
	b := Board{Box: scene.Box(0, 0, 100, 60), Fans: []Fan{fan}}
	for i := range 4 {
		b.Fans[0].Slots = append(b.Fans[0].Slots, scene.Pt(20, 25.5+3*float64(i)))
	}
	var wires []Wire
	for i := range 3 {
		wires = append(wires, Wire{A: End{Kind: InFan}, B: term(i, 80, 45-12*float64(i), Of(Left))})
	}
	wires = append(wires, Wire{A: End{Kind: InFan}, B: End{Kind: Nowhere}})
	res := Route(&b, wires, Options{})
	if res.Crossings != 0 || res.Conflicts != 0 {
		t.Errorf("%d crossings, %d conflicts", res.Crossings, res.Conflicts)
	}
	seen := map[int]bool{}
	for i, p := range res.Paths {
		if !p.Routed || seen[p.Slot] {
			t.Errorf("lead %d in slot %d: %+v", i, p.Slot, p)
		}
		seen[p.Slot] = true
		if p.Points[0] != b.Fans[0].Slots[p.Slot] {
			t.Errorf("lead %d starts at %v", i, p.Points[0])
		}
	}
}

// TestTap: a braid parts from its cable square to it, near the end asked for.
func TestTap(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 120, 60)}
	wires := []Wire{
		{A: term(0, 10, 30, Of(Right)), B: term(1, 100, 30, Of(Left))},
		{A: End{Kind: OnWire, Index: 0, Far: true}, B: term(2, 110, 45, Of(Up, Left))},
	}
	res := Route(&b, wires, Options{})
	p := res.Paths[1]
	if !p.Routed || p.Conflict || res.Paths[0].Conflict {
		t.Fatalf("%+v", res)
	}
	if at := p.Points[0]; at.Y != 30 || at.X < 100-tapTo || at.X > 100-tapFrom {
		t.Errorf("the braid parts at %v", at)
	}
	if p.Points[1].X != p.Points[0].X {
		t.Errorf("the braid leaves toward %v", p.Points[1])
	}
}

// TestKept: a kept path stays though another way is shorter, and others keep
// off it.
func TestKept(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 100, 60)}
	kept := []scene.Point{{X: 20, Y: 30}, {X: 30, Y: 30}, {X: 30, Y: 10}, {X: 70, Y: 10}, {X: 70, Y: 30}, {X: 80, Y: 30}}
	wires := []Wire{
		{A: term(0, 20, 30, Of(Right)), B: term(1, 80, 30, Of(Left)), Fix: kept},
		{A: term(2, 50, 2, Of(Down)), B: term(3, 50, 50, Of(Up))},
	}
	res := Route(&b, wires, Options{})
	for i, p := range kept {
		if res.Paths[0].Points[i].Dist(p) > 1e-3 {
			t.Fatalf("the kept path is %v", res.Paths[0].Points)
		}
	}
	if !res.Paths[1].Routed || res.Paths[1].Conflict || res.Crossings != 1 {
		t.Errorf("%+v, %d crossings", res.Paths[1], res.Crossings)
	}
}

// TestNoWay: a terminal without an exit has no path, and says so.
func TestNoWay(t *testing.T) {
	b := Board{Box: scene.Box(0, 0, 50, 50)}
	res := Route(&b, []Wire{{A: term(0, 10, 10, 0), B: term(1, 40, 40, All)}}, Options{})
	if res.Paths[0].Routed {
		t.Error("a wire left a terminal that has no exit")
	}
}
