package synthesis

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/part"
)

// result words what was found, part by part of the plan.
func (t *task) result(pl plan, parts []*solved, f *effort) Result {
	r := Result{Status: Found, ByPart: !pl.one, Smallest: true, Settled: true, Rests: t.rests()}
	for _, s := range parts {
		r.Smallest = r.Smallest && s.out.bound == s.out.joins
		r.Settled = r.Settled && !s.out.tasteOpen
		r.Bound += s.out.bound
	}
	for _, choice := range choices(parts, max(1, t.opt.Best)) {
		r.Wirings = append(r.Wirings, t.wiring(parts, choice))
	}
	r.Bound += count(t.runs)
	for i := range r.Wirings[1:] {
		r.Wirings[i+1].Differs = differences(&r.Wirings[0], &r.Wirings[i+1])
	}
	r.Covers = t.covered(pl, parts, &r)
	if t.opt.Refute {
		for i, s := range parts {
			r.noteAll(pl.parts[i], s, f)
		}
	}
	return r
}

// noteAll keeps the refutation of fewer joins, or those of its groups where their
// sum is what was proved.
func (r *Result) noteAll(name string, s *solved, f *effort) {
	switch {
	case s.out.bound != s.out.joins:
	case s.sums():
		for _, g := range s.begun.tried {
			r.note(g.refutation("the switching of "+g.coilNames(), g.out.bound, f))
		}
	default:
		r.note(s.refutation(name, s.out.joins, f))
	}
}

// note keeps a refutation, when there is one.
func (r *Result) note(x *Refutation) {
	if x != nil {
		r.Refutations = append(r.Refutations, *x)
	}
}

// choices lists, for up to n wirings, which of its solutions each part gives.
func choices(parts []*solved, n int) [][]int {
	out := [][]int{make([]int, len(parts))}
	for i, s := range parts {
		for _, c := range slices.Clone(out) {
			for k := range s.more {
				next := slices.Clone(c)
				next[i] = k + 1
				out = append(out, next)
			}
		}
	}
	return out[:min(n, len(out))]
}

// wiring solders one choice of solutions onto the controls and grounds.
func (t *task) wiring(parts []*solved, choice []int) Wiring {
	own := *t
	own.forest, own.wires, own.runs = slices.Clone(t.forest), slices.Clone(t.wires), slices.Clone(t.runs)
	w := Wiring{}
	for i, s := range parts {
		solution := s.out.best
		if choice[i] > 0 {
			solution = s.more[choice[i]-1]
		}
		own.solder(s.terms, solution)
		for _, way := range s.p.passages() {
			if m := s.p.moment(solution, &way); m != smooth {
				w.Noise = append(w.Noise, Noise{t.nameIn(s.spec, s.p.settings[way.from].at), t.nameIn(s.spec, s.p.settings[way.to].at), m})
			}
		}
	}
	w.Joins = own.lines()
	w.Count = count(own.runs) - own.splices
	for _, r := range own.runs {
		if r.options != "touching" && t.g.Terms[r.a].Use != t.g.Terms[r.b].Use {
			w.Long++
		}
	}
	for x, n := range own.wires {
		if n > t.wiresPerLug() && !t.roomy(x) && t.isLug(x) {
			w.Crowded = append(w.Crowded, t.g.Terms[x].Name)
		}
	}
	return w
}

// count is the number of soldered runs: metal that only touches is none.
func count(runs []run) int {
	n := 0
	for _, r := range runs {
		if r.options != "touching" {
			n++
		}
	}
	return n
}

// nameIn words a setting of a spec, whose switches are some of the task's.
func (t *task) nameIn(s *spec, at []int) string {
	var words []string
	for i, k := range s.switches {
		sw := &t.g.Switches[t.switches[k]]
		words = append(words, sw.Name+" "+sw.Positions[at[i]].Name)
	}
	return strings.Join(words, ", ")
}

// differences says what distinguishes a wiring from another.
func differences(a, b *Wiring) []string {
	var out []string
	out = append(out, strings.Join(lacking(b.Joins, a.Joins), ", ")+" in place of "+strings.Join(lacking(a.Joins, b.Joins), ", "))
	compare := func(x, y int, what string) {
		if x != y {
			out = append(out, fmt.Sprintf("%s: %d instead of %d", what, y, x))
		}
	}
	compare(a.Long, b.Long, "wires between parts")
	compare(len(a.Noise), len(b.Noise), "passages with a gap, a mute or a pop")
	compare(len(a.Crowded), len(b.Crowded), "lugs with more than three wires")
	return out
}

// lacking words the joins of one wiring that another has not.
func lacking(these, others []Join) []string {
	var out []string
	for _, j := range these {
		if !slices.ContainsFunc(others, func(k Join) bool { return j.String() == k.String() }) {
			out = append(out, j.String())
		}
	}
	return out
}

// covered says what the proof of smallness covers.
func (t *task) covered(pl plan, parts []*solved, r *Result) []string {
	if !r.Smallest {
		return []string{fmt.Sprintf("not proved smallest: no wiring has fewer than %d joins, and this one has %d", r.Bound, r.Wirings[0].Count)}
	}
	out := []string{fmt.Sprintf("controls and grounds are joined as the scheme %q has them, which nobody has tried to shorten", t.scheme)}
	if pl.one {
		out = append(out, "no wiring of these switches with fewer joins meets all wishes"+t.besides())
		if parts[0].sums() {
			out = append(out, parts[0].sumWords())
		}
	} else {
		out = append(out, "smallest on their own: "+strings.Join(pl.named(), "; "))
		out = append(out, "not covered: a wiring that mixes them, which might do with fewer joins")
	}
	return append(out, "fewer joins were ruled out by a search of all wirings; the wiring itself is proved by other code than the search")
}

// besides words the demands that the loom does not make itself.
func (t *task) besides() string {
	if t.opt.Hanging {
		return ""
	}
	return " and leaves no aerial (a silent coil that touches the sound with one end)"
}

// rests lists what nobody has told and the answer takes for granted.
func (t *task) rests() []Rest {
	var out []Rest
	for i := range t.g.Coils {
		c := &t.g.Coils[i]
		if c.Winding*c.Pole != 0 || !t.signMatters(i) {
			continue
		}
		out = append(out, Rest{
			Takes:   t.takes(i),
			Reading: reading(c.Name, c.Winding, c.Pole),
			Swap:    t.swapOf(c.Start, c.Finish),
		})
	}
	taken := map[int]bool{}
	for _, u := range t.g.Unknown {
		for _, end := range u.May {
			if !taken[end] {
				taken[end] = true
				out = append(out, Rest{
					Takes:   fmt.Sprintf("%s is taken as %s", t.g.Terms[u.Term].Name, t.g.Terms[end].Name),
					Reading: "find with the meter which lead is which: ohms for the coil, a tap on its pole for start and finish",
					Swap:    "when it is another end, swap it with the lead that this end is",
				})
				break
			}
		}
	}
	return out
}

// takes words what a coil is taken for.
func (t *task) takes(i int) string {
	winding, pole := customary(t.g, i)
	text := t.g.Coils[i].Name + " is taken, as is customary, as"
	if t.g.Coils[i].Winding == 0 {
		text += map[part.Sign]string{1: " wound clockwise", -1: " wound anticlockwise"}[winding]
	}
	if t.g.Coils[i].Pole == 0 {
		if t.g.Coils[i].Winding == 0 {
			text += " and"
		}
		text += map[part.Sign]string{1: " with its north pole to the strings", -1: " with its south pole to the strings"}[pole]
	}
	return text
}

func reading(name string, winding, pole part.Sign) string {
	var out []string
	if winding == 0 {
		out = append(out, "tap "+name+" with the meter on its lowest volts range: which way it moves tells the winding")
	}
	if pole == 0 {
		out = append(out, "hold a compass over "+name+": which end it draws tells the pole")
	}
	return strings.Join(out, "; ")
}

// signMatters reports whether a coil sounds with another in a fixed phase.
func (t *task) signMatters(i int) bool {
	return slices.ContainsFunc(t.settings, func(a asked) bool {
		in := a.tree.elements()
		s := a.sound
		return s >= 0 && len(in) > 1 && slices.Contains(in, i) && (!t.g.Loom.Sounds[s].FreePhase || t.humWanted(s, a.tree))
	})
}

// swapOf names the two leads that turn a coil round.
func (t *task) swapOf(start, finish int) string {
	a, b := t.g.Terms[start].Name, t.g.Terms[finish].Name
	if t.noLead[start] || t.noLead[finish] {
		return "one of its ends has no lead of its own: turn the whole pickup round by its two outer leads, if its shield allows it"
	}
	return fmt.Sprintf("when it is the other way (one of winding and pole, not both), swap %s and %s wherever they are soldered", a, b)
}
