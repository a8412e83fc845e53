package drawing

// labels: every soldered lug of a part with several has its name beside it,
// nearer to it than to any other lug, or with a line to it.
func (l *linter) labels() {
	seen := map[int]bool{}
	for _, j := range l.d.joints {
		s := &l.d.Plan.Spots[j.Term]
		if seen[j.Term] || s.Label == "" {
			continue
		}
		seen[j.Term] = true
		switch w, ok := l.d.labels[j.Term]; {
		case !ok:
			l.add("label", j.At, "%s has no name beside it", l.d.Graph.Terms[j.Term].Name)
		case w.leader == nil && !l.d.Plan.Nearest(j.Term, w.Box()):
			l.add("label", w.At, "the name %q is as near to another lug as to its own", s.Label)
		}
	}
}

// panels: the name of a cavity or plate stands on nothing.
func (l *linter) panels() {
	for _, p := range l.d.Plan.Panels {
		if t := l.d.panelLabel(p); !l.d.bare(t.Bounds()) {
			l.add("words", t.At, "the words %q lie on something", t.Content)
		}
	}
}
