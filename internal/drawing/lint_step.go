package drawing

import "loomwright/internal/scene"

// steps: every join has its step on the drawing, and every later step that
// joins what an earlier one left free.
func (l *linter) steps() {
	found := map[string]bool{}
	runs := map[int]bool{}
	for k := range l.d.Tags {
		found[l.d.Tags[k].Step] = true
		runs[l.d.Wires[l.d.Tags[k].Wire].Run] = true
	}
	for k := range l.d.Marks {
		runs[l.d.Marks[k].Run] = true
	}
	for k := range l.d.Touches {
		for _, r := range l.d.Touches[k].Runs {
			runs[r] = true
		}
		l.touch(k)
	}
	for i, r := range l.d.Graph.Runs {
		if !runs[i] {
			l.add("step", scene.Point{}, "the join of %s and %s, step %d, is not on the drawing", l.d.Graph.Terms[r.A].Name, l.d.Graph.Terms[r.B].Name, l.d.Options.Steps[i])
		}
	}
	for i := range l.d.Wires {
		w := &l.d.Wires[i]
		if end := l.d.laterEnd(w); end >= 0 && !found[l.d.stepText(w, end)] {
			l.add("step", w.Points[0], "the step that joins the tail of %s is not on the drawing", l.name(i))
		}
	}
}

// touch: the tag of what touches lies on nothing but metal.
func (l *linter) touch(k int) {
	t := &l.d.Touches[k]
	box := t.Tag.Box()
	for i := range l.d.Wires {
		if covered(&l.d.Wires[i], box) > 0 {
			l.add("tag", t.Tag.At, "the tag %q lies on %s", t.Tag.Text, l.name(i))
		}
	}
	for m := range l.d.Tags {
		if l.d.Tags[m].Box().Overlaps(box) {
			l.add("tag", t.Tag.At, "the tag %q and that of %s overlap", t.Tag.Text, l.name(l.d.Tags[m].Wire))
		}
	}
	if l.d.wordsUnder(box.Grow(-0.3)) > 0 {
		l.add("tag", t.Tag.At, "the tag %q hides words or a lug", t.Tag.Text)
	}
}
