package sat_test

import (
	"slices"

	. "loomwright/internal/sat"
)

// A wiring problem: coils with two leads each, one switch whose poles have a
// common and one throw per setting, and for every setting the sound that the
// coils must make between hot and ground. Which terminals to join? The encoding
// asks, for each pair of terminals, whether they are in one net; contracts the
// closed contacts setting by setting; and counts the wires.
type wiring struct {
	coils, poles int
	sounds       []sound // one a setting
	plain        bool    // without symmetry, dominance and counting bounds
}

// sound is one coil, or several in series or in parallel.
type sound struct {
	coil   int
	series bool
	parts  []sound
}

func coil(c int) sound              { return sound{coil: c} }
func series(parts ...sound) sound   { return sound{series: true, parts: parts} }
func parallel(parts ...sound) sound { return sound{parts: parts} }

func (w sound) coils() []int {
	if len(w.parts) == 0 {
		return []int{w.coil}
	}
	var out []int
	for _, p := range w.parts {
		out = append(out, p.coils()...)
	}
	return out
}

// Terminals: hot, ground, two leads a coil, the commons, then throw by throw
// those of every pole.
const (
	hot    = 0
	ground = 1
)

func start(coil int) int            { return 2 + 2*coil }
func (w wiring) ports() int         { return 2 + 2*w.coils }
func (w wiring) common(p int) int   { return w.ports() + p }
func (w wiring) throw(p, k int) int { return w.ports() + w.poles*(k+1) + p }
func (w wiring) terminals() int     { return w.ports() + w.poles*(len(w.sounds)+1) }
func (w wiring) activePorts(s int) []int {
	out := []int{hot, ground}
	for _, c := range w.sounds[s].coils() {
		out = append(out, start(c), start(c)+1)
	}
	return out
}

// realisations returns the ways to make a sound between two nodes: each gives
// every lead a node. Nodes 0 and 1 are hot and ground.
func (w sound) realisations(top, bottom int, fresh *int) []map[int]int {
	if len(w.parts) == 0 {
		return []map[int]int{{start(w.coil): top, start(w.coil) + 1: bottom}}
	}
	if !w.series {
		return combine(w.parts, func(int) (int, int) { return top, bottom }, fresh)
	}
	var out []map[int]int
	first := *fresh
	*fresh += len(w.parts) - 1
	for _, order := range permutations(len(w.parts)) {
		nodes := func(part int) (int, int) {
			i, from, to := slices.Index(order, part), top, bottom
			if i > 0 {
				from = first + i - 1
			}
			if i < len(order)-1 {
				to = first + i
			}
			return from, to
		}
		out = append(out, combine(w.parts, nodes, fresh)...)
	}
	return out
}

func combine(parts []sound, nodes func(part int) (int, int), fresh *int) []map[int]int {
	out := []map[int]int{{}}
	for i, p := range parts {
		top, bottom := nodes(i)
		var next []map[int]int
		for _, m := range p.realisations(top, bottom, fresh) {
			for _, old := range out {
				next = append(next, union(old, m))
			}
		}
		out = next
	}
	return out
}

func union(a, b map[int]int) map[int]int {
	out := map[int]int{}
	for k, v := range a {
		out[k] = v
	}
	for k, v := range b {
		out[k] = v
	}
	return out
}

func permutations(n int) [][]int {
	if n == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for _, p := range permutations(n - 1) {
		for i := 0; i < n; i++ {
			out = append(out, slices.Insert(slices.Clone(p), i, n-1))
		}
	}
	return out
}

// wiringCNF is the encoded problem.
type wiringCNF struct {
	wiring
	s    *Solver
	g    *Gates
	same [][]Lit // terminal, terminal → in one net
	used []Lit   // terminal → joined to another one
	cost []Lit   // cost[k]: more than k wires
}

func (w wiring) encode(o Options) *wiringCNF {
	s := New(o)
	e := &wiringCNF{wiring: w, s: s, g: NewGates(s)}
	e.nets()
	e.usage()
	polarity := s.NewVar()
	for k := range w.sounds {
		e.demand(k, e.contract(k), polarity)
	}
	e.wires()
	return e
}

// nets makes "same net" an equivalence. Hot and ground differ, and no throw is
// joined to its own common.
func (e *wiringCNF) nets() {
	n := e.terminals()
	e.same = make([][]Lit, n)
	for t := range e.same {
		e.same[t] = make([]Lit, n)
		e.same[t][t] = True
	}
	for u := range n {
		for t := range u {
			l := False
			if !e.apart(t, u) {
				l = e.s.NewVar()
			}
			e.same[t][u], e.same[u][t] = l, l
		}
	}
	for c := range n {
		for b := range c {
			for a := range b {
				ab, bc, ac := e.same[a][b], e.same[b][c], e.same[a][c]
				e.s.AddClause(ab.Not(), bc.Not(), ac)
				e.s.AddClause(ab.Not(), ac.Not(), bc)
				e.s.AddClause(ac.Not(), bc.Not(), ab)
			}
		}
	}
}

func (e *wiringCNF) apart(t, u int) bool {
	if t == hot && u == ground {
		return true
	}
	i, j := t-e.ports(), u-e.ports()
	return i >= 0 && i < e.poles && j >= e.poles && j%e.poles == i
}

func (e *wiringCNF) usage() {
	n := e.terminals()
	e.used = make([]Lit, n)
	for t := range n {
		others := slices.Delete(slices.Clone(e.same[t]), t, t+1)
		e.used[t] = e.g.Or(others...)
	}
	if e.plain {
		return
	}
	for p := range e.poles {
		var throws []Lit
		for k := range e.sounds {
			t := e.throw(p, k)
			e.s.AddClause(e.used[t].Not(), e.used[e.common(p)])
			throws = append(throws, e.used[t])
			e.joinedUsefully(t, e.ports())
		}
		e.s.AddClause(append(throws, e.used[e.common(p)].Not())...)
		e.joinedUsefully(e.common(p), e.ports()+e.poles)
		for q := range e.poles {
			for k := range e.sounds {
				if p != q { // else the joined pole could do it
					e.s.AddClause(e.same[e.throw(p, k)][e.common(q)].Not(), e.used[e.throw(q, k)].Not())
				}
			}
		}
		if p > 0 {
			e.orderPoles(p-1, p)
		}
	}
}

// joinedUsefully demands that a used terminal be joined to one below the limit.
func (e *wiringCNF) joinedUsefully(t, limit int) {
	clause := []Lit{e.used[t].Not()}
	for u := range limit {
		if u != t {
			clause = append(clause, e.same[t][u])
		}
	}
	e.s.AddClause(clause...)
}

// orderPoles breaks the symmetry of equal poles: their rows fall.
func (e *wiringCNF) orderPoles(p, q int) {
	rowP, rowQ := []Lit{e.used[e.common(p)]}, []Lit{e.used[e.common(q)]}
	for k := -1; k < len(e.sounds); k++ {
		for port := range e.ports() {
			rowP = append(rowP, e.same[e.throw(p, k)][port]) // throw -1 is the common
			rowQ = append(rowQ, e.same[e.throw(q, k)][port])
		}
	}
	equal := True // so far
	for i := range rowP {
		e.s.AddClause(equal.Not(), rowP[i], rowQ[i].Not())
		equal = e.g.And(equal, e.g.Equal(rowP[i], rowQ[i]))
	}
}

// contract returns, for every two ports, whether they are one net in a setting.
func (e *wiringCNF) contract(setting int) [][]Lit {
	r := e.same
	for p := range e.poles {
		var merged []Lit
		c, t := e.common(p), e.throw(p, setting)
		for x := range e.terminals() {
			merged = append(merged, e.g.Or(r[x][c], r[x][t]))
		}
		next := make([][]Lit, len(r))
		for x := range r {
			next[x] = slices.Clone(r[x])
			for y := range r {
				if x != y && e.needed(x, p, setting) && e.needed(y, p, setting) {
					next[x][y] = e.g.OrAnd(r[x][y], merged[x], merged[y])
				}
			}
		}
		r = next
	}
	return r
}

// needed reports whether a terminal still matters after the contact of a pole.
func (e *wiringCNF) needed(t, pole, setting int) bool {
	if t < e.ports() {
		return true
	}
	for p := pole + 1; p < e.poles; p++ {
		if t == e.common(p) || t == e.throw(p, setting) {
			return true
		}
	}
	return false
}

// demand makes the ports of a setting form its sound, in either polarity, which
// is common to all settings. Other coils must be shorted or dangle.
func (e *wiringCNF) demand(setting int, r [][]Lit, polarity Lit) {
	active := e.activePorts(setting)
	fresh := 2
	var choices []Lit
	var ways []map[int]int
	for _, end := range [][2]int{{hot, ground}, {ground, hot}} {
		for _, way := range e.sounds[setting].realisations(end[0], end[1], &fresh) {
			choice := e.s.NewVar()
			e.s.AddClause(choice.Not(), polarity^Lit(end[0]))
			way[hot], way[ground] = hot, ground
			choices, ways = append(choices, choice), append(ways, way)
		}
	}
	e.s.AddClause(choices...)
	for i, p := range active {
		for _, q := range active[:i] {
			joined, apart := []Lit{r[p][q].Not()}, []Lit{r[p][q]}
			for c, way := range ways {
				if way[p] == way[q] {
					joined = append(joined, choices[c])
					e.s.AddClause(choices[c].Not(), r[p][q])
				} else {
					apart = append(apart, choices[c])
					e.s.AddClause(choices[c].Not(), r[p][q].Not())
				}
			}
			e.s.AddClause(joined...)
			e.s.AddClause(apart...)
		}
	}
	e.silence(setting, r, active)
}

func (e *wiringCNF) silence(setting int, r [][]Lit, active []int) {
	for c := range e.coils {
		if slices.Contains(active, start(c)) {
			continue
		}
		shorted := r[start(c)][start(c)+1]
		for lead := start(c); lead <= start(c)+1; lead++ {
			e.s.AddClause(shorted, r[lead][hot].Not())
			for _, q := range active[2:] {
				e.s.AddClause(shorted, r[lead][q].Not(), r[q][ground])
			}
		}
	}
}

// wires counts, net by net, the terminals but one; and knows that each setting
// can merge no more nets than it closes contacts.
func (e *wiringCNF) wires() {
	throws := e.ports() + e.poles
	var follow []Lit // terminal → a smaller one is in its net
	for t := range e.terminals() {
		if t >= throws && !e.plain {
			follow = append(follow, e.used[t])
			continue
		}
		follow = append(follow, e.g.Or(e.same[t][:t]...))
	}
	e.cost = Totalizer(e.s, Both, follow[:e.ports()]...)
	e.cost = Merge(e.s, Both, e.cost, Totalizer(e.s, Both, follow[e.ports():throws]...))
	for k := range e.sounds {
		column := Totalizer(e.s, Both, follow[e.throw(0, k):e.throw(0, k)+e.poles]...)
		if !e.plain {
			e.boundSetting(k, column)
		}
		e.cost = Merge(e.s, Both, e.cost, column)
	}
}

func (e *wiringCNF) boundSetting(setting int, column []Lit) {
	active := e.activePorts(setting)
	var merges []Lit
	for i, p := range active {
		var joined []Lit
		for _, q := range active[:i] {
			joined = append(joined, e.same[p][q])
		}
		merges = append(merges, e.g.Or(joined...))
	}
	fresh := 2
	way := e.sounds[setting].realisations(hot, ground, &fresh)[0]
	nodes := map[int]bool{hot: true, ground: true}
	for _, n := range way {
		nodes[n] = true
	}
	total := Merge(e.s, Both, Totalizer(e.s, Both, merges...), column)
	e.s.AddClause(total[len(active)-len(nodes)-1])
	for k, l := range column {
		e.s.AddClause(l.Not(), e.used[e.common(k)])
	}
}

// Problems of known size: four coils a, b, c, d on a switch of four poles and
// five throws, in three difficulties; six coils on four poles and six throws.
func wiringProblems() map[string]wiring {
	a, b, c, d, x, y := coil(0), coil(1), coil(2), coil(3), coil(4), coil(5)
	return map[string]wiring{
		"easy": {coils: 4, poles: 4, sounds: []sound{
			series(a, b), a, parallel(a, d), c, series(c, d)}},
		"medium": {coils: 4, poles: 4, sounds: []sound{
			series(a, b), parallel(a, b), parallel(a, d), parallel(series(a, b), series(c, d)), series(c, d)}},
		"hard": {coils: 4, poles: 4, sounds: []sound{
			series(a, b), parallel(a, d), parallel(series(a, b), series(c, d)), parallel(b, c), series(c, d)}},
		"six": {coils: 6, poles: 4, sounds: []sound{
			series(a, b), parallel(series(a, b), series(c, d)), series(c, d),
			parallel(series(c, d), series(x, y)), series(x, y), parallel(series(a, b), series(x, y))}},
	}
}
