package synthesis

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/sat"
)

// TestLeastConflict compares, over random impossible looms, the smallest conflict
// with all smaller sets of demands, each tried with the encoding that has no rules;
// and each wish to give up with the search without it.
func TestLeastConflict(t *testing.T) {
	compared, sizes := 0, map[int]int{}
	for seed := uint64(9000); compared < 60; seed++ {
		text := newDice(seed).loom()
		tk, _ := newTask(read(t, "random", text), Options{Schemes: []Scheme{{Name: "none"}}, Brief: true})
		if tk == nil {
			continue
		}
		f := &effort{left: 20000}
		r := tk.find(f)
		if r.Status != Impossible || f.out() {
			continue
		}
		pl := tk.whole()
		p, _ := tk.build(&pl.specs[0])
		plain := encode(p, rules{}, sat.Options{})
		demands := plain.everything()
		size := len(r.Why.Conflict)
		if r.Why.Rule != "" {
			size++
		}
		possible := func(set []sat.Lit) bool { return plain.solve(&effort{left: 1 << 40}, 1<<40, set...) == sat.Sat }
		for _, set := range subsets(demands, size-1) {
			if !possible(set) {
				t.Fatalf("seed %d: %d demands were said to conflict at least, %v do\n%s", seed, size, set, text)
			}
		}
		for i := range p.wishes {
			others := slices.Delete(slices.Clone(demands), i+1, i+2) // the first is no wish
			given := slices.ContainsFunc(r.Why.GiveUp, func(w Wish) bool { return w.Sound == p.wishes[i].source })
			if given != possible(others) {
				t.Fatalf("seed %d: giving up %d helps: %v\n%s", seed, i, !given, text)
			}
		}
		compared++
		sizes[size]++
	}
	t.Logf("conflicts by size: %v", sizes)
}

// subsets lists the sets of n of some literals.
func subsets(lits []sat.Lit, n int) [][]sat.Lit {
	if n == 0 {
		return [][]sat.Lit{nil}
	}
	var out [][]sat.Lit
	for i := range lits {
		for _, rest := range subsets(lits[i+1:], n-1) {
			out = append(out, append([]sat.Lit{lits[i]}, rest...))
		}
	}
	return out
}

// find is Find with everything that is shipped.
func find(t testing.TB, text string, o Options) Result {
	t.Helper()
	o.Schemes, o.Library = shipped(t), lib
	r, _ := Find(read(t, "test", text), o)
	return r
}

// TestAnotherOrder: series, parallel, one does not fit an on-on-on toggle, another
// order does; it must be found, and hold.
func TestAnotherOrder(t *testing.T) {
	sounds := []string{"a series b", "a parallel b", "a"}
	r := find(t, coilsLoom(2, "switch/dpdt-on-on-on", sounds...), Options{})
	if r.Status != Impossible || len(r.Why.Order) != 3 {
		t.Fatalf("%v, order %v", r.Status, r.Why)
	}
	names := []string{"up", "middle", "down"}
	moved := make([]string, 3)
	for _, p := range r.Why.Order {
		moved[slices.Index(names, p.Position)] = sounds[slices.Index(names, p.Gets)]
	}
	if again := find(t, coilsLoom(2, "switch/dpdt-on-on-on", moved...), Options{}); again.Status != Found {
		t.Errorf("the order %v is said to do, and does not", moved)
	}
}

// TestAnotherSwitch holds the switch that is named to its word: with it the loom
// can be wired, and no cheaper part of the library does.
func TestAnotherSwitch(t *testing.T) {
	for _, c := range refuted[:2] {
		r := find(t, c.text, Options{})
		if r.Status != Impossible || r.Why.Switch == nil {
			t.Fatalf("%s: %v", c.name, r.Why)
		}
		sounds := soundsOf(c.text)
		for _, id := range lib.IDs() {
			p, _ := lib.Part(id)
			if !strings.HasPrefix(id, "switch/") || len(p.Switches[0].Positions) < len(sounds) {
				continue
			}
			named, _ := lib.Part(r.Why.Switch.Part)
			again := find(t, coilsLoom(len(taskOf(t, c.text, Options{}).coils), id, sounds...), Options{Brief: true, First: true})
			if id == named.ID && len(r.Why.Switch.Order) == 0 && again.Status != Found {
				t.Errorf("%s: %s does not do", c.name, id)
			}
			if p.Rank < named.Rank && again.Status == Found {
				t.Errorf("%s: %s is cheaper than %s and does", c.name, id, named.ID)
			}
		}
	}
}

func soundsOf(text string) []string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		if _, hear, ok := strings.Cut(line, "hear: "); ok {
			out = append(out, strings.TrimSuffix(hear, "}"))
		}
	}
	return out
}

// TestWhatElseWouldHelp: demands that the loom does not make itself are named when
// it can be done without them.
func TestWhatElseWouldHelp(t *testing.T) {
	braid := `loomwright: 1
parts:
  neck: {is: pickup/twin-coil-covered, code: whimbrel}
  bridge: {is: pickup/twin-coil-covered, code: whimbrel}
  phase: {is: switch/dpdt-on-on}
  jack: {is: jack/mono}
sounds:
  - {with: phase up, hear: neck parallel bridge}
  - {with: phase down, hear: neck parallel reversed bridge}
`
	for _, c := range []struct {
		text, want string
		o          Options
	}{
		{braid, "also a coil's end", Options{}},
		{coilsLoom(2, "switch/dpdt-on-on", "a series b", "a parallel b"), "hum need not cancel", Options{HumCancels: true}},
	} {
		r := find(t, c.text, c.o)
		if r.Status != Impossible {
			t.Fatalf("%v\n%s", r.Status, c.text)
		}
		if got := strings.Join(r.Why.Loosened, "; "); !strings.Contains(got, c.want) {
			t.Errorf("%q, want %q\n%s", got, c.want, c.text)
		}
	}
}

// TestHanging: where random wishes can only be met with a silent coil that touches
// the sound by one end, the wishes hold with it; and it is an aerial, or lies in a
// loop with another silent one.
func TestHanging(t *testing.T) {
	seen, aerials := 0, 0
	for seed := uint64(0); seen < 3 && seed < 3000; seed++ {
		text := newDice(seed).loom()
		o := Options{Schemes: []Scheme{{Name: "none"}}, First: true}
		tk, _ := newTask(read(t, "random", text), o)
		o.Hanging = true
		loose, _ := newTask(read(t, "random", text), o)
		if tk == nil || tk.possible(&effort{left: 2000}) != sat.Unsat || loose.possible(&effort{left: 2000}) != sat.Sat {
			continue
		}
		r := loose.find(&effort{left: 5000})
		out, report := prove(t, loose.g.Loom, &r.Wirings[0])
		for _, row := range report.Rows {
			aerials += len(row.Hanging)
			if row.Wanted != nil && row.Wanted.Met == proof.No {
				t.Errorf("seed %d: %s: %s\n%s", seed, row.Name, row.Wanted.Why, out)
			}
		}
		seen++
	}
	if seen < 3 || aerials == 0 {
		t.Fatalf("%d such looms, %d aerials", seen, aerials)
	}
}

// TestHumAlone: hum cannot cancel between two coils alike, and the answer says so.
func TestHumAlone(t *testing.T) {
	text := coilsLoom(2, "switch/dpdt-on-on", "a series b", "a")
	r := find(t, strings.Replace(text, "hear: a series b", "hear: a series b, hum: cancels", 1), Options{})
	if r.Status != Impossible || !strings.Contains(r.Why.Hint, "hum cannot cancel") || len(r.Why.Conflict) != 1 {
		t.Errorf("%v: %+v", r.Status, r.Why)
	}
	each := "loomwright: 1\nscheme: volume-each\nparts:\n  a: {is: pickup/single-coil}\n  b: {is: pickup/single-coil}\n" +
		"  v: {is: pot/standard}\n  w: {is: pot/standard}\n  jack: {is: jack/mono}\nsounds: [{hear: a parallel b, hum: cancels}]\n"
	if r := find(t, each, Options{}); r.Status != Impossible || !strings.Contains(r.Why.Hint, "hum cannot cancel") {
		t.Errorf("with a volume each: %v", r.Status)
	}
	free := strings.Replace(text, "hear: a series b", "hear: a series b, hum: cancels, phase: free", 1)
	r = find(t, free, Options{})
	if r.Status != Found {
		t.Fatalf("with free phase: %v", r.Status)
	}
	_, report := prove(t, read(t, "free", free), &r.Wirings[0])
	if fmt.Sprint(report.Rows[0].Hum) != "cancels" {
		t.Errorf("hum %s", report.Rows[0].Hum)
	}
}
