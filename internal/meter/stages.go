package meter

import (
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/fault"
	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// Stage is a stretch of work after which readings are taken: its name, and
// which runs are in.
type Stage struct {
	Name     string
	Soldered func(run int) bool
}

// Stages lists, for each stage of work, the shortest list of readings on the
// half-built loom that shows what can have gone wrong since the stage before,
// also where it leads nowhere yet. At points for pickups nothing is joined.
func Stages(l *loom.Loom, stages []Stage, o Options) ([]Proof, diag.List) {
	var out []Proof
	o.Idle = true
	shown := map[string]bool{}
	for _, s := range stages {
		g, list := wiring.Half(l, s.Soldered)
		if list.HasErrors() {
			return nil, list
		}
		t, list := NewTable(WithoutPickups(g), o)
		if t == nil {
			return nil, list
		}
		p := t.ProofOf(func(f *fault.Fault) bool { return !shown[f.Words] })
		t.remember(shown)
		p.Name = s.Name
		out = append(out, p)
	}
	return out, nil
}

// remember marks the faults that some reading shows, and those that change
// nothing yet.
func (t *Table) remember(known map[string]bool) {
	shows := t.shows(false)
	for c := 1; c < len(t.Cases); c++ {
		if shown(shows, c) {
			for _, f := range t.Cases[c].Faults {
				known[f.Words] = true
			}
		}
	}
}

// BeforeSending is the shortest list of readings that proves a loom which is
// sold without pickups.
func BeforeSending(g *wiring.Graph, o Options) (Proof, diag.List) {
	o.Idle = true
	t, list := NewTable(WithoutPickups(g), o)
	if t == nil {
		return Proof{}, list
	}
	return t.Proof(), nil
}

// WithoutPickups is a loom as it is sold, with nothing yet at the points where
// pickups will be joined.
func WithoutPickups(g *wiring.Graph) *wiring.Graph {
	out := *g
	at := make([]int, len(g.Coils)) // new place of each coil, −1 for one that is not there
	out.Coils, out.Couplings = nil, nil
	for i, c := range g.Coils {
		if at[i] = -1; g.Loom.Uses[c.Use].Part.Class != "points" {
			at[i] = len(out.Coils)
			out.Coils = append(out.Coils, c)
		}
	}
	for _, k := range slices.Clone(g.Couplings) {
		if k.A, k.B = at[k.A], at[k.B]; k.A >= 0 && k.B >= 0 {
			out.Couplings = append(out.Couplings, k)
		}
	}
	return &out
}
