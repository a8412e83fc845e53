package synthesis

import (
	"slices"

	"loomwright/internal/sat"
)

// taste is what is preferred among wirings with equally few joins, in this
// order.
type taste struct {
	long    int // joins that are no jumpers on one part
	noise   int // passages that are not smooth
	crowded int // nets that need more than three wires on a lug
}

func (p *puzzle) taste(s solution) taste {
	return taste{s.joins() - p.jumpers(s), p.noise(s), p.crowded(s)}
}

// jumpers counts the joins that stay on one part with a switch: for each part
// and net, its terminals but one.
func (p *puzzle) jumpers(s solution) int {
	n := 0
	for x := range s {
		if slices.ContainsFunc(p.earlier(x), func(y int) bool { return s[y] == s[x] }) {
			n++
		}
	}
	return n
}

// earlier lists the nodes before a node that have a terminal on one of its
// parts.
func (p *puzzle) earlier(x int) []int {
	var out []int
	for y := range x {
		if overlap(p.nodes[x].parts, p.nodes[y].parts) {
			out = append(out, y)
		}
	}
	return out
}

// crowded counts the nets in which some lug needs more than three wires. The
// lugs of a net form a chain that takes two ends each, but for the ends of it;
// the leads need an end each. A case takes any number.
func (p *puzzle) crowded(s solution) int {
	room, leads, posts, roomy := make([]int, len(s)), make([]int, len(s)), make([]int, len(s)), make([]bool, len(s))
	for x, net := range s {
		switch n := &p.nodes[x]; {
		case n.lugs == 0:
			leads[net]++
		case n.spare < 0:
			roomy[net] = true
		default:
			posts[net]++
			room[net] += n.spare - 2
		}
	}
	bad := 0
	for net := range s {
		if posts[net] > 0 && !roomy[net] && leads[net] > room[net]+2 {
			bad++
		}
	}
	return bad
}

// Conflicts that each preference may cost, beside what fewest joins have taken.
const tasteEffort = 5000

// refine looks for a wiring of better taste with as few joins: fewest long
// wires with the same clauses; then travel and crowded lugs, if there is
// anything to better, with clauses in which only rules stand that cannot lose a
// wiring of the best taste: what they exclude has a join too many, or is the
// same but for the order of equal poles.
func (e *encoding) refine(out *outcome, f *effort) {
	defer func() { out.last.upright(out, f) }()
	e.preferJumpers(out, f)
	if e.p.noise(out.best) == 0 && e.p.crowded(out.best) == 0 {
		return
	}
	free := encode(e.p, rules{own: true, mates: true, poles: true, turns: true, count: true}.settle(e.p), sat.Options{})
	for _, l := range free.everything() {
		free.s.AddClause(l)
	}
	free.s.AddClause(free.more(out.joins).Not())
	free.start(out.best)
	keep := free.jumperLits()
	sat.AtLeast(free.s, e.p.jumpers(out.best), keep...)
	if e.p.noise(out.best) > 0 {
		free.lessen(out, f, free.noisy(), e.p.noise)
	}
	if e.p.crowded(out.best) > 0 {
		free.lessen(out, f, free.crowdedLits(), e.p.crowded)
	}
	out.last = free
}

// upright prefers, at last, the common polarity of the wishes as they are
// written: coils that are in phase have their starts toward hot.
func (e *encoding) upright(out *outcome, f *effort) {
	want := e.p.taste(out.best)
	if e.s.Value(e.flip) || e.solve(f, min(tasteEffort, f.left), e.flip) != sat.Sat {
		return
	}
	if found := e.decode(); e.p.taste(found) == want && found.joins() == out.joins {
		out.best = found
	}
}

// preferJumpers looks for more jumpers.
func (e *encoding) preferJumpers(out *outcome, f *effort) {
	lits := e.jumperLits()
	many := e.total(lits)
	budget := &effort{left: min(tasteEffort, f.left), stop: f.stop, progress: f.progress, state: f.state}
	for have := e.p.jumpers(out.best); ; have = e.p.jumpers(out.best) {
		if have > 0 && have <= len(many) {
			e.s.AddClause(many[have-1])
		}
		if have >= len(many) {
			break
		}
		status := e.solve(budget, budget.left, many[have])
		if status != sat.Sat {
			out.tasteOpen = out.tasteOpen || status == sat.Unknown
			break
		}
		out.best = e.decode()
	}
	f.add(budget)
	out.last = e
}

// add counts what a part of the effort has spent.
func (f *effort) add(part *effort) {
	f.spent += part.spent
	f.left -= part.spent
	f.stopped = f.stopped || part.stopped
}

// jumperLits are the literals "some earlier terminal of the same part is in this
// net".
func (e *encoding) jumperLits() []sat.Lit {
	var out []sat.Lit
	for x := range e.p.nodes {
		var lits []sat.Lit
		for _, y := range e.p.earlier(x) {
			lits = append(lits, e.same[x][y])
		}
		if l := e.g.Or(lits...); l != sat.False {
			out = append(out, l)
		}
	}
	return out
}

// lessen looks for fewer true literals among some, and keeps what it reaches.
func (e *encoding) lessen(out *outcome, f *effort, lits []sat.Lit, measure func(solution) int) {
	count := e.total(lits)
	budget := &effort{left: min(tasteEffort, f.left), stop: f.stop, progress: f.progress, state: f.state}
	for have := measure(out.best); have > 0; have = measure(out.best) {
		if have < len(count) {
			e.s.AddClause(count[have].Not())
		}
		status := e.solve(budget, budget.left, count[have-1].Not())
		if status != sat.Sat {
			out.tasteOpen = out.tasteOpen || status == sat.Unknown
			break
		}
		out.best = e.decode()
	}
	f.add(budget)
}

// crowdedLits are literals that are true where the net of a lead, or of a lug
// that is nearly full, is crowded.
func (e *encoding) crowdedLits() []sat.Lit {
	var out []sat.Lit
	for x, n := range e.p.nodes {
		if n.sealed || n.lugs > 0 && (n.spare < 0 || n.spare > 1) {
			continue // nets of roomy lugs alone are never crowded
		}
		var leads, room, roomy, posts []sat.Lit
		for y, m := range e.p.nodes {
			l := e.same[x][y]
			switch {
			case l == sat.False:
			case m.lugs == 0:
				leads = append(leads, l)
			case m.spare < 0:
				roomy = append(roomy, l)
			default:
				posts = append(posts, l)
				for range max(0, m.spare-2) {
					room = append(room, l)
				}
				if m.spare < 2 {
					for range 2 - m.spare {
						leads = append(leads, l)
					}
				}
			}
		}
		out = append(out, e.g.And(e.g.Or(posts...), e.g.Or(roomy...).Not(), e.exceeds(leads, room, 2)))
	}
	return out
}

// exceeds is a literal that is true when more of a are true than of b and n.
func (e *encoding) exceeds(a, b []sat.Lit, n int) sat.Lit {
	x, y := e.total(a), e.total(b)
	var any []sat.Lit
	for k := n; k < len(x); k++ { // more than k of a, and no more than k−n of b
		few := sat.True
		if k-n < len(y) {
			few = y[k-n].Not()
		}
		any = append(any, e.g.And(x[k], few))
	}
	return e.g.Or(any...)
}

// start tells the solver where to look first.
func (e *encoding) start(s solution) {
	for x := range s {
		for y := range x {
			if l := e.same[x][y]; l != sat.False && l != sat.True {
				if s[x] != s[y] {
					l = l.Not()
				}
				e.s.Prefer(l)
			}
		}
	}
}
