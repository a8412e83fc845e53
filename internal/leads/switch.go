package leads

import (
	"fmt"
	"slices"
	"strings"
)

// SwitchState is an unknown switch and what was answered about it: which of its
// lugs meet in which position. It is a value, like State.
type SwitchState struct {
	Lugs      []string `json:"lugs"`      // names that the user gives them, in the order they stand
	Positions []string `json:"positions"` // in the order of travel
	Answers   []Sweep  `json:"answers"`
}

// Sweep is one round of continuity readings: one probe stays on a lug, the other
// goes over others, and some of those meet it.
type Sweep struct {
	Position string   `json:"position"`
	On       string   `json:"on"`
	Over     []string `json:"over"`
	Meet     []string `json:"meet"`
}

// SwitchStep is what comes next: a sweep, or the contact table.
type SwitchStep struct {
	Question *SwitchQuestion `json:"question,omitempty"`
	Found    *FoundSwitch    `json:"found,omitempty"`
}

// SwitchQuestion asks which lugs meet one.
type SwitchQuestion struct {
	Position string   `json:"position"`
	On       string   `json:"on"`
	Over     []string `json:"over"`
	Do       string   `json:"do"`
}

// FoundSwitch is a switch's contact table: for every position the groups of lugs
// that meet, and the poles that this makes.
type FoundSwitch struct {
	Says   string                `json:"says"`
	Groups map[string][][]string `json:"groups"`
	Poles  []Pole                `json:"poles"`
	Unused []string              `json:"unused,omitempty"` // lugs that never meet another
	state  SwitchState
}

// Pole is a set of lugs that meet only among themselves. Common is the lug that
// meets others in most positions.
type Pole struct {
	Common string   `json:"common"`
	Lugs   []string `json:"lugs"`
}

// Bounds of a switch that can be told by a person with a meter.
const (
	maxLugs      = 40
	maxPositions = 16
)

// NextOfSwitch works out the next step. What meets in a position is one group,
// so that a lug which was placed needs no sweep of its own.
func NextOfSwitch(s SwitchState) (SwitchStep, error) {
	if err := s.check(); err != nil {
		return SwitchStep{}, err
	}
	found := map[string][][]string{}
	for _, position := range s.Positions {
		left := slices.Clone(s.order(position))
		for len(left) > 1 {
			sweep := s.sweep(position, left[0])
			over := slices.DeleteFunc(slices.Clone(left[1:]), func(lug string) bool { return slices.Contains(sweep.Over, lug) })
			if len(over) > 0 {
				return SwitchStep{Question: s.question(position, left[0], over)}, nil
			}
			group := []string{left[0]}
			for _, lug := range left[1:] {
				if slices.Contains(sweep.Meet, lug) {
					group = append(group, lug)
				}
			}
			found[position] = append(found[position], group)
			left = slices.DeleteFunc(left, func(lug string) bool { return slices.Contains(group, lug) })
		}
	}
	return SwitchStep{Found: s.found(found)}, nil
}

// sweep puts together all sweeps from one lug in a position.
func (s *SwitchState) sweep(position, on string) Sweep {
	out := Sweep{Position: position, On: on}
	for _, a := range s.Answers {
		if a.Position == position && a.On == on {
			out.Over, out.Meet = append(out.Over, a.Over...), append(out.Meet, a.Meet...)
		}
	}
	return out
}

// order is the order in which lugs are swept in a position: in the first as they
// stand; later those that met others there come first.
func (s *SwitchState) order(position string) []string {
	if position == s.Positions[0] {
		return s.Lugs
	}
	count := map[string]int{}
	for _, a := range s.Answers {
		if a.Position == s.Positions[0] {
			count[a.On] += len(a.Meet)
		}
	}
	out := slices.Clone(s.Lugs)
	slices.SortStableFunc(out, func(a, b string) int { return count[b] - count[a] })
	return out
}

func (s *SwitchState) check() error {
	if len(s.Lugs) < 2 || len(s.Lugs) > maxLugs || len(s.Positions) < 2 || len(s.Positions) > maxPositions {
		return fmt.Errorf("a switch has from 2 to %d lugs and from 2 to %d positions", maxLugs, maxPositions)
	}
	for _, list := range [][]string{s.Lugs, s.Positions} {
		for i, name := range list {
			if strings.TrimSpace(name) == "" || slices.Contains(list[:i], name) {
				return fmt.Errorf("each lug and each position needs a name of its own; %q does not do", name)
			}
		}
	}
	for _, a := range s.Answers {
		known := func(lug string) bool { return slices.Contains(s.Lugs, lug) && lug != a.On }
		if !slices.Contains(s.Positions, a.Position) || !slices.Contains(s.Lugs, a.On) ||
			slices.ContainsFunc(a.Over, func(l string) bool { return !known(l) }) ||
			slices.ContainsFunc(a.Meet, func(l string) bool { return !slices.Contains(a.Over, l) }) {
			return fmt.Errorf("no such reading: from %s over %s with the switch at %q", a.On, strings.Join(a.Over, ", "), a.Position)
		}
	}
	return nil
}

func (s *SwitchState) question(position, on string, over []string) *SwitchQuestion {
	return &SwitchQuestion{Position: position, On: on, Over: over,
		Do: fmt.Sprintf("Switch at %s. Keep one probe on %s and touch the other to %s in turn: which of them read about 0 Ω (or beep)?",
			position, on, strings.Join(over, ", "))}
}

// With returns the state with one sweep more.
func (s SwitchState) With(a Sweep) SwitchState {
	s.Answers = append(slices.Clone(s.Answers), a)
	return s
}

func (s *SwitchState) found(groups map[string][][]string) *FoundSwitch {
	f := &FoundSwitch{Groups: map[string][][]string{}, state: *s}
	for position, all := range groups {
		f.Groups[position] = slices.DeleteFunc(all, func(g []string) bool { return len(g) < 2 })
	}
	f.poles()
	f.Says = fmt.Sprintf("A switch of %d poles and %d positions.", len(f.Poles), len(s.Positions))
	if len(f.Unused) > 0 {
		f.Says += fmt.Sprintf(" Nothing ever meets %s: a lug of the frame, or a dead contact.", strings.Join(f.Unused, ", "))
	}
	return f
}

// poles sorts the lugs into sets that meet only among themselves.
func (f *FoundSwitch) poles() {
	pole := map[string]int{}
	for i, lug := range f.state.Lugs {
		pole[lug] = i
	}
	count := map[string]int{} // positions in which a lug meets another
	for _, position := range f.state.Positions {
		for _, group := range f.Groups[position] {
			for _, lug := range group {
				count[lug]++
				from, to := pole[lug], pole[group[0]]
				for l, p := range pole {
					if p == from {
						pole[l] = to
					}
				}
			}
		}
	}
	for i := range f.state.Lugs {
		var p Pole
		for _, lug := range f.state.Lugs {
			if pole[lug] == i {
				p.Lugs = append(p.Lugs, lug)
				if p.Common == "" || count[lug] > count[p.Common] {
					p.Common = lug
				}
			}
		}
		switch len(p.Lugs) {
		case 0:
		case 1:
			f.Unused = append(f.Unused, p.Lugs[0])
		default:
			f.Poles = append(f.Poles, p)
		}
	}
}

// Part is the part file for the shelf. Lugs are drawn in a row.
func (f *FoundSwitch) Part(name string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "loomwright-part: 1\nname: %s\nclass: switch\nabout: %s\nsource: measured, lug by lug in every position\nterminals:\n", quote(name), quote(f.Says))
	const pitch = 5.0
	left := -pitch * float64(len(f.state.Lugs)-1) / 2
	for i, lug := range f.state.Lugs {
		fmt.Fprintf(&b, "  %s: {words: %s, view: \"as it was measured\", at: [%g, 0], exit: [up, down]}\n", quote(lug), quote(fmt.Sprintf("lug %d of %d", i+1, len(f.state.Lugs))), left+pitch*float64(i))
	}
	b.WriteString("switches:\n  switch:\n    positions:\n")
	for _, p := range f.state.Positions {
		fmt.Fprintf(&b, "      %s: {words: %s}\n", quote(p), quote(p))
	}
	b.WriteString("    travel: unknown\n    skew: yes\n    poles:\n")
	for i, p := range f.Poles {
		f.pole(&b, i, p)
	}
	fmt.Fprintf(&b, "outline:\n  - {shape: rect, at: [0, 0], size: [%g, 9], round: 1, fill: wafer}\n", pitch*float64(len(f.state.Lugs))+4)
	return b.String()
}

// pole writes a pole as throws where its common meets one lug or none in each
// position, else as its contact table.
func (f *FoundSwitch) pole(b *strings.Builder, i int, p Pole) {
	fmt.Fprintf(b, "      %s: {common: %s, ", quote(string(rune('a'+i%26))+strings.Repeat("'", i/26)), quote(p.Common))
	var throws, contacts []string
	plain := true
	for _, position := range f.state.Positions {
		throw := `"-"`
		var groups []string
		for _, g := range f.Groups[position] {
			if !slices.Contains(p.Lugs, g[0]) {
				continue
			}
			plain = plain && len(g) == 2 && slices.Contains(g, p.Common) && len(groups) == 0
			names := make([]string, 0, len(g))
			for _, lug := range g {
				names = append(names, quote(lug))
				if lug != p.Common {
					throw = quote(lug)
				}
			}
			groups = append(groups, "["+strings.Join(names, ", ")+"]")
		}
		throws = append(throws, throw)
		contacts = append(contacts, fmt.Sprintf("%s: [%s]", quote(position), strings.Join(groups, ", ")))
	}
	if plain {
		fmt.Fprintf(b, "throws: [%s]}\n", strings.Join(throws, ", "))
		return
	}
	fmt.Fprintf(b, "contacts: {%s}}\n", strings.Join(contacts, ", "))
}
