package leads_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/leads"
)

// winding is one coil of a pickup on the bench: which lead its start and finish
// are on ("" none), which way it is wound, which pole it shows, its ohms.
type winding struct {
	start, finish string
	clockwise     bool
	north         bool
	kohms         float64
	open          bool
}

// pickup is a pickup on the bench as it really is. Coils that share a node name
// are joined there; names that are no lead are inside.
type pickup struct {
	coils   []winding
	stacked bool              // one body: steel is at all coils at once
	metal   map[string]string // what bare and baseplate are on: "" nothing, else a node
}

// node is where a probe is.
func (p *pickup) node(probe string) string {
	if n, ok := p.metal[probe]; ok {
		return n
	}
	return probe
}

// way finds the coils between two nodes with the side on which each is entered.
func (p *pickup) way(a, b string, used map[int]bool) (coils []int, fromStart []bool, ok bool) {
	if a == b {
		return nil, nil, true
	}
	for i, c := range p.coils {
		if used[i] || c.open || a == "" {
			continue
		}
		for _, start := range []bool{true, false} {
			in, out := c.start, c.finish
			if !start {
				in, out = out, in
			}
			if in != a {
				continue
			}
			used[i] = true
			if rest, sides, ok := p.way(out, b, used); ok {
				return append([]int{i}, rest...), append([]bool{start}, sides...), true
			}
			delete(used, i)
		}
	}
	return nil, nil, false
}

// answer is what the bench answers to a question, by its key.
func (p *pickup) answer(t *testing.T, key string) string {
	t.Helper()
	word, rest, _ := strings.Cut(key, " ")
	coil := 0
	if word != "ohms" {
		if _, err := fmt.Sscanf(rest, "%d", &coil); err != nil {
			t.Fatalf("question %q", key)
		}
		coil--
		_, rest, _ = strings.Cut(rest, " at ")
	}
	if word == "compass" {
		if p.coils[coil].north {
			return "north"
		}
		return "south"
	}
	red, black, _ := strings.Cut(rest, " to ")
	coils, fromStart, ok := p.way(p.node(red), p.node(black), map[int]bool{})
	if word == "ohms" {
		sum := 0.0
		for _, i := range coils {
			sum += p.coils[i].kohms
		}
		switch {
		case !ok:
			return "OL"
		case len(coils) == 0:
			return "0.3"
		}
		return fmt.Sprintf("%.2fk", sum)
	}
	for k, i := range coils {
		if !p.stacked && i != coil {
			continue
		}
		// Steel adds to the flux out of a north face. Lenz: in a coil wound
		// clockwise, seen from the strings, the finish goes positive.
		startUp := p.coils[i].clockwise != p.coils[i].north
		if startUp == fromStart[k] {
			return "up"
		}
		return "down"
	}
	return "nothing"
}

// count is how many questions of each kind were asked.
type count struct{ plain, safety, compass int }

// play answers a wizard's questions until it has found something.
func play(t *testing.T, s leads.State, p *pickup) (*leads.Found, count) {
	t.Helper()
	var n count
	for range 60 {
		step, err := leads.Next(s)
		if err != nil {
			t.Fatal(err)
		}
		q := step.Question
		if q == nil {
			return step.Found, n
		}
		switch {
		case strings.HasPrefix(q.Key, "compass"):
			n.compass++
		case q.Safety:
			n.safety++
		default:
			n.plain++
		}
		said := p.answer(t, q.Key)
		if len(q.Answers) > 0 && !slices.Contains(q.Answers, said) {
			t.Fatalf("%s: %q is not offered", q.Key, said)
		}
		s = s.With(q.Key, said)
	}
	t.Fatal("no end of questions")
	return nil, n
}

// twin is a sound twin coil with its leads in some order and its coils wound
// alike or not.
func twin(order []string, firstClockwise, secondClockwise bool) *pickup {
	return &pickup{coils: []winding{
		{start: order[0], finish: order[1], clockwise: firstClockwise, north: true, kohms: 4.1},
		{start: order[2], finish: order[3], clockwise: secondClockwise, north: false, kohms: 4.3},
	}, metal: map[string]string{"bare": "shield", "baseplate": "shield"}}
}

func orders(names []string) [][]string {
	if len(names) == 1 {
		return [][]string{names}
	}
	var out [][]string
	for i, n := range names {
		rest := append(slices.Clone(names[:i]), names[i+1:]...)
		for _, o := range orders(rest) {
			out = append(out, append([]string{n}, o...))
		}
	}
	return out
}

// checkEnds holds a found code to the pickup: seen as wound clockwise, the start
// of a coil that is wound the other way is its finish.
func checkEnds(t *testing.T, f *leads.Found, p *pickup, names []string) {
	t.Helper()
	for i, c := range p.coils {
		start, finish := c.start, c.finish
		if !c.clockwise {
			start, finish = finish, start
		}
		for lead, end := range map[string]string{start: names[i] + ".start", finish: names[i] + ".finish"} {
			if !slices.Equal(f.Ends[lead], []string{end}) {
				t.Errorf("%s is found to be %v, it is %s", lead, f.Ends[lead], end)
			}
		}
	}
}

var fourLeads = []string{"pink", "grey", "orange", "violet"}

// Four healthy wires: the figures of the task's exhaustive tree, 4.17 questions
// on average and 5 at worst for 24 cases, besides safety readings.
func TestFourWires(t *testing.T) {
	bare := leads.Pickup{Make: leads.Twin, Leads: fourLeads}
	full := leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Plate: true, Compass: true}
	for name, described := range map[string]leads.Pickup{"leads alone": bare, "bare, baseplate, compass": full} {
		var sum count
		worst, cases := 0, 0
		for _, order := range orders(fourLeads) {
			p := twin(order, true, true)
			f, n := play(t, leads.State{Pickup: described}, p)
			sum.plain, sum.safety, sum.compass = sum.plain+n.plain, sum.safety+n.safety, sum.compass+n.compass
			worst, cases = max(worst, n.plain), cases+1
			checkEnds(t, f, p, []string{"north", "south"})
			if !f.Sound {
				t.Errorf("%v: a sound pickup is called unsound: %v", order, f.Notes)
			}
			if f.Ohms["north"] != "4.1kΩ" || f.Ohms["south"] != "4.3kΩ" {
				t.Errorf("%v: ohms %v", order, f.Ohms)
			}
		}
		n := float64(cases)
		mean := float64(sum.plain) / n
		t.Logf("%s: %d cases, %.2f questions on average, %d at worst; safety readings %.2f, compass %.2f", name, cases, mean, worst,
			float64(sum.safety)/n, float64(sum.compass)/n)
		if mean > 4.2 || worst > 5 || cases != 24 {
			t.Errorf("%.2f questions on average and %d at worst of %d cases; at most 4.2 and 5 of 24 are wanted", mean, worst, cases)
		}
	}
}

// Coils wound the other way, a compass at hand: the code names as start what is
// electrically the start of a clockwise coil.
func TestWindingsOfAllKinds(t *testing.T) {
	described := leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Plate: true, Compass: true}
	for _, order := range orders(fourLeads)[:6] {
		for k := range 4 {
			p := twin(order, k&1 == 0, k&2 == 0)
			f, _ := play(t, leads.State{Pickup: described}, p)
			checkEnds(t, f, p, []string{"north", "south"})
		}
	}
}

// Poles that are not as usual: a compass finds them, and the notes say what to
// write in the loom file.
func TestPolesTheOtherWayRound(t *testing.T) {
	p := twin(fourLeads, true, true)
	p.coils[0].north, p.coils[1].north = false, true
	f, n := play(t, leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: fourLeads, Compass: true}}, p)
	checkEnds(t, f, p, []string{"north", "south"})
	if n.compass != 2 || f.Pole["north"] != "south" || f.Pole["south"] != "north" {
		t.Errorf("poles %v after %d compass readings", f.Pole, n.compass)
	}
	if notes := strings.Join(f.Notes, " "); !strings.Contains(notes, "pole: {north: south}") || !strings.Contains(notes, "pole: {south: north}") {
		t.Errorf("notes: %s", notes)
	}
}

// Without a compass the phase is known and the true start is not: it is said.
func TestWithoutCompass(t *testing.T) {
	f, n := play(t, leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: fourLeads}}, twin(fourLeads, true, true))
	if text := f.Text(); !strings.Contains(text, "pink: north.start") || !strings.Contains(text, "- Phase known") {
		t.Errorf("text:\n%s", text)
	}
	if n.compass != 0 || !strings.Contains(strings.Join(f.Notes, " "), "Phase known, true start unknown") {
		t.Errorf("%+v after %+v", f.Notes, n)
	}
}

// The other makes, leads in every order.
func TestOtherMakes(t *testing.T) {
	cases := []struct {
		make  leads.Make
		leads []string
		of    func(o []string) *pickup
		ends  func(o []string) map[string]string
	}{
		{leads.Single, []string{"brown", "white/blue"}, func(o []string) *pickup {
			return &pickup{coils: []winding{{start: o[0], finish: o[1], clockwise: true, north: true, kohms: 6.2}}, stacked: true}
		}, func(o []string) map[string]string { return map[string]string{o[0]: "coil.start", o[1]: "coil.finish"} }},
		{leads.TwoLead, []string{"brown", "blue"}, func(o []string) *pickup {
			return &pickup{coils: []winding{{start: o[0], finish: "inside", clockwise: true, north: true, kohms: 4.1}, {start: o[1], finish: "inside", clockwise: true, kohms: 4.2}}}
		}, func(o []string) map[string]string { return map[string]string{o[0]: "north.start", o[1]: "south.start"} }},
		{leads.Tapped, []string{"brown", "blue", "pink"}, func(o []string) *pickup {
			return &pickup{coils: []winding{{start: o[0], finish: o[1], clockwise: true, north: true, kohms: 4.2}, {start: o[1], finish: o[2], clockwise: true, north: true, kohms: 3.4}}, stacked: true}
		}, func(o []string) map[string]string { return map[string]string{o[0]: "start", o[2]: "finish"} }},
		{leads.Three, []string{"brown", "blue", "pink", "grey", "violet", "orange"}, func(o []string) *pickup {
			return &pickup{coils: []winding{{start: o[0], finish: o[1], clockwise: true, north: true, kohms: 4.1}, {start: o[2], finish: o[3], clockwise: true, kohms: 4.2},
				{start: o[4], finish: o[5], clockwise: true, north: true, kohms: 6.3}}}
		}, func(o []string) map[string]string {
			return map[string]string{o[0]: "north.start", o[1]: "north.finish", o[2]: "south.start", o[3]: "south.finish", o[4]: "single.start", o[5]: "single.finish"}
		}},
	}
	for _, c := range cases {
		all := orders(c.leads)
		step := max(1, len(all)/60)
		worst, sum, cases := 0, 0, 0
		for i := 0; i < len(all); i += step {
			f, n := play(t, leads.State{Pickup: leads.Pickup{Make: c.make, Leads: c.leads}}, c.of(all[i]))
			for lead, end := range c.ends(all[i]) {
				if !slices.Contains(f.Ends[lead], end) || !f.Sound {
					t.Errorf("%s %v: %s is found to be %v, it is %s; %v", c.make, all[i], lead, f.Ends[lead], end, f.Notes)
				}
			}
			worst, sum, cases = max(worst, n.plain), sum+n.plain, cases+1
		}
		t.Logf("%s: %d of %d orders, %.2f questions on average, %d at worst", c.make, cases, len(all), float64(sum)/float64(cases), worst)
	}
}

// Five like wires, the shield among them.
func TestShieldAmongLikeWires(t *testing.T) {
	names := []string{"1st", "2nd", "3rd", "4th", "5th"}
	worst, sum := 0, 0
	all := orders(names)
	for _, order := range all {
		f, n := play(t, leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: names, Hidden: true}}, twin(order, true, true))
		if !slices.Equal(f.Ends[order[4]], []string{"shield"}) {
			t.Errorf("%v: the shield is found to be %v", order, f.Ends[order[4]])
		}
		checkEnds(t, f, twin(order, true, true), []string{"north", "south"})
		worst, sum = max(worst, n.plain), sum+n.plain
	}
	t.Logf("%d orders: %.2f questions on average, %d at worst", len(all), float64(sum)/float64(len(all)), worst)
}

// What is amiss is found and said: an open coil, a shield tied to a coil end, a
// baseplate on nothing.
func TestUnsoundPickups(t *testing.T) {
	described := leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Plate: true}
	cases := []struct {
		name   string
		change func(p *pickup)
		note   string
		ends   map[string][]string
	}{
		{"first coil open", func(p *pickup) { p.coils[0].open = true }, "is open", map[string][]string{"pink": nil, "grey": nil, "orange": {"south.start"}, "violet": {"south.finish"}}},
		{"second coil open", func(p *pickup) { p.coils[1].open = true }, "is open", map[string][]string{"pink": {"north.start"}, "grey": {"north.finish"}, "orange": nil, "violet": nil}},
		{"shield on the second start", func(p *pickup) { p.metal["bare"], p.metal["baseplate"] = "orange", "orange" }, "tied to a coil end",
			map[string][]string{"pink": {"north.start"}, "grey": {"north.finish"}, "orange": {"south.start"}, "violet": {"south.finish"}}},
		{"baseplate on nothing", func(p *pickup) { p.metal["baseplate"] = "" }, "not joined to the shield",
			map[string][]string{"pink": {"north.start"}, "grey": {"north.finish"}, "orange": {"south.start"}, "violet": {"south.finish"}}},
	}
	for _, c := range cases {
		p := twin(fourLeads, true, true)
		c.change(p)
		f, n := play(t, leads.State{Pickup: described}, p)
		if f.Sound || !strings.Contains(strings.Join(f.Notes, " "), c.note) {
			t.Errorf("%s: %v", c.name, f.Notes)
		}
		for lead, want := range c.ends {
			if !slices.Equal(f.Ends[lead], want) {
				t.Errorf("%s: %s is found to be %v, it is %v", c.name, lead, f.Ends[lead], want)
			}
		}
		t.Logf("%s: %d questions, %d safety readings: %s %s", c.name, n.plain, n.safety, f.Says, strings.Join(f.Notes, " "))
	}
}

// A pickup of one lead in a braid: its braid is a coil end and the baseplate's.
func TestLeadInBraid(t *testing.T) {
	p := &pickup{coils: []winding{{start: "yellow", finish: "inside", clockwise: true, north: true, kohms: 4.1}, {start: "braid", finish: "inside", clockwise: true, kohms: 4.2}},
		metal: map[string]string{"baseplate": "braid"}}
	f, _ := play(t, leads.State{Pickup: leads.Pickup{Make: leads.TwoLead, Leads: []string{"yellow", "braid"}, Plate: true}}, p)
	if !slices.Equal(f.Ends["yellow"], []string{"north.start"}) || !slices.Equal(f.Ends["braid"], []string{"south.start", "shield"}) {
		t.Errorf("%v: %v", f.Ends, f.Notes)
	}
}

// Answers that no pickup of the make gives are called a contradiction.
func TestContradictoryAnswers(t *testing.T) {
	s := leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: fourLeads}}
	for _, pair := range []string{"pink to grey", "pink to orange", "pink to violet"} {
		s = s.With("ohms "+pair, "4.1k")
	}
	step, err := leads.Next(s)
	if err != nil || step.Found == nil || !strings.Contains(step.Found.Says, "misread") {
		t.Errorf("%+v, %v", step, err)
	}
}

// Answers and pickups that cannot be understood are refused in words.
func TestRefusals(t *testing.T) {
	good := leads.Pickup{Make: leads.Twin, Leads: fourLeads}
	for want, s := range map[string]leads.State{
		"has 4 leads":         {Pickup: leads.Pickup{Make: leads.Twin, Leads: fourLeads[:3]}},
		"no make of pickup":   {Pickup: leads.Pickup{Make: "harp", Leads: fourLeads}},
		"name of its own":     {Pickup: leads.Pickup{Make: leads.Twin, Leads: []string{"pink", "pink", "grey", "blue"}}},
		"neither a coil":      leads.State{Pickup: good}.With("ohms pink to grey", "150k"),
		"no answer here":      leads.State{Pickup: good}.With("tap 1 at pink to grey", "sideways"),
		"no question":         leads.State{Pickup: good}.With("smell pink", "up"),
		"coils 1 to 2":        leads.State{Pickup: good}.With("tap 3 at pink to grey", "up"),
		"two of pink, grey":   leads.State{Pickup: good}.With("ohms pink to green", "4k"),
		"2 coils; 1 are":      {Pickup: leads.Pickup{Make: leads.Twin, Leads: fourLeads, Coils: []string{"one"}}},
		"or one of the leads": {Pickup: leads.Pickup{Make: leads.Twin, Leads: append(slices.Clone(fourLeads), "blue"), Bare: "bare", Hidden: true}},
	} {
		if _, err := leads.Next(s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v, something with %q is wanted", s, err, want)
		}
	}
}

// A state goes through JSON unchanged, and gives the same step.
func TestStateIsAValue(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	p := twin([]string{"violet", "pink", "grey", "orange"}, true, true)
	s := leads.State{Pickup: leads.Pickup{Make: leads.Twin, Leads: fourLeads, Bare: "bare", Plate: true, Compass: true}}
	for range 20 {
		data, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		var back leads.State
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		a, err1 := leads.Next(s)
		b, err2 := leads.Next(back)
		if err1 != nil || err2 != nil || !reflect.DeepEqual(a.Question, b.Question) {
			t.Fatalf("%+v and %+v", a, b)
		}
		if a.Question == nil {
			return
		}
		s = s.With(a.Question.Key, p.answer(t, a.Question.Key))
		random.Shuffle(len(s.Answers), func(i, j int) { s.Answers[i], s.Answers[j] = s.Answers[j], s.Answers[i] })
	}
}
