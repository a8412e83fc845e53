package synthesis

import (
	"slices"
)

// Answers to "which sound" beside a sound's number.
const (
	nothing  = -1 // nothing is wanted, but hot must not be shorted
	anything = -2 // nothing is demanded at all
)

// plan is how a task is searched: in one piece, or each pickup's switching
// against its own control and the selector behind them.
type plan struct {
	specs []spec
	parts []string // what each spec is, in words
	one   bool
}

// named lists the parts of a plan that have anything to switch.
func (pl *plan) named() []string {
	var out []string
	for i := range pl.specs {
		if len(pl.specs[i].switches) > 0 {
			out = append(out, pl.parts[i])
		}
	}
	return out
}

// whole is the plan in one piece.
func (t *task) whole() plan {
	s := spec{hot: t.hot, settings: t.settings, hum: true}
	for i := range t.coils {
		s.elements = append(s.elements, i)
	}
	for i := range t.modules {
		s.own = append(s.own, i)
	}
	for i := range t.switches {
		s.switches = append(s.switches, i)
	}
	return plan{specs: []spec{s}, parts: []string{"the switching"}, one: true}
}

// split plans each pickup's switching on its own where no switch serves two of
// them; false when that cannot be.
func (t *task) split() (plan, bool) {
	if len(t.modules) == 0 || t.crossed() {
		return plan{}, false
	}
	keys := make([][]string, len(t.modules)+1)
	sets := make([][]int, len(keys))
	taken := map[int]int{}
	for k := range keys {
		keys[k] = t.keys(k)
		sets[k] = t.switchesFor(keys[k])
		for _, s := range sets[k] {
			taken[s]++
		}
	}
	for i, s := range t.switches {
		if taken[i] > 1 || taken[i] == 0 && t.touched(&t.g.Switches[s]) {
			return plan{}, false
		}
	}
	out := plan{}
	for k := range t.modules {
		out.specs = append(out.specs, t.inner(k, sets[k], keys[k]))
		out.parts = append(out.parts, "the switching of "+t.g.Loom.Uses[t.modules[k].use].Name)
	}
	k := len(t.modules)
	out.specs = append(out.specs, t.outer(sets[k], keys[k]))
	out.parts = append(out.parts, "the selector")
	return out, true
}

// crossed reports whether joins of the file, or a wish for hum, tie the pickups
// together.
func (t *task) crossed() bool {
	if slices.ContainsFunc(t.settings, func(a asked) bool { return a.sound >= 0 && t.humNever(a.sound, a.tree) }) {
		return true
	}
	for i := range t.g.Loom.Sounds {
		if s := &t.g.Loom.Sounds[i]; s.FreePhase && (s.HumFree || t.opt.HumCancels) {
			return true
		}
	}
	atTen := t.atTen()
	ground := atTen.piece(t.g.Ground)
	owner := map[int]int{atTen.piece(t.hot): -1, atTen.piece(t.g.Hot): -1}
	for k, m := range t.modules {
		own := []int{m.in, m.out}
		for _, c := range t.coils {
			if c.use == m.use {
				own = append(own, c.a, c.b)
			}
		}
		for _, x := range own {
			at := atTen.piece(x)
			if o, ok := owner[at]; ok && o != k && at != ground {
				return true
			}
			owner[at] = k
		}
	}
	return false
}

// keys says for each setting what is asked of module k, or of the selector
// behind the modules, in a form in which equal demands are equal; "" is any.
func (t *task) keys(k int) []string {
	out := make([]string, len(t.settings))
	for i, a := range t.settings {
		switch {
		case a.sound < 0 || a.tree == nil && k < len(t.modules):
		case a.tree == nil:
			out[i] = "silent"
		case k < len(t.modules):
			if use := t.modules[k].use; t.countOf(a.tree, use) > 0 {
				out[i] = t.partOf(a.tree, use).text()
			}
		default:
			out[i] = t.behind(a.tree).text()
		}
	}
	return out
}

// behind is a sound with each module as one coil, numbered from −1 down.
func (t *task) behind(x *tree) *tree {
	for k, m := range t.modules {
		if t.allOf(x, m.use) {
			return &tree{element: -1 - k, sign: 1}
		}
	}
	if x.leaf() {
		return x
	}
	out := &tree{series: x.series}
	for _, k := range x.kids {
		out.kids = append(out.kids, t.behind(k))
	}
	return out
}

// switchesFor finds switches that decide the keys: those that cannot be left
// out one after the other.
func (t *task) switchesFor(keys []string) []int {
	var set []int
	for i := range t.switches {
		set = append(set, i)
	}
	for i := range t.switches {
		fewer := slices.DeleteFunc(slices.Clone(set), func(s int) bool { return s == i })
		if t.decides(fewer, keys) {
			set = fewer
		}
	}
	return set
}

func (t *task) decides(set []int, keys []string) bool {
	for i := range t.settings {
		for k := range t.settings[:i] {
			if keys[i] != "" && keys[k] != "" && keys[i] != keys[k] && t.alike(i, k, set) {
				return false
			}
		}
	}
	return true
}

// alike reports whether two settings have some switches in the same positions.
func (t *task) alike(i, k int, set []int) bool {
	return !slices.ContainsFunc(set, func(s int) bool { return t.settings[i].at[s] != t.settings[k].at[s] })
}

// inner is the spec of a pickup's own switching.
func (t *task) inner(k int, switches []int, keys []string) spec {
	s := spec{hot: t.modules[k].in, switches: switches, fixed: true}
	for i, c := range t.coils {
		if c.use == t.modules[k].use {
			s.elements = append(s.elements, i)
		}
	}
	s.settings = t.pick(switches, keys, func(a asked) asked {
		a.tree = t.partOf(a.tree, t.modules[k].use)
		return a
	})
	return s
}

// outer is the spec of the selector behind the modules.
func (t *task) outer(switches []int, keys []string) spec {
	s := spec{hot: t.hot, switches: switches, fixed: true}
	for i, c := range t.coils {
		if !slices.ContainsFunc(t.modules, func(m module) bool { return m.use == c.use }) {
			s.elements = append(s.elements, i)
		}
	}
	for k := range t.modules {
		s.through = append(s.through, k)
	}
	s.settings = t.pick(switches, keys, func(a asked) asked { return a })
	for i := range s.settings {
		if s.settings[i].sound == anything {
			s.settings[i].sound = nothing
		}
	}
	return s
}

// pick takes, of the settings that some switches do not tell apart, the first
// that demands anything.
func (t *task) pick(switches []int, keys []string, of func(asked) asked) []asked {
	var out []asked
	done := make([]bool, len(t.settings))
	for i := range t.settings {
		if done[i] {
			continue
		}
		chosen := asked{at: t.settings[i].at, sound: anything}
		for k := i; k < len(t.settings); k++ {
			if !t.alike(i, k, switches) {
				continue
			}
			if done[k] = true; keys[k] != "" && chosen.sound == anything {
				chosen = of(t.settings[k])
			}
		}
		out = append(out, chosen)
	}
	return out
}
