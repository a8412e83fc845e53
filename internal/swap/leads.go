package swap

import (
	"slices"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// pickup carries the leads of a pickup over to another lead code, coil end by
// coil end.
func (s *swapper) pickup(u int) {
	old, next := &s.old.Uses[u], &s.next.Uses[u]
	for t := range old.Part.Terminals {
		s.maps[u].terminals[t] = s.endTo(u, t)
	}
	for i, l := range old.Leads {
		if len(l.Ends) == 0 {
			if s.leadUsed(u, i) {
				s.mustMeasure(old, "which coil end %s.%s is has to be told before its joins can be carried over", old.Name, l.Name)
			}
			continue
		}
		var names []string
		for _, t := range l.Ends {
			for _, n := range s.endTo(u, t) {
				if !slices.Contains(names, n) {
					names = append(names, n)
				}
			}
		}
		s.maps[u].leads[i] = names
	}
	s.ties(u)
	s.joinInside(old, next)
	s.maps[u].positions = nil
}

// leadUsed reports whether a join names a lead.
func (s *swapper) leadUsed(u, lead int) bool {
	used := false
	s.eachRef(func(r loom.Ref) { used = used || r.Use == u && r.Lead == lead })
	return used
}

// endTo is the new lead of a coil end or shield: one name, or none where the new
// pickup joins it inside. It notes what stands in the way.
func (s *swapper) endTo(u, terminal int) []string {
	old, next := &s.old.Uses[u], &s.next.Uses[u]
	name := old.Part.Terminals[terminal].Name
	t, ok := next.Part.Terminal(name)
	joined := s.isJoined(u, terminal)
	if !ok {
		if joined {
			s.mustSearch("the new %s has no %s", old.Name, name)
		}
		return nil
	}
	for _, l := range next.Leads {
		if slices.Contains(l.Ends, t) {
			return []string{next.Name + "." + l.Name}
		}
	}
	if len(next.Leads) == 0 || next.Part.Terminals[t].Kind != "lead" {
		return []string{next.Name + "." + name}
	}
	if !joined {
		return nil
	}
	s.without(u, terminal, t)
	return nil
}

// isJoined reports whether a join of the loom goes to a terminal, under its own
// name or a lead's.
func (s *swapper) isJoined(u, terminal int) bool {
	return slices.ContainsFunc(s.g.Runs, func(r wiring.Run) bool {
		at := s.g.Term(u, terminal)
		return r.A == at || r.B == at
	})
}

// without deals with a coil end that has no lead of its own any more.
func (s *swapper) without(u, terminal, t int) {
	old, next := &s.old.Uses[u], &s.next.Uses[u]
	name := old.Name + "." + old.Part.Terminals[terminal].Name
	for _, l := range next.Leads {
		if slices.Contains(l.May, t) {
			s.mustMeasure(next, "which lead of the new %s is the %s has to be told by the meter", old.Name, old.Part.Terminals[terminal].Name)
			return
		}
	}
	for _, group := range next.Inside {
		if slices.Contains(group, t) {
			s.inside(u, group, name)
			return
		}
	}
	s.mustSearch("the new %s has no lead for its %s, which this loom uses", old.Name, old.Part.Terminals[terminal].Name)
}

// inside checks that what the new pickup joins inside was joined to nothing
// else, and drops those joins.
func (s *swapper) inside(u int, group []int, name string) {
	old, next := &s.old.Uses[u], &s.next.Uses[u]
	var allowed []int // terminals of the graph
	for _, t := range group {
		if o, ok := old.Part.Terminal(next.Part.Terminals[t].Name); ok {
			allowed = append(allowed, s.g.Term(u, o))
		}
	}
	net := s.nets.Of[allowed[0]]
	for _, t := range allowed {
		if s.nets.Of[t] != net {
			s.mustSearch("the new %s joins %s inside, and this loom keeps those ends apart", old.Name, groupWords(next, group))
			return
		}
	}
	for _, r := range s.g.Runs {
		for _, t := range []int{r.A, r.B} {
			if s.nets.Of[t] == net && !slices.Contains(allowed, t) && !s.isSplice(t) {
				s.mustSearch("%s has no lead on the new %s, and this loom joins it to %s", name, old.Name, s.g.Terms[t].Name)
				return
			}
		}
	}
	s.dropped[net] = true
}

func (s *swapper) isSplice(term int) bool {
	u := s.g.Terms[term].Use
	return u >= 0 && s.old.Uses[u].Part.Class == "splice"
}

func groupWords(u *loom.Use, group []int) string {
	var names []string
	for _, t := range group {
		names = append(names, u.Part.Terminals[t].Name)
	}
	return strings.Join(names, " and ")
}

// ties checks that leads which the new pickup has as one were on one net.
func (s *swapper) ties(u int) {
	old, next := &s.old.Uses[u], &s.next.Uses[u]
	for _, l := range next.Leads {
		net := -1
		for _, t := range l.Ends {
			o, ok := old.Part.Terminal(next.Part.Terminals[t].Name)
			if !ok || !s.isJoined(u, o) {
				continue
			}
			if n := s.nets.Of[s.g.Term(u, o)]; net >= 0 && n != net {
				s.mustSearch("%s of the new %s is %s in one, and this loom keeps them apart", l.Name, old.Name, groupWords(next, l.Ends))
			} else {
				net = n
			}
		}
	}
}

// joinInside adds a join between leads of ends that the old pickup joined
// inside.
func (s *swapper) joinInside(old, next *loom.Use) {
	for _, group := range old.Inside {
		var names []string
		for _, o := range group {
			t, ok := next.Part.Terminal(old.Part.Terminals[o].Name)
			if !ok || s.insideOf(next, t) {
				continue
			}
			for _, l := range next.Leads {
				if slices.Contains(l.Ends, t) && !slices.Contains(names, next.Name+"."+l.Name) {
					names = append(names, next.Name+"."+l.Name)
				}
				if slices.Contains(l.May, t) && len(l.Ends) == 0 {
					s.mustMeasure(next, "which lead of the new %s is the %s has to be told by the meter", next.Name, next.Part.Terminals[t].Name)
				}
			}
		}
		for i := 1; i < len(names); i++ {
			s.added = append(s.added, names[0]+" -- "+names[i])
		}
	}
}

func (s *swapper) insideOf(u *loom.Use, t int) bool {
	return slices.ContainsFunc(u.Inside, func(g []int) bool { return slices.Contains(g, t) })
}
