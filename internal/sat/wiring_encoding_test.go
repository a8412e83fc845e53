package sat_test

import (
	"slices"

	. "loomwright/internal/sat"
)

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

// wireCount returns the number of wires in the latest model.
func (e *wiringCNF) wireCount() int {
	n := 0
	for n < len(e.cost) && e.s.Value(e.cost[n]) {
		n++
	}
	return n
}
