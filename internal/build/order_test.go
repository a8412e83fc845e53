package build_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/wiring"
	"loomwright/library"
)

func shelf() *part.Library {
	return part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
}

func read(t *testing.T, lib *part.Library, text string) *wiring.Graph {
	t.Helper()
	l, list := loom.Read(diag.NewText("loom.yaml", text), lib)
	if l == nil {
		t.Fatalf("%v\n%s", list, text)
	}
	g, _ := wiring.Build(l)
	return g
}

// randomLoom joins terminals of random parts at random, in every kind of wire.
func randomLoom(rng *rand.Rand, lib *part.Library) string {
	var ids []string
	for _, id := range lib.IDs() {
		if !strings.HasPrefix(id, "codes/") && !strings.HasPrefix(id, "jack/") {
			ids = append(ids, id)
		}
	}
	var b strings.Builder
	b.WriteString("loomwright: 1\nparts:\n  jack: {is: jack/mono}\n")
	names := []string{"jack.tip", "jack.sleeve"}
	for i := range 3 + rng.IntN(6) {
		id := ids[rng.IntN(len(ids))]
		p, _ := lib.Part(id)
		fmt.Fprintf(&b, "  p%d: {is: %s}\n", i, id)
		for _, t := range p.Terminals {
			names = append(names, fmt.Sprintf("p%d.%s", i, t.Name))
		}
	}
	kinds := []string{"", "", "", ": bare", ": sleeved", ": white, twisted", ": touching", ": screened", ": screened, braid %s", ": screened, braid %s -- %s"}
	b.WriteString("joins:\n")
	some := func() string { return names[rng.IntN(len(names))] }
	for range 1 + rng.IntN(40) {
		a, z := some(), some()
		if a == z {
			continue
		}
		option := kinds[rng.IntN(len(kinds))]
		for strings.Contains(option, "%s") {
			option = strings.Replace(option, "%s", some(), 1)
		}
		fmt.Fprintf(&b, "  - %s -- %s%s\n", a, z, option)
	}
	return b.String()
}

const looms = 150

func eachRandom(t *testing.T, do func(t *testing.T, g *wiring.Graph, p build.Plan)) {
	t.Helper()
	lib := shelf()
	for seed := range uint64(looms) {
		text := randomLoom(rand.New(rand.NewPCG(seed, 7)), lib)
		g := read(t, lib, text)
		do(t, g, build.Order(g))
		if t.Failed() {
			t.Fatalf("in the loom of seed %d:\n%s", seed, text)
		}
	}
}

// joint is one end of a run, or of its braid.
type joint struct {
	run, term int
	braid     bool
}

// wantedJoints lists the ends of all runs from the loom file itself.
func wantedJoints(g *wiring.Graph) map[joint]int {
	out := map[joint]int{}
	run := 0
	for _, j := range g.Loom.Joins {
		for _, r := range j.Runs {
			out[joint{run, g.Ref(r.A), false}]++
			out[joint{run, g.Ref(r.B), false}]++
			if r.Braid != nil {
				out[joint{run, g.Ref(r.Braid.A), true}]++
				if r.Braid.B != nil {
					out[joint{run, g.Ref(*r.Braid.B), true}]++
				}
			}
			run++
		}
	}
	return out
}

// Every run has one step, and one more where its tail is finished; every end of
// it is worked on once.
func TestEveryEndOnce(t *testing.T) {
	eachRandom(t, func(t *testing.T, g *wiring.Graph, p build.Plan) {
		steps, done := map[int]int{}, map[joint]int{}
		for i, s := range p.Steps {
			if s.Number != i+1 {
				t.Errorf("step %d is numbered %d", i+1, s.Number)
			}
			if s.Finishes == 0 {
				steps[s.Run]++
			} else if first := p.Steps[s.Finishes-1]; first.Run != s.Run || first.Where != build.AtTheBench || s.Where != build.InTheGuitar {
				t.Errorf("step %d finishes step %d", s.Number, s.Finishes)
			}
			for _, e := range s.Ends {
				if e.Work != build.Tail || !finished(p, s.Number, e.Term) {
					done[joint{s.Run, e.Term, e.Braid}]++
				}
			}
		}
		for run := range g.Runs {
			if steps[run] != 1 {
				t.Errorf("run %d has %d steps", run, steps[run])
			}
		}
		if want := wantedJoints(g); !reflect.DeepEqual(done, want) {
			t.Errorf("ends worked on %v, ends of the loom %v", done, want)
		}
	})
}

// finished reports whether a later step takes the tail of a step to a terminal.
func finished(p build.Plan, step, term int) bool {
	for _, s := range p.Steps {
		if s.Finishes == step && slices.ContainsFunc(s.Ends, func(e build.End) bool { return e.Term == term }) {
			return true
		}
	}
	return false
}

// Stages come in order and are named once; the bench comes before the guitar.
func TestStagesInOrder(t *testing.T) {
	names := []string{"grounds on the cases", "jumpers", "wires between the controls", "capacitors and resistors",
		"string ground and plates", "pickups", "jack"}
	eachRandom(t, func(t *testing.T, _ *wiring.Graph, p build.Plan) {
		at := -1
		for i, s := range p.Stages {
			k := slices.Index(names, s.Name)
			if k <= at || (k < 4) != (s.Where == build.AtTheBench) {
				t.Errorf("stage %q, %s, stands at %d", s.Name, s.Where, i)
			}
			at = k
		}
		for i, s := range p.Steps {
			if i > 0 && s.Stage < p.Steps[i-1].Stage {
				t.Errorf("step %d goes back to stage %d", s.Number, s.Stage)
			}
			if st := p.Stages[s.Stage]; s.Where != st.Where || s.Number > st.Last {
				t.Errorf("step %d, %s, is in stage %+v", s.Number, s.Where, st)
			}
		}
	})
}

// A lug is heated once at the bench and once more in the guitar at most; a
// hooked wire is heated later, in the same place; "again" is said when, and only
// when, the bench has heated it.
func TestOneHeatPerLug(t *testing.T) {
	type lug struct {
		term  int
		where build.Where
	}
	eachRandom(t, func(t *testing.T, g *wiring.Graph, p build.Plan) {
		heats, hooks := map[lug]int{}, map[lug][]build.End{}
		for _, s := range p.Steps {
			for _, e := range s.Ends {
				at := lug{e.Term, s.Where}
				switch e.Work {
				case build.Solder, build.Again:
					bench := heats[lug{e.Term, build.AtTheBench}] > 0 && s.Where == build.InTheGuitar
					if bench != (e.Work == build.Again) {
						t.Errorf("step %d at %s is %q", s.Number, g.Terms[e.Term].Name, e.Work)
					}
					heats[at]++
					for _, h := range hooks[at] {
						if h.Heat != s.Number {
							t.Errorf("a wire hooked at %s waits for step %d, step %d heats it", g.Terms[e.Term].Name, h.Heat, s.Number)
						}
					}
					delete(hooks, at)
				case build.Hook:
					hooks[at] = append(hooks[at], e)
				}
				if e.Work.Heats() && e.Heat != s.Number {
					t.Errorf("step %d heats %s, which says %d", s.Number, g.Terms[e.Term].Name, e.Heat)
				}
			}
		}
		for at, n := range heats {
			if n > 1 {
				t.Errorf("%s is heated %d times %s", g.Terms[at.term].Name, n, at.where)
			}
		}
		if len(hooks) > 0 {
			t.Errorf("wires stay hooked: %v", hooks)
		}
	})
}

// Nothing is in before its heat, all is in at the end, and what is in stays in.
func TestHalfBuiltGrows(t *testing.T) {
	eachRandom(t, func(t *testing.T, g *wiring.Graph, p build.Plan) {
		before := p.SolderedAfter(0)
		for n := range len(p.Steps) + 1 {
			now := p.SolderedAfter(n)
			for run := range g.Runs {
				if before(run) && !now(run) {
					t.Errorf("run %d falls out after step %d", run, n)
				}
			}
			before = now
		}
		for run := range g.Runs {
			if !before(run) || p.SolderedAfter(0)(run) {
				t.Errorf("run %d is in before the first step or out after the last", run)
			}
		}
		if len(p.Stages) == 0 {
			return
		}
		whole, _ := p.Half(g.Loom, len(p.Stages)-1)
		if !reflect.DeepEqual(whole.Links, g.Links) {
			t.Error("the loom after the last stage is not the loom")
		}
	})
}

func TestSamePlanTwice(t *testing.T) {
	eachRandom(t, func(t *testing.T, g *wiring.Graph, p build.Plan) {
		if again := build.Order(g); !reflect.DeepEqual(p, again) {
			t.Error("two plans of one loom differ")
		}
	})
}

// Within a stage the first joint on each part is its innermost, unless a begun
// lug was to be finished first.
func TestInnerBeforeOuter(t *testing.T) {
	const text = `
loomwright: 1
parts:
  lever: {is: switch/lever-4p5t}
  volume: {is: pot/standard}
  jack: {is: jack/mono}
joins:
  - lever.a -- volume.cw
  - lever.c.2 -- volume.wiper
  - lever.b.4 -- lever.b.5: bare
  - lever.a.2 -- lever.a.3: bare
  - lever.c.3 -- lever.c.4: bare
`
	g := read(t, shelf(), text)
	var got []string
	for _, s := range build.Order(g).Steps {
		r := &g.Runs[s.Run]
		got = append(got, g.Terms[r.A].Name+" "+g.Terms[r.B].Name)
	}
	want := []string{"lever.b.4 lever.b.5", "lever.c.3 lever.c.4", "lever.a.2 lever.a.3", "lever.c.2 volume.wiper", "lever.a volume.cw"}
	if !slices.Equal(got, want) {
		t.Errorf("got %v\nwant %v", got, want)
	}
}
