package proof_test

import (
	"strings"
	"testing"

	"loomwright/internal/bench"
)

const oneTwinCoil = `parts:
  bridge: {is: pickup/twin-coil}
  link: {is: splice/joint}
  volume: {is: pot/standard, track: 500k audio}
  strings: {is: ground/string}
  jack: {is: jack/mono}
joins:
  - bridge.north.start -- volume.cw
  - bridge.north.finish -- link.joint
  - bridge.south.finish -- link.joint
  - bridge.south.start -- volume.case
  - bridge.shield -- volume.case
  - volume.ccw -- volume.case
  - strings.wire -- volume.case
  - volume.wiper -- jack.tip: screened, braid volume.case -- jack.sleeve
sounds:
  - {hear: bridge.north series bridge.south}
`

func replaced(t *testing.T, old, new string) string {
	t.Helper()
	if strings.Count(oneTwinCoil, old) != 1 {
		t.Fatalf("%q is not in the loom once", old)
	}
	return strings.Replace(oneTwinCoil, old, new, 1)
}

// one asks for exactly one finding of a code, with a word in its message, on a
// line.
func one(t *testing.T, c bench.Checked, code, line, word string) {
	t.Helper()
	got := found(c, code)
	if len(got) != 1 || lineOf(c, got[0]) != line || !strings.Contains(got[0].Message, word) {
		t.Errorf("%s: got %v, want one on the line %q that says %q", code, got, line, word)
	}
}

func TestSoundLoomHasNoFindings(t *testing.T) {
	for _, d := range checked(t, oneTwinCoil).Findings {
		if d.Code != "ground-loop" {
			t.Errorf("unexpected: %v", d)
		}
	}
}

// One slip each, and the finding that should name it.
func TestOneSlip(t *testing.T) {
	for _, slip := range []struct{ name, old, new, code, line, word string }{
		{"a lead left out", "  - bridge.south.start -- volume.case\n", "",
			"join-suspect", "bridge: {is: pickup/twin-coil}", "between bridge.south.start and"},
		{"a coil's leads swapped", "bridge.south.finish -- link.joint\n  - bridge.south.start", "bridge.south.start -- link.joint\n  - bridge.south.finish",
			"join-suspect", "- bridge.south.start -- link.joint", "changed places"},
		{"hot wire on the case", "volume.wiper -- jack.tip", "volume.case -- jack.tip",
			"join-suspect", "- volume.case -- jack.tip: screened, braid volume.case -- jack.sleeve", "volume.wiper instead of volume.case"},
		{"a blob of solder", "  - bridge.shield", "  - bridge.north.finish -- bridge.north.start\n  - bridge.shield",
			"join-suspect", "- bridge.north.finish -- bridge.north.start", "without this wire"},
		{"a braid cut at both ends", ": screened, braid volume.case -- jack.sleeve", ": screened\n  - volume.case -- jack.sleeve",
			"ground-missing", "- volume.wiper -- jack.tip: screened", "the braid from volume.wiper to jack.tip"},
		{"a coil heard alone", "hear: bridge.north series bridge.south", "hear: bridge.north",
			"sound-missed", "- {hear: bridge.north}", "bridge.south is heard too"},
		{"coils joined otherwise", "hear: bridge.north series bridge.south", "hear: bridge.north parallel bridge.south",
			"sound-missed", "- {hear: bridge.north parallel bridge.south}", "the same coils, joined otherwise"},
	} {
		t.Run(slip.name, func(t *testing.T) {
			one(t, checked(t, replaced(t, slip.old, slip.new)), slip.code, slip.line, slip.word)
		})
	}
}

// A volume that is full at 0 is one finding, not a short and a guess besides.
func TestBackwardVolumeIsNamedOnce(t *testing.T) {
	c := checked(t, strings.NewReplacer("-- volume.cw", "-- volume.ccw", "volume.ccw --", "volume.cw --").Replace(oneTwinCoil))
	one(t, c, "volume-backwards", "- bridge.north.start -- volume.ccw", "full at 0")
	for _, code := range []string{"hot-shorted", "join-suspect", "coil-unused"} {
		if got := found(c, code); len(got) > 0 {
			t.Errorf("besides: %v", got)
		}
	}
}

const twoCoils = `parts:
  neck: {is: pickup/single-coil, winding: anticlockwise}
  bridge: {is: pickup/single-coil}
  volume: {is: pot/standard, track: 500k audio}
  jack: {is: jack/mono}
joins:
  - bridge.coil.start -- volume.cw
  - neck.coil.start -- volume.cw
  - bridge.coil.finish, neck.coil.finish, volume.ccw, jack.sleeve -- volume.case
  - volume.wiper -- jack.tip
`

// The finding about phase stands where the reversed coil is soldered; hum that
// does not cancel is not called another sound.
func TestPhaseAndHum(t *testing.T) {
	one(t, checked(t, twoCoils), "out-of-phase", "- neck.coil.start -- volume.cw", "against each other")
	alike := strings.Replace(twoCoils, ", winding: anticlockwise", "", 1)
	c := checked(t, alike+"sounds:\n  - {hear: neck parallel bridge, hum: cancels}\n")
	one(t, c, "sound-missed", "- {hear: neck parallel bridge, hum: cancels}", "is heard as wanted, but hum is to cancel")
}

const tabsApart = `parts:
  neck: {is: pickup/single-coil}
  bridge: {is: pickup/single-coil}
  toggle: {is: switch/toggle-3way-separate}
  volume: {is: pot/standard, track: 500k audio}
  jack: {is: jack/mono}
joins:
  - neck.coil.start -- toggle.b.neck
  - bridge.coil.start -- toggle.a.bridge
  - neck.coil.finish, bridge.coil.finish, volume.ccw, toggle.case, jack.sleeve -- volume.case
  - toggle.a -- volume.cw
  - volume.wiper -- jack.tip
sounds:
  - {with: toggle bridge, hear: bridge}
  - {with: toggle middle, hear: neck parallel bridge}
  - {with: toggle neck, hear: neck}
`

// A missing jumper is looked for on one part first.
func TestMissingJumperIsOnOnePart(t *testing.T) {
	one(t, checked(t, tabsApart), "join-suspect", "- toggle.a -- volume.cw", "between toggle.a and toggle.b")
}

const blendTwoSlips = `parts:
  neck: {is: pickup/single-coil}
  bridge: {is: pickup/single-coil}
  blend: {is: pot/blend}
  volume: {is: pot/standard, track: 500k audio}
  jack: {is: jack/mono}
joins:
  - neck.coil.start -- blend.rear.wiper
  - bridge.coil.start -- blend.front.wiper
  - neck.coil.finish, bridge.coil.finish, volume.ccw, jack.sleeve, blend.case -- volume.case
  - blend.rear.ccw, blend.front.cw -- blend.case
  - blend.rear.cw -- blend.front.ccw
  - blend.rear.cw -- volume.cw
  - volume.wiper -- jack.tip
sounds:
  - {hear: neck parallel bridge}
`

// Two slips at once have no single suspect; a change that would put a case on
// hot is not proposed.
func TestNoSuspectThatMakesAnotherMistake(t *testing.T) {
	c := checked(t, blendTwoSlips)
	if got := found(c, "join-suspect"); len(got) > 0 {
		t.Errorf("got %v", got)
	}
	if len(found(c, "sound-missed")) != 1 {
		t.Errorf("the miss itself is not found: %v", c.Findings)
	}
}
