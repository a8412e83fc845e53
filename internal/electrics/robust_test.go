package electrics

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Values that no part can have are refused in the part's own words, and never
// computed with.
func TestAbsurdValues(t *testing.T) {
	for _, c := range []struct {
		change func(g *wiring.Graph)
		says   string
	}{
		{func(g *wiring.Graph) { g.Coils[0].Ohms.Typical = 1e-30 }, "bridge.north: a resistance of"},
		{func(g *wiring.Graph) { g.Coils[0].Ohms.Typical = math.NaN() }, "bridge.north: a resistance of unknown"},
		{func(g *wiring.Graph) { g.Coils[1].Henries.Typical = 1e30 }, "bridge.south: an inductance of"},
		{func(g *wiring.Graph) { g.Coils[1].Farads.Typical = -1e-12 }, "bridge.south: a capacitance of"},
		{func(g *wiring.Graph) { g.Coils[1].EddyPart = 1.5 }, "bridge.south: 150 %"},
		{func(g *wiring.Graph) { g.Tracks[0].Value.Ohms.X = 1e20 }, "volume: a track of"},
		{func(g *wiring.Graph) { g.Couplings[0].K = 1 }, "a coupling of 1 "},
		{func(g *wiring.Graph) { g.Loom.Input.X = 0 }, "the input"},
		{func(g *wiring.Graph) { g.Loom.Cable.X = math.Inf(1) }, "the cable"},
		{func(g *wiring.Graph) { g.Loom.Scale = 0 }, "a string of"},
	} {
		g := loomFile(t, "pull")
		c.change(g)
		m, list := New(g, Options{})
		if m != nil || !list.HasErrors() || !strings.Contains(list[0].Message, c.says) {
			t.Errorf("%s: %+v", c.says, list)
		}
	}
	g := loomFile(t, "three")
	g.Couplings[0].K, g.Couplings[1].K, g.Couplings[2].K = 0.9, 0.9, -0.9
	if m, list := New(g, Options{}); m != nil || list[0].Code != "coupling-absurd" {
		t.Errorf("three couplings that cannot be at once: %+v", list)
	}
}

// Huge and tiny values that parts can have give finite figures.
func TestExtremeValuesAreFinite(t *testing.T) {
	for _, ohms := range []float64{1e-3, 1e12} {
		for _, henries := range []float64{1e-9, 1e5} {
			for _, farads := range []float64{0, 1} {
				g := loomFile(t, "two-twins")
				for i := range g.Coils {
					c := &g.Coils[i]
					c.Ohms.Typical, c.Ohms.Lo, c.Ohms.Hi = ohms, ohms, ohms
					c.Henries.Typical, c.Henries.Lo, c.Henries.Hi = henries, henries, henries
					c.Farads.Typical, c.Farads.Lo, c.Farads.Hi, c.Farads.Known = farads, farads, farads, true
				}
				m := modelOf(t, g, Options{Noise: true})
				rows := m.Table(settingsOf(g), setting.FullUp(g), 0)
				// JSON refuses NaN and infinite numbers
				if _, err := json.Marshal(rows); err != nil {
					t.Errorf("%g Ω %g H %g F: %v", ohms, henries, farads, err)
				}
				if _, err := json.Marshal(m.Curve(setting.Nth(g, 4).At, setting.FullUp(g))); err != nil {
					t.Errorf("%g Ω %g H %g F: %v", ohms, henries, farads, err)
				}
			}
		}
	}
}

// Outputs in words: open, shorted, silent, none.
func TestOutputs(t *testing.T) {
	row := func(change func(g *wiring.Graph), turn func(g *wiring.Graph) setting.Turn) Row {
		g := loomFile(t, "no-load")
		change(g)
		return modelOf(t, g, Options{}).Table(settingsOf(g), turn(g), 0)[0]
	}
	nothing := func(*wiring.Graph) {}
	up := func(g *wiring.Graph) setting.Turn { return setting.FullUp(g) }
	unsolder := func(a string) func(g *wiring.Graph) {
		return func(g *wiring.Graph) {
			at := terminal(t, g, a)
			for i := range g.Links {
				if g.Links[i].A == at || g.Links[i].B == at {
					g.Links[i].B = g.Links[i].A
				}
			}
		}
	}
	short := func(g *wiring.Graph) { g.Links = append(g.Links, wiring.Link{A: g.Hot, B: g.Ground, Run: -1}) }
	noJack := func(g *wiring.Graph) { g.Hot, g.Ground = -1, -1 }
	down := func(g *wiring.Graph) setting.Turn { return setting.FullUp(g).With(0, 0) }
	for _, c := range []struct {
		change func(*wiring.Graph)
		turn   func(*wiring.Graph) setting.Turn
		want   Output
	}{{nothing, up, Sounding}, {unsolder("neck.coil.start"), up, Open}, {unsolder("jack.tip"), up, Open}, {short, up, Shorted}, {nothing, down, Silent}, {noJack, up, NoOutput}} {
		if r := row(c.change, c.turn); r.Output != c.want || c.want != Sounding && c.want != Silent && r.Level != floorDB {
			t.Errorf("%+v, want %s", r, c.want)
		}
	}
}

// A broken coil is open to the meter and silent; a broken track leaves the end
// that the wiper stands on; never a fake megohm.
func TestBrokenParts(t *testing.T) {
	g := loomFile(t, "pull")
	g.Coils[0].Ohms.Typical = math.Inf(1)
	m := modelOf(t, g, Options{})
	full := setting.FullUp(g)
	if r := at(t, m, "volume pushed", "volume.cw", "bridge.pink", full); r.Verdict != Apart && r.Verdict != Path || r.Verdict == Path && r.Ohms < 4e5 {
		t.Errorf("across a broken coil: %+v", r)
	}
	rows := m.Table(settingsOf(g), full, 1)
	if rows[0].Output == Sounding && rows[0].Low > -20 {
		t.Errorf("a broken coil in series: %+v", rows[0])
	}
	if len(rows[1].Heard) != 1 || rows[1].Heard[0].Coil != "bridge.south" {
		t.Errorf("a broken coil in parallel: %+v", rows[1])
	}
	g = loomFile(t, "pull")
	g.Tracks[0].Value.Ohms = units.Value{X: math.Inf(1), Text: "broken"}
	m = modelOf(t, g, Options{})
	if r := at(t, m, "volume pushed", "volume.wiper", "volume.cw", full); r.Verdict != Path || r.Ohms != 2 {
		t.Errorf("wiper on the end of a broken track: %+v", r)
	}
	if r := at(t, m, "volume pushed", "volume.wiper", "volume.cw", full.With(0, 0.5)); r.Verdict != Path && r.Verdict != Apart || r.Hi > 1e12 {
		t.Errorf("wiper in the middle of a broken track: %+v", r)
	}
}

// An added resistor is a bad joint or a bridge, wherever it is put.
func TestExtra(t *testing.T) {
	g := loomFile(t, "pull")
	cw, ground := terminal(t, g, "volume.cw"), terminal(t, g, "volume.case")
	full := setting.FullUp(g)
	plain := at(t, modelOf(t, g, Options{}), "volume pushed", "volume.cw", "volume.case", full)
	m := modelOf(t, g, Options{Extra: []Extra{{Name: "a drop of flux", A: cw, B: ground, Ohms: Bounds{Typical: 10e3}}}})
	r := at(t, m, "volume pushed", "volume.cw", "volume.case", full)
	if want := 1 / (1/plain.Ohms + 1/10e3); math.Abs(r.Ohms-want) > 1e-6 || !strings.Contains(r.Words, "a drop of flux") {
		t.Errorf("%+v, want %g Ω", r, want)
	}
	m = modelOf(t, g, Options{Extra: []Extra{{A: cw, B: ground, Farads: 10e-9}}})
	if rows := m.Table(settingsOf(g), full, 0); rows[0].Peak == nil || rows[0].Peak.Hz > 1000 {
		t.Errorf("10 nF across the pickup: %+v", rows[0])
	}
}

// A pot's track is unchanged between its ends at any turn, and its halves stay
// within their bounds (common practice).
func TestTrackAtEveryTurn(t *testing.T) {
	g := loomFile(t, "five-way")
	m := modelOf(t, g, Options{})
	for i := range m.tracks {
		for turn := 0.0; turn <= 1; turn += 0.05 {
			upper, lower := m.tracks[i].halves(turn)
			if sum := upper.Typical + lower.Typical; math.Abs(sum/m.tracks[i].ohms.Typical-1) > 1e-12 {
				t.Errorf("%s at %g: %g Ω in all", m.tracks[i].name, turn, sum)
			}
			if !(upper.Lo <= upper.Typical && upper.Typical <= upper.Hi && lower.Lo <= lower.Typical && lower.Typical <= lower.Hi) {
				t.Errorf("%s at %g: %+v %+v", m.tracks[i].name, turn, upper, lower)
			}
		}
	}
	if audio := exponential(0.15, 0.5); math.Abs(audio-0.15) > 1e-12 {
		t.Errorf("an audio track of 15 %% has %g at half turn", audio)
	}
	table := taper{table: []float64{0, 0.1, 0.4, 1}}
	if s := table.share(0.5); math.Abs(s.Typical-0.25) > 1e-12 || s.Lo > s.Typical || s.Hi < s.Typical {
		t.Errorf("a measured taper half way between 10 and 40 %%: %+v", s)
	}
}

// Loaded divider x·RL/(RL+x(1−x)·RP): 250 k into 1 M at ¼, ½, ¾ gives .23881
// .47059 .71642; 500 k gives .22857 .44444 .68571 (algebra).
func TestLoadedDivider(t *testing.T) {
	for track, want := range map[string][3]float64{"250k linear": {0.23881, 0.47059, 0.71642}, "500k linear": {0.22857, 0.44444, 0.68571}} {
		g := graphOf(t, "divider", `loomwright: 1
parts:
  bridge: {is: pickup/single-coil, ohms: 1}
  volume: {is: pot/standard, track: `+track+`}
  jack:   {is: jack/mono}
into: {cable: 1p, input: 1M}
joins:
  - bridge.coil.start -- volume.cw
  - bridge.coil.finish, volume.ccw -- jack.sleeve
  - volume.wiper -- jack.tip
`)
		g.Tracks[0].End = 0
		for i, x := range []float64{0.25, 0.5, 0.75} {
			c := modelOf(t, g, Options{From: 1e-3, To: 1, Points: 2}).Curve(nil, setting.Turn{x})
			if got := c.Coils[0].Re[0]; math.Abs(got-want[i]) > 1e-5 {
				t.Errorf("%s at %g: %.5f, want %.5f", track, x, got, want[i])
			}
		}
	}
}

// Taps: each coil's sign between its leads, start over finish, and nothing where
// a coil is not in the way.
func TestTap(t *testing.T) {
	g := loomFile(t, "split-floating")
	m := modelOf(t, g, Options{})
	d := m.DC(nil, setting.FullUp(g))
	start, finish := terminal(t, g, "bridge.blue"), terminal(t, g, "bridge.violet")
	if v := d.Tap(1, finish, start); math.Abs(v-1) > 1e-9 { // violet is the south coil's start
		t.Errorf("over a free coil: %g V of 1 V", v)
	}
	if v := d.Tap(1, start, finish); math.Abs(v+1) > 1e-9 {
		t.Errorf("turned round: %g V", v)
	}
	if v := d.Tap(0, start, finish); v != 0 {
		t.Errorf("the other coil: %g V", v)
	}
	if v := d.Tap(0, g.Hot, g.Ground); v < 0.98 || v > 1 {
		t.Errorf("north at the jack, a 500k track across it: %g V", v)
	}
}
