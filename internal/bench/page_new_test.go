package bench

import (
	"fmt"
	"io/fs"
	"reflect"
	"strings"
	"testing"

	"loomwright/internal/leads"
	"loomwright/starts"
)

// TestWording reads wordings as makers write them. The colours are invented.
func TestWording(t *testing.T) {
	b := New()
	for _, c := range []struct{ part, text, want string }{
		{"pickup/twin-coil", "orange is the start of the screw coil, pink its finish; blue is start of the slug coil, violet its finish. Bare is ground.",
			"orange:south.start pink:south.finish blue:north.start violet:north.finish bare:shield"},
		{"pickup/twin-coil", "hot: orange\nviolet is ground\npink and blue are soldered together\nbare wire to ground",
			"orange:hot violet:ground pink:link blue:link bare:shield"},
		{"pickup/twin-coil", "Yellow = hot, braid = ground", "yellow:hot braid:ground+shield inside link"},
		{"pickup/twin-coil", "north start orange, north finish pink, south finish blue, south start violet", "orange:north.start pink:north.finish blue:south.finish violet:south.start"},
		{"pickup/single-coil", "white is the start, grey the finish", "white:coil.start grey:coil.finish"},
		{"pickup/twin-coil", "orange is nice, pink unknown", "pink: left orange is nice"},
	} {
		w := b.Wording(c.part, c.text)
		var got []string
		for _, l := range w.Leads {
			got = append(got, l.Lead+":"+strings.Join(l.Ends, "+"))
		}
		for _, in := range w.Inside {
			got = append(got, "inside "+strings.Join(in, " "))
		}
		for _, l := range w.Left {
			got = append(got, "left "+l)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, s, c.want)
		}
	}
}

// TestComposeStarts puts every start together from its parts again: it proves
// as it did, and its own table of sounds is offered.
func TestComposeStarts(t *testing.T) {
	b := New()
	found, err := fs.Glob(starts.Files, "*.yaml")
	if err != nil || len(found) < 12 {
		t.Fatal(found, err)
	}
	for _, s := range Starts() {
		was := b.Check(s.Name, s.Text)
		p := Plan{Title: was.Title, Sounds: soundsOf(was.Graph.Loom, s.Text)}
		for _, u := range was.Graph.Loom.Uses {
			p.Parts = append(p.Parts, PlanPart{Name: u.Name, Is: u.Part.ID})
		}
		c, err := b.Compose(&p)
		if err != nil || len(c.LeftOut) > 0 {
			t.Errorf("%s: %v, left out %v", s.Name, err, c.LeftOut)
			continue
		}
		is := b.Check(s.Name, c.Text)
		if wishes(is) != wishes(was) {
			t.Errorf("%s asks\n%swhere the start asks\n%s", s.Name, wishes(is), wishes(was))
		}
		has := false
		for _, table := range c.Tables {
			has = has || reflect.DeepEqual(table.Sounds, p.Sounds)
		}
		if !has {
			t.Errorf("%s: its table is not offered: %v", s.Name, c.Tables)
		}
	}
}

func wishes(c Checked) string {
	var out strings.Builder
	for _, r := range c.Rows {
		fmt.Fprint(&out, r.Name, ": ")
		if r.Wanted != nil {
			out.WriteString(r.Wanted.Sound)
		}
		out.WriteString("\n")
	}
	return out.String()
}

// TestComposeLeavesOut leaves out what the parts do not have, and says so.
func TestComposeLeavesOut(t *testing.T) {
	p := Plan{Title: `A "title": odd`, Parts: []PlanPart{{Name: "bridge", Is: "pickup/twin-coil"}, {Name: "jack", Is: "jack/mono"}},
		Sounds: []PlanSound{{With: "lever middle", Hear: "bridge"}, {Hear: "bridge"}, {Hear: "neck"}}}
	c, err := New().Compose(&p)
	if err != nil || len(c.LeftOut) != 2 || c.LeftOut[0] != p.Sounds[0] || c.LeftOut[1] != p.Sounds[2] {
		t.Fatal(err, c.LeftOut)
	}
	if got := New().Check("a", c.Text); got.Title != p.Title || len(got.Rows) != 1 {
		t.Errorf("%s", c.Text)
	}
	p.Parts[0].Is = "pickup/none"
	if _, err := New().Compose(&p); err == nil {
		t.Error("a part that nobody knows is composed")
	}
}

// TestFoundSwitch goes with a switch whose contacts a meter told into a loom
// file: its positions are settings there, and a wiring is found.
func TestFoundSwitch(t *testing.T) {
	d := NewDesk(New())
	calls := d.Calls(nil)
	state := leads.SwitchState{Lugs: []string{"1", "2", "3"}, Positions: []string{"up", "down"}}
	meets := func(position, a, b string) bool {
		pair := map[string]string{"up": "12", "down": "23"}[position]
		return strings.Contains(pair, a) && strings.Contains(pair, b)
	}
	var step LugStep
	for range 12 {
		step = calls["lug"](Ask{Lugs: &state, Key: "found", Value: "odd one"}).(LugStep)
		if step.Found != nil {
			break
		}
		q := step.Question
		sweep := leads.Sweep{Position: q.Position, On: q.On, Over: q.Over}
		for _, lug := range q.Over {
			if meets(q.Position, q.On, lug) {
				sweep.Meet = append(sweep.Meet, lug)
			}
		}
		state = state.With(sweep)
	}
	if step.Choice == nil || len(step.Choice.Positions) != 2 {
		t.Fatal(step)
	}
	p := Plan{Title: "odd", Own: map[string]string{"switch/found": step.Part}, Scheme: "none", Parts: []PlanPart{
		{Name: "neck", Is: "pickup/single-coil"}, {Name: "bridge", Is: "pickup/single-coil"}, {Name: "odd", Is: "switch/found"}, {Name: "jack", Is: "jack/mono"}}}
	c := calls["compose"](Ask{Plan: &p}).(Composed)
	if len(c.Tables) == 0 {
		t.Fatal("no table is offered")
	}
	p.Sounds = c.Tables[0].Sounds
	c = calls["compose"](Ask{Plan: &p}).(Composed)
	again, list := d.bench.Format("again", c.Text)
	if again != c.Text || len(list) > 0 {
		t.Errorf("the layout is not the canonical one: %v\n%s", list, c.Text)
	}
	swapped, err := d.bench.Own("odd", c.Text, "odd", "switch/again", step.Part)
	if err != nil || !strings.Contains(swapped, "is: switch/again") || len(d.bench.Check("odd", swapped).Rows) != 2 {
		t.Error(err, swapped)
	}
	found := calls["find"](Ask{Name: "odd", Text: c.Text}).(Found)
	if len(found.Proved) == 0 || !found.Proved[0] {
		t.Errorf("no wiring: %+v\n%s", found, c.Text)
	}
}

// TestKnow writes what the wizard for leads told into a loom.
func TestKnow(t *testing.T) {
	d := NewDesk(New())
	calls := d.Calls(nil)
	const text = "loomwright: 1\nparts:\n  bridge: {is: pickup/twin-coil, code: knot, ohms: {north: 4.3k}, from-bridge: 40 mm}   # old\n  jack: {is: jack/mono}\njoins: []\nsounds: []\n"
	state := leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: []string{"teal", "grey/red", "1", "no"}, Bare: "bare"}}
	reads := map[string]string{"ohms teal to grey/red": "4k1", "ohms 1 to no": "4.0k"}
	var step LeadStep
	for range 30 {
		step = calls["lead"](Ask{Leads: &state}).(LeadStep)
		if step.Found != nil {
			break
		}
		if step.Question == nil {
			t.Fatalf("%+v after %v", step, state.Answers)
		}
		said := reads[step.Question.Key]
		if said == "" {
			said = "OL"
		}
		if len(step.Question.Answers) > 0 {
			said = "up"
		}
		state = state.With(step.Question.Key, said)
	}
	if step.Notes == nil || len(step.Notes.Leads) != 5 {
		t.Fatalf("%+v", step)
	}
	e, ok := calls["know"](Ask{Name: "a", Text: text, Part: "bridge", Notes: step.Notes}).(Edited)
	if !ok || strings.Contains(e.Text, "knot") || !strings.Contains(e.Text, "# old") || !strings.Contains(e.Text, "from-bridge: 40 mm") {
		t.Fatal(ok, e.Text)
	}
	c := d.bench.Check("a", e.Text)
	if len(c.Rows) != 1 || !strings.Contains(e.Text, "4.1k") {
		t.Errorf("%v\n%s", c.Findings, e.Text)
	}
	if out, err := d.bench.SetPart("a", e.Text, "bridge", "code", "dunlin"); err != nil || !strings.Contains(out, "dunlin") {
		t.Error(out, err)
	}
}

// TestFields writes, adds and takes away fields of a part, in one line and in
// a block, with their comments.
func TestFields(t *testing.T) {
	b := New()
	const head = "loomwright: 1\nparts:\n"
	for _, c := range []struct {
		text string
		set  []Field
		want string
	}{
		{"  a: {is: pickup/twin-coil, code: knot, inside: [[link]]} # x\n", []Field{{"inside", ""}, {"code", ""}}, "  a: {is: pickup/twin-coil}   # x\n"},
		{"  a: {is: pickup/twin-coil, code: knot}\n", []Field{{"code", ""}, {"is", "pickup/stacked"}, {"ohms", "{upper: 4k}"}}, "  a: {is: pickup/stacked, ohms: {upper: 4k}}\n"},
		{"  a: # c\n    is: pickup/twin-coil # d\n    leads:\n      teal: unknown # e\n    note: f\n", []Field{{"leads", "{x: shield}"}, {"note", ""}, {"code", "g"}},
			"  a:   # c\n    is: pickup/twin-coil   # d\n    code: g\n    leads: {x: shield}\n"},
	} {
		got, err := b.setFields("a", head+c.text, "a", c.set)
		if err != nil || got != head+c.want {
			t.Errorf("%v\n%s\nwant\n%s", err, got, head+c.want)
		}
	}
}

// TestExchange puts another switch in the place of one: each way out that a
// search offers leads to a loom that can be read, and is possible.
func TestExchange(t *testing.T) {
	d := NewDesk(New())
	calls := d.Calls(nil)
	const text = "loomwright: 1\nparts:\n  neck: {is: pickup/twin-coil}\n  bridge: {is: pickup/twin-coil}\n  toggle: {is: switch/toggle-3way}\n  jack: {is: jack/mono}\njoins: []\nsounds:\n" +
		"  - {with: toggle bridge, hear: bridge}\n  - {with: toggle middle, hear: neck series bridge}\n  - {with: toggle neck, hear: neck}\n"
	f := calls["find"](Ask{Name: "a", Text: text}).(Found)
	if f.Why == nil || f.Why.Switch == nil {
		t.Fatalf("%+v", f)
	}
	order := map[string]string{}
	for _, o := range f.Why.Switch.Order {
		order[o.Position] = o.Gets
	}
	e, ok := calls["switch"](Ask{Name: "a", Text: text, Part: "toggle", Value: f.Why.Switch.Part, Order: order}).(Edited)
	if !ok {
		t.Fatal(f.Why.Switch)
	}
	again := calls["find"](Ask{Name: "a", Text: e.Text}).(Found)
	if len(again.Proved) == 0 || !again.Proved[0] {
		t.Errorf("with %s: %+v\n%s", f.Why.Switch.Part, again.Status, e.Text)
	}
	swapped, err := d.bench.Exchange("a", text, "toggle", "switch/toggle-3way", map[string]string{"neck": "bridge", "bridge": "neck"})
	if err != nil || !strings.Contains(swapped, "{with: toggle neck, hear: bridge}") || !strings.Contains(swapped, "{with: toggle bridge, hear: neck}") {
		t.Error(err, swapped)
	}
	if _, err := d.bench.Exchange("a", text, "toggle", "pot/standard", nil); err == nil {
		t.Error("a pot takes the place of a switch")
	}
}

// TestJoinedInside: of coils that are joined inside a pickup none is offered
// alone, neither for tapping nor in a table.
func TestJoinedInside(t *testing.T) {
	b := New()
	p := Plan{Parts: []PlanPart{{Name: "neck", Is: "pickup/twin-coil"}, {Name: "bridge", Is: "pickup/twin-coil", Code: "whimbrel"},
		{Name: "lever", Is: "switch/lever-4p5t"}, {Name: "jack", Is: "jack/mono"}}}
	c, err := b.Compose(&p)
	if err != nil || len(c.Tables) == 0 {
		t.Fatal(err, c.Tables)
	}
	said := fmt.Sprint(NewDesk(b).Wishes("a", c.Text), c.Tables)
	if strings.Contains(said, "bridge.") || !strings.Contains(said, "neck.north") || !strings.Contains(said, "neck series bridge") {
		t.Error(said)
	}
}
