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

// suggest looks for what would make the wishes possible: other demands, another
// order of the sounds on the same switch, another switch.
func (t *task) suggest(why *Why, f *effort) {
	f.state.Stage = "looking for another switch"
	few := &effort{left: 2 * explainEffort, stop: f.stop, progress: f.progress, state: f.state}
	t.loosen(why, few)
	for _, i := range t.switches {
		if t.touched(&t.g.Switches[i]) || !t.ordered(i) {
			continue
		}
		if order, status := t.reorder(i, few); status == sat.Sat {
			why.Order = order
			break
		}
	}
	if t.opt.Library != nil {
		t.sweep(why, few)
	}
	why.Unexplored = why.Unexplored || few.out()
	f.add(few)
}

// loosen tries the wishes without demands that the loom does not make itself.
func (t *task) loosen(why *Why, f *effort) {
	try := func(words string, change func(*Options)) {
		o := t.opt
		change(&o)
		if other, _ := newTask(t.g.Loom, o); other != nil && other.possible(f) == sat.Sat {
			why.Loosened = append(why.Loosened, words)
		}
	}
	if !t.opt.Hanging {
		try("a silent coil may touch the sound with one end: as an aerial, or in a loop with another one", func(o *Options) { o.Hanging = true })
	}
	if t.opt.HumCancels {
		try("hum need not cancel", func(o *Options) { o.HumCancels = false })
	}
	if t.opt.WiresPerLug > 0 {
		try("a lug may take more wires", func(o *Options) { o.WiresPerLug = 0 })
	}
	if len(t.liftable) > 0 {
		other, _ := newTask(t.g.Loom, t.opt, t.liftable...)
		if other != nil && other.possible(f) == sat.Sat {
			for _, x := range t.liftable {
				why.Loosened = append(why.Loosened, fmt.Sprintf("%s, which is also a coil's end, is parted from it and grounded by a lead of its own", t.g.Terms[x].Name))
			}
		}
	}
}

// possible decides whether the wishes can be met, in one piece.
func (t *task) possible(f *effort) sat.Status {
	pl := t.whole()
	p, _ := t.build(&pl.specs[0])
	e := encode(p, feasible().settle(p), sat.Options{})
	return e.solve(f, f.left, e.everything()...)
}

// feasible are the rules of use when only a yes or no is asked.
func feasible() rules {
	return rules{own: true, sink: true, poles: true, columns: true, turns: true, count: true}
}

// ordered reports whether the order of a switch's positions matters: it does
// unless each throw belongs to one position.
func (t *task) ordered(i int) bool {
	sw := &t.g.Switches[i]
	for _, contacts := range sw.Contacts {
		seen := map[int]int{}
		for pos, groups := range contacts {
			for _, g := range groups {
				if len(g) != 2 {
					return true
				}
				_, throws := splitPole(contacts)
				for _, x := range g {
					if before, ok := seen[x]; ok && before != pos && slices.Contains(throws, x) {
						return true
					}
					seen[x] = pos
				}
			}
		}
	}
	return false
}

// reorder looks for an order of a switch's sounds that can be met: each position
// gets the sounds of one position.
func (t *task) reorder(i int, f *effort) ([]Placed, sat.Status) {
	pl := t.whole()
	p, _ := t.build(&pl.specs[0])
	k := slices.Index(t.switches, i)
	e, order := encodeOrders(p, k)
	status := e.solve(f, f.left, append([]sat.Lit{e.upon}, e.wanted...)...)
	if status != sat.Sat {
		return nil, status
	}
	var out []Placed
	for at, gets := range order {
		for from, l := range gets {
			if e.s.Value(l) {
				out = append(out, Placed{t.g.Switches[i].Positions[at].Name, t.g.Switches[i].Positions[from].Name})
			}
		}
	}
	return out, sat.Sat
}

// encodeOrders encodes a puzzle in which the positions of one switch may
// exchange their sounds: order[at][from] says that position at gets those of
// position from.
func encodeOrders(p *puzzle, sw int) (e *encoding, order [][]sat.Lit) {
	n := p.switches[sw].positions
	bare := *p
	bare.settings = nil
	r := feasible()
	r.count = false
	e = encode(&bare, r.settle(p), sat.Options{})
	for range n {
		order = append(order, e.s.NewVars(n))
	}
	for a := range n {
		var column []sat.Lit
		for b := range n {
			column = append(column, order[b][a])
			for c := range b {
				e.s.AddClause(order[a][b].Not(), order[a][c].Not())
				e.s.AddClause(order[b][a].Not(), order[c][a].Not())
			}
		}
		e.s.AddClause(order[a]...)
		e.s.AddClause(column...)
		e.s.Prefer(order[a][a])
	}
	for i := range p.settings {
		e.settingInOrder(p, i, sw, order)
	}
	return e, order
}

// settingInOrder demands of a setting what the position that it gets demands.
func (e *encoding) settingInOrder(p *puzzle, i, sw int, order [][]sat.Lit) {
	groups := p.contacts(p.settings[i].at)
	r := e.reach(groups, e.portNodes())
	for from, chosen := range order[p.settings[i].at[sw]] {
		k := p.settingAt(i, sw, from)
		if k < 0 {
			continue
		}
		switch w := p.settings[k].wish; w {
		case anything:
		case nothing:
			e.s.AddClause(e.upon.Not(), chosen.Not(), r[hot][ground].Not())
		default:
			e.require(groups, r, &p.wishes[w], e.g.And(e.wanted[w], chosen))
		}
	}
}

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
	refuted := map[string]bool{tableOf(old): true}
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

// candidates lists the library's parts of the same class with one switch of as
// many positions or more, and the same pots; cheapest first.
func (t *task) candidates(old *part.Part) []*part.Part {
	var out []*part.Part
	for _, id := range t.opt.Library.IDs() {
		if !strings.HasPrefix(id, old.Class+"/") {
			continue
		}
		p, _ := t.opt.Library.Part(id)
		if p == nil || len(p.Switches) != 1 || len(old.Switches) != 1 || p.Switches[0].Proved >= 0 || len(p.Tracks) != len(old.Tracks) {
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
