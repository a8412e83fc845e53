package synthesis

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/sat"
)

// beginning is what groups of coils with switches of their own tell of the whole
// before it is searched.
type beginning struct {
	start solution  // the groups' wirings put together; nil: none
	floor int       // joins that the whole is proved to need
	parts []*solved // the groups, where the floor is the sum of what they need
	tried []*solved // the same in every polarity
}

// groupEffort bounds the search of each group.
const groupEffort = 20_000

// begin searches groups of coils that have switches of their own.
func (t *task) begin(whole *spec, s *solved, f *effort) beginning {
	var out beginning
	if len(whole.elements) != len(t.coils) || len(whole.settings) != len(t.settings) {
		return out
	}
	specs := t.factor()
	if specs == nil {
		return out
	}
	floor := len(s.p.nodes)
	for _, flip := range s.p.polarities() {
		parts := t.searchGroups(specs, flip, f)
		if parts == nil {
			return beginning{}
		}
		out.tried = append(out.tried, parts...)
		start, sum := s.assemble(parts)
		if start != nil && (out.start == nil || start.joins() < out.start.joins()) {
			out.start, out.parts = start, parts
		}
		floor = min(floor, sum)
	}
	if t.adds(s, out.parts) {
		out.floor = floor
	} else {
		out.parts, out.tried = nil, nil
	}
	return out
}

// polarities are those that have to be tried. Where every coil has two leads of
// its own, turning all of them makes the one of the other.
func (p *puzzle) polarities() []int {
	turned := !slices.ContainsFunc(p.elements, func(x element) bool { return !p.ownLeads(x) })
	if p.fixed || turned {
		return []int{1}
	}
	return []int{1, -1}
}

// ownLeads reports whether both ends of an element are terminals that are joined
// to nothing yet.
func (p *puzzle) ownLeads(x element) bool {
	return x.a != x.b && min(x.a, x.b) > ground && p.nodes[x.a].alone && p.nodes[x.b].alone &&
		p.nodes[x.a].sealed == p.nodes[x.b].sealed
}

// searchGroups searches each group on its own; nil when one has no wiring.
func (t *task) searchGroups(specs []spec, flip int, f *effort) []*solved {
	var out []*solved
	for _, one := range specs {
		one.flip = flip
		g := &solved{spec: &one}
		g.p, g.terms = t.build(&one)
		g.e = encode(g.p, allRules().settle(g.p), sat.Options{})
		few := &effort{left: min(groupEffort, f.left), stop: f.stop, progress: f.progress, state: f.state}
		g.out = g.e.minimise(few, nil)
		f.add(few)
		if g.out.status != sat.Sat {
			return nil
		}
		out = append(out, g)
	}
	return out
}

// assemble puts the groups' wirings together, nil when that does not solve the
// whole, and adds up what they are proved to need.
func (s *solved) assemble(parts []*solved) (start solution, sum int) {
	var found []solution
	var terms [][][]int
	for _, g := range parts {
		found, terms = append(found, g.out.best), append(terms, g.terms)
		sum += g.out.bound
	}
	start = compose(s.p, s.terms, found, terms)
	if !s.p.meets(start) {
		return nil, sum
	}
	return start, sum
}

// adds reports whether the whole needs as many joins as its groups together.
//
// Let S solve the whole, for two groups A and B that share hot and ground only.
// Let m be the number of other nets of S with terminals of both. Counting nets,
// joins(S) = joins(S on A) + joins(S on B) + m. Fix B's switch at k: its contacts
// merge e(k) more of those m+2 nets, and S on A with these merges made by solder
// solves A. Likewise e'(i) for A's switch at i. As hot is not shorted at (i, k),
// the two together merge at most m nets for good, so e(k) + e'(i) − m contacts of
// A at i close a loop: each of those throws is closed at i only and can be left
// off, which saves a join each. So
//
//	fewest(A) + fewest(B) ≤ joins(S) − m + e(k) + e'(i) − (e(k) + e'(i) − m) = joins(S).
//
// Conditions: every setting asks for a sound of given phase; each group sounds
// somewhere; every node but hot and ground, and every switch, belongs to one
// group; hot and ground may be soldered to; nothing is joined behind pots; no lug
// has a limit of wires; silent coils may not hang; and all groups but one have a
// single switch of plain throws whose lugs may move.
func (t *task) adds(s *solved, parts []*solved) bool {
	p := s.p
	if len(parts) == 0 || p.limited || p.hanging || len(p.always)+len(p.ports)+len(p.loads) > 0 || p.nodes[hot].sealed || p.nodes[ground].sealed {
		return false
	}
	if slices.ContainsFunc(t.settings, func(a asked) bool { return a.sound < 0 || t.g.Loom.Sounds[a.sound].FreePhase }) {
		return false
	}
	otherwise := 0
	for _, g := range parts {
		if !slices.ContainsFunc(g.p.wishes, func(w wish) bool { return w.tree != nil }) {
			return false
		}
		if len(g.p.switches) != 1 || !g.p.switches[0].plainThrows() {
			otherwise++
		}
	}
	return otherwise <= 1 && s.covers(parts)
}

// covers reports whether the groups share out all nodes but hot and ground, and
// all switches.
func (s *solved) covers(parts []*solved) bool {
	owners := map[int]int{}
	switches := 0
	for _, g := range parts {
		switches += len(g.p.switches)
		for _, members := range g.terms[ground+1:] {
			owners[members[0]]++
		}
	}
	for _, members := range s.terms[ground+1:] {
		if owners[members[0]] != 1 {
			return false
		}
	}
	return switches == len(s.p.switches) && len(owners) == len(s.terms)-ground-1
}

// coilNames lists the coils of a group in words.
func (s *solved) coilNames() string {
	var names []string
	for _, x := range s.p.elements {
		names = append(names, x.name)
	}
	return strings.Join(names, ", ")
}

// sums reports whether what the groups need, added up, is all that is needed.
func (s *solved) sums() bool { return s.begun.floor > 0 && s.begun.floor == s.out.joins }

// sumWords says what the proof of smallness rests on.
func (s *solved) sumWords() string {
	var words []string
	for _, g := range s.begun.parts {
		words = append(words, fmt.Sprintf("%d for %s", g.out.joins, g.coilNames()))
	}
	return "proved group by group (" + strings.Join(words, ", ") + "): they sound side by side on switches of their own, so sharing joins between them gains nothing"
}
