package loom_test

import (
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/library"
)

func read(t *testing.T, text string) (*loom.Loom, diag.List) {
	t.Helper()
	return loom.Read(diag.NewText("loom.yaml", "loomwright: 1\n"+text), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
}

func mustRead(t *testing.T, text string) *loom.Loom {
	t.Helper()
	l, list := read(t, text)
	if l == nil {
		t.Fatal(list)
	}
	return l
}

// TestNamesInSounds: a pickup of one coil is its coil; one of several is its
// customary full sound, or one of its coils.
func TestNamesInSounds(t *testing.T) {
	l := mustRead(t, "parts:\n  neck: {is: pickup/single-coil}\n  bridge: {is: pickup/twin-coil}\n  jack: {is: jack/mono}\n"+
		"sounds:\n  - {hear: reversed bridge parallel neck}\n")
	if got, want := l.Sounds[0].Hear.String(), "neck parallel (reversed bridge.north series reversed bridge.south)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for name, want := range map[string]string{"neck": "neck", "bridge": "bridge.north series bridge.south", "bridge.south": "bridge.south"} {
		if got := l.FullSound(name).String(); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
}

// TestMeasuredOhms: one number is the whole pickup's: half for each of two
// coils in series; a number for a coil is that coil's.
func TestMeasuredOhms(t *testing.T) {
	l := mustRead(t, "parts:\n  a: {is: pickup/twin-coil, ohms: 8k}\n  b: {is: pickup/twin-coil, ohms: {south: 4.4k}}\n"+
		"  c: {is: pickup/single-coil, ohms: 6.2k 1%}\n  d: {is: pickup/twin-coil, ohms: unknown}\n  jack: {is: jack/mono}\n")
	coil := func(use, coil int) part.Range { return l.Uses[use].Part.Coils[coil].Ohms }
	for _, c := range []struct {
		got, want part.Range
	}{
		{coil(0, 0), part.Range{Typical: 4000, Lo: 3800, Hi: 4200, Known: true}},
		{coil(1, 1), part.Range{Typical: 4400, Lo: 4180, Hi: 4620, Known: true}},
		{coil(2, 0), part.Range{Typical: 6200, Lo: 6138, Hi: 6262, Known: true}},
	} {
		if c.got != c.want {
			t.Errorf("%+v, want %+v", c.got, c.want)
		}
	}
	if coil(1, 0).Known || coil(3, 0).Known {
		t.Errorf("what nobody measured is called known: %+v, %+v", coil(1, 0), coil(3, 0))
	}
}

// TestSensitivity: one number is the whole pickup's, half of the voltage for
// each of two coils in series; a number for a coil is that coil's; what the file
// does not state is the part's.
func TestSensitivity(t *testing.T) {
	l := mustRead(t, "parts:\n  a: {is: pickup/twin-coil, sensitivity: 1.8}\n  b: {is: pickup/stacked, sensitivity: {lower: 0.1}}\n"+
		"  c: {is: pickup/single-coil, sensitivity: 1.2}\n  jack: {is: jack/mono}\n")
	for _, c := range []struct {
		use, coil int
		want      float64
	}{{0, 0, 0.9}, {0, 1, 0.9}, {1, 0, 0}, {1, 1, 0.1}, {2, 0, 1.2}} {
		if got := l.Uses[c.use].Part.Coils[c.coil].Sensitivity; got != c.want {
			t.Errorf("coil %d of part %d: %g, want %g", c.coil, c.use, got, c.want)
		}
	}
}

// TestLibraryIsNotChanged: values of one loom are not left in the library.
func TestLibraryIsNotChanged(t *testing.T) {
	lib := part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
	read := func(values string) *loom.Loom {
		l, list := loom.Read(diag.NewText("a", "loomwright: 1\nparts:\n  a: {is: pickup/twin-coil"+values+"}\n  v: {is: pot/standard"+
			strings.Replace(values, ", winding: unknown, coupling: 0.5", ", track: 500k audio", 1)+"}\n  jack: {is: jack/mono}\n"), lib)
		if l == nil {
			t.Fatal(list)
		}
		return l
	}
	before := read("")
	read(", winding: unknown, coupling: 0.5")
	after := read("")
	if before.Uses[0].Part.Coils[0].Winding != after.Uses[0].Part.Coils[0].Winding || before.Uses[0].Part.Couplings[0] != after.Uses[0].Part.Couplings[0] ||
		after.Uses[1].Part.Tracks[0].Value.Ohms.X != 0 {
		t.Errorf("%+v %+v", after.Uses[0].Part.Coils[0], after.Uses[1].Part.Tracks[0])
	}
}

func TestWires(t *testing.T) {
	l := mustRead(t, "parts:\n  v: {is: pot/standard, track: 500k audio}\n  jack: {is: jack/mono}\njoins:\n"+
		"  - v.cw, v.case -- jack.sleeve: sleeved, white, 22 AWG\n  - v.wiper -- jack.tip: screened, twisted, braid v.case\n  - v.ccw -- v.case: touching\n")
	first, second := l.Joins[0].Runs, l.Joins[1].Runs[0]
	if len(first) != 2 || first[1].A.Name != "v.case" || first[1].Wire.Colour != "white" || !first[0].Wire.Sleeved || first[0].Wire.Kind != loom.Hookup {
		t.Errorf("%+v", first)
	}
	if second.Wire.Kind != loom.Screened || !second.Wire.Twisted || second.Braid == nil || second.Braid.A.Name != "v.case" || second.Braid.B != nil {
		t.Errorf("%+v", second)
	}
	if k := l.Joins[2].Runs[0].Wire.Kind; k != loom.Touching {
		t.Errorf("kind %q", k)
	}
}

func TestSettingsOfASound(t *testing.T) {
	l := mustRead(t, "parts:\n  neck: {is: pickup/single-coil}\n  lever: {is: switch/lever-5way}\n  v: {is: pot/push-pull-lugs}\n  jack: {is: jack/mono}\n"+
		"sounds:\n  - {with: \"lever toward neck, v pulled\", hear: neck}\n  - {with: lever 2, hear: any, phase: free, hum: cancels}\n  - {hear: silent, phase: fixed}\n")
	want := [][]loom.At{{{Use: 1, Switch: 0, Position: 3}, {Use: 2, Switch: 0, Position: 1}}, {{Use: 1, Switch: 0, Position: 1}}, nil}
	for i, s := range l.Sounds {
		if len(s.With) != len(want[i]) {
			t.Fatalf("sound %d with %v, want %v", i, s.With, want[i])
		}
		for k := range s.With {
			if s.With[k] != want[i][k] {
				t.Errorf("sound %d with %v, want %v", i, s.With, want[i])
			}
		}
	}
	if s := l.Sounds[1]; !s.FreePhase || !s.HumFree || s.Fixed || !l.Sounds[2].Fixed {
		t.Errorf("%+v, %+v", s, l.Sounds[2])
	}
}

// TestPlacesInQuotedText: what a finding points to is right behind a quotation
// mark, too, and after letters of more than one byte.
func TestPlacesInQuotedText(t *testing.T) {
	_, list := read(t, "parts:\n  hülse: {is: splice/joint}\n  jack: {is: jack/mono}\njoins:\n  - \"hülse.joint -- hülse.jiont\"\n  - 'hülse.joint  --  jak.tip'\n")
	want := []diag.Span{{File: "loom.yaml", Start: diag.Pos{Line: 6, Col: 21}, End: diag.Pos{Line: 6, Col: 32}}, {File: "loom.yaml", Start: diag.Pos{Line: 7, Col: 23}, End: diag.Pos{Line: 7, Col: 30}}}
	if len(list) != len(want) {
		t.Fatal(list)
	}
	for i, d := range list {
		if d.Span != want[i] {
			t.Errorf("%s at %v, want %v", d.Message, d.Span, want[i])
		}
	}
}
