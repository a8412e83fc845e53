package synthesis

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/sat"
)

// sweep tries the library's switches, cheapest first, in place of each switch of
// the loom.
func (t *task) sweep(why *Why, f *effort) {
	var best *Another
	bestRank := 0.0
	for _, i := range t.switches {
		if t.touched(&t.g.Switches[i]) {
			continue
		}
		found, rank := t.sweepFor(i, f)
		if found != nil && (best == nil || rank < bestRank) {
			best, bestRank = found, rank
		}
	}
	why.Switch = best
}

// sweepFor tries other parts for one switch.
func (t *task) sweepFor(i int, f *effort) (*Another, float64) {
	use := t.g.Switches[i].Use
	old := t.g.Loom.Uses[use].Part
	// Another of the same contacts helps only where a lug of this one must stay free.
	refuted := map[string]bool{tableOf(old): !slices.ContainsFunc(t.g.Loom.Free, func(r loom.Ref) bool { return r.Use == use })}
	parts := t.candidates(old)
	if most := mostPoles(parts); most != nil && plainPart(most) {
		// What the plain switch with the most poles cannot do, none can.
		if t.tryPart(use, most, f) == nil {
			parts = slices.DeleteFunc(parts, plainPart)
		}
	}
	for _, p := range parts {
		table := tableOf(p)
		if refuted[table] || f.out() {
			continue
		}
		if found := t.tryPart(use, p, f); found != nil {
			t.countJoins(use, p, found, f)
			return found, p.Rank
		}
		refuted[table] = true
	}
	return nil, 0
}

// candidates lists the library's and the shelf's parts of the same class with one switch of as
// many positions or more, and the same pots; cheapest first.
func (t *task) candidates(old *part.Part) []*part.Part {
	var out []*part.Part
	for _, id := range t.opt.Library.IDs() {
		p, _ := t.opt.Library.Part(id)
		if p == nil || p.Class != old.Class || len(p.Switches) != 1 || len(old.Switches) != 1 || p.Switches[0].Proved >= 0 || len(p.Tracks) != len(old.Tracks) {
			continue
		}
		if len(p.Switches[0].Positions) >= len(old.Switches[0].Positions) {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b *part.Part) int {
		return cmp.Or(cmp.Compare(a.Rank, b.Rank), cmp.Compare(len(a.Switches[0].Positions), len(b.Switches[0].Positions)))
	})
	return out
}

// tableOf writes a part's contacts so that equal switches are equal texts.
func tableOf(p *part.Part) string {
	if len(p.Switches) != 1 {
		return p.ID
	}
	index := map[int]int{}
	var b strings.Builder
	for _, pole := range p.Switches[0].Poles {
		for _, groups := range pole.Contacts {
			for _, g := range groups {
				for _, x := range g {
					if _, ok := index[x]; !ok {
						index[x] = len(index)
					}
					fmt.Fprint(&b, index[x], " ")
				}
				b.WriteByte(',')
			}
			b.WriteByte(';')
		}
		b.WriteByte('|')
	}
	return b.String()
}

// plainPart reports whether every throw of a part's switch belongs to one
// position.
func plainPart(p *part.Part) bool {
	for _, pole := range p.Switches[0].Poles {
		seen := map[int]bool{}
		for _, x := range pole.Throws {
			if seen[x] || x < 0 {
				return false
			}
			seen[x] = true
		}
		if len(pole.Throws) == 0 {
			return false
		}
	}
	return true
}

// mostPoles is the plain part with the most poles.
func mostPoles(parts []*part.Part) *part.Part {
	var most *part.Part
	for _, p := range parts {
		if plainPart(p) && (most == nil || len(p.Switches[0].Poles) > len(most.Switches[0].Poles)) {
			most = p
		}
	}
	return most
}

// tryPart decides whether a part in place of a loom's would do, if need be with
// the sounds in another order; nil when it would not.
func (t *task) tryPart(use int, p *part.Part, f *effort) *Another {
	other := t.withPart(use, p)
	if other == nil {
		return nil
	}
	found := &Another{Part: p.ID, Name: p.Name, For: t.g.Loom.Uses[use].Name}
	i := slices.IndexFunc(other.switches, func(s int) bool { return other.g.Switches[s].Use == use })
	if other.ordered(other.switches[i]) {
		order, status := other.reorder(other.switches[i], f)
		if status != sat.Sat {
			return nil
		}
		found.Order = moved(order, &p.Switches[0], &t.g.Loom.Uses[use].Part.Switches[0])
		return found
	}
	if other.possible(f) != sat.Sat {
		return nil
	}
	return found
}

// moved words the places of a new switch that get the sounds of an old one's,
// none when all stay in order.
func moved(order []Placed, fresh, old *part.Switch) []Placed {
	var out []Placed
	inOrder := true
	for _, p := range order {
		if from := fresh.Position(p.Gets); from < len(old.Positions) {
			inOrder = inOrder && p.Position == p.Gets
			out = append(out, Placed{p.Position, old.Positions[from].Name})
		}
	}
	if inOrder {
		return nil
	}
	return out
}

// countJoins counts the joins of a wiring with another part.
func (t *task) countJoins(use int, p *part.Part, found *Another, f *effort) {
	if len(found.Order) > 0 {
		return
	}
	other := t.withPart(use, p)
	pl := other.whole()
	q, _ := other.build(&pl.specs[0])
	few := &effort{left: min(explainEffort/4, f.left), stop: f.stop}
	out := encode(q, allRules().settle(q), sat.Options{}).minimise(few, nil)
	f.add(few)
	if out.status == sat.Sat {
		found.Joins, found.Proved = out.joins, out.joins == out.bound
	}
}

// withPart is the task of the same loom with another part for a use.
func (t *task) withPart(use int, p *part.Part) *task {
	l := *t.g.Loom
	l.Uses = slices.Clone(l.Uses)
	own := *p
	old := l.Uses[use].Part
	own.Tracks = slices.Clone(own.Tracks)
	for i := range own.Tracks {
		own.Tracks[i].Value = old.Tracks[i].Value
	}
	l.Uses[use].Part = &own
	l.Free = slices.DeleteFunc(slices.Clone(l.Free), func(r loom.Ref) bool { return r.Use == use })
	for _, j := range l.Joins {
		for _, r := range j.Runs {
			if r.A.Use == use || r.B.Use == use {
				return nil
			}
		}
	}
	other, _ := newTask(&l, t.opt)
	return other
}
