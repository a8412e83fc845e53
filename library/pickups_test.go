package library_test

import (
	"math"
	"testing"

	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/sound"
)

// seriesHenries is the inductance of two coupled coils in series as the
// customary sound joins them: each coil is turned so that its string part is
// positive, and turning one coil turns the sign of M.
func seriesHenries(p *part.Part, a, b int) float64 {
	x, y := p.Coils[a], p.Coils[b]
	la, lb := x.Henries.Typical, y.Henries.Typical
	m := 0.0
	for _, c := range p.Couplings {
		if c.A == a && c.B == b || c.A == b && c.B == a {
			m = c.K * math.Sqrt(la*lb)
		}
	}
	return la + lb + 2*m*float64(x.Winding*x.Pole*y.Winding*y.Pole)
}

// TestWholeValues holds the sums of the coils to the usual range of the whole
// pickup (from memory: single coil R 5–8 k, L 2–3.5 H, C 70–150 p; twin coil
// R 7–15 k, L 4–8 H). Series of coupled coils: La + Lb ± 2M, circuit theory.
func TestWholeValues(t *testing.T) {
	for _, c := range []struct {
		id         string
		rLow, rTop float64
		lLow, lTop float64
	}{
		{"pickup/single-coil", 5e3, 8e3, 2, 3.5}, {"pickup/single-coil-covered", 5e3, 8e3, 2, 3.5},
		{"pickup/tapped-coil", 5e3, 8e3, 2, 3.5},
		{"pickup/twin-coil", 7e3, 15e3, 4, 8}, {"pickup/twin-coil-covered", 7e3, 15e3, 4, 8},
		{"pickup/three-coil", 7e3, 15e3, 4, 8},
	} {
		p := get(t, c.id)
		leaves := p.Full.Leaves()
		r, l := p.Coils[0].Ohms.Typical, p.Coils[0].Henries.Typical
		if len(leaves) == 2 {
			a, b := p.CoilIndex(leaves[0].Name), p.CoilIndex(leaves[1].Name)
			r, l = p.Coils[a].Ohms.Typical+p.Coils[b].Ohms.Typical, seriesHenries(p, a, b)
		}
		if r < c.rLow || r > c.rTop || l < c.lLow || l > c.lTop {
			t.Errorf("%s: whole %.0f Ω, %.2f H", c.id, r, l)
		}
	}
	if l, want := seriesHenries(get(t, "pickup/twin-coil"), 0, 1), 2.2*2*1.14; math.Abs(l-want) > 1e-9 {
		t.Errorf("twin coil %v H, want %v H: side by side and wound alike, finish to finish aids", l, want)
	}
}

// TestTypicalValues: a library value is typical, with a range around it, and
// physically possible.
func TestTypicalValues(t *testing.T) {
	for _, p := range parts(t) {
		for _, c := range p.Coils {
			for _, r := range []part.Range{c.Ohms, c.Henries, c.Farads} {
				if r.Known || !(0 < r.Lo && r.Lo < r.Typical && r.Typical < r.Hi) {
					t.Errorf("%s %s: %+v", p.ID, c.Name, r)
				}
			}
			if unknown := p.Class == "points"; (c.Winding == 0) != unknown || (c.Pole == 0) != unknown || (c.Eddy.Typical == 0) != unknown {
				t.Errorf("%s %s: winding %d, pole %d, eddy %v", p.ID, c.Name, c.Winding, c.Pole, c.Eddy)
			}
			if c.Eddy.Typical > 0 && (c.EddyPart <= 0 || c.EddyPart > 1) {
				t.Errorf("%s %s: eddy part %v", p.ID, c.Name, c.EddyPart)
			}
		}
		if !positive(p) {
			t.Errorf("%s: its couplings are not those of any coils", p.ID)
		}
	}
}

// positive reports whether the matrix of couplings is positive definite, by
// its leading minors (at most three coils).
func positive(p *part.Part) bool {
	k := func(a, b int) float64 {
		for _, c := range p.Couplings {
			if c.A == a && c.B == b || c.A == b && c.B == a {
				return c.K
			}
		}
		return 0
	}
	if len(p.Coils) < 2 {
		return true
	}
	ab := k(0, 1)
	if len(p.Coils) == 2 {
		return ab*ab < 1
	}
	ac, bc := k(0, 2), k(1, 2)
	return ab*ab < 1 && 1+2*ab*ac*bc-ab*ab-ac*ac-bc*bc > 0
}

// TestHumOfFullSound: in the customary full sound every coil adds to the
// string, so that its hum part has the sign of its pole; two opposite poles
// cancel hum, one winding alone does not.
func TestHumOfFullSound(t *testing.T) {
	for id, want := range map[string]part.Sign{
		"pickup/single-coil": 1, "pickup/single-coil-covered": 1, "pickup/tapped-coil": 2,
		"pickup/twin-coil": 0, "pickup/twin-coil-covered": 0, "pickup/three-coil": 0, "pickup/stacked": 0, "pickup/split-bass": 0,
	} {
		p := get(t, id)
		var hum part.Sign
		for _, leaf := range p.Full.Leaves() {
			c := p.Coils[p.CoilIndex(leaf.Name)]
			gain := c.Winding * c.Pole // +1: its start faces hot
			if leaf.Reversed {
				t.Errorf("%s: %s is reversed in the full sound", id, leaf.Name)
			}
			hum += c.Winding * gain
		}
		if hum != want {
			t.Errorf("%s: hum %d, want %d", id, hum, want)
		}
		if p.Full.Op != sound.Series && len(p.Coils) > 1 {
			t.Errorf("%s: full sound %s", id, p.Full)
		}
	}
}

// TestTies: what is one piece of metal with what.
func TestTies(t *testing.T) {
	for id, want := range map[string]string{
		"pickup/single-coil": "", "pickup/single-coil-covered": "cover=coil.finish",
		"pickup/twin-coil": "shield=baseplate", "pickup/twin-coil-covered": "shield=baseplate=cover",
		"pickup/three-coil": "shield=baseplate", "pickup/stacked": "", "pickup/split-bass": "", "pickup/tapped-coil": "",
	} {
		p, got := get(t, id), ""
		for _, tie := range p.Ties {
			for i, term := range tie {
				if i > 0 {
					got += "="
				}
				got += p.Terminals[term].Name
			}
		}
		if got != want {
			t.Errorf("%s ties %q, want %q", id, got, want)
		}
	}
}

// TestBlend: in the middle both gangs are full; at either end one is at the
// other end of its track and the other still full.
func TestBlend(t *testing.T) {
	p := get(t, "pot/blend")
	front, rear := &p.Tracks[0], &p.Tracks[1]
	if front.Name != "front" || rear.Name != "rear" || front.Knob != rear.Knob {
		t.Fatalf("tracks %s and %s on knobs %q and %q", front.Name, rear.Name, front.Knob, rear.Knob)
	}
	for _, c := range []struct{ turn, front, rear float64 }{
		{0, 0, 0}, {0.25, 0.5, 0}, {0.5, 1, 0}, {0.75, 1, 0.5}, {1, 1, 1},
	} {
		f, r := setting.Travelled(front, c.turn), setting.Travelled(rear, c.turn)
		if f != c.front || r != c.rear { // front is full at cw (1), rear at ccw (0)
			t.Errorf("turn %v: front %v, rear %v, want %v, %v", c.turn, f, r, c.front, c.rear)
		}
	}
}

// TestKnobs: how many knobs and tracks the pots have.
func TestKnobs(t *testing.T) {
	for id, want := range map[string][2]int{
		"pot/standard": {1, 1}, "pot/no-load": {1, 1}, "pot/dual-gang": {1, 2}, "pot/blend": {1, 2}, "pot/concentric": {2, 2}, "pot/push-pull-pads": {1, 1},
	} {
		p := get(t, id)
		if len(p.Knobs()) != want[0] || len(p.Tracks) != want[1] || p.Tracks[0].NoLoad != (id == "pot/no-load") {
			t.Errorf("%s: knobs %v, %d tracks", id, p.Knobs(), len(p.Tracks))
		}
	}
}
