package examples_test

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	soundlang "loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// Facts of the trade, held against the examples. All of them are common
// practice, no source.

// shields lists the terminals of a graph that are a pickup's shield and no
// coil's end: the bare wire of a four-conductor lead, say.
func shields(g *wiring.Graph) []int {
	var out []int
	for u := range g.Loom.Uses {
		p := g.Loom.Uses[u].Part
		if t, ok := p.Terminal("shield"); ok && len(p.Coils) > 0 {
			out = append(out, g.Term(u, t))
		}
	}
	return out
}

// The separate shield of a multi-conductor lead is always ground, in every
// setting. Common practice, no source.
func TestSeparateShieldIsAlwaysGround(t *testing.T) {
	count := 0
	for _, f := range sound(t) {
		g := f.proved.Graph
		base := setting.NewBase(g)
		for s := range setting.All(g) {
			nets := base.Nets(s.At)
			for _, shield := range shields(g) {
				count++
				if nets.Of[shield] != nets.Of[g.Ground] {
					t.Errorf("%s: %s is not on ground with %s", f.name, g.Terms[shield].Name, s.Name)
				}
			}
		}
	}
	if count < 50 {
		t.Errorf("only %d shields and settings were looked at", count)
	}
}

// coilsOf counts the coils of each pickup of a loom.
func coilsOf(g *wiring.Graph) map[int]int {
	out := map[int]int{}
	for i := range g.Coils {
		out[g.Coils[i].Use]++
	}
	return out
}

// Guitars with single coils alone select them in parallel; where one joins them
// in series the name of the loom says so. Common practice, no source.
func TestSingleCoilsAreSelectedInParallel(t *testing.T) {
	pairs := 0
	for _, f := range sound(t) {
		single := !strings.Contains(f.name, "series")
		for _, n := range coilsOf(f.proved.Graph) {
			single = single && n == 1
		}
		for _, r := range f.proved.Rows {
			if !single || len(r.Sound.Leaves()) < 2 {
				continue
			}
			pairs++
			if r.Sound.Op != soundlang.Parallel {
				t.Errorf("%s with %s: %s", f.name, r.Name, r.Heard)
			}
		}
	}
	if pairs < 8 {
		t.Errorf("only %d settings with several single coils were looked at", pairs)
	}
}

// A twin-coil pickup is customarily in series inside: where a lead code leaves
// no choice, and in the customary full sound of every twin in the library.
// Common practice, no source.
func TestTwinCoilsAreInSeriesInside(t *testing.T) {
	b := bench.New()
	parts, _ := b.Parts()
	twins := 0
	for _, line := range parts {
		p, _ := b.Part(line.ID)
		if p == nil || len(p.Coils) != 2 {
			continue
		}
		twins++
		if p.Full.Op != soundlang.Series {
			t.Errorf("%s: its full sound is %s", line.ID, p.Full)
		}
	}
	if twins < 5 {
		t.Errorf("only %d pickups with two coils found", twins)
	}
	for _, f := range sound(t) {
		for u := range f.proved.Graph.Loom.Uses {
			use := &f.proved.Graph.Loom.Uses[u]
			if len(use.Inside) == 0 {
				continue
			}
			for _, r := range f.proved.Rows {
				checkSeriesInside(t, f, r, use.Name)
			}
		}
	}
}

// checkSeriesInside asks that a pickup joined inside sounds in series, if at all.
func checkSeriesInside(t *testing.T, f file, r proof.Row, pickup string) {
	t.Helper()
	heard := slices.ContainsFunc(r.Sound.Leaves(), func(e soundlang.Expr) bool { return strings.HasPrefix(e.Name, pickup+".") })
	if !heard {
		return
	}
	if want := pickup + ".north series " + pickup + ".south"; !strings.Contains(r.Heard, want) {
		t.Errorf("%s with %s: %s, want %s in it", f.name, r.Name, r.Heard, want)
	}
}

// Where one coil of a two-coil pickup sounds, the other one is shorted: a split
// ties their junction to ground or to hot. Where both sound, in series or in
// parallel, none is shorted. Common practice, no source.
func TestSplitShortsTheOtherCoil(t *testing.T) {
	splits, both := 0, 0
	for _, f := range sound(t) {
		g := f.proved.Graph
		count := coilsOf(g)
		for _, r := range f.proved.Rows {
			for u, n := range count {
				if n != 2 || r.Output != proof.Sounding || r.Unsure {
					continue
				}
				heard, shorted := coilsHeard(g, u, r)
				switch {
				case heard == 1 && shorted == 1:
					splits++
				case heard == 2 && shorted == 0:
					both++
				case heard != 0:
					t.Errorf("%s with %s: %s sounds with %d coils, %d shorted", f.name, r.Name, g.Loom.Uses[u].Name, heard, shorted)
				}
			}
		}
	}
	if splits < 8 || both < 20 {
		t.Errorf("only %d splits and %d full sounds were looked at", splits, both)
	}
}

func coilsHeard(g *wiring.Graph, use int, r proof.Row) (heard, shorted int) {
	for i := range g.Coils {
		if g.Coils[i].Use != use {
			continue
		}
		if slices.Contains(r.Shorted, g.Coils[i].Name) {
			shorted++
		}
		if slices.ContainsFunc(r.Sound.Leaves(), func(e soundlang.Expr) bool { return e.Name == g.Coils[i].Name }) {
			heard++
		}
	}
	return heard, shorted
}

// split builds a twin coil whose junction a split ties to something.
func split(t *testing.T, to string) proof.Row {
	t.Helper()
	c := bench.New().Check("split.yaml", `loomwright: 1
parts:
  pickup: {is: pickup/twin-coil}
  volume: {is: pot/standard}
  jack: {is: jack/mono}
joins:
  - pickup.north.start -- volume.cw
  - pickup.north.finish, pickup.south.finish -- `+to+`
  - pickup.south.start, pickup.shield, volume.ccw, jack.sleeve -- volume.case
  - volume.wiper -- jack.tip
`)
	if len(c.Rows) != 1 {
		t.Fatalf("not proved: %v", c.Findings)
	}
	return c.Rows[0]
}

// A split to ground leaves the coil toward hot, a split to hot the coil toward
// ground; each alone is half of the pair. Common practice, no source.
func TestSplitToGroundAndToHot(t *testing.T) {
	for to, want := range map[string][2]string{
		"volume.case": {"pickup.north", "pickup.south"},
		"volume.cw":   {"pickup.south", "pickup.north"},
	} {
		r := split(t, to)
		if r.Heard != want[0] || !slices.Equal(r.Shorted, []string{want[1]}) || r.Hum != proof.Adds {
			t.Errorf("junction on %s: %s heard, %v shorted, hum %s; want %s heard and %s shorted", to, r.Heard, r.Shorted, r.Hum, want[0], want[1])
		}
	}
}
