package fault

import (
	"fmt"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// List names every single thing that can go wrong with a loom, in a fixed
// order, with the usual priors.
func List(g *wiring.Graph) []Fault { return ListWith(g, Priors()) }

// ListWith is List with priors by kind; a kind without one is left out.
func ListWith(g *wiring.Graph, priors map[Kind]float64) []Fault {
	l := &lister{g: g, priors: priors}
	l.joints()
	l.neighbours()
	l.leads()
	l.wires()
	l.pickups()
	l.pots()
	l.capacitors()
	l.switches()
	l.output()
	return l.faults
}

type lister struct {
	g      *wiring.Graph
	priors map[Kind]float64
	faults []Fault
}

func (l *lister) add(f Fault) {
	if f.Prior = l.priors[f.Kind]; f.Prior > 0 {
		l.faults = append(l.faults, f)
	}
}

func (l *lister) name(term int) string { return l.g.Terms[term].Name }

func (l *lister) class(term int) string {
	if u := l.g.Terms[term].Use; u >= 0 {
		return l.g.Loom.Uses[u].Part.Class
	}
	return ""
}

// run names a wire by its ends.
func (l *lister) run(i int) string {
	return fmt.Sprintf("%s -- %s", l.name(l.g.Runs[i].A), l.name(l.g.Runs[i].B))
}

// soldered tells which runs are in: those of a half-built loom that are not
// have no links.
func (l *lister) soldered() []bool {
	in := make([]bool, len(l.g.Runs))
	for _, k := range l.g.Links {
		if k.Run >= 0 {
			in[k.Run] = true
		}
	}
	return in
}

// joints: each joint of each run open or resistive, each wire missing. The end
// of a part's own lead is no joint.
func (l *lister) joints() {
	in := l.soldered()
	for i := range l.g.Runs {
		if !in[i] {
			continue
		}
		r := &l.g.Runs[i]
		ends := l.jointsOf(r)
		for _, t := range ends {
			l.joint(i, t, r)
		}
		l.braid(i)
		l.missing(i, len(ends))
	}
}

// jointsOf are the ends of a run that are soldered to something.
func (l *lister) jointsOf(r *wiring.Run) []int {
	var ends []int
	for _, t := range []int{r.A, r.B} {
		if l.g.Terms[t].Kind != "lead" {
			ends = append(ends, t)
		}
	}
	if len(ends) == 0 {
		return []int{r.B}
	}
	return ends
}

func (l *lister) joint(run, t int, r *wiring.Run) {
	what := "the wire " + l.run(run)
	if far := r.A + r.B - t; l.g.Terms[far].Kind == "lead" {
		what = l.name(far)
	}
	f := none(JointOpen, fmt.Sprintf("open joint of %s at %s", what, l.name(t)))
	if r.Wire.Kind == loom.Touching {
		f.Words = fmt.Sprintf("%s and %s do not touch", l.name(r.A), l.name(r.B))
	}
	f.Run, f.Term = run, t
	l.add(f)
	f.Kind = JointResistive
	f.Words = fmt.Sprintf("bad (resistive) joint of %s at %s", what, l.name(t))
	l.add(f)
}

// braid: each joint of a screen open, and the screen on its own core.
func (l *lister) braid(run int) {
	r := &l.g.Runs[run]
	if r.Braid < 0 {
		return
	}
	for _, k := range l.g.Links {
		if k.Run != run || k.A != r.Braid && k.B != r.Braid {
			continue
		}
		f := none(JointOpen, fmt.Sprintf("open joint of the braid of %s at %s", l.run(run), l.name(k.A+k.B-r.Braid)))
		f.Run, f.Term, f.To = run, k.A+k.B-r.Braid, r.Braid
		l.add(f)
	}
	f := none(LeadToMetal, fmt.Sprintf("the braid of %s touches its core", l.run(run)))
	f.Run, f.Term, f.To = run, r.A, r.Braid
	l.add(f)
}

// missing: a wire that was left out, and the string ground among them. A lead
// that was left out is its open joint; metal that touches cannot be missing.
func (l *lister) missing(run, joints int) {
	r := &l.g.Runs[run]
	f := none(WireMissing, "missing wire "+l.run(run))
	switch {
	case l.isStrings(r.A) || l.isStrings(r.B):
		f = none(NoStringGround, "the string ground is not joined")
	case joints < 2 || r.Wire.Kind == loom.Touching:
		return
	}
	f.Run = run
	l.add(f)
}

func (l *lister) isStrings(term int) bool {
	u := l.g.Terms[term].Use
	return u >= 0 && l.g.Loom.Uses[u].Part.ID == "ground/string"
}

// output: everything at the jack's lugs exchanged.
func (l *lister) output() {
	if l.g.Hot < 0 {
		return
	}
	for _, t := range []int{l.g.Hot, l.g.Ground} {
		if !l.wired(t) {
			return
		}
	}
	l.add(none(JackSwapped, fmt.Sprintf("%s and %s are swapped", l.name(l.g.Hot), l.name(l.g.Ground))))
}

// wired reports whether a run is soldered to a terminal.
func (l *lister) wired(t int) bool {
	for _, k := range l.g.Links {
		if k.Run >= 0 && (k.A == t || k.B == t) {
			return true
		}
	}
	return false
}
