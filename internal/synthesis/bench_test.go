package synthesis

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/sat"
)

// coilsLoom is a loom of single coils a, b, c … on one switch, sounds in the
// order of its positions, straight to the jack.
func coilsLoom(coils int, kind string, sounds ...string) string {
	var b strings.Builder
	b.WriteString("loomwright: 1\nscheme: none\nparts:\n")
	for i := range coils {
		fmt.Fprintf(&b, "  %c: {is: pickup/single-coil}\n", 'a'+i)
	}
	fmt.Fprintf(&b, "  s: {is: %s}\n  jack: {is: jack/mono}\nsounds:\n", kind)
	for i, s := range sounds {
		fmt.Fprintf(&b, "  - {with: s %d, hear: %s}\n", i+1, s)
	}
	return b.String()
}

// twoLevers is a loom of four single coils on two 4-pole 5-throw levers, each
// with sounds of two coils, beside one another in all 25 settings. "" is off.
func twoLevers(one, two [5]string) string {
	var b strings.Builder
	b.WriteString("loomwright: 1\nscheme: none\nparts:\n")
	for _, c := range "abcd" {
		fmt.Fprintf(&b, "  %c: {is: pickup/single-coil}\n", c)
	}
	b.WriteString("  p: {is: switch/lever-4p5t}\n  q: {is: switch/lever-4p5t}\n  jack: {is: jack/mono}\nsounds:\n")
	for i, x := range one {
		for k, y := range two {
			hear := fmt.Sprintf("(%s) parallel (%s)", x, y)
			switch {
			case x+y == "":
				hear = "silent"
			case x == "" || y == "":
				hear = x + y
			}
			fmt.Fprintf(&b, "  - {with: \"p %d, q %d\", hear: %s}\n", i+1, k+1, hear)
		}
	}
	return b.String()
}

// leversOff and leversPhase are the sounds of the two benchmarks with 25
// settings: four sounds and off on each lever, or five sounds.
var (
	leversOff   = twoLevers([5]string{"a", "a parallel b", "b", "a series b", ""}, [5]string{"c", "c parallel d", "d", "c series d", ""})
	leversPhase = twoLevers([5]string{"a", "a parallel b", "b", "a series b", "a series reversed b"},
		[5]string{"c", "c parallel d", "d", "c series d", "c series reversed d"})
)

const splitLoom = `loomwright: 1
parts:
  neck:     {is: pickup/twin-coil}
  bridge:   {is: pickup/twin-coil}
  toggle:   {is: switch/toggle-3way}
  volume:   {is: pot/push-pull-lugs}
  tone:     {is: pot/push-pull-lugs}
  tone-cap: {is: capacitor/film, value: 22n}
  strings:  {is: ground/string}
  jack:     {is: jack/mono}
sounds:
  - {with: "toggle bridge, volume pushed", hear: bridge}
  - {with: "toggle bridge, volume pulled", hear: bridge.north}
  - {with: "toggle middle, volume pushed, tone pushed", hear: neck parallel bridge}
  - {with: "toggle middle, volume pushed, tone pulled", hear: neck.south parallel bridge}
  - {with: "toggle middle, volume pulled, tone pushed", hear: neck parallel bridge.north}
  - {with: "toggle middle, volume pulled, tone pulled", hear: neck.south parallel bridge.north}
  - {with: "toggle neck, tone pushed", hear: neck}
  - {with: "toggle neck, tone pulled", hear: neck.south}
`

const seriesLoom = `loomwright: 1
parts:
  neck:    {is: pickup/twin-coil}
  bridge:  {is: pickup/twin-coil}
  toggle:  {is: switch/toggle-3way}
  one:     {is: switch/dpdt-on-on}
  two:     {is: switch/dpdt-on-on}
  volume:  {is: pot/standard}
  strings: {is: ground/string}
  jack:    {is: jack/mono}
sounds:
  - {with: "toggle neck, one up", hear: neck.north series neck.south}
  - {with: "toggle neck, one down", hear: neck.north parallel neck.south}
  - {with: "toggle bridge, two up", hear: bridge.north series bridge.south}
  - {with: "toggle bridge, two down", hear: bridge.north parallel bridge.south}
  - {with: "toggle middle, one up, two up", hear: (neck.north series neck.south) parallel (bridge.north series bridge.south)}
  - {with: "toggle middle, one up, two down", hear: (neck.north series neck.south) parallel bridge.north parallel bridge.south}
  - {with: "toggle middle, one down, two up", hear: neck.north parallel neck.south parallel (bridge.north series bridge.south)}
  - {with: "toggle middle, one down, two down", hear: neck.north parallel neck.south parallel bridge.north parallel bridge.south}
`

// bench is one instance: joins counts those of the switching, as proved.
type instance struct {
	name, text string
	joins      int // 0: not proved
}

var possible = []instance{
	{"one twin coil, series or parallel, dpdt", coilsLoom(2, "switch/dpdt-on-on", "a series b", "a parallel b"), 7},
	{"series, one, parallel, dpdt on-on-on", coilsLoom(2, "switch/dpdt-on-on-on", "a series b", "a", "a parallel b"), 7},
	{"three coils, bridging 5-way", coilsLoom(3, "switch/lever-5way", "a", "a parallel b", "b", "b parallel c", "c"), 7},
	{"two coils, 4-way lever with series", coilsLoom(2, "switch/lever-4way", "a", "a parallel b", "b", "a series b"), 10},
	{"two twin coils, toggle and two splits, 12 settings", splitLoom, 11},
	{"two twin coils, toggle and two series or parallel, 12 settings", seriesLoom, 15},
	{"four coils on a 4-pole 5-throw lever, easy", coilsLoom(4, "switch/lever-4p5t", "a series b", "a", "a parallel d", "c", "c series d"), 14},
	{"four coils on a 4-pole 5-throw lever, medium", coilsLoom(4, "switch/lever-4p5t", "a series b", "a parallel b", "a parallel d", "(a series b) parallel (c series d)", "c series d"), 17},
	{"four coils on a 4-pole 5-throw lever, hard", coilsLoom(4, "switch/lever-4p5t", "a series b", "a parallel d", "(a series b) parallel (c series d)", "b parallel c", "c series d"), 19},
	{"six coils on a 4-pole 6-throw rotary, pairs", coilsLoom(6, "switch/rotary-4p6", "a series b", "(a series b) parallel (c series d)", "c series d", "(c series d) parallel (e series f)", "e series f", "(a series b) parallel (e series f)"), 17},
	{"six coils on a 4-pole 6-throw rotary, with splits", coilsLoom(6, "switch/rotary-4p6", "a series b", "a parallel c", "c series d", "c parallel e", "e series f", "(a series b) parallel (e series f)"), 0},
}

var refuted = []instance{
	{"series or parallel on one spdt", coilsLoom(2, "switch/spdt-on-on", "a series b", "a parallel b"), 0},
	{"bridging 5-way with the outer pair in the middle", coilsLoom(3, "switch/lever-5way", "a", "a parallel b", "a parallel c", "b parallel c", "c"), 0},
	{"four coils on a 4-pole 5-throw lever, all turned about", coilsLoom(4, "switch/lever-4p5t", "a series b series c series d", "a parallel b parallel c parallel d", "(a series b) parallel (c series d)", "(a parallel b) series (c parallel d)", "(a series c) parallel (b series d)"), 0},
}

// taskOf makes the task of a loom.
func taskOf(t testing.TB, text string, o Options) *task {
	t.Helper()
	o.Schemes = shipped(t)
	tk, list := newTask(read(t, "bench", text), o)
	if tk == nil {
		t.Fatal(list)
	}
	return tk
}

// wholePuzzle is a loom's puzzle in one piece.
func wholePuzzle(t testing.TB, text string) *puzzle {
	t.Helper()
	tk := taskOf(t, text, Options{})
	pl := tk.whole()
	p, _ := tk.build(&pl.specs[0])
	return p
}

// BenchmarkSmallest is the time to the smallest wiring, proved. The metric cpu is
// processor time, which a busy machine disturbs less.
func BenchmarkSmallest(b *testing.B) {
	for _, c := range possible {
		b.Run(c.name, func(b *testing.B) {
			p := wholePuzzle(b, c.text)
			before := cpuTime()
			for b.Loop() {
				out := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: 1 << 40}, nil)
				if out.bound != out.joins || c.joins > 0 && out.joins != c.joins {
					b.Fatalf("%d joins, %d proved needed, expected %d", out.joins, out.bound, c.joins)
				}
			}
			b.ReportMetric(float64(cpuTime()-before)/float64(b.N)/1e6, "cpu-ms/op")
		})
	}
}

// BenchmarkFind is the whole search: smallest, then taste.
func BenchmarkFind(b *testing.B) { benchmarkFind(b, Options{}) }

// BenchmarkFirst is the time to the first wiring.
func BenchmarkFirst(b *testing.B) { benchmarkFind(b, Options{First: true}) }

func benchmarkFind(b *testing.B, o Options) {
	for _, c := range possible {
		b.Run(c.name, func(b *testing.B) {
			l := read(b, "bench", c.text)
			o.Schemes = shipped(b)
			before := cpuTime()
			for b.Loop() {
				if r, list := Find(l, o); r.Status != Found {
					b.Fatal(list)
				}
			}
			b.ReportMetric(float64(cpuTime()-before)/float64(b.N)/1e6, "cpu-ms/op")
		})
	}
}

// BenchmarkRefuted is the time to a smallest conflict and what to give up; with
// the sweep of the library's switches in the second half.
func BenchmarkRefuted(b *testing.B) {
	for _, c := range refuted {
		for _, brief := range []bool{true, false} {
			b.Run(fmt.Sprintf("%s, conflict only %v", c.name, brief), func(b *testing.B) {
				l := read(b, "bench", c.text)
				known := shipped(b)
				before := cpuTime()
				for b.Loop() {
					if r, list := Find(l, Options{Schemes: known, Library: lib, Brief: brief}); r.Status != Impossible {
						b.Fatal(r.Status, list)
					}
				}
				b.ReportMetric(float64(cpuTime()-before)/float64(b.N)/1e6, "cpu-ms/op")
			})
		}
	}
}

// leversSeries are two levers whose sounds follow one another, where no group can
// be searched on its own.
var leversSeries = strings.NewReplacer(") parallel (", ") series (").Replace(leversOff)

// BenchmarkTwoLevers reports the joins found for 25 settings and the bound proved:
// by Find, and by the search of the whole alone, which knows nothing of groups.
func BenchmarkTwoLevers(b *testing.B) {
	for _, c := range []struct{ name, text string }{{"four sounds and off", leversOff}, {"five sounds", leversPhase}, {"in series", leversSeries}} {
		b.Run(c.name, func(b *testing.B) {
			l := read(b, "bench", c.text)
			known := shipped(b)
			before := cpuTime()
			for b.Loop() {
				r, list := Find(l, Options{Schemes: known})
				if r.Status != Found {
					b.Fatal(r.Status, list)
				}
				b.ReportMetric(float64(r.Wirings[0].Count), "joins")
				b.ReportMetric(float64(r.Bound), "bound")
				b.ReportMetric(float64(r.Conflicts), "conflicts")
			}
			b.ReportMetric(float64(cpuTime()-before)/float64(b.N)/1e6, "cpu-ms/op")
		})
		b.Run(c.name+", as a whole", func(b *testing.B) {
			p := wholePuzzle(b, c.text)
			before := cpuTime()
			for b.Loop() {
				out := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: DefaultConflicts}, nil)
				b.ReportMetric(float64(out.joins), "joins")
				b.ReportMetric(float64(out.bound), "bound")
			}
			b.ReportMetric(float64(cpuTime()-before)/float64(b.N)/1e6, "cpu-ms/op")
		})
	}
}
