package proof_test

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/proof"
)

const twinCoil = `parts:
  bridge: {is: pickup/twin-coil}
  strings: {is: ground/string}
  jack: {is: jack/mono}
joins:
  - bridge.north.start -- jack.tip
  - bridge.north.finish -- bridge.south.finish
  - bridge.south.start, bridge.shield, strings.wire -- jack.sleeve
`

// TestOrdinaryTwinCoil: both coils wound alike, opposite poles, joined finish
// to finish: north series south, in phase, hum cancelled (common practice, no
// source).
func TestOrdinaryTwinCoil(t *testing.T) {
	r := checked(t, twinCoil).Rows[0]
	if r.Heard != "bridge.north series bridge.south" || r.Phase != proof.InPhase || r.Hum != proof.Cancels {
		t.Errorf("heard %q, %s, hum %s", r.Heard, r.Phase, r.Hum)
	}
	// Joined start to start, it is upside down and otherwise the same.
	r = checked(t, strings.NewReplacer("start", "finish", "finish", "start").Replace(twinCoil)).Rows[0]
	if r.Heard != "reversed bridge.north series reversed bridge.south" || r.Phase != proof.InPhase || r.Hum != proof.Cancels {
		t.Errorf("start to start: heard %q, %s, hum %s", r.Heard, r.Phase, r.Hum)
	}
}

// twoCoilLoom joins two coils alike: in series finish to start, or in parallel;
// swapped exchanges the leads of the second.
func twoCoilLoom(series, windingDiffers, magnetDiffers, swapped bool) string {
	b := "{is: pickup/single-coil"
	if windingDiffers {
		b += ", winding: anticlockwise"
	}
	if magnetDiffers {
		b += ", pole: south"
	}
	start, finish := "b.coil.start", "b.coil.finish"
	if swapped {
		start, finish = finish, start
	}
	joins := "  - a.coil.start, " + start + " -- jack.tip\n  - a.coil.finish, " + finish + " -- jack.sleeve\n"
	if series {
		joins = "  - a.coil.start -- jack.tip\n  - a.coil.finish -- " + start + "\n  - " + finish + " -- jack.sleeve\n"
	}
	return "parts:\n  a: {is: pickup/single-coil}\n  b: " + b + "}\n  jack: {is: jack/mono}\njoins:\n" + joins
}

// TestHumOfTwoCoils is the general rule for two coils joined alike (several
// pages agree): winding differs / magnet differs: no/no in phase, hums; yes/no
// out of phase, cancels; no/yes out of phase, hums; yes/yes in phase, cancels.
// Swapping one coil's leads does what another winding does.
func TestHumOfTwoCoils(t *testing.T) {
	for _, c := range []struct {
		winding, magnet bool
		phase, hum      proof.Verdict
	}{
		{false, false, proof.InPhase, proof.Adds},
		{true, false, proof.OutOfPhase, proof.Cancels},
		{false, true, proof.OutOfPhase, proof.Adds},
		{true, true, proof.InPhase, proof.Cancels},
	} {
		for _, series := range []bool{false, true} {
			for _, swapped := range []bool{false, true} {
				r := checked(t, twoCoilLoom(series, c.winding != swapped, c.magnet, swapped)).Rows[0]
				if r.Phase != c.phase || r.Hum != c.hum {
					t.Errorf("winding differs %v, magnet differs %v, in series %v, leads swapped %v: %s, hum %s, want %s, %s",
						c.winding, c.magnet, series, swapped, r.Phase, r.Hum, c.phase, c.hum)
				}
			}
		}
	}
}

// TestWhatNobodyKnows: an unknown winding leaves phase and hum open, an unknown
// pole phase alone; a single coil hums whatever it is.
func TestWhatNobodyKnows(t *testing.T) {
	for _, c := range []struct {
		b          string
		phase, hum proof.Verdict
	}{
		{"winding: unknown", proof.CannotTell, proof.CannotTell},
		{"pole: unknown", proof.CannotTell, proof.Adds},
		{"pole: unknown, winding: anticlockwise", proof.CannotTell, proof.Cancels},
	} {
		loom := strings.Replace(twoCoilLoom(true, false, false, false), "b: {is: pickup/single-coil", "b: {is: pickup/single-coil, "+c.b, 1)
		if r := checked(t, loom).Rows[0]; r.Phase != c.phase || r.Hum != c.hum {
			t.Errorf("%s: %s, hum %s, want %s, %s", c.b, r.Phase, r.Hum, c.phase, c.hum)
		}
	}
	one := "parts:\n  a: {is: pickup/single-coil, winding: unknown, pole: unknown}\n  jack: {is: jack/mono}\njoins:\n" +
		"  - a.coil.start -- jack.tip\n  - a.coil.finish -- jack.sleeve\n"
	if r := checked(t, one).Rows[0]; r.Phase != proof.OneCoil || r.Hum != proof.Adds {
		t.Errorf("one coil: %s, hum %s", r.Phase, r.Hum)
	}
}

// TestHumOfUnequalShares: coils that have not the same share at the output
// cancel hum only in part: a twin coil beside a single one, two coils through
// unlike resistors; alike resistors change nothing.
func TestHumOfUnequalShares(t *testing.T) {
	for _, c := range []struct {
		first, second string
		hum           proof.Verdict
	}{{"4.7k", "150k", proof.Partly}, {"4.7k", "4K7", proof.Cancels}} {
		loom := fmt.Sprintf(`parts:
  a: {is: pickup/single-coil}
  b: {is: pickup/single-coil, winding: anticlockwise, pole: south}
  r: {is: resistor/quarter-watt, value: %s}
  s: {is: resistor/quarter-watt, value: %s}
  jack: {is: jack/mono}
joins:
  - a.coil.start -- r.a
  - b.coil.start -- s.a
  - r.b, s.b -- jack.tip
  - a.coil.finish, b.coil.finish -- jack.sleeve
`, c.first, c.second)
		if r := checked(t, loom).Rows[0]; r.Hum != c.hum || r.Phase != proof.InPhase {
			t.Errorf("%s and %s: %q, hum %s, want %s", c.first, c.second, r.Heard, r.Hum, c.hum)
		}
	}
	caps := `parts:
  a: {is: pickup/single-coil}
  b: {is: pickup/single-coil, winding: anticlockwise, pole: south}
  r: {is: capacitor/film, value: 1n}
  s: {is: capacitor/film, value: 22n}
  jack: {is: jack/mono}
joins:
  - a.coil.start -- r.a
  - b.coil.start -- s.a
  - r.b, s.b -- jack.tip
  - a.coil.finish, b.coil.finish -- jack.sleeve
`
	if r := checked(t, caps).Rows[0]; r.Hum != proof.Partly {
		t.Errorf("%q: hum %s, want partly", r.Heard, r.Hum)
	}
	beside := strings.Replace(twinCoil, "parts:\n", "parts:\n  neck: {is: pickup/single-coil}\n", 1) +
		"  - neck.coil.start -- jack.tip\n  - neck.coil.finish -- jack.sleeve\n"
	if r := checked(t, beside).Rows[0]; r.Hum != proof.Partly {
		t.Errorf("%q: hum %s, want partly", r.Heard, r.Hum)
	}
}
