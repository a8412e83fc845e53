package synthesis

import (
	"slices"

	"loomwright/internal/sound"
)

// trees turns the wanted sounds into trees of the task's coils, with the coils
// of a pickup that has a control of its own kept together.
func (t *task) trees() []*tree {
	out := make([]*tree, len(t.g.Loom.Sounds))
	for i := range out {
		s := &t.g.Loom.Sounds[i]
		if s.Hear.Op == sound.Any || s.Hear.Op == sound.Silent {
			continue
		}
		used := map[int]bool{}
		tree, missing := t.tree(s.Hear, used)
		if missing != "" {
			t.fail("wire-through", s.HearSpan, "", "no part of the value %s is free for this sound", missing)
			continue
		}
		for _, m := range t.modules {
			tree = t.together(tree, m.use)
		}
		out[i] = tree
		t.checkTogether(i, tree)
		t.checkWays(i, tree)
	}
	return out
}

// maxHumWays bounds the ways of a sound in which hum is to cancel, of any phase.
const maxHumWays = 20_000

// checkWays reports a sound with more ways to make it than can be gone through.
func (t *task) checkWays(i int, x *tree) {
	p := &puzzle{}
	for _, c := range t.coils {
		p.elements = append(p.elements, c.element)
	}
	s := &t.g.Loom.Sounds[i]
	if s.FreePhase && t.humWanted(i, x) && p.waysOf(x, true) > maxHumWays {
		t.fail("loom-limit", s.HearSpan, "", "with phase left free there are too many ways to make hum cancel in this sound: say which coils are reversed")
	}
}

func (t *task) tree(e sound.Expr, used map[int]bool) (*tree, string) {
	if e.Op == sound.Name || e.Op == sound.Through {
		for i, c := range t.coils {
			if c.name == e.Name && c.part == (e.Op == sound.Through) && !used[i] {
				used[i] = true
				sign := 1
				if e.Reversed {
					sign = -1
				}
				return &tree{element: i, sign: sign}, ""
			}
		}
		return nil, e.Name
	}
	out := &tree{series: e.Op == sound.Series}
	for _, k := range e.Kids {
		kid, missing := t.tree(k, used)
		if missing != "" {
			return nil, missing
		}
		out.kids = append(out.kids, kid)
	}
	return out, ""
}

// together groups the kids of a sound that are all of one pickup.
func (t *task) together(x *tree, use int) *tree {
	if x.leaf() {
		return x
	}
	out := &tree{series: x.series}
	own := &tree{series: x.series}
	for _, k := range x.kids {
		k = t.together(k, use)
		if t.allOf(k, use) {
			own.kids = append(own.kids, k)
		} else {
			out.kids = append(out.kids, k)
		}
	}
	switch {
	case len(out.kids) == 0:
		return own
	case len(own.kids) == 1:
		out.kids = append(out.kids, own.kids[0])
	case len(own.kids) > 1:
		out.kids = append(out.kids, own)
	}
	return out
}

func (t *task) allOf(x *tree, use int) bool {
	return !slices.ContainsFunc(x.elements(), func(e int) bool { return t.coils[e].use != use })
}

// checkTogether reports a sound in which the coils of a pickup with a control
// of its own are mixed with others.
func (t *task) checkTogether(i int, x *tree) {
	for _, m := range t.modules {
		if n := t.countOf(x, m.use); n > 0 && t.partOf(x, m.use) == nil {
			t.fail("scheme-cross", t.g.Loom.Sounds[i].HearSpan, "scheme: one volume, one tone",
				"in this sound the coils of %s stand among others, where no control of its own can follow them", t.g.Loom.Uses[m.use].Name)
		}
	}
}

func (t *task) countOf(x *tree, use int) int {
	n := 0
	for _, e := range x.elements() {
		if t.coils[e].use == use {
			n++
		}
	}
	return n
}

// partOf finds the sound's part that holds all of a pickup's coils in it and no
// others; nil when there is none.
func (t *task) partOf(x *tree, use int) *tree {
	if t.allOf(x, use) {
		return x
	}
	for _, k := range x.kids {
		if t.countOf(k, use) == t.countOf(x, use) {
			return t.partOf(k, use)
		}
	}
	return nil
}
