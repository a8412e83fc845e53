package meter

import (
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
	"loomwright/library"
)

func read(t testing.TB, name, data string) *loom.Loom {
	t.Helper()
	l, list := loom.Read(diag.NewText(name, data), part.NewLibrary(part.Shelf{Name: "library", FS: library.Files}))
	if l == nil {
		t.Fatalf("%s: %v", name, list)
	}
	return l
}

func graph(t testing.TB, l *loom.Loom) *wiring.Graph {
	t.Helper()
	g, list := wiring.Build(l)
	if list.HasErrors() {
		t.Fatal(list)
	}
	return g
}

func bench(t testing.TB, name string) *wiring.Graph {
	t.Helper()
	data, err := os.ReadFile("../fault/testdata/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return graph(t, read(t, name, string(data)))
}

// tableOf is NewTable without a finding.
func tableOf(t testing.TB, g *wiring.Graph, o Options) *Table {
	t.Helper()
	table, list := NewTable(g, o)
	if table == nil {
		t.Fatal(list)
	}
	return table
}

// Every reading offered for every example can be written as a line and read
// back, and has words.
func TestKeysGoRound(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 15 {
		t.Fatalf("%d examples: %v", len(names), err)
	}
	tried := 0
	for _, name := range names {
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		g := graph(t, read(t, name, string(data)))
		for _, access := range []Access{Outside, Open} {
			asks := Offered(g, Options{Access: access})
			if len(asks) == 0 {
				t.Errorf("%s, %s: nothing is offered", name, access)
			}
			for i := 0; i < len(asks); i += 1 + len(asks)/150 {
				tried++
				key := asks[i].Key(g)
				back, err := Parse(g, key)
				if err != nil || back.Key(g) != key {
					t.Fatalf("%s: %q comes back as %q: %v", name, key, back.Key(g), err)
				}
			}
		}
	}
	t.Logf("%d readings", tried)
}

func TestParseRefuses(t *testing.T) {
	g := bench(t, "one-twin")
	for line, want := range map[string]string{
		"smell volume":                                   "no reading is called",
		"ohms volume.cw":                                 `"to" between them`,
		"ohms volume.cw to nowhere":                      `no terminal "nowhere"`,
		"tap north at jack.tip to jack.sleeve":           `no coil "north"`,
		"ohms jack.tip to jack.sleeve; volume sideways":  "no position",
		"ohms jack.tip to jack.sleeve; volume=11":        "from 0 to 10",
		"ohms jack.tip to jack.sleeve; tone=1":           `no knob "tone"`,
		"darkens tone":                                   `no knob "tone"`,
		"farads tone-cap":                                `no capacitor "tone-cap"`,
		"compass bridge":                                 `no coil "bridge"`,
		"ohms jack.tip to jack.sleeve; volume=a quarter": "from 0 to 10",
	} {
		if _, err := Parse(g, line); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, something with %q is wanted", line, err, want)
		}
	}
}

// oneRange is a meter of a single range.
func oneRange(full, count, percent, counts float64) *electrics.Meter {
	return &electrics.Meter{Ranges: []electrics.Range{{Full: full, Count: count, Percent: percent, Counts: counts}}, Over: "OL"}
}

// Meter arithmetic against the worked examples of meter makers: 100.0 at
// ±(1 % + 2) is 98.8 to 101.2; 2.000 on the 5.000 range at ±(0.08 % + 2) is
// 1.9964 to 2.0036 (shown in whole counts: 1.996 to 2.004); 6.00 k at
// ±(0.8 % + 3 counts of 10 Ω) is ±78 Ω. A right loom is allowed slack for wires
// and contacts above that.
func TestMeterArithmetic(t *testing.T) {
	for _, c := range []struct {
		meter      *electrics.Meter
		ohms       float64
		error      float64
		loExact    float64
		hiExact    float64
		lo, hiLeft float64 // least shown, and most shown without slack
	}{
		{oneRange(199.9, 0.1, 1, 2), 100, 1.2, 98.8, 101.2, 98.8, 101.2},
		{oneRange(5, 0.001, 0.08, 2), 2, 0.0036, 1.9964, 2.0036, 1.996, 2.004},
		{oneRange(19990, 10, 0.8, 3), 6000, 78, 5922, 6078, 5920, 6080},
	} {
		r := c.meter.Ranges[0]
		if e := r.Error(c.ohms); math.Abs(e-c.error) > 1e-9 {
			t.Errorf("at %g Ω the meter may be %g Ω off, worked example %g", c.ohms, e, c.error)
		}
		s := display(c.meter, c.ohms, c.ohms)
		if math.Abs(s.Lo-c.lo) > 1e-9 || s.Lo > c.loExact+1e-9 {
			t.Errorf("at %g Ω the meter may show %g, worked example %g", c.ohms, s.Lo, c.loExact)
		}
		most := c.ohms + slack
		want := r.Count * math.Ceil((most+r.Error(most))/r.Count-1e-9)
		if s.Hi < c.hiExact-1e-9 || math.Abs(s.Hi-want) > 1e-9 && !math.IsInf(s.Hi, 1) {
			t.Errorf("at %g Ω the meter may show up to %g, want %g", c.ohms, s.Hi, want)
		}
	}
}

// What any meter within its error shows of any resistance lies within what
// display allows, whatever the range that it lands on.
func TestDisplayHoldsEveryReading(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	meters := []electrics.Meter{electrics.Plain(), electrics.AutoRanging()}
	for range 200000 {
		m := &meters[random.IntN(2)]
		lo := math.Pow(10, 8*random.Float64()-0.5)
		hi := lo * (1 + 0.5*random.Float64())
		if random.IntN(3) == 0 { // at the end of a range
			lo = m.Ranges[random.IntN(len(m.Ranges))].Full * (0.99 + 0.02*random.Float64())
			hi = lo * (1 + 0.03*random.Float64())
		}
		shown := display(m, lo, hi)
		x := lo + (hi-lo)*random.Float64() + slack*random.Float64() + m.Leads.Hi*random.Float64()
		got := math.Inf(1)
		for _, r := range m.Ranges {
			y := x*(1+r.Percent/100*(2*random.Float64()-1)) + (r.Counts-0.5)*r.Count*(2*random.Float64()-1)
			if y = r.Count * math.Round(max(0, y)/r.Count); y <= r.Full*(1+1e-12) {
				got = y
				break
			}
		}
		seen := Shown{Lo: got, Hi: got}
		if math.IsInf(got, 1) {
			seen.Lo = m.Ranges[len(m.Ranges)-1].Full
		}
		if !shown.Fits(seen) {
			t.Fatalf("%g Ω within %g to %g shows %g, allowed are %g to %g", x, lo, hi, got, shown.Lo, shown.Hi)
		}
	}
}

func TestSeen(t *testing.T) {
	m := electrics.Plain()
	inf := math.Inf(1)
	for _, c := range []struct {
		kind Kind
		said string
		want Shown
	}{
		{Ohms, "7.87k", Shown{Lo: 7865, Hi: 7875}},
		{Ohms, "7.87 kΩ", Shown{Lo: 7865, Hi: 7875}},
		{Ohms, "0.3", Shown{Lo: 0.25, Hi: 0.35}},
		{Ohms, "OL", Shown{Lo: 19.99e6, Hi: inf}},
		{Ohms, "1", Shown{Lo: 19.99e6, Hi: inf}},
		{Ohms, "open", Shown{Lo: 19.99e6, Hi: inf}},
		{Ohms, "OL on 20k", Shown{Lo: 19990, Hi: inf}},
		{Ohms, "7.5k..8.2k", Shown{Lo: 7500, Hi: 8200}},
		{Ohms, "8.1k", Shown{Lo: 8100 - 50 - 270, Hi: 8100 + 50 + 270}}, // read on the 200 kΩ range
		{Ohms, "8k", Shown{Lo: 7500, Hi: 8500}},                         // rounded
		{Tap, "up", Shown{May: Up}},
		{Tap, "Nothing", Shown{May: Still}},
		{Darkens, "silences", Shown{May: Mutes}},
		{Compass, "south", Shown{May: South}},
		{Farads, "21.4n", Shown{Lo: 21.35e-9, Hi: 21.45e-9}},
	} {
		got, err := Seen(&m, c.kind, c.said)
		near := func(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-6*math.Abs(b) }
		if err != nil || !near(got.Lo, c.want.Lo) || !near(got.Hi, c.want.Hi) || got.May != c.want.May {
			t.Errorf("%s %q: %+v, %v; want %+v", c.kind, c.said, got, err, c.want)
		}
	}
	for _, c := range [][2]string{{"ohms", "about eight"}, {"tap", "sideways"}, {"compass", "up"}, {"farads", "22"}, {"ohms", ""}} {
		if got, err := Seen(&m, Kind(c[0]), c[1]); err == nil {
			t.Errorf("%s %q is read as %+v", c[0], c[1], got)
		}
	}
}

// cover against all subsets, on small random instances.
func TestCoverAgainstAllSubsets(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for n := range 400 {
		sets, need := randomSets(random, 4+random.IntN(9), 3+random.IntN(12))
		got, proved := cover(sets, need)
		best := math.MaxInt
		for mask := range 1 << len(sets) {
			left := slices.Clone(need)
			size := 0
			for i, s := range sets {
				if mask>>i&1 == 1 {
					left = left.without(s)
					size++
				}
			}
			if left.count() == 0 {
				best = min(best, size)
			}
		}
		left := slices.Clone(need)
		for _, i := range got {
			left = left.without(sets[i])
		}
		if left.count() > 0 || !proved || len(got) != best {
			t.Fatalf("instance %d: %d sets (proved %v), the least is %d; %d items left out", n, len(got), proved, best, left.count())
		}
	}
}

// randomSets is a coverable instance.
func randomSets(random *rand.Rand, sets, items int) ([]set, set) {
	out, need := make([]set, sets), newSet(items)
	for i := range out {
		out[i] = newSet(items)
	}
	for k := range items {
		need.add(k)
		out[random.IntN(sets)].add(k)
		for i := range out {
			if random.IntN(4) == 0 {
				out[i].add(k)
			}
		}
	}
	return out, need
}

// The list that proves a loom shows every fault that any reading shows, and no
// line of it goes off on a right loom's own range.
func TestProofShowsWhatCanBeShown(t *testing.T) {
	for _, name := range []string{"one-twin", "two-twins"} {
		for _, access := range []Access{Outside, Open} {
			table := tableOf(t, bench(t, name), Options{Access: access})
			p := table.Proof()
			ruled := map[string]bool{}
			for _, l := range p.Lines {
				for _, f := range l.RulesOut {
					ruled[f] = true
				}
				if l.Do == "" || l.Shows == "" {
					t.Errorf("%s: no words: %+v", l.Key, l)
				}
			}
			if len(ruled) != p.Shown || p.Shown+countMissed(p.Missed) != p.Faults {
				t.Errorf("%s, %s: %d faults ruled out, %d shown, %d missed of %d", name, access, len(ruled), p.Shown, len(p.Missed), p.Faults)
			}
			if !p.Shortest {
				t.Errorf("%s, %s: %d readings are not proved to be the fewest", name, access, len(p.Lines))
			}
			t.Logf("%s, %s: %d readings (proved fewest) show %d of %d faults (%.0f %%)", name, access, len(p.Lines), p.Shown, p.Faults, 100*float64(p.Shown)/float64(p.Faults))
		}
	}
}

func countMissed(m []Missed) int {
	seen := map[string]bool{}
	for _, x := range m {
		seen[x.Fault] = true
	}
	return len(seen)
}

// The text of a proof has every reading in plain words.
func TestProofText(t *testing.T) {
	p := tableOf(t, bench(t, "one-twin"), Options{Access: Outside}).Proof()
	text := p.Text()
	for _, want := range []string{
		"Plug a cable into the output: red probe on its tip, black on its sleeve. Read ohms on the 20 kΩ range.",
		"Volume pulled (knob pulled out), volume at 10.",
		"Right: 1.83 kΩ to 2.26 kΩ, most likely 2.02 kΩ.",
		"These 6 readings show 98 of the 119 faults that can be; no shorter list shows as many.",
		"not shown: open joint of bridge.bare at volume.case: no reading that is offered changes with it",
		"fingers off both probe tips",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
}

// What stays hidden with the cavity open is what the coils lie across: the
// volume's own value and taper. Everything else is shown.
func TestMissedWithTheCavityOpen(t *testing.T) {
	for _, name := range []string{"one-twin", "two-twins"} {
		p := tableOf(t, bench(t, name), Options{}).Proof()
		for _, m := range p.Missed {
			if !strings.Contains(m.Fault, "the track of") || !strings.Contains(m.Fault, "volume") || !strings.Contains(m.Why, "overlap") {
				t.Errorf("%s: missed %s: %s", name, m.Fault, m.Why)
			}
		}
	}
}

// Which added reading helps most from outside; reported, not judged.
func TestAdditions(t *testing.T) {
	for _, name := range []string{"one-twin", "two-twins"} {
		last := Addition{}
		added, list := Additions(bench(t, name), Options{})
		if list.HasErrors() {
			t.Fatal(list)
		}
		for _, a := range added {
			t.Logf("%s: %s: %d of %d faults (%.0f %%)", name, a.Added, a.Shown, a.Of, 100*float64(a.Shown)/float64(a.Of))
			last = a
		}
		if last.Shown < last.Of*9/10 {
			t.Errorf("%s: the open cavity shows %d of %d", name, last.Shown, last.Of)
		}
	}
}

// stagesOf are the stages of a loom's order of work.
func stagesOf(g *wiring.Graph) []Stage {
	plan := build.Order(g)
	var out []Stage
	for _, s := range plan.Stages {
		out = append(out, Stage{s.Name, plan.SolderedAfter(s.Last)})
	}
	return out
}

// What no reading tells apart is said in groups: no two members of different
// groups look alike in all readings, and members of one group have a neighbour in
// it that no reading surely tells from them.
func TestLookAlike(t *testing.T) {
	for _, name := range []string{"one-twin", "two-twins"} {
		for _, access := range []Access{Outside, Open} {
			table := tableOf(t, bench(t, name), Options{Access: access})
			groups := table.LookAlike()
			group := map[string]int{}
			largest := 0
			for i, g := range groups {
				largest = max(largest, len(g.Faults))
				for _, f := range g.Faults {
					group[f] = i + 1
				}
			}
			alone := 0
			for c := 1; c < len(table.Cases); c++ {
				if group[table.Cases[c].Faults[0].Words] == 0 {
					alone++
					for o := range table.Cases {
						if o != c && !table.toldApart(c, o) {
							t.Errorf("%s is in no group and looks like another", table.Cases[c].Faults[0].Words)
						}
					}
				}
			}
			t.Logf("%s, %s: %d of %d circuits are told from all others, %d groups of the rest, the largest has %d faults", name, access, alone, len(table.Cases)-1, len(groups), largest)
		}
	}
}

// After every stage of work of every example there are readings for what was
// soldered; over all stages they rule out every open joint of the loom.
func TestStagesProveEveryJoint(t *testing.T) {
	for _, name := range []string{"twin-coil-split.yaml", "two-twin-coils-phase.yaml", "three-single-coils-5way.yaml", "loom-without-pickups.yaml"} {
		data, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		l := read(t, name, string(data))
		g := graph(t, l)
		proofs, list := Stages(l, stagesOf(g), Options{})
		if list.HasErrors() || len(proofs) != len(stagesOf(g)) {
			t.Fatalf("%s: %d stages: %v", name, len(proofs), list)
		}
		ruled, lines := map[string]bool{}, 0
		for _, p := range proofs {
			lines += len(p.Lines)
			for _, line := range p.Lines {
				for _, f := range line.RulesOut {
					ruled[f] = true
				}
			}
		}
		_, harmless := fault.Cases(WithoutPickups(g), fault.List(g))
		nothing := map[string]bool{}
		for _, h := range harmless {
			nothing[h.Words] = h.Why == fault.SameNets
		}
		for _, f := range fault.List(g) {
			if f.Kind == fault.JointOpen && f.To < 0 && !ruled[f.Words] && !nothing[f.Words] {
				t.Errorf("%s: no stage's readings rule out %s", name, f.Words)
			}
		}
		t.Logf("%s: %d stages, %d readings", name, len(proofs), lines)
	}
}

// A loom without pickups: no reading goes through a coil that is not there.
func TestBeforeSending(t *testing.T) {
	data, err := examples.Files.ReadFile("loom-without-pickups.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g := graph(t, read(t, "loom-without-pickups", string(data)))
	p, list := BeforeSending(g, Options{})
	if list.HasErrors() {
		t.Fatal(list)
	}
	if len(p.Lines) == 0 || p.Shown < p.Faults*9/10 {
		t.Errorf("%d readings show %d of %d faults", len(p.Lines), p.Shown, p.Faults)
	}
	for _, l := range p.Lines {
		if l.Kind == Tap || l.Kind == Compass || l.Kind == Darkens {
			t.Errorf("%s: there is no coil", l.Key)
		}
	}
	if len(WithoutPickups(g).Coils) != 0 || len(g.Coils) != 4 {
		t.Error("the points' coils are still there, or the graph was changed")
	}
}

// Steel on a coil that is wound clockwise over a north pole makes its finish go
// up (Lenz, see tap), so that red on its start goes down; over a south pole, or
// wound the other way, the opposite.
func TestTapByLenz(t *testing.T) {
	for _, c := range []struct {
		winding, pole part.Sign
		want          Answer
	}{{1, 1, Down}, {1, -1, Up}, {-1, 1, Up}, {-1, -1, Down}, {0, 1, Up | Down}} {
		g := bench(t, "one-twin")
		g.Coils[0].Winding, g.Coils[0].Pole = c.winding, c.pole
		circuit, ok := NewCircuit(g, Options{})
		if !ok {
			t.Fatal("no circuit")
		}
		a := Ask{Kind: Tap, At: setting.Nth(g, 0).At, Turn: setting.FullUp(g), A: g.Coils[0].Start, B: g.Coils[0].Finish}
		if got := circuit.Shown(&a).May; got != c.want {
			t.Errorf("winding %d, pole %d: %v, want %v", c.winding, c.pole, got.Words(), c.want.Words())
		}
	}
}

// A measured part tightens what is right: ohms to 1 % leave a narrower range
// than the usual 5 %.
func TestMeasuredPartsTighten(t *testing.T) {
	data, err := os.ReadFile("../fault/testdata/one-twin.yaml")
	if err != nil {
		t.Fatal(err)
	}
	width := func(text string) float64 {
		g := graph(t, read(t, "x", text))
		c, _ := NewCircuit(g, Options{})
		a := Ask{Kind: Ohms, At: setting.Nth(g, 0).At, Turn: setting.FullUp(g), A: g.Hot, B: g.Ground}
		s := c.Shown(&a)
		return s.Hi - s.Lo
	}
	wide := width(string(data))
	narrow := width(strings.Replace(string(data), "{north: 4.0k, south: 4.1k}", "{north: 4.0k 1%, south: 4.1k 1%}", 1))
	if !(narrow < 0.7*wide) {
		t.Errorf("%g Ω wide with measured coils, %g Ω without", narrow, wide)
	}
}

func BenchmarkTable(b *testing.B) {
	g := bench(b, "two-twins")
	b.ReportAllocs()
	for b.Loop() {
		tableOf(b, g, Options{})
	}
}

func BenchmarkProof(b *testing.B) {
	t := tableOf(b, bench(b, "two-twins"), Options{})
	for b.Loop() {
		t.Proof()
	}
}

// Two leads of one coil that nobody has told apart: its ohms are known, which
// way a tap goes is not. Four such leads are refused in words.
func TestUnknownLeads(t *testing.T) {
	data, err := examples.Files.ReadFile("leads-unknown.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g := graph(t, read(t, "leads-unknown", string(data)))
	table := tableOf(t, g, Options{})
	a, err := Parse(table.Graph, "ohms bridge.blue/yellow to bridge.pink/grey; volume pushed")
	if err != nil {
		t.Fatal(err)
	}
	if s := table.Shown(&a, 0); s.Lo < 3000 || s.Hi > 9000 {
		t.Errorf("the unknown leads of one coil show %g to %g", s.Lo, s.Hi)
	}
	a, err = Parse(table.Graph, "tap bridge.south at jack.tip to jack.sleeve; volume pushed")
	if err != nil {
		t.Fatal(err)
	}
	if got := table.Shown(&a, 0).May; got != Up|Down {
		t.Errorf("a tap on the coil shows %v", got.Words())
	}
	if s := tableShown(t, table, "tap bridge.north at jack.tip to jack.sleeve; volume pushed"); s.May != Down {
		t.Errorf("a tap on the known coil shows %v", s.May.Words())
	}
	all := strings.Replace(string(data), "code: knot", "leads: {turquoise: unknown, brown: unknown, blue/yellow: unknown, pink/grey: unknown, bare: shield}", 1)
	if table, list := NewTable(graph(t, read(t, "all unknown", all)), Options{}); table != nil || list.Worst() != diag.Error || list[0].Code != "meter-leads" {
		t.Errorf("four unknown leads: %v", list)
	}
}

func tableShown(t *testing.T, table *Table, key string) Shown {
	t.Helper()
	a, err := Parse(table.Graph, key)
	if err != nil {
		t.Fatal(err)
	}
	return table.Shown(&a, 0)
}

// A meter's own file, and what is wrong with one in words.
func TestMeterFile(t *testing.T) {
	good := "loomwright-meter: 1\nname: Dunlin pocket meter\nover: OL\nleads: 0.4\nranges:\n" +
		"  - {full: 400, count: 0.1, percent: 1.2%, counts: 4}\n  - {full: 4k, count: 1, percent: 0.9%, counts: 3}\n  - {full: 40M, count: 10k, percent: 2%, counts: 5}\n"
	m, list := Read(diag.NewText("x", good))
	if len(list) > 0 {
		t.Fatal(list)
	}
	if m.Name != "Dunlin pocket meter" || len(m.Ranges) != 3 || math.Abs(m.Ranges[1].Error(2000)-21) > 1e-9 || m.Over != "OL" || m.Leads.Typical != 0.4 {
		t.Errorf("%+v", m)
	}
	for change, want := range map[[2]string]string{
		{"0.9%", "0.9"}:             "no error of a meter",
		{"counts: 3", "counts: a"}:  "no number of counts",
		{"full: 4k", "full: 40"}:    "from the smallest",
		{"count: 1,", "count: 1k,"}: "no range of a meter",
		{"full: 400", "full: lots"}: "resistance",
		{"ranges:", "range:"}:       "range",
	} {
		_, list := Read(diag.NewText("x", strings.Replace(good, change[0], change[1], 1)))
		if !list.HasErrors() || !strings.Contains(list[0].Message, want) {
			t.Errorf("%v: %v, something with %q is wanted", change, list, want)
		}
	}
	for name, m := range Usual() {
		for i, r := range m.Ranges {
			if r.Count <= 0 || r.Full < 10*r.Count || i > 0 && r.Full <= m.Ranges[i-1].Full {
				t.Errorf("%s: range %+v", name, r)
			}
		}
	}
}
