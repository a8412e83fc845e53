package synthesis

import (
	"slices"
	"testing"

	"loomwright/internal/proof"
	"loomwright/internal/sat"
)

// TestNoiseAgainstProof compares what is said of each passage with the proof, which
// also lets poles move one after the other: it may find worse, never better; and
// the same where the poles of a switch move together.
func TestNoiseAgainstProof(t *testing.T) {
	order := []string{"smooth", gap, mute, pop}
	compared, equal := 0, 0
	for seed := uint64(20000); compared < 300; seed++ {
		text := newDice(seed).loom()
		tk, _ := newTask(read(t, "random", text), Options{Schemes: []Scheme{{Name: "none"}}})
		if tk == nil {
			continue
		}
		r := tk.find(&effort{left: 5000})
		if r.Status != Found {
			continue
		}
		out, report := prove(t, tk.g.Loom, &r.Wirings[0])
		ours := map[[2]string]string{}
		for _, n := range r.Wirings[0].Noise {
			ours[[2]string{n.From, n.To}] = n.Moment
		}
		for _, row := range report.Rows {
			for _, way := range row.Travel {
				if !soundsIn(report, row.Name) || !soundsIn(report, way.To) || rowIndex(report, way.To) < rowIndex(report, row.Name) {
					continue
				}
				said := max(0, slices.Index(order, ours[[2]string{row.Name, way.To}]))
				proved := slices.Index(order, string(way.Quiet))
				together := !skewed(tk, way.Switch)
				if proved < said || together && proved != said {
					t.Fatalf("seed %d: %s to %s: %s said, %s proved\n%s", seed, row.Name, way.To, order[said], way.Quiet, out)
				}
				compared++
				if proved == said {
					equal++
				}
			}
		}
	}
	t.Logf("%d passages, %d of them alike", compared, equal)
}

func rowIndex(r proof.Report, name string) int {
	return slices.IndexFunc(r.Rows, func(row proof.Row) bool { return row.Name == name })
}

// soundsIn reports whether a setting has a wanted sound that is heard.
func soundsIn(r proof.Report, name string) bool {
	row := &r.Rows[rowIndex(r, name)]
	return row.Wanted != nil && row.Wanted.Sound != "any" && row.Wanted.Sound != "silent"
}

func skewed(tk *task, name string) bool {
	return slices.ContainsFunc(tk.g.Loom.Uses, func(u loomUse) bool {
		return u.Name == name && u.Part.Switches[0].Skew
	})
}

// TestQuieter: of wirings with as few joins and long wires, the one with the
// fewest noisy passages is found: as many as the best of all of them has.
func TestQuieter(t *testing.T) {
	for _, c := range possible[:4] {
		p := wholePuzzle(t, c.text)
		e := encode(p, allRules().settle(p), sat.Options{})
		f := &effort{left: 1 << 40}
		out := e.minimise(f, nil)
		e.refine(&out, f)
		if out.tasteOpen {
			t.Fatalf("%s: not settled", c.name)
		}
		want := p.taste(out.best)
		all := encode(p, rules{}, sat.Options{})
		for _, l := range all.everything() {
			all.s.AddClause(l)
		}
		all.s.AddClause(all.more(out.joins).Not())
		n := 0
		for ; all.solve(f, f.left) == sat.Sat; n++ {
			s := all.decode()
			got := p.taste(s)
			if better(got, want) {
				t.Fatalf("%s: %+v, another has %+v", c.name, want, got)
			}
			all.exclude(s)
		}
		if n == 0 {
			t.Errorf("%s: no wiring at all", c.name)
		}
		t.Logf("%s: %+v is the best of %d wirings", c.name, want, n)
	}
}

func better(a, b taste) bool {
	if a.long != b.long {
		return a.long < b.long
	}
	if a.noise != b.noise {
		return a.noise < b.noise
	}
	return a.crowded < b.crowded
}
