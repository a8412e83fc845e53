package swap

import (
	"cmp"
	"fmt"
	"slices"

	"loomwright/internal/loom"
)

// useMap gives the terminals and leads of one part of the loom their new names.
// A lead may become several, or none where the new pickup joins it inside.
type useMap struct {
	terminals map[int][]string // by terminal of the old part
	leads     map[int][]string // by lead of the old part
	positions [][]int          // by switch: new position of each old one
	lost      bool             // its joins fall away, to be searched anew
}

// carry maps every part: pickups lead by lead, all else by what its terminals
// do.
func (s *swapper) carry() {
	s.maps = make([]useMap, len(s.old.Uses))
	for u := range s.old.Uses {
		s.maps[u] = useMap{terminals: map[int][]string{}, leads: map[int][]string{}}
		found := len(s.search)
		switch old, next := &s.old.Uses[u], &s.next.Uses[u]; {
		case len(old.Part.Coils) > 0 && (s.other[u].Code != "" || s.other[u].Is != ""):
			s.pickup(u)
		case old.Part.ID == next.Part.ID:
			s.same(u)
		default:
			s.body(u)
		}
		s.anew[u] = len(s.search) > found
	}
}

// same keeps every name, but for the ends of pots that a hand turns round.
func (s *swapper) same(u int) {
	for t := range s.old.Uses[u].Part.Terminals {
		s.maps[u].terminals[t] = []string{s.newName(u, s.turned(u, t))}
	}
	for i, l := range s.old.Uses[u].Leads {
		s.maps[u].leads[i] = []string{s.old.Uses[u].Name + "." + l.Name}
	}
	for _, sw := range s.old.Uses[u].Part.Switches {
		s.maps[u].positions = append(s.maps[u].positions, upTo(len(sw.Positions)))
	}
}

func upTo(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func (s *swapper) newName(u, terminal int) string {
	return s.next.Uses[u].Name + "." + s.next.Uses[u].Part.Terminals[terminal].Name
}

// turned is the other end of a track where pot ends are swapped by the hand, or
// swapped back.
func (s *swapper) turned(u, terminal int) int {
	if s.old.EndsSwapped == s.next.EndsSwapped {
		return terminal
	}
	for _, t := range s.next.Uses[u].Part.Tracks {
		switch terminal {
		case t.CW:
			return t.CCW
		case t.CCW:
			return t.CW
		}
	}
	return terminal
}

// used lists the terminals of a part that joins or free places name.
func (s *swapper) used(u int) []int {
	var out []int
	s.eachRef(func(r loom.Ref) {
		if r.Use == u && r.Terminal >= 0 && !slices.Contains(out, r.Terminal) {
			out = append(out, r.Terminal)
		}
	})
	slices.Sort(out)
	return out
}

// eachRef goes through all references to terminals in the loom.
func (s *swapper) eachRef(do func(loom.Ref)) {
	for _, j := range s.old.Joins {
		for _, r := range j.Runs {
			do(r.A)
			do(r.B)
			if r.Braid != nil {
				do(r.Braid.A)
				if r.Braid.B != nil {
					do(*r.Braid.B)
				}
			}
		}
	}
	for _, r := range s.old.Free {
		do(r)
	}
}

// to is what a reference becomes.
func (s *swapper) to(r loom.Ref) []string {
	m := &s.maps[r.Use]
	if names, ok := m.leads[r.Lead]; ok && r.Lead >= 0 {
		return names
	}
	if names, ok := m.terminals[r.Terminal]; ok {
		return names
	}
	return []string{r.Name}
}

func (s *swapper) mustSearch(format string, args ...any) {
	if text := fmt.Sprintf(format, args...); !slices.Contains(s.search, text) {
		s.search = append(s.search, text)
	}
}

// mustMeasure notes what the meter must tell of a part, in its old or its new
// form.
func (s *swapper) mustMeasure(u *loom.Use, format string, args ...any) {
	if !slices.ContainsFunc(s.unknown, func(k Unknown) bool { return k.Use == u.Name }) {
		s.unknown = append(s.unknown, s.unknownOf(u))
	}
	if text := fmt.Sprintf(format, args...); !slices.Contains(s.measure, text) {
		s.measure = append(s.measure, text)
	}
}

// unknownOf describes a pickup for the meter.
func (s *swapper) unknownOf(u *loom.Use) Unknown {
	at, _ := s.old.Use(u.Name)
	code := s.file.Parts.Entries[at].Value.Code.Value
	if u == &s.next.Uses[at] {
		code = cmp.Or(s.other[at].Code, code)
	}
	out := Unknown{Use: u.Name, Code: code, Coils: len(u.Part.Coils)}
	for _, l := range u.Leads {
		if slices.ContainsFunc(l.Ends, func(t int) bool { return slices.Contains(u.Part.Grounds, t) }) {
			out.Bare = l.Name
			continue
		}
		out.Leads = append(out.Leads, l.Name)
	}
	return out
}
