package electrics

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// at reads two terminals of a loom in a setting by name.
func at(t testing.TB, m *Model, with, a, b string, turn setting.Turn) Reading {
	t.Helper()
	for s := range setting.All(m.Graph()) {
		if s.Name == with {
			return m.DC(s.At, turn).Ohms(terminal(t, m.Graph(), a), terminal(t, m.Graph(), b))
		}
	}
	t.Fatalf("no setting %q", with)
	return Reading{}
}

func terminal(t testing.TB, g *wiring.Graph, name string) int {
	t.Helper()
	i, ok := g.Find(name)
	if !ok {
		t.Fatalf("no terminal %q", name)
	}
	return i
}

// potAcross is a coil with a pot's track across it.
func potAcross(t *testing.T, ohms, track string) Reading {
	t.Helper()
	g := graphOf(t, "across", fmt.Sprintf(`loomwright: 1
parts:
  bridge: {is: pickup/single-coil, ohms: %s}
  volume: {is: pot/standard, track: %s}
  jack:   {is: jack/mono}
joins:
  - bridge.coil.start -- volume.cw
  - bridge.coil.finish, volume.ccw -- volume.case
  - volume.wiper -- jack.tip
  - volume.case -- jack.sleeve
`, ohms, track))
	return at(t, modelOf(t, g, Options{Room: Room{20, 20, 20.001}}), "as wired", "volume.cw", "volume.case", setting.FullUp(g))
}

// The track across the pickup: 6 k ∥ 250 k 5859.4 Ω (pot −20 % 5825.2, +20 %
// 5882.4), 8 k ∥ 500 k 7874.0, 6 k ∥ 500 k 5928.9 Ω (Ohm).
func TestTrackAcrossCoil(t *testing.T) {
	for _, c := range []struct {
		ohms, track string
		want        float64
	}{{"6k", "250k audio", 5859.4}, {"6k", "200k audio", 5825.2}, {"6k", "300k audio", 5882.4}, {"8k", "500k audio", 7874.0}, {"6k", "500k audio", 5928.9}} {
		if r := potAcross(t, c.ohms, c.track); math.Abs(r.Ohms-c.want) > 0.06 {
			t.Errorf("%s and %s: %.2f Ω, want %.1f Ω", c.ohms, c.track, r.Ohms, c.want)
		}
	}
	r := potAcross(t, "6k 0.0001%", "250k audio")
	if math.Abs(r.Lo-5825.2) > 0.1 || math.Abs(r.Hi-5882.4) > 0.1 {
		t.Errorf("pot ±20 %%: %.1f…%.1f Ω, want 5825.2…5882.4 Ω", r.Lo, r.Hi)
	}
	meter := Plain()
	shown := meter.Shows(potAcross(t, "8k", "500k audio"))
	if want := "8 kΩ bridge, 500 kΩ volume track across it: 7.87 kΩ: the meter shows 7.87 on its 20 kΩ range"; !strings.HasPrefix(shown.Words, want) {
		t.Errorf("%q, want %q…", shown.Words, want)
	}
}

// Copper, 0.00393/K from 20 °C (NBS Handbook 100): 6000 Ω is 5882.1 at 15,
// 6117.9 at 25 and 6235.8 Ω at 30 °C.
func TestRoomTemperature(t *testing.T) {
	for celsius, want := range map[float64]float64{15: 5882.1, 25: 6117.9, 30: 6235.8} {
		g := straight(t, 6000, 2.5, 100e-12, 500e-12, 1e6)
		r := modelOf(t, g, Options{Room: Room{celsius, celsius, celsius}}).DC(nil, nil).Ohms(g.Hot, g.Ground)
		if math.Abs(r.Ohms-want) > 0.06 || math.Abs(r.Lo-want) > 0.06 || math.Abs(r.Hi-want) > 0.06 {
			t.Errorf("%g °C: %.1f Ω (%.1f…%.1f), want %.1f Ω", celsius, r.Ohms, r.Lo, r.Hi, want)
		}
	}
}

// Trade facts (common practice, no source): a twin coil from the volume pot's
// input to its case shows 7.85 k in series and 1.98 k in parallel on the 20 k
// range; one coil by itself comes out about half of series.
func TestTradeReadings(t *testing.T) {
	g := loomFile(t, "pull")
	m := modelOf(t, g, Options{})
	full := setting.FullUp(g)
	meter := Plain()
	on := meter.Ranges[2]
	for with, seen := range map[string]float64{"volume pushed": 7850, "volume pulled": 1980} {
		r := at(t, m, with, "volume.cw", "volume.case", full)
		s := meter.ShowsOn(r, on)
		if !(s.LoOhms <= seen && seen <= s.HiOhms) {
			t.Errorf("%s: %s…%s kΩ does not hold the %g Ω that are seen", with, s.Lo, s.Hi, seen)
		}
		if width := s.HiOhms/s.LoOhms - 1; width > 0.25 {
			t.Errorf("%s: %s…%s kΩ would hold anything", with, s.Lo, s.Hi)
		}
	}
	series := at(t, m, "volume pushed", "volume.cw", "volume.case", full)
	one := modelOf(t, loomFile(t, "split-open"), Options{})
	alone := at(t, one, "as wired", "volume.cw", "volume.case", setting.FullUp(one.Graph()))
	if ratio := alone.Ohms / series.Ohms; math.Abs(ratio-0.5) > 0.02 {
		t.Errorf("one coil reads %.3f of series", ratio)
	}
}

// Parallel is brighter and weaker than series (common practice, no source).
func TestParallelIsBrighterAndWeaker(t *testing.T) {
	g := loomFile(t, "pull")
	rows := modelOf(t, g, Options{}).Table(settingsOf(g), setting.FullUp(g), 0)
	if rows[1].Level > -4 || rows[1].Level < -8 || rows[1].Brightness <= rows[0].Brightness || rows[1].Peak.Hz < 1.5*rows[0].Peak.Hz {
		t.Errorf("series %+v, parallel %+v", rows[0], rows[1])
	}
}

// Meter makers' worked examples: 6.00 k at ±(0.8 % + 3 counts of 10 Ω) is ±78 Ω;
// 2.000 on a 5.000 range at ±(0.08 % + 2) is 1.9964…2.0036; 100.0 at ±(1 % + 2)
// is 98.8…101.2.
func TestMeterArithmetic(t *testing.T) {
	for _, c := range []struct {
		r          Range
		ohms, want float64
	}{
		{Range{19990, 10, 0.8, 3}, 6000, 78},
		{Range{5, 0.001, 0.08, 2}, 2, 0.0036},
		{Range{199.9, 0.1, 1, 2}, 100, 1.2},
	} {
		if got := c.r.Error(c.ohms); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v at %g: ±%g, want ±%g", c.r, c.ohms, got, c.want)
		}
	}
}

// What the display shows, over its ranges and beyond.
func TestDigits(t *testing.T) {
	plain, auto := Plain(), AutoRanging()
	plain.Leads, auto.Leads = Bounds{}, Bounds{}
	for _, c := range []struct {
		m            Meter
		ohms         float64
		digits, unit string
	}{
		{plain, 0.34, "0.3", "Ω"}, {plain, 7874, "7.87", "kΩ"}, {plain, 19994, "19.99", "kΩ"}, {plain, 19996, "20.0", "kΩ"},
		{plain, 1.5e6, "1.500", "MΩ"}, {plain, 25e6, "1", ""}, {auto, 7874, "7.87", "kΩ"}, {auto, 5874, "5.874", "kΩ"}, {auto, 61e6, "OL", ""},
	} {
		if s := c.m.Shows(Reading{Verdict: Path, Ohms: c.ohms, Lo: c.ohms, Hi: c.ohms}); s.Digits != c.digits || s.Unit != c.unit {
			t.Errorf("%s at %g Ω: %q %q, want %q %q", c.m.Name, c.ohms, s.Digits, s.Unit, c.digits, c.unit)
		}
	}
}

// Verdicts without a number: joined, open, and behind a capacitor.
func TestVerdicts(t *testing.T) {
	g := loomFile(t, "two-twins")
	m := modelOf(t, g, Options{})
	full := setting.FullUp(g)
	with := "neck-volume pushed, bridge-volume pushed, toggle bridge"
	meter := Plain()
	for _, c := range []struct {
		a, b    string
		verdict Verdict
		words   string
	}{
		{"jack.sleeve", "neck-tone.case", Joined, "joined"},
		{"neck-tone.wiper", "jack.sleeve", Path, "neck-tone track"},
		{"toggle.a.neck", "toggle.a", Path, ""},
		{"neck-cap.a", "neck-cap.b", Path, ""},
	} {
		r := at(t, m, with, c.a, c.b, full)
		if r.Verdict != c.verdict || !strings.Contains(r.Words, c.words) {
			t.Errorf("%s to %s: %+v", c.a, c.b, r)
		}
	}
	noLoad := modelOf(t, loomFile(t, "no-load"), Options{})
	r := at(t, noLoad, "as wired", "cap.a", "jack.sleeve", setting.FullUp(noLoad.Graph()))
	if r.Verdict != Blocked || len(r.Through) != 1 || r.Through[0] != "cap" || meter.Shows(r).Digits != "1" {
		t.Errorf("behind a no-load pot at 10 and a capacitor: %+v", r)
	}
	floating := modelOf(t, loomFile(t, "split-floating"), Options{})
	r = at(t, floating, "as wired", "bridge.violet", "jack.sleeve", setting.FullUp(floating.Graph()))
	if r.Verdict != Apart || r.Ohms != 0 {
		t.Errorf("a coil on nothing: %+v", r)
	}
}
