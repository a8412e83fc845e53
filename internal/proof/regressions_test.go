package proof_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"loomwright/internal/bench"
	"loomwright/internal/part"
	"loomwright/internal/proof"
)

// What the independent checker once disagreed with, in looms that can be read.

// A cover that is tied to a coil end is found whichever part of its metal comes
// first in the file.
func TestTiedCoverBehindACase(t *testing.T) {
	c := checked(t, `parts:
  tone: {is: pot/standard, track: 250k audio}
  neck: {is: pickup/single-coil-covered}
  bridge: {is: pickup/single-coil}
  jack: {is: jack/mono}
joins:
  - neck.cover -- tone.case
  - neck.coil.start -- jack.tip
  - neck.coil.finish -- bridge.coil.start
  - bridge.coil.finish -- jack.sleeve
`)
	if len(found(c, "cover-lifted")) != 1 || len(found(c, "ground-missing")) != 0 {
		t.Errorf("findings: %v", c.Findings)
	}
}

// With more unknown leads than can be tried one by one, nothing that depends on
// a lead is claimed, also not of the pickup whose leads were tried.
func TestManyUnknownLeads(t *testing.T) {
	pickup := "{is: pickup/twin-coil, leads: {orange: unknown, pink: unknown, blue: unknown, violet: unknown, bare: shield}}"
	c := checked(t, `parts:
  neck: `+pickup+`
  bridge: `+pickup+`
  lever: {is: switch/spdt-on-on}
  jack: {is: jack/mono}
joins:
  - neck.orange -- lever.a.up
  - bridge.orange -- lever.a.down
  - lever.a -- jack.tip
  - neck.pink, bridge.pink, neck.bare, bridge.bare -- jack.sleeve
`)
	for _, r := range c.Rows {
		if !r.Unsure || r.Phase != proof.CannotTell || r.Hum != proof.CannotTell {
			t.Errorf("%s: %q, %s, %s", r.Name, r.Heard, r.Phase, r.Hum)
		}
	}
}

// A short that depends on which lead is which is not reported as a fact; what
// can happen in travel is the worst of all that the leads can be.
func TestUnknownLeadsAreNoFindings(t *testing.T) {
	c := checked(t, `parts:
  neck: {is: pickup/single-coil-covered, leads: {orange: unknown, pink: unknown}}
  pull: {is: switch/slide-dpdt, travel: make first}
  jack: {is: jack/mono}
joins:
  - neck.pink -- pull.a
  - pull.a.up, pull.a.down -- jack.tip
  - neck.orange, neck.cover -- jack.sleeve
`)
	if d := found(c, "hot-shorted"); len(d) > 0 {
		t.Errorf("a short is claimed: %v", d)
	}
	for _, r := range c.Rows {
		if !r.Unsure || r.Travel[0].Quiet != proof.Mute {
			t.Errorf("%s: unsure %v, %v", r.Name, r.Unsure, r.Travel)
		}
	}
}

// A capacitor that the sound goes through takes bass away: it is no tone.
func TestCapacitorInTheWayIsNoTone(t *testing.T) {
	c := checked(t, `parts:
  neck: {is: pickup/single-coil}
  pot: {is: pot/standard, track: 500k linear}
  cap: {is: capacitor/film, value: 2.2n}
  jack: {is: jack/mono}
joins:
  - neck.coil.start -- cap.a
  - cap.b -- pot.wiper
  - pot.wiper -- pot.cw
  - pot.ccw -- jack.tip
  - neck.coil.finish -- jack.sleeve
`)
	for _, k := range c.Rows[0].Knobs {
		if strings.Contains(k.Does, "tone") {
			t.Errorf("%s is called a %s", k.Knob, k.Does)
		}
	}
	if want := "neck through 2.2n through 500k"; c.Rows[0].Heard != want {
		t.Errorf("heard %q, want %q", c.Rows[0].Heard, want)
	}
}

// What a knob is called is what it does: one that puts its track in the way of
// the sound at 0, before a capacitor, is no backwards tone; one that lays a
// capacitor across the sound at either end darkens at 0.
func TestKnobsThatDoTwoThings(t *testing.T) {
	const pickup = "parts:\n  neck: {is: pickup/single-coil}\n  a: {is: capacitor/film, value: 4.7n}\n  b: {is: capacitor/film, value: 22n}\n  jack: {is: jack/mono}\n"
	for name, c := range map[string]struct{ joins, want string }{
		"track before a capacitor": {`  pot: {is: pot/dual-gang, track: 500k audio}
joins:
  - neck.coil.start, a.a -- pot.rear.cw
  - pot.rear.wiper, b.a -- pot.front.cw
  - pot.front.wiper -- jack.tip
  - neck.coil.finish, a.b, b.b -- jack.sleeve
`, "load"},
		"two capacitors": {`  pot: {is: pot/standard, track: 500k audio}
joins:
  - neck.coil.start, pot.wiper -- jack.tip
  - pot.cw -- a.a
  - pot.ccw -- b.a
  - neck.coil.finish, a.b, b.b -- jack.sleeve
`, "tone"},
	} {
		r := checked(t, pickup+c.joins).Rows[0]
		if len(r.Knobs) != 1 || r.Knobs[0].Does != c.want {
			t.Errorf("%s: %+v, want %q", name, r.Knobs, c.want)
		}
	}
}

// A pot with nothing at its wiper is a resistor: turning it changes nothing.
func TestFreeWiperTurnsNothing(t *testing.T) {
	c := checked(t, `parts:
  neck: {is: pickup/single-coil}
  pot: {is: pot/standard, track: 500k linear}
  jack: {is: jack/mono}
joins:
  - neck.coil.start, pot.cw -- jack.tip
  - neck.coil.finish, pot.ccw, pot.case -- jack.sleeve
`)
	if len(c.Rows[0].Knobs) != 0 || len(found(c, "knob-dead")) != 1 {
		t.Errorf("knobs %v, findings %v", c.Rows[0].Knobs, c.Findings)
	}
}

// A track that is cut at 10 may be what carries the sound below 10.
func TestNoLoadVolumeIsBackwards(t *testing.T) {
	c := checked(t, `parts:
  neck: {is: pickup/single-coil}
  pot: {is: pot/no-load, track: 500k linear}
  jack: {is: jack/mono}
joins:
  - neck.coil.start, pot.wiper -- pot.cw
  - pot.ccw -- jack.tip
  - neck.coil.finish, pot.case -- jack.sleeve
`)
	if r := c.Rows[0]; r.Output != proof.Open || len(r.Knobs) != 1 || r.Knobs[0].Does != "volume backwards" {
		t.Errorf("%s, knobs %v", r.Output, r.Knobs)
	}
}

// What only loads is no part of what is heard, also where it lies across two
// pickups and something else is in the way of a third.
func TestLoadAcrossPickups(t *testing.T) {
	c := checked(t, `parts:
  neck: {is: pickup/twin-coil}
  bridge: {is: pickup/twin-coil}
  middle: {is: pickup/single-coil}
  cap: {is: capacitor/film, value: 10n}
  r: {is: resistor/quarter-watt, value: 47k}
  jack: {is: jack/mono}
joins:
  - neck.north.start, bridge.north.start, r.a -- jack.tip
  - neck.north.finish, cap.a -- neck.south.finish
  - bridge.north.finish, cap.b -- bridge.south.finish
  - r.b -- middle.coil.start
  - neck.south.start, bridge.south.start, middle.coil.finish -- jack.sleeve
`)
	want := "(bridge.north series bridge.south) parallel (middle through 47k) parallel (neck.north series neck.south)"
	if got := c.Rows[0].Heard; got != want {
		t.Errorf("heard %q, want %q", got, want)
	}
}

// Two coils behind a bridge of resistors: each resistor is in the way with some
// choice of the others, and unlike ones keep hum from cancelling.
func TestBridgeOfResistors(t *testing.T) {
	loom := `parts:
  a: {is: pickup/single-coil}
  b: {is: pickup/single-coil, winding: anticlockwise, pole: south}
  r: {is: resistor/quarter-watt, value: 4.7k}
  s: {is: resistor/quarter-watt, value: 47k}
  x: {is: resistor/quarter-watt, value: 10k}
  jack: {is: jack/mono}
joins:
  - r.a, s.a -- jack.tip
  - r.b, x.a -- a.coil.start
  - s.b, x.b -- b.coil.start
  - a.coil.finish, b.coil.finish -- jack.sleeve
`
	r := checked(t, loom).Rows[0]
	if r.Heard != "mesh of a, b" || r.Phase != proof.InPhase || r.Hum != proof.Partly || len(r.LiveRuns) != 8 {
		t.Errorf("%q, %s, hum %s, runs %v", r.Heard, r.Phase, r.Hum, r.LiveRuns)
	}
	if r := checked(t, strings.Replace(loom, "47k", "4.7k", 1)).Rows[0]; r.Hum != proof.Cancels {
		t.Errorf("alike resistors: hum %s", r.Hum)
	}
}

// A knob that turns on and on has neighbours at its ends.
func TestSwitchThatTurnsAround(t *testing.T) {
	for around, want := range map[string]int{"yes": 2, "no": 1} {
		shelf := part.Shelf{Name: "shelf", FS: fstest.MapFS{"switch/round.yaml": {Data: []byte(`loomwright-part: 1
name: switch without a stop
class: switch
terminals: {a: , a.1: , a.2: , a.3: }
switches:
  knob:
    positions: {"1": , "2": , "3": }
    around: ` + around + `
    poles: {a: {common: a, throws: [a.1, a.2, a.3]}}
`)}}}
		c := bench.New(shelf).Check("loom.yaml", `loomwright: 1
parts:
  a: {is: pickup/single-coil}
  knob: {is: switch/round}
  jack: {is: jack/mono}
joins:
  - a.coil.start -- knob.a.1
  - knob.a -- jack.tip
  - a.coil.finish -- jack.sleeve
`)
		if len(c.Rows) != 3 || len(c.Rows[0].Travel) != want {
			t.Errorf("around: %s: %v", around, c.Rows)
		}
	}
}
