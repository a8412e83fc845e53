package proof_test

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/proof"
)

// checked proves a loom of which only parts, joins and sounds are written.
func checked(t *testing.T, body string) bench.Checked {
	t.Helper()
	c := bench.New().Check("loom.yaml", "loomwright: 1\n"+body)
	if len(c.Rows) == 0 {
		t.Fatalf("not proved: %v", c.Findings)
	}
	return c
}

func found(c bench.Checked, code string) []diag.Diagnostic {
	var out []diag.Diagnostic
	for _, d := range c.Findings {
		if d.Code == code {
			out = append(out, d)
		}
	}
	return out
}

// lineOf is the text of the line that a finding points to.
func lineOf(c bench.Checked, d diag.Diagnostic) string {
	return strings.TrimSpace(c.Text.Line(d.Span.Start.Line))
}

const shortedPair = `parts:
  neck: {is: pickup/twin-coil}
  link: {is: splice/joint}
  lever: {is: switch/spdt-on-on}
  volume: {is: pot/standard}
  bridge: {is: pickup/single-coil}
  jack: {is: jack/mono}
joins:
  - neck.north.start -- volume.cw
  - neck.north.finish, neck.south.finish -- link.joint
  - neck.south.start -- lever.a
  - neck.shield, volume.ccw, lever.a.down -- volume.case
  - lever.a.up -- FAR
  - bridge.coil.start -- volume.cw
  - bridge.coil.finish, jack.sleeve -- volume.case
  - volume.wiper -- jack.tip
`

// A pickup with both ends on hot is shorted through its two coils; one with its
// other end open is an aerial.
func TestPairOnHotIsNotAnAerial(t *testing.T) {
	c := checked(t, strings.Replace(shortedPair, "FAR", "volume.cw", 1))
	if got := c.Rows[0].Hanging; len(got) > 0 {
		t.Errorf("both ends on hot: %v hang", got)
	}
	c = checked(t, strings.Replace(shortedPair, "  - lever.a.up -- FAR\n", "", 1))
	if got := c.Rows[0].Hanging; !slices.Equal(got, []string{"neck.north", "neck.south"}) {
		t.Errorf("other end open: %v hang, want both coils", got)
	}
}

const capSelector = `parts:
  pickup: {is: pickup/single-coil}
  rotary: {is: switch/rotary-1p3}
  volume: {is: pot/standard}
  small: {is: capacitor/film, value: 10n}
  large: {is: capacitor/film, value: 47n}
  jack: {is: jack/mono}
joins:
  - pickup.coil.start -- volume.cw
  - pickup.coil.finish, volume.ccw, jack.sleeve -- volume.case
  - volume.wiper -- jack.tip
  - volume.cw -- rotary.a
  - small.a -- rotary.a.2
  - large.a -- rotary.a.3
  - small.b, large.b -- volume.case
`

// A capacitor that a switch can take away is a choice; one that is always
// there is not.
func TestSelectedCapacitorIsNotAlwaysDark(t *testing.T) {
	if got := found(checked(t, capSelector), "always-dark"); len(got) > 0 {
		t.Errorf("a selected capacitor: %v", got)
	}
	c := checked(t, strings.Replace(capSelector, "small.a -- rotary.a.2", "small.a -- volume.cw", 1))
	got := found(c, "always-dark")
	if len(got) != 1 || lineOf(c, got[0]) != "- small.a -- volume.cw" {
		t.Errorf("a capacitor for good: %v", got)
	}
}

const sharedTones = `parts:
  pickup: {is: pickup/single-coil}
  volume: {is: pot/standard}
  one: {is: pot/standard}
  two: {is: pot/standard}
  one-cap: {is: capacitor/film}
  two-cap: {is: capacitor/film}
  jack: {is: jack/mono}
joins:
  - pickup.coil.start, one.wiper, two.wiper -- volume.cw
  - pickup.coil.finish, volume.ccw, jack.sleeve, one.case, two.case, one-cap.b, two-cap.b -- volume.case
  - one.ccw -- one-cap.a
  - two.ccw -- two-cap.a
  - volume.wiper -- jack.tip
`

// The finding about two knobs stands at the first of the two.
func TestTangledKnobsPointAtOneOfThem(t *testing.T) {
	c := checked(t, sharedTones)
	got := found(c, "tones-load-together")
	if len(got) != 1 || !strings.HasPrefix(lineOf(c, got[0]), "one:") {
		t.Errorf("got %v, want one finding at the part called one", got)
	}
}

const rheostat = `parts:
  pickup: {is: pickup/twin-coil}
  link: {is: splice/joint}
  volume: {is: pot/standard}
  cut: {is: pot/standard, track: 1M linear}
  cap: {is: capacitor/film, value: 1n}
  jack: {is: jack/mono}
joins:
  - pickup.north.finish, pickup.south.finish -- link.joint
  - pickup.south.start, pickup.shield, volume.ccw, jack.sleeve -- volume.case
  - pickup.north.start -- cut.wiper
  - cap.a -- cut.wiper
  - cap.b -- cut.cw
  - cut.cw -- volume.cw
  - volume.wiper -- jack.tip
`

// A capacitor in the way of the sound takes bass, one across it takes treble;
// phase and hum are told with the cut at either end.
func TestBassCut(t *testing.T) {
	for name, body := range map[string]string{
		"full at 10": rheostat,
		"full at 0":  strings.Replace(strings.Replace(rheostat, "cap.b -- cut.cw", "cap.b -- cut.ccw", 1), "cut.cw -- volume", "cut.ccw -- volume", 1),
	} {
		r := checked(t, body).Rows[0]
		if got := knobDoes(r, "cut"); got != "bass cut" {
			t.Errorf("%s: cut is %q, want bass cut", name, got)
		}
		if r.Phase != proof.InPhase || r.Hum != proof.Cancels {
			t.Errorf("%s: %s, hum %s", name, r.Phase, r.Hum)
		}
	}
}

func knobDoes(r proof.Row, knob string) string {
	for _, k := range r.Knobs {
		if k.Knob == knob {
			return k.Does
		}
	}
	return "nothing"
}

// A volume whose ccw lug is left free only loads.
func TestVolumeWithoutGroundIsWeak(t *testing.T) {
	got := found(checked(t, strings.Replace(rheostat, "pickup.shield, volume.ccw,", "pickup.shield,", 1)), "knob-weak")
	if len(got) != 1 || got[0].Hint != "nothing is soldered to volume.ccw" {
		t.Errorf("got %v, want one that names the free lug", got)
	}
	if got := found(checked(t, rheostat), "knob-weak"); len(got) > 0 {
		t.Errorf("a sound loom: %v", got)
	}
}

// A track in the way of the sound, at 0 or at 10, darkens with a capacitor behind
// it (R and C are a low-pass: 500 kΩ and 4.7 nF turn at 68 Hz), not with one
// before it, nor with one at the end of another track. A closed form, no source.
func TestTrackBeforeACapacitorIsNotWeak(t *testing.T) {
	const parts = "parts:\n  neck: {is: pickup/single-coil}\n  cut: {is: pot/standard, track: 500k linear}\n  tone: {is: pot/standard}\n" +
		"  cap: {is: capacitor/film, value: 4.7n}\n  jack: {is: jack/mono}\njoins:\n"
	for name, c := range map[string]struct {
		joins string
		weak  int
	}{
		"behind":          {"  - neck.coil.start -- cut.cw\n  - cut.wiper, cap.a -- jack.tip\n  - neck.coil.finish, cap.b -- jack.sleeve\n", 0},
		"behind, at 10":   {"  - neck.coil.start -- cut.ccw\n  - cut.wiper, cap.a -- jack.tip\n  - neck.coil.finish, cap.b -- jack.sleeve\n", 0},
		"in ground's way": {"  - neck.coil.start, cap.a -- jack.tip\n  - neck.coil.finish -- cut.cw\n  - cut.wiper, cap.b -- jack.sleeve\n", 0},
		"before":          {"  - neck.coil.start, cap.a -- cut.cw\n  - cut.wiper -- jack.tip\n  - neck.coil.finish, cap.b -- jack.sleeve\n", 1},
		"behind a tone":   {"  - neck.coil.start -- cut.cw\n  - cut.wiper, tone.wiper -- jack.tip\n  - tone.ccw -- cap.a\n  - neck.coil.finish, cap.b -- jack.sleeve\n", 1},
	} {
		proved := checked(t, parts+c.joins)
		if got := found(proved, "knob-weak"); len(got) != c.weak || knobDoes(proved.Rows[0], "cut") != "load" {
			t.Errorf("%s: cut is %q, findings %v, want %d", name, knobDoes(proved.Rows[0], "cut"), got, c.weak)
		}
	}
}

const withMaster = `parts:
  neck: {is: pickup/single-coil}
  bridge: {is: pickup/single-coil}
  toggle: {is: switch/toggle-3way}
  neck-volume: {is: pot/standard}
  bridge-volume: {is: pot/standard}
  master: {is: pot/standard}
  jack: {is: jack/mono}
joins:
  - neck.coil.start -- neck-volume.cw
  - bridge.coil.start -- bridge-volume.cw
  - neck.coil.finish, bridge.coil.finish, neck-volume.ccw, bridge-volume.ccw, master.ccw, toggle.case, jack.sleeve -- master.case
  - neck-volume.wiper -- toggle.a.neck
  - bridge-volume.wiper -- toggle.a.bridge
  - toggle.a -- master.cw
  - master.wiper -- jack.tip
`

// Two volumes that mute each other are noted where both pickups sound; a master
// is meant to mute all.
func TestMasterIsNoTangle(t *testing.T) {
	got := found(checked(t, withMaster), "volumes-mute-all")
	if len(got) != 1 || !slices.Equal(got[0].Settings, []string{"toggle middle"}) ||
		!strings.Contains(got[0].Message, "neck-volume and bridge-volume mutes") {
		t.Errorf("got %v, want the two volumes in the middle", got)
	}
}
