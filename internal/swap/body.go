package swap

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/part"
)

// body carries the terminals of a switch, pot or other part over to another by
// what they do: a mapping of the terminals in use under which tracks, contacts in
// every position, ground metal and output stay what they were. The search tries
// like names first.
func (s *swapper) body(u int) {
	old, next := s.old.Uses[u].Part, s.next.Uses[u].Part
	m := matcher{old: newRelations(old), next: newRelations(next), used: s.used(u), to: map[int]int{}}
	s.positionsOf(u, &m)
	s.maps[u].positions = m.positions
	switch {
	case m.why != "":
		s.unlike = true
		s.mustSearch("%s: %s", s.old.Uses[u].Name, m.why)
		return
	case !m.match(0):
		s.mustSearch("%s: no lugs of a %s do what this loom asks of the %s (%s)", s.old.Uses[u].Name, next.Name, old.Name, s.usedWords(u))
		return
	}
	for from, to := range m.to {
		s.maps[u].terminals[from] = []string{s.newName(u, s.turned(u, to))}
	}
}

func (s *swapper) usedWords(u int) string {
	var names []string
	for _, t := range s.used(u) {
		names = append(names, s.old.Uses[u].Part.Terminals[t].Name)
	}
	return strings.Join(names, ", ")
}

// positionsOf pairs the switches of the old part with those of the new: by
// their order, with as many positions, where the loom uses them.
func (s *swapper) positionsOf(u int, m *matcher) {
	old, next := s.old.Uses[u].Part, s.next.Uses[u].Part
	for i := range old.Switches {
		if !s.switchUsed(u, i) {
			m.positions = append(m.positions, nil)
			continue
		}
		switch {
		case i >= len(next.Switches):
			m.why = fmt.Sprintf("a %s has no switch, and this loom switches with it", next.Name)
		case len(next.Switches[i].Positions) != len(old.Switches[i].Positions):
			m.why = fmt.Sprintf("a %s has %d positions, the loom uses %d", next.Name, len(next.Switches[i].Positions), len(old.Switches[i].Positions))
		}
		m.positions = append(m.positions, upTo(len(old.Switches[i].Positions)))
	}
}

// switchUsed reports whether a switch has a contact between terminals in use,
// or a wanted sound names it.
func (s *swapper) switchUsed(u, sw int) bool {
	for _, sound := range s.old.Sounds {
		for _, at := range sound.With {
			if at.Use == u && at.Switch == sw {
				return true
			}
		}
	}
	used := s.used(u)
	for _, p := range s.old.Uses[u].Part.Switches[sw].Poles {
		for _, groups := range p.Contacts {
			for _, g := range groups {
				if len(shared(g, used)) > 1 {
					return true
				}
			}
		}
	}
	return false
}

func shared(a, b []int) []int {
	var out []int
	for _, x := range a {
		if slices.Contains(b, x) {
			out = append(out, x)
		}
	}
	return out
}

// relations is what the terminals of a part are to one another.
type relations struct {
	part *part.Part
	role []string // of each terminal: "track cw", "ground", "tip" …
	same [][]string
}

// newRelations works out roles and, for each pair of terminals, what joins them:
// "track", "capacitor", "tie", and the positions in which contacts do.
func newRelations(p *part.Part) *relations {
	n := len(p.Terminals)
	r := &relations{part: p, role: make([]string, n), same: make([][]string, n)}
	for i := range r.same {
		r.same[i] = make([]string, n)
	}
	add := func(t int, role string) { r.role[t] += role + "; " }
	pair := func(a, b int, what string) {
		r.same[a][b] += what + "; "
		r.same[b][a] += what + "; "
	}
	for _, t := range p.Tracks {
		law := fmt.Sprintf("track %d ", t.Law)
		add(t.CW, law+"cw")
		add(t.Wiper, law+"wiper")
		add(t.CCW, law+"ccw")
		pair(t.CW, t.Wiper, "track")
		pair(t.Wiper, t.CCW, "track")
		pair(t.CW, t.CCW, "track")
	}
	r.twos(p, pair)
	for _, t := range p.Grounds {
		add(t, "ground metal")
	}
	if p.Output != nil {
		add(p.Output.Hot, "hot")
		add(p.Output.Ground, "output ground")
	}
	r.contacts(pair)
	return r
}

func (r *relations) twos(p *part.Part, pair func(a, b int, what string)) {
	for _, c := range p.Capacitors {
		pair(c.A, c.B, "capacitor")
	}
	for _, c := range p.Resistors {
		pair(c.A, c.B, "resistor")
	}
	for _, g := range p.Ties {
		for i := range g {
			for _, k := range g[:i] {
				pair(g[i], k, "tie")
			}
		}
	}
}

// contacts notes in which positions of which switch two terminals meet.
func (r *relations) contacts(pair func(a, b int, what string)) {
	for i, sw := range r.part.Switches {
		for pos := range sw.Positions {
			met := map[[2]int]bool{}
			for _, p := range sw.Poles {
				for _, g := range p.Contacts[pos] {
					for k := range g {
						for _, o := range g[:k] {
							met[[2]int{min(g[k], o), max(g[k], o)}] = true
						}
					}
				}
			}
			for a := range r.part.Terminals {
				for b := a + 1; b < len(r.part.Terminals); b++ {
					if met[[2]int{a, b}] {
						pair(a, b, fmt.Sprintf("switch %d at %d", i, pos))
					}
				}
			}
		}
	}
}

// matcher looks for the mapping.
type matcher struct {
	old, next *relations
	used      []int
	to        map[int]int
	positions [][]int
	why       string
	tries     int
}

// maxTries bounds the search; a part that needs more counts as one that cannot.
const maxTries = 200_000

// match places the used terminals from one on: exhaustive search, cut off by
// every pair that does not agree.
func (m *matcher) match(i int) bool {
	if i == len(m.used) {
		return true
	}
	from := m.used[i]
	for _, to := range m.candidates(from) {
		if m.tries++; m.tries > maxTries {
			return false
		}
		if !m.agrees(from, to) {
			continue
		}
		m.to[from] = to
		if m.match(i + 1) {
			return true
		}
		delete(m.to, from)
	}
	return false
}

// candidates are the new terminals of the same role, the one of the same name
// first, then in the part's order.
func (m *matcher) candidates(from int) []int {
	name := m.old.part.Terminals[from].Name
	var out []int
	for t := range m.next.part.Terminals {
		switch {
		case m.next.role[t] != m.old.role[from]:
		case m.next.part.Terminals[t].Name == name:
			out = append([]int{t}, out...)
		default:
			out = append(out, t)
		}
	}
	return out
}

func (m *matcher) agrees(from, to int) bool {
	for f, t := range m.to {
		if t == to || m.old.same[from][f] != m.next.same[to][t] {
			return false
		}
	}
	return true
}
