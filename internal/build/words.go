package build

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// describe puts a step in words, with the wire as it looks.
func describe(g *wiring.Graph, s *Step, w loom.Wire) {
	d := describer{g, s, w, &g.Runs[s.Run]}
	s.Do = strings.Join(append([]string{d.head()}, d.ends()...), " ")
	s.Notes = d.notes()
	s.Good = d.good()
}

// describer writes the words of one step.
type describer struct {
	g    *wiring.Graph
	step *Step
	wire loom.Wire
	run  *wiring.Run
}

func (d *describer) name(term int) string { return d.g.Terms[term].Name }

// head says what goes where.
func (d *describer) head() string {
	a, b := d.name(d.run.A), d.name(d.run.B)
	switch {
	case d.wire.Kind == loom.Touching:
		return fmt.Sprintf("Seat the part so that %s touches %s: bare metal, no solder.", a, b)
	case d.step.Finishes > 0:
		return fmt.Sprintf("The tail of step %d to %s.", d.step.Finishes, d.farNames())
	case d.owned(d.run.A) && d.owned(d.run.B):
		return fmt.Sprintf("Lead %s and lead %s on one another.", a, b)
	case d.owned(d.run.A):
		return fmt.Sprintf("%s to %s.", d.leadWords(d.run.A), b)
	case d.owned(d.run.B):
		return fmt.Sprintf("%s to %s.", d.leadWords(d.run.B), a)
	}
	return fmt.Sprintf("%s from %s to %s.", wireWords(d.wire), a, b)
}

// farNames lists the places that a tail goes to.
func (d *describer) farNames() string {
	var names []string
	for _, e := range d.step.Ends {
		if e.Braid {
			names = append(names, d.name(e.Term)+" (its braid)")
		} else {
			names = append(names, d.name(e.Term))
		}
	}
	return strings.Join(names, " and ")
}

// owned reports whether a terminal is a lead that the run is, or a wire that is
// there already.
func (d *describer) owned(term int) bool {
	return slices.ContainsFunc(d.step.Ends, func(e End) bool { return e.Term == term && e.Work == Own }) ||
		d.g.Terms[term].Kind == "lead" && d.wire.Kind != loom.Hookup
}

func (d *describer) leadWords(term int) string {
	if is(d.g, term, "ground") {
		return fmt.Sprintf("The wire of the %s (%s)", use(d.g, term).Part.Name, use(d.g, term).Name)
	}
	return fmt.Sprintf("Lead %s", d.name(term))
}

// wireWords names a wire at the start of a sentence.
func wireWords(w loom.Wire) string {
	words := []string{}
	if w.Colour != "" && w.Kind != loom.Bare {
		words = append(words, w.Colour)
	}
	switch w.Kind {
	case loom.Bare:
		words = append(words, "bare wire")
	case loom.Screened:
		words = append(words, "screened cable")
	case loom.OwnLead:
		words = append(words, "lead")
	default:
		words = append(words, "wire")
	}
	if w.Size.Text != "" {
		words = append(words, w.Size.Text)
	}
	s := strings.Join(words, " ")
	return strings.ToUpper(s[:1]) + s[1:]
}

// ends says what is done at each end that is not simply soldered.
func (d *describer) ends() []string {
	var out []string
	var tails []string
	for _, e := range d.step.Ends {
		name := d.name(e.Term)
		switch e.Work {
		case Hook:
			out = append(out, fmt.Sprintf("%s %s and leave that joint: step %d heats it.", d.hook(e.Term), name, e.Heat))
		case Again:
			out = append(out, fmt.Sprintf("%s was soldered at the bench and is heated again: be quick, and hold what is there still.", name))
		case Tail:
			tails = append(tails, name)
		}
	}
	if len(tails) > 0 {
		out = append(out, fmt.Sprintf("Leave the far end free, labelled %s.", strings.Join(tails, " and ")))
	}
	return out
}

// hook says how a wire is held until the iron comes.
func (d *describer) hook(term int) string {
	if d.g.Terms[term].Kind == "lead" || is(d.g, term, "splice") && d.g.Terms[term].Kind == "point" {
		return "Twist it into"
	}
	return "Hook it through"
}

// notes tell what to mind (common practice, no source).
func (d *describer) notes() []string {
	var out []string
	if d.has(Case) {
		out = append(out, "Scuff and tin the case; big hot tip, a few seconds, then let it cool.")
	}
	if small(d.g, d.step.Run) && d.heated() {
		out = append(out, "Clip something cold on the lead between joint and body: heat hurts it.")
	}
	if d.wire.Sleeved || d.wire.Kind == loom.Bare && !onCase(d.g, d.run.A) && !onCase(d.g, d.run.B) {
		out = append(out, "Slip sleeving on before the second end.")
	}
	if d.wire.Twisted && d.step.Finishes == 0 {
		out = append(out, d.twist()...)
	}
	if d.wire.Kind == loom.Screened {
		out = append(out, d.braid())
	}
	if d.splice() {
		out = append(out, "Slide sleeving on first, twist, solder, cover.")
	}
	return out
}

// twist names the wire that this one is twisted with: of the same two parts, or
// else one that leads to one of them.
func (d *describer) twist() []string {
	a, b := d.uses(d.run)
	beside := -1
	for k := range d.g.Runs {
		r := &d.g.Runs[k]
		if k == d.step.Run || !r.Wire.Twisted {
			continue
		}
		x, y := d.uses(r)
		switch {
		case x == a && y == b || x == b && y == a:
			return []string{fmt.Sprintf("Twist it with the wire %s.", d.between(r))}
		case beside < 0 && (x == a || x == b || y == a || y == b):
			beside = k
		}
	}
	if beside < 0 {
		return nil
	}
	return []string{fmt.Sprintf("Twist it with the wire %s where the two run side by side.", d.between(&d.g.Runs[beside]))}
}

// uses are the parts at both ends of a run.
func (d *describer) uses(r *wiring.Run) (a, b int) { return d.g.Terms[r.A].Use, d.g.Terms[r.B].Use }

func (d *describer) between(r *wiring.Run) string {
	return d.name(r.A) + " to " + d.name(r.B)
}

func (d *describer) has(w Work) bool {
	return slices.ContainsFunc(d.step.Ends, func(e End) bool { return e.Work == w })
}

func (d *describer) heated() bool {
	return slices.ContainsFunc(d.step.Ends, func(e End) bool { return e.Work.Heats() })
}

// splice reports whether a joint of this step hangs in the air.
func (d *describer) splice() bool {
	return slices.ContainsFunc(d.step.Ends, func(e End) bool {
		air := d.g.Terms[e.Term].Kind == "lead" || is(d.g, e.Term, "splice") && d.g.Terms[e.Term].Kind == "point"
		return air && e.Work.Heats()
	})
}

// braid says where the braid of a screened cable goes at the ends of this step.
func (d *describer) braid() string {
	var here []string
	for _, e := range d.step.Ends {
		if e.Braid && e.Work != Tail {
			here = append(here, d.name(e.Term))
		}
	}
	all := slices.ContainsFunc(ends(d.g, d.step.Run), func(e End) bool { return e.Braid })
	switch {
	case len(here) > 0:
		return fmt.Sprintf("Braid to %s; no strand may touch the core.", strings.Join(here, " and "))
	case all:
		return "Cut the braid back at this end; no strand may touch the core."
	}
	return "Cut the braid back at both ends; no strand may touch the core."
}

// good says what a good joint looks like (common practice, no source).
func (d *describer) good() string {
	switch {
	case d.has(Solder) || d.has(Again):
		return "Good: solder has run up wire and lug in a smooth hollow curve, the wire's shape still shows, nothing moves."
	case d.has(Case):
		return "Good: a flat puddle that runs out to a thin edge on the metal, the wire under it, nothing moves."
	}
	return ""
}
