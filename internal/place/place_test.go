package place

import (
	"fmt"
	"io/fs"
	"testing"

	"loomwright/examples"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/scene"
	"loomwright/internal/wiring"
	"loomwright/library"
)

func graphOf(t *testing.T, name, text string) *wiring.Graph {
	t.Helper()
	l, list := loom.Read(diag.NewText(name, text), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
	if l == nil {
		t.Fatalf("%s: %v", name, list)
	}
	g, list := wiring.Build(l)
	if list.HasErrors() {
		t.Fatal(list)
	}
	return g
}

const head = "loomwright: 1\nparts:\n  bridge: {is: pickup/twin-coil, code: dunlin}\n  volume: {is: pot/standard, track: 500k audio}\n" +
	"  tone: {is: pot/standard, track: 500k audio}\n  cap: {is: capacitor/film, value: 22n}\n  jack: {is: jack/mono}\njoins:\n"

// TestStrands: what pieces of wire joins become.
func TestStrands(t *testing.T) {
	for _, c := range []struct {
		name, joins     string
		strands, splice int
		check           func(s []Strand, g *wiring.Graph) string
	}{
		{"a lead needs no wire", "  - bridge.orange -- volume.cw\n", 1, 0, func(s []Strand, g *wiring.Graph) string {
			if s[0].Lead != s[0].A.Term || g.Terms[s[0].A.Term].Name != "bridge.orange" {
				return "it does not start with the lead"
			}
			return ""
		}},
		{"the lead comes first either way", "  - volume.cw -- bridge.orange\n", 1, 0, func(s []Strand, g *wiring.Graph) string {
			if g.Terms[s[0].A.Term].Name != "bridge.orange" {
				return "it does not start with the lead"
			}
			return ""
		}},
		{"two leads meet in a splice", "  - bridge.pink -- bridge.blue\n", 2, 1, func(s []Strand, _ *wiring.Graph) string {
			if s[0].Run != 0 || s[1].Run != 0 || s[0].B.Splice != 0 || s[1].B.Splice != 0 {
				return fmt.Sprint(s)
			}
			return ""
		}},
		{"a wire goes on from a splice", "  - bridge.pink -- bridge.blue\n  - bridge.blue -- volume.cw\n", 3, 1, func(s []Strand, _ *wiring.Graph) string {
			if s[2].Lead >= 0 || s[2].A.Splice != 0 {
				return fmt.Sprint(s[2])
			}
			return ""
		}},
		{"splices that a join ties become one", "  - bridge.pink -- bridge.blue\n  - bridge.orange -- bridge.violet\n  - bridge.pink -- bridge.orange\n", 4, 1, nil},
		{"a lead is soldered once: then wire", "  - cap.a -- volume.cw\n  - cap.a -- tone.cw\n", 2, 0, func(s []Strand, g *wiring.Graph) string {
			if s[1].Lead >= 0 || g.Terms[s[1].A.Term].Name != "volume.cw" || g.Terms[s[1].B.Term].Name != "tone.cw" {
				return fmt.Sprint(s[1])
			}
			return ""
		}},
		{"a screened run has its braid's ends", "  - volume.wiper -- jack.tip: screened, braid volume.case -- jack.sleeve\n", 3, 0, func(s []Strand, _ *wiring.Graph) string {
			if s[1].Core != 0 || s[1].Far || s[2].Core != 0 || !s[2].Far {
				return fmt.Sprint(s[1:])
			}
			return ""
		}},
		{"a braid at the far end only", "  - volume.wiper -- jack.tip: screened, braid jack.sleeve\n", 2, 0, func(s []Strand, _ *wiring.Graph) string {
			if !s[1].Far {
				return "it parts at the near end"
			}
			return ""
		}},
		{"a braid named from the other end", "  - jack.tip -- volume.wiper: screened, braid volume.case -- jack.sleeve\n", 3, 0, func(s []Strand, _ *wiring.Graph) string {
			if !s[1].Far || s[2].Far {
				return fmt.Sprint(s[1:])
			}
			return ""
		}},
		{"twisted wires pair", "  - volume.wiper -- jack.tip: twisted\n  - jack.sleeve -- volume.case: twisted\n", 2, 0, func(s []Strand, g *wiring.Graph) string {
			if s[1].Pair != 0 || g.Terms[s[1].A.Term].Name != "volume.case" {
				return fmt.Sprint(s[1])
			}
			return ""
		}},
		{"what touches has no wire", "  - volume.case -- tone.case: touching\n", 0, 0, nil},
	} {
		g := graphOf(t, c.name, head+c.joins)
		strands, splices := strandsOf(g)
		if len(strands) != c.strands || len(splices) != c.splice {
			t.Errorf("%s: %d strands, %d splices", c.name, len(strands), len(splices))
			continue
		}
		if c.check != nil {
			if says := c.check(strands, g); says != "" {
				t.Errorf("%s: %s", c.name, says)
			}
		}
	}
}

// TestNothingOverlaps: in every plan of every example parts keep apart, and
// each terminal lies where its part's file has it, turned and enlarged.
func TestNothingOverlaps(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 20 {
		t.Fatalf("%d examples (%v)", len(names), err)
	}
	for _, name := range names {
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		g := graphOf(t, name, string(data))
		plans, list := Lay(g, Options{})
		if len(plans) == 0 || len(list) > 0 {
			t.Fatalf("%s: %d plans, %v", name, len(plans), list)
		}
		for i := range plans {
			apart(t, name, &plans[i])
			inPlace(t, name, g, &plans[i])
		}
	}
}

func apart(t *testing.T, name string, p *Plan) {
	t.Helper()
	for i := range p.Parts {
		if !p.Box.Contains(p.Parts[i].Box) && !p.Parts[i].Box.Empty() {
			t.Errorf("%s: part %d is outside of the plan", name, i)
		}
		for k := range p.Parts[:i] {
			if p.Parts[i].Box.Overlaps(p.Parts[k].Box) {
				t.Errorf("%s: parts %d and %d overlap", name, i, k)
			}
		}
	}
}

func inPlace(t *testing.T, name string, g *wiring.Graph, p *Plan) {
	t.Helper()
	for i, term := range g.Terms {
		s := &p.Spots[i]
		if s.Part < 0 || s.InFan || term.Terminal < 0 || s.Kind == "lead" {
			continue
		}
		at, q := g.Loom.Uses[term.Use].Part.Terminals[term.Terminal].At, &p.Parts[s.Part]
		turned := turnPoint(scene.Pt(at[0]*q.Scale, at[1]*q.Scale), q.Turn)
		if s.At.Dist(q.At.Add(turned)) > 1e-9 {
			t.Errorf("%s: %s is at %v", name, term.Name, s.At)
		}
	}
}

// TestSwitchesStand: what the part files call left and upper stays so.
func TestSwitchesStand(t *testing.T) {
	g := graphOf(t, "toggle", "loomwright: 1\nparts:\n  t: {is: switch/dpdt-on-on}\n  l: {is: switch/lever-5way}\n  volume: {is: pot/standard}\n  jack: {is: jack/mono}\n"+
		"joins:\n  - t.a -- volume.cw\n  - t.b.up -- l.b.2\n  - l.a -- volume.wiper\n  - volume.ccw -- jack.tip\n")
	plans, _ := Lay(g, Options{})
	for i := range plans {
		for k := range 2 {
			if turn := plans[i].Parts[k].Turn; turn != 0 {
				t.Errorf("plan %d: switch %d is turned %d quarters", i, k, turn)
			}
		}
	}
}

// TestDenseBlocksAreEnlarged: a block of lugs nearer than two lanes, and no
// other part.
func TestDenseBlocksAreEnlarged(t *testing.T) {
	for id, want := range map[string]bool{
		"switch/dpdt-on-on": true, "switch/4pdt": true, "pot/push-pull-pads": true,
		"pot/standard": false, "switch/lever-5way": false, "switch/lever-5way-inline": false, "switch/spdt-on-on": false,
	} {
		g := graphOf(t, id, "loomwright: 1\nparts:\n  x: {is: "+id+"}\n  jack: {is: jack/mono}\n")
		plans, _ := Lay(g, Options{})
		if got := plans[0].Parts[0].Scale > 1; got != want {
			t.Errorf("%s is drawn %g times its size", id, plans[0].Parts[0].Scale)
		}
	}
}

// TestTurns: quarter turns of exits and places agree.
func TestTurns(t *testing.T) {
	for q := range 4 {
		e := Exits(1).Turned(q)
		if p := turnPoint(scene.Pt(1, 0), q); e != 1<<q || p.Dist(scene.Toward(90*float64(q))) > 1e-12 {
			t.Errorf("%d quarters: exits %04b, place %v", q, e, p)
		}
	}
}

// TestPlaceFindings: parts on one spot and odd turns are told.
func TestPlaceFindings(t *testing.T) {
	g := graphOf(t, "x", head+"  - volume.cw -- tone.cw\nplace:\n  volume: [10, 10, 0.4]\n  tone: [12, 12]\n")
	_, list := Lay(g, Options{})
	codes := map[string]int{}
	for _, d := range list {
		codes[d.Code]++
	}
	if codes["place-turn"] != 1 || codes["place-overlap"] != 1 {
		t.Error(list)
	}
}

// TestBareShelfPart: a part file without places or outline gets a row of lugs.
func TestBareShelfPart(t *testing.T) {
	p := &part.Part{Terminals: []part.Terminal{{Name: "a", Kind: "lug"}, {Name: "b", Kind: "lug"}}}
	f := newForm(p, 1)
	if f.spots[0].At == f.spots[1].At || f.box.Empty() || len(f.shapes) != 1 {
		t.Errorf("%+v", f)
	}
}
