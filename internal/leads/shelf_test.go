package leads_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"loomwright/internal/diag"
	"loomwright/internal/leads"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/wiring"
	"loomwright/library"
)

// shelf is a library with one more file on the user's shelf.
func shelf(file, text string) *part.Library {
	return part.NewLibrary(part.Shelf{Name: "shelf", FS: fstest.MapFS{file: {Data: []byte(text)}}},
		part.Shelf{Name: "library", FS: library.Files})
}

// A found code is a lead code file that the loom file reads, and its leads are
// the coil ends of the part.
func TestFoundCodeGoesOnTheShelf(t *testing.T) {
	order := []string{"violet", "pink", "white / blue", "orange"}
	p := twin(order, true, true)
	f, _ := play(t, leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: order, Bare: "bare", Plate: true, Compass: true}}, p)
	text := f.Code("Godwit bridge, \"old\"")
	lib := shelf("codes/found.yaml", text)
	code, list := lib.Code("found")
	if code == nil || len(list) > 0 {
		t.Fatalf("%v\n%s", list, text)
	}
	l, more := loom.Read(diag.NewText("x", `loomwright: 1
parts:
  bridge: {is: pickup/twin-coil, code: found}
  jack:   {is: jack/mono}
joins:
  - bridge.violet -- jack.tip
  - bridge.pink   -- bridge.orange
  - bridge.bare   -- jack.sleeve
`), lib)
	if l == nil {
		t.Fatal(more)
	}
	g, bad := wiring.Build(l)
	if bad.HasErrors() {
		t.Fatal(bad)
	}
	at := func(name string) int {
		i, ok := g.Find(name)
		if !ok {
			t.Fatalf("no terminal %q", name)
		}
		return i
	}
	if at("bridge.violet") != at("bridge.north.start") || at("bridge.orange") != at("bridge.south.finish") || at("bridge.bare") != at("bridge.shield") {
		t.Errorf("leads are not the ends that they were:\n%s", text)
	}
}

// Codes of all makes and of unsound pickups can be read.
func TestAllCodesCanBeRead(t *testing.T) {
	for _, c := range []struct {
		pickup leads.Pickup
		real   *pickup
	}{
		{leads.Pickup{Make: leads.Single, Leads: []string{"brown", "blue"}}, &pickup{coils: []winding{{start: "brown", finish: "blue", clockwise: true, north: true, kohms: 6}}, stacked: true}},
		{leads.Pickup{Make: leads.TwoLead, Leads: []string{"yellow", "braid"}, Plate: true}, &pickup{metal: map[string]string{"baseplate": "braid"},
			coils: []winding{{start: "yellow", finish: "x", clockwise: true, north: true, kohms: 4}, {start: "braid", finish: "x", clockwise: true, kohms: 4}}}},
		{leads.Pickup{Make: leads.Tapped, Leads: []string{"brown", "blue", "pink"}}, &pickup{stacked: true,
			coils: []winding{{start: "brown", finish: "blue", clockwise: true, north: true, kohms: 4}, {start: "blue", finish: "pink", clockwise: true, north: true, kohms: 3}}}},
		{leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Part: "pickup/stacked", Names: []string{"upper", "lower"}}, twin(fourLeads, true, true)},
		{leads.Pickup{Make: leads.Twin, Leads: fourLeads, Part: "pickup/split-bass", Names: []string{"low", "high"}}, twin(fourLeads, true, true)},
		{leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Plate: true}, func() *pickup {
			p := twin(fourLeads, true, true)
			p.coils[0].open = true
			p.metal["bare"], p.metal["baseplate"] = "orange", "orange"
			return p
		}()},
	} {
		f, _ := play(t, leads.State{Pickup: c.pickup}, c.real)
		if c.pickup.Part != "" && f.Part != c.pickup.Part {
			t.Errorf("the code is for %s, not %s", f.Part, c.pickup.Part)
		}
		text := f.Code("found")
		lib := shelf("codes/found.yaml", text)
		l, list := loom.Read(diag.NewText("x", fmt.Sprintf("loomwright: 1\nparts:\n  one: {is: %s, code: found}\n  jack: {is: jack/mono}\n", f.Part)), lib)
		if l == nil || list.HasErrors() {
			t.Errorf("%s: %v\n%s", c.pickup.Make, list, text)
		}
	}
}

// A right code is confirmed, a wrong one is refuted, and the leads are found all
// the same.
func TestBelievedCodes(t *testing.T) {
	code := func(text string) *part.Code {
		c, list := shelf("codes/it.yaml", "loomwright-code: 1\nleads:\n"+text).Code("it")
		if c == nil {
			t.Fatal(list)
		}
		return c
	}
	right := code("  pink: north.start\n  grey: north.finish\n  orange: south.start\n  violet: south.finish\n  bare: shield\n")
	maker := code("  pink: hot\n  grey: link\n  orange: ground\n  violet: link\n  bare: shield\n")
	described := leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Plate: true}
	for _, c := range []struct {
		name  string
		code  *part.Code
		order []string
		holds bool
	}{
		{"a right one", right, fourLeads, true},
		{"a right one in a maker's words", maker, fourLeads, true},
		{"one coil turned", right, []string{"pink", "grey", "violet", "orange"}, false},
		{"coils exchanged", right, []string{"orange", "violet", "pink", "grey"}, false},
		{"another colour chart", right, []string{"pink", "orange", "grey", "violet"}, false},
	} {
		p := twin(c.order, true, true)
		f, n := play(t, leads.Believe(leads.State{Pickup: described}, c.code), p)
		if f.Right == nil || *f.Right != c.holds {
			t.Errorf("%s: %s", c.name, f.Says)
		}
		checkEnds(t, f, p, []string{"north", "south"})
		t.Logf("%s: %d questions and %d safety readings", c.name, n.plain, n.safety)
	}
}

// Every switch of the library, taken for unknown: the contact table that is
// found is the one in its part file, and the part file that is written can be
// read and says the same.
func TestSwitchesOfTheLibrary(t *testing.T) {
	lib := part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
	tried := 0
	for _, id := range lib.IDs() {
		if !strings.HasPrefix(id, "switch/") {
			continue
		}
		p, list := lib.Part(id)
		if p == nil {
			t.Fatal(list)
		}
		if len(p.Switches) != 1 {
			continue
		}
		tried++
		asked := findSwitch(t, id, p)
		n, positions := len(p.Terminals), len(p.Switches[0].Positions)
		t.Logf("%s: %d lugs, %d positions: %d sweeps", id, n, positions, asked)
	}
	if tried < 30 {
		t.Errorf("only %d switches tried", tried)
	}
}

func findSwitch(t *testing.T, id string, p *part.Part) int {
	t.Helper()
	s := leads.SwitchState{Lugs: p.TerminalNames()}
	for _, pos := range p.Switches[0].Positions {
		s.Positions = append(s.Positions, pos.Name)
	}
	asked := 0
	for {
		step, err := leads.NextOfSwitch(s)
		if err != nil {
			t.Fatal(err)
		}
		if step.Question == nil {
			checkSwitch(t, id, p, step.Found)
			return asked
		}
		q := step.Question
		asked++
		a := leads.Sweep{Position: q.Position, On: q.On, Over: q.Over}
		for _, lug := range q.Over {
			if table(p)[q.Position][pairOf(q.On, lug)] {
				a.Meet = append(a.Meet, lug)
			}
		}
		s = s.With(a)
	}
}

func pairOf(a, b string) string {
	if b < a {
		a, b = b, a
	}
	return a + " " + b
}

// table lists for every position of a part's switch the pairs that meet.
func table(p *part.Part) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	s := &p.Switches[0]
	for i, pos := range s.Positions {
		out[pos.Name] = map[string]bool{}
		for _, pole := range s.Poles {
			for _, group := range pole.Contacts[i] {
				for _, a := range group {
					for _, b := range group {
						if a != b {
							out[pos.Name][pairOf(p.Terminals[a].Name, p.Terminals[b].Name)] = true
						}
					}
				}
			}
		}
	}
	return out
}

func checkSwitch(t *testing.T, id string, p *part.Part, f *leads.FoundSwitch) {
	t.Helper()
	text := f.Part("found: " + p.Name)
	if !strings.Contains(f.Text(), p.Switches[0].Positions[0].Name+": ") {
		t.Errorf("%s: %s", id, f.Text())
	}
	back, list := shelf("switch/found.yaml", text).Part("switch/found")
	if back == nil || len(list) > 0 {
		t.Fatalf("%s: %v\n%s", id, list, text)
	}
	if got, want := fmt.Sprint(table(back)), fmt.Sprint(table(p)); got != want {
		t.Errorf("%s: found\n%s\nit is\n%s", id, got, want)
	}
	for _, pole := range p.Switches[0].Poles {
		name := p.Terminals[max(0, pole.Common)].Name
		if pole.Common >= 0 && !slices.ContainsFunc(f.Poles, func(x leads.Pole) bool { return slices.Contains(x.Lugs, name) }) {
			t.Errorf("%s: the common %s is on no pole", id, name)
		}
	}
}

func TestSwitchRefusals(t *testing.T) {
	good := leads.SwitchState{Lugs: []string{"1", "2"}, Positions: []string{"up", "down"}}
	for _, s := range []leads.SwitchState{
		{}, {Lugs: []string{"1", "1"}, Positions: []string{"up", "down"}}, {Lugs: []string{"1", "2"}, Positions: []string{"up"}},
		good.With(leads.Sweep{Position: "middle", On: "1", Over: []string{"2"}}), good.With(leads.Sweep{Position: "up", On: "1", Over: []string{"3"}}),
		good.With(leads.Sweep{Position: "up", On: "1", Over: []string{"2"}, Meet: []string{"1"}}),
	} {
		if _, err := leads.NextOfSwitch(s); err == nil {
			t.Errorf("%+v is taken", s)
		}
	}
}
