package drawing

import (
	"fmt"
	"slices"

	"loomwright/internal/place"
	"loomwright/internal/scene"
)

// Flaw is one thing in a drawing that would trouble a solderer. Rule is short
// and stable: "spacing", "tag".
type Flaw struct {
	Rule string
	At   scene.Point
	Says string
}

// Limits of the linter, mm.
const (
	leastSpacing  = 2.15 // of wires side by side: 0.4 mm of paper between them
	leastLug      = 1.75 // of a wire's middle from a foreign terminal
	leastJoint    = 2.1  // of a wire's middle from a joint on a case
	leastJoints   = 3.15 // of two joints on one case
	leastCrossing = 2.3  // of a crossing from an end, a bend or a crossing
	leastPiece    = 1.6  // of a straight piece between two bends
	leastJog      = 2.2
	nearEnd       = 4.6 // wires that end on one terminal may meet this near to it
)

// Lint looks for flaws in a finished drawing, by geometry alone.
func Lint(d *Drawing) []Flaw {
	l := &linter{d: d}
	for _, rule := range []func(*linter){
		(*linter).missing, (*linter).steps, (*linter).conflict, (*linter).ends, (*linter).spacing, (*linter).bodies, (*linter).lugs, (*linter).joints,
		(*linter).crossings, (*linter).pieces, (*linter).tags, (*linter).words, (*linter).labels, (*linter).panels, (*linter).page, (*linter).order, (*linter).looks,
	} {
		rule(l)
	}
	slices.SortStableFunc(l.flaws, func(a, b Flaw) int { return compareText(a.Rule, b.Rule) })
	return l.flaws
}

func compareText(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

type linter struct {
	d     *Drawing
	flaws []Flaw
}

func (l *linter) add(rule string, at scene.Point, format string, args ...any) {
	l.flaws = append(l.flaws, Flaw{rule, at, fmt.Sprintf(format, args...)})
}

// name is a wire as a flaw calls it.
func (l *linter) name(i int) string {
	w := &l.d.Wires[i]
	return fmt.Sprintf("%s %s (%s to %s)", l.d.stepText(w, 0), w.Look.Word, w.A, w.B)
}

// missing: every strand is drawn, once.
func (l *linter) missing() {
	drawn := map[int]int{}
	for i := range l.d.Wires {
		drawn[l.d.Wires[i].Strand]++
	}
	for i := range l.d.Plan.Strands {
		want := 1
		switch {
		case l.d.marked(i):
			want = 0
		case l.d.twisted(&l.d.Plan.Strands[i]):
			want = 2
		}
		if n := drawn[i]; n != want {
			l.add("missing", scene.Point{}, "strand %d of run %d is drawn %d times", i, l.d.Plan.Strands[i].Run, n)
		}
	}
}

func (l *linter) conflict() {
	for i := range l.d.Wires {
		if !l.d.Wires[i].Clean {
			l.add("conflict", l.d.Wires[i].Points[0], "%s has no lane to itself", l.name(i))
		}
	}
}

// ends: a wire ends exactly on its terminal, and leaves it in an allowed direction.
func (l *linter) ends() {
	for i := range l.d.Wires {
		w := &l.d.Wires[i]
		s := l.d.strandOf(w)
		if s == nil {
			continue
		}
		n := len(w.Points)
		if w.Tap[0] {
			l.end(i, tailEnd(w, s), w.Points[n-1], w.Points[n-2])
			continue
		}
		l.end(i, s.A, w.Points[0], w.Points[1])
		l.end(i, s.B, w.Points[n-1], w.Points[n-2])
	}
}

func (l *linter) end(i int, e place.End, at, next scene.Point) {
	if e.Splice >= 0 {
		if !l.onSplice(e.Splice, at) {
			l.add("end", at, "%s does not end at its sleeve", l.name(i))
		}
		return
	}
	s := &l.d.Plan.Spots[e.Term]
	switch {
	case l.d.inSleeve(e.Term):
		if !onTip(&l.d.Plan.Parts[s.Part], at) {
			l.add("end", at, "%s does not end at its sleeve", l.name(i))
		}
	case s.InCase:
		if c := l.d.Plan.Parts[s.Part].Case; !c.Box.Grow(-1.4).Contains(around(at, 0)) {
			l.add("end", at, "%s does not end on the case", l.name(i))
		}
	case s.InFan:
		if !slices.ContainsFunc(l.d.Plan.Parts[s.Part].Fan.Slots, func(p scene.Point) bool { return p.Dist(at) < 1e-2 }) {
			l.add("end", at, "%s does not start in its cable", l.name(i))
		}
	case at.Dist(s.At) > 1e-2:
		l.add("end", at, "%s ends %.2f mm from its terminal", l.name(i), at.Dist(s.At))
	case !allowed(s, next.Sub(at)) && !s.Inside && !l.jumper(i):
		l.add("end", at, "%s leaves its lug where it may not", l.name(i))
	}
}

func (l *linter) jumper(i int) bool {
	s := l.d.strandOf(&l.d.Wires[i])
	return s.A.Term >= 0 && s.B.Term >= 0 && l.d.Plan.Spots[s.A.Term].Part == l.d.Plan.Spots[s.B.Term].Part
}

func (l *linter) onSplice(splice int, at scene.Point) bool {
	for i := range l.d.Plan.Parts {
		if p := &l.d.Plan.Parts[i]; p.Use < 0 && p.Splice == splice {
			return onTip(p, at)
		}
	}
	return false
}

func onTip(p *place.Part, at scene.Point) bool {
	return slices.ContainsFunc(p.Tips, func(t place.Spot) bool { return t.At.Dist(at) < 1e-2 })
}

// allowed reports whether a direction is within 60 degrees of an exit.
func allowed(s *place.Spot, d scene.Point) bool {
	d = d.Unit()
	for q := range 4 {
		if v := scene.Toward(90 * float64(q)); s.Exits&(1<<q) != 0 && v.X*d.X+v.Y*d.Y > 0.5 {
			return true
		}
	}
	return false
}
