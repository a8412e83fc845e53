package synthesis

import (
	"cmp"
	"fmt"
	"slices"
)

// asks adds the settings and their wishes, one wish for each sound of the loom.
func (b *builder) asks() {
	index := map[string]int{}
	for _, a := range b.spec.settings {
		at := make([]int, len(b.spec.switches))
		for i, s := range b.spec.switches {
			at[i] = a.at[s]
		}
		w := min(a.sound, nothing)
		if a.sound >= 0 {
			tree := b.local(a.tree)
			key := fmt.Sprint(a.sound, a.off, tree.text())
			if _, ok := index[key]; !ok {
				index[key] = len(b.p.wishes)
				s := &b.t.g.Loom.Sounds[a.sound]
				b.p.wishes = append(b.p.wishes, wish{tree: tree, open: a.off, source: a.sound, free: s.FreePhase,
					humOf: b.spec.hum && s.FreePhase && b.t.humWanted(a.sound, a.tree),
					never: b.spec.hum && b.t.humNever(a.sound, a.tree)})
				b.p.fixed = b.p.fixed || s.Fixed
			}
			w = index[key]
		}
		if !slices.ContainsFunc(b.p.settings, func(s setpoint) bool { return slices.Equal(s.at, at) }) {
			b.p.settings = append(b.p.settings, setpoint{at, w})
		}
	}
	slices.SortStableFunc(b.p.settings, func(x, y setpoint) int { return slices.Compare(x.at, y.at) })
}

// local renames a tree's coils of the task to elements of the puzzle; a module
// that is searched elsewhere is one element.
func (b *builder) local(x *tree) *tree {
	if x == nil {
		return nil
	}
	for k, m := range b.spec.through {
		if b.t.allOf(x, b.t.modules[m].use) {
			return &tree{element: len(b.spec.elements) + k, sign: 1}
		}
	}
	if x.leaf() {
		return &tree{element: slices.Index(b.spec.elements, x.element), sign: x.sign}
	}
	out := &tree{series: x.series}
	for _, k := range x.kids {
		out.kids = append(out.kids, b.local(k))
	}
	return out
}

// text writes a tree so that equal sounds are equal texts.
func (t *tree) text() string {
	if t == nil {
		return "silent"
	}
	if t.leaf() {
		return fmt.Sprint(t.element*t.sign, t.sign)
	}
	var kids []string
	for _, k := range t.kids {
		kids = append(kids, k.text())
	}
	slices.SortFunc(kids, cmp.Compare[string])
	return fmt.Sprint(t.series, kids)
}
