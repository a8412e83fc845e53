package proof

import (
	"fmt"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// The suspect is the one join whose change makes every wanted sound hold: a
// loose lead soldered, two leads swapped, a run too many, an end on another
// terminal of the same part, two lugs swapped, a run missing; the likeliest kind
// that helps is reported. Found by trying them, within a budget.

var joinSuspect = &check{diag.Code{Code: "join-suspect", Severity: diag.Error,
	Says: "changing one join would make every wanted sound hold", Notice: "this is most likely the slip"}, func(p *prover, c *check) {
	if !p.anyMissed() || p.explained() {
		return
	}
	s := &suspects{p: p, budget: suspectBudget, price: len(p.g.Terms) + len(p.g.Links)}
	s.try()
	if best := s.best(); best != nil {
		p.report(c, best.at, nil, "%s, every wanted sound would hold", best.says).Hint = best.hint
	}
}}

// explained reports whether another finding names what is wrong with every
// wanted sound.
func (p *prover) explained() bool {
	return slices.ContainsFunc(p.list, func(d diag.Diagnostic) bool {
		return d.Code == volumeWrongWay.Code.Code || d.Code == switchUpsideDown.Code.Code
	})
}

// suspectBudget is how many terminals and links are gone through in search of a
// suspect: some ten thousand settings of an ordinary loom. maxSuspects is how
// many that meet every wish are compared in full, and maxCompared in how many
// settings.
const (
	suspectBudget = 3000000
	maxSuspects   = 16
	maxCompared   = 2048
)

type suspect struct {
	links   []wiring.Link
	at      diag.Span
	says    string
	hint    string
	flipped bool // every sound holds, and every one is upside down
}

type suspects struct {
	p      *prover
	budget int
	price  int // of one setting
	found  []suspect
}

// spend takes work off the budget and reports whether to go on.
func (s *suspects) spend(work int) bool {
	s.budget -= work
	return s.budget > 0 && len(s.found) < maxSuspects
}

func (s *suspects) try() {
	leads := func() { s.swaps(true) }
	lugs := func() { s.swaps(false) }
	for _, kinds := range [][]func(){{s.looseLeads}, {s.mixedUp}, {leads}, {s.removals, s.moves}, {lugs}, {s.additions}} {
		for _, kind := range kinds {
			kind()
		}
		if !s.spend(0) || len(s.found) > 0 {
			return
		}
	}
}

// test keeps a changed list of links if every wish holds with it.
func (s *suspects) test(c suspect) {
	if !s.spend(s.price) {
		return
	}
	if ok, flip := s.meets(c.links); ok {
		c.flipped = flip < 0
		s.found = append(s.found, c)
	}
}

// changed is the graph with other links.
func (s *suspects) changed(links []wiring.Link) *prover {
	g := *s.p.g
	g.Links = links
	return newProver(&g)
}

// meets proves only the rows that something is wanted of, and stops at the
// first miss; rows that are missed today come first. It returns the common
// polarity too.
func (s *suspects) meets(links []wiring.Link) (ok bool, flip int) {
	q := s.changed(links)
	for _, missed := range []bool{true, false} {
		for i := range s.p.rows {
			w := s.p.rows[i].Wanted
			if w == nil || (w.Met == No) != missed {
				continue
			}
			s.budget -= s.price
			r := q.soundOf(s.p.rows[i].Setting)
			got := q.compare(w.sound, &r)
			if got.Met == No || flip != 0 && got.flip == -flip {
				return false, 0
			}
			if got.flip != 0 {
				flip = got.flip
			}
		}
	}
	return true, flip
}

// soundOf fills in only what a row is held against its wish by.
func (p *prover) soundOf(s setting.Setting) Row {
	n := p.draw(&p.spare[0], p.base.Contacts(s.At), p.full, p.readings[0])
	return Row{Setting: s, Name: s.Name, Output: n.output(), Sound: n.heard(), Hum: n.hum()}
}

// ends lists the two ways round of every soldered run.
type end struct{ link, term, far int }

func (s *suspects) ends() []end {
	var out []end
	for i, l := range s.p.g.Links {
		if l.Run >= 0 {
			out = append(out, end{i, l.A, l.B}, end{i, l.B, l.A})
		}
	}
	return out
}

func (s *suspects) name(term int) string { return s.p.g.Terms[term].Name }
func (s *suspects) use(term int) int     { return s.p.g.Terms[term].Use }
func (s *suspects) isLead(term int) bool { return s.p.g.Terms[term].Kind == "lead" }
func (s *suspects) span(link int) diag.Span {
	return s.p.g.Runs[s.p.g.Links[link].Run].Span
}

// swaps exchanges two ends on terminals of one part: two leads of a pickup, or
// two lugs of anything else.
func (s *suspects) swaps(leads bool) {
	ends := s.ends()
	for i, a := range ends {
		if !s.spend(len(ends) / 16) {
			return
		}
		for _, b := range ends[i+1:] {
			if a.term == b.term || a.link == b.link || a.far == b.far || s.use(a.term) < 0 || s.use(a.term) != s.use(b.term) || s.isLead(a.term) != leads || !s.spend(0) {
				continue
			}
			s.test(suspect{links: s.with(map[int]wiring.Link{a.link: {A: a.far, B: b.term}, b.link: {A: b.far, B: a.term}}),
				at: s.span(a.link), says: fmt.Sprintf("if %s and %s changed places here", s.name(a.term), s.name(b.term)),
				hint: fmt.Sprintf("%s -- %s   and   %s -- %s", s.name(a.far), s.name(b.term), s.name(b.far), s.name(a.term))})
		}
	}
}

// mixedUp takes two leads of a pickup for each other wherever they are soldered.
func (s *suspects) mixedUp() {
	for a := range s.p.g.Terms {
		for b := a + 1; b < len(s.p.g.Terms) && s.use(b) == s.use(a) && s.spend(s.price/4); b++ {
			if !s.isLead(a) || !s.isLead(b) || s.runsAt(a)+s.runsAt(b) < 3 {
				continue // two single runs are looked at by swaps
			}
			links := slices.Clone(s.p.g.Links)
			for i, l := range links {
				if l.Run >= 0 {
					links[i].A, links[i].B = exchanged(l.A, a, b), exchanged(l.B, a, b)
				}
			}
			s.test(suspect{links: links, at: s.p.termSpan(a),
				says: fmt.Sprintf("if %s and %s changed places wherever they are soldered", s.name(a), s.name(b))})
		}
	}
}

func (s *suspects) runsAt(term int) int {
	n := 0
	for _, l := range s.p.g.Links {
		if l.Run >= 0 && (l.A == term || l.B == term) {
			n++
		}
	}
	return n
}

// exchanged is t, or b for a and a for b.
func exchanged(t, a, b int) int {
	switch t {
	case a:
		return b
	case b:
		return a
	}
	return t
}

// moves puts one end on another terminal of the same part.
func (s *suspects) moves() {
	for _, e := range s.ends() {
		use := s.use(e.term)
		if !s.spend(s.price / 4) {
			return
		}
		for t := range s.p.g.Terms {
			if t == e.term || s.use(t) != use || use < 0 || t == e.far || !s.spend(0) {
				continue
			}
			s.test(suspect{links: s.with(map[int]wiring.Link{e.link: {A: e.far, B: t}}), at: s.span(e.link),
				says: fmt.Sprintf("if this wire went to %s instead of %s", s.name(t), s.name(e.term)),
				hint: fmt.Sprintf("%s -- %s", s.name(e.far), s.name(t))})
		}
	}
}

// removals leaves out one run.
func (s *suspects) removals() {
	for i, l := range s.p.g.Links {
		if l.Run < 0 || !s.spend(0) {
			continue
		}
		s.test(suspect{links: slices.Delete(slices.Clone(s.p.g.Links), i, i+1), at: s.span(i), says: "without this wire"})
	}
}

// additions joins two pieces of metal that no run joins today; two terminals of
// one part first.
func (s *suspects) additions() {
	pieces := s.pieces()
	for _, near := range []bool{true, false} {
		for i := range pieces {
			for k := i + 1; k < len(pieces) && s.spend(len(pieces[i])*len(pieces[k])/4); k++ {
				if a, b := s.nearest(pieces[i], pieces[k]); (s.use(a) == s.use(b)) == near {
					s.addition(a, b)
				}
			}
		}
	}
}

// looseLeads solders a coil's lead that is soldered nowhere.
func (s *suspects) looseLeads() {
	for _, loose := range s.p.looseLeads() {
		for _, piece := range s.pieces() {
			if !slices.Contains(piece, loose) {
				s.addition(loose, s.plainest(piece))
			}
		}
	}
}

// pieces lists the terminals of each piece of metal.
func (s *suspects) pieces() [][]int {
	nets := s.p.base.NetsOf(nil)
	out := make([][]int, nets.Count)
	for t, net := range nets.Of {
		out[net] = append(out[net], t)
	}
	return out
}

// nearest picks a terminal of each of two pieces: of one part where there are
// such, else the first ones.
func (s *suspects) nearest(one, other []int) (a, b int) {
	for _, a := range one {
		for _, b := range other {
			if s.use(a) == s.use(b) && s.use(a) >= 0 && !s.isLead(a) && !s.isLead(b) {
				return a, b
			}
		}
	}
	return s.plainest(one), s.plainest(other)
}

// plainest picks the terminal of a piece of metal that a solderer would name: a
// case, a lead by its colour, else the first.
func (s *suspects) plainest(piece []int) int {
	for _, wanted := range []func(t wiring.Term) bool{
		func(t wiring.Term) bool { return t.Kind == "case" },
		func(t wiring.Term) bool { return t.Other != "" },
	} {
		for _, t := range piece {
			if wanted(s.p.g.Terms[t]) {
				return t
			}
		}
	}
	return piece[0]
}

func (s *suspects) addition(a, b int) {
	if !s.spend(0) {
		return
	}
	s.test(suspect{links: append(slices.Clone(s.p.g.Links), wiring.Link{A: a, B: b, Run: -1}), at: s.p.termSpan(a),
		says: fmt.Sprintf("with one more wire between %s and %s", s.name(a), s.name(b)),
		hint: fmt.Sprintf("%s -- %s", s.name(a), s.name(b))})
}

// with is the graph's links with some replaced.
func (s *suspects) with(change map[int]wiring.Link) []wiring.Link {
	links := slices.Clone(s.p.g.Links)
	for i, l := range change {
		l.Run = links[i].Run
		links[i] = l
	}
	return links
}

// best compares the suspects in full: as wanted before all upside down, then
// the fewest other findings and idle knobs, then the first. One that would make
// another mistake is none.
func (s *suspects) best() *suspect {
	var best *suspect
	bestCost := 0
	for i := range min(len(s.found), max(1, maxCompared/len(s.p.rows))) {
		c := &s.found[i]
		after := s.findings(c)
		if s.newError(after) {
			continue
		}
		if cost := len(after); best == nil || best.flipped && !c.flipped || best.flipped == c.flipped && cost < bestCost {
			best, bestCost = c, cost
		}
	}
	return best
}

// findings lists what would be found after a change.
func (s *suspects) findings(c *suspect) diag.List {
	q := s.changed(c.links)
	q.walk()
	q.want()
	for _, other := range checks() {
		if other.Severity > diag.Info {
			other.find(q, other)
		}
	}
	return q.list
}

// newError reports whether findings hold an error of a kind that the loom does
// not have as it is.
func (s *suspects) newError(after diag.List) bool {
	return slices.ContainsFunc(after, func(d diag.Diagnostic) bool {
		return d.Severity == diag.Error && !slices.ContainsFunc(s.p.list, func(now diag.Diagnostic) bool { return now.Code == d.Code })
	})
}
