package part

import (
	"loomwright/internal/source"
)

// maxPositions bounds a switch, so that a file cannot ask for endless settings.
const maxPositions = 64

func (r *resolver) switchOf(key source.String, f SwitchFile) Switch {
	s := Switch{Name: key.Value, Skew: f.Skew.Value == "yes", Around: f.Around.Value == "yes", Proved: -1}
	s.Travel = map[string]Travel{"make first": MakeFirst, "break first": BreakFirst}[f.Travel.Value]
	if f.Travel.Value == "" || f.Travel.Value == "unknown" {
		s.Travel = UnknownTravel
	}
	r.word(key)
	for _, e := range f.Positions.Entries {
		r.listed(e.Key)
		pos := Position{Name: e.Key.Value}
		if e.Value != nil {
			pos.Words = e.Value.Words.Value
		}
		s.Positions = append(s.Positions, pos)
	}
	if n := len(s.Positions); n < 2 || n > maxPositions {
		r.fail("part-shape", key, "a switch has from 2 to %d positions, this one has %d", maxPositions, n)
	}
	if f.Proved.Value != "" {
		if s.Proved = s.Position(f.Proved.Value); s.Proved < 0 {
			r.fail("part-name", f.Proved, "this switch has no position %q", f.Proved.Value)
		}
	}
	for _, e := range f.Poles.Entries {
		s.Poles = append(s.Poles, r.pole(&s, e.Key, e.Value))
	}
	return s
}

// Position returns the index of a position by name, or −1.
func (s *Switch) Position(name string) int {
	for i, p := range s.Positions {
		if p.Name == name {
			return i
		}
	}
	return -1
}

func (r *resolver) pole(s *Switch, key source.String, f PoleFile) Pole {
	p := Pole{Name: key.Value, Common: -1, Contacts: make([][][]int, len(s.Positions))}
	if f.Common.Value != "" {
		p.Common = r.name(f.Common)
	}
	switch {
	case len(f.Throws) > 0 && len(f.Contacts.Entries) > 0:
		r.fail("part-shape", key, "a pole has throws or contacts, not both")
	case len(f.Throws) > 0:
		r.throws(s, key, f, &p)
	default:
		r.contacts(s, key, f, &p)
	}
	return p
}

// throws reads the short form: in position k the common meets throw k.
func (r *resolver) throws(s *Switch, key source.String, f PoleFile, p *Pole) {
	if p.Common < 0 || len(f.Throws) != len(s.Positions) {
		r.fail("part-shape", key, "a pole with throws has a common, and one throw (or -) for each of its %d positions", len(s.Positions))
		return
	}
	for i, t := range f.Throws {
		if t.Value == "-" {
			p.Throws = append(p.Throws, -1)
			continue
		}
		at := r.name(t)
		p.Throws = append(p.Throws, at)
		p.Contacts[i] = [][]int{{p.Common, at}}
	}
}

// contacts reads the long form: groups of joined terminals per position.
func (r *resolver) contacts(s *Switch, key source.String, f PoleFile, p *Pole) {
	if len(f.Contacts.Entries) == 0 {
		r.fail("part-shape", key, "a pole needs throws or contacts")
	}
	for _, e := range f.Contacts.Entries {
		at := s.Position(e.Key.Value)
		if at < 0 {
			r.fail("part-name", e.Key, "this switch has no position %q", e.Key.Value)
			continue
		}
		for _, group := range e.Value {
			if ts := r.terminals(group); len(ts) > 1 {
				p.Contacts[at] = append(p.Contacts[at], ts)
			}
		}
	}
}
