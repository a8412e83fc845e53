package synthesis

import (
	"fmt"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// maxSettings is the most settings that are searched at once.
const maxSettings = 512

// task is a loom on its way to puzzles: its graph, what is soldered so far (by
// the file, the controls and the grounds), and what is wished.
type task struct {
	g        *wiring.Graph
	opt      Options
	list     diag.List
	forest   []int // terminals → pieces of metal
	runs     []run // joins made for the controls and the grounds
	wires    []int // terminal → runs that end there, the file's among them
	splices  int   // used: each takes one run more than the leads' own joint
	free     map[int]bool
	noLead   map[int]bool
	scheme   string
	controls controls
	hot      int // terminal where the switches deliver the sound
	modules  []module
	hung     []module // tones that the switches hang on hot
	hub      int      // where grounds meet
	coils    []sounder
	switches []int // switches of the graph that take part
	settings []asked
	lifted   []int // grounds that are coil ends, left off ground to see whether that helps
	liftable []int // grounds that are coil ends
}

// run is one join that was made: terminals of the graph.
type run struct {
	a, b    int
	options string
}

// module is a pickup with a control of its own before the selector.
type module struct {
	use     int
	in, out int // terminals
}

// sounder is a coil, or a part that sounds go through, with terminals.
type sounder struct {
	element
	use int
}

// asked is one setting and the sound asked of it, in coils of the task.
type asked struct {
	at    []int // position of each switch of the task
	sound int   // of the loom; −1: nothing, or anything
	tree  *tree // nil: silent
	off   bool  // silent without shorting hot
}

func (t *task) fail(code string, at diag.Span, hint, format string, args ...any) {
	t.list.Add(diag.Diagnostic{Code: code, Severity: diag.Error, Span: at, Hint: hint, Message: fmt.Sprintf(format, args...)})
}

// newTask reads a loom; nil when something stands in the way. Grounds that are
// also coil ends can be left off ground.
func newTask(l *loom.Loom, o Options, lifted ...int) (*task, diag.List) {
	g, list := wiring.Build(l)
	t := &task{g: g, opt: o, lifted: lifted, list: list, free: map[int]bool{}, noLead: map[int]bool{}}
	if list.HasErrors() {
		return nil, list
	}
	t.metal()
	if !t.hookUp() {
		return nil, t.list
	}
	t.groundAll()
	if t.piece(t.hot) == t.piece(g.Ground) {
		t.fail("wire-short", l.Uses[g.Terms[g.Hot].Use].Span, "", "hot and ground are joined already")
		return nil, t.list
	}
	t.sources()
	t.involved()
	t.ask()
	if t.list.HasErrors() {
		return nil, t.list
	}
	return t, t.list
}

// metal merges what is one piece of metal before anything is found.
func (t *task) metal() {
	g := t.g
	t.forest, t.wires = make([]int, len(g.Terms)), make([]int, len(g.Terms))
	for i := range t.forest {
		t.forest[i] = i
	}
	for _, l := range g.Links {
		t.union(l.A, l.B)
		if l.Run >= 0 {
			t.wires[l.A]++
			t.wires[l.B]++
		}
	}
	for _, r := range g.Loom.Free {
		t.free[g.Ref(r)] = true
	}
	for u := range g.Loom.Uses {
		for _, n := range g.Loom.Uses[u].NoLead {
			t.noLead[g.Term(u, n)] = true
		}
	}
	taken := map[int]bool{}
	for _, u := range g.Unknown { // the first reading of leads that nobody has told apart
		for _, end := range u.May {
			if !taken[end] {
				taken[end] = true
				t.union(u.Term, end)
				t.noLead[end] = true
				break
			}
		}
	}
}

func (t *task) piece(x int) int {
	for t.forest[x] != x {
		t.forest[x] = t.forest[t.forest[x]]
		x = t.forest[x]
	}
	return x
}

func (t *task) union(a, b int) {
	a, b = t.piece(a), t.piece(b)
	t.forest[max(a, b)] = min(a, b)
}

// join solders two terminals unless they are one piece already.
func (t *task) join(a, b int, options string) {
	if t.piece(a) == t.piece(b) {
		return
	}
	t.union(a, b)
	t.runs = append(t.runs, run{a, b, options})
	t.wires[a]++
	t.wires[b]++
}

// solderable reports whether a wire can be soldered to a terminal.
func (t *task) solderable(x int) bool {
	term := &t.g.Terms[x]
	return term.Use >= 0 && !t.free[x] && !(t.noLead[x] && term.Kind == "lead")
}

// members lists the terminals of a piece.
func (t *task) members(piece int) []int {
	var out []int
	for x := range t.forest {
		if t.piece(x) == piece {
			out = append(out, x)
		}
	}
	return out
}

// sources lists the coils, and the capacitors and resistors that are no
// controls.
func (t *task) sources() {
	for i := range t.g.Coils {
		c := &t.g.Coils[i]
		winding, pole := customary(t.g, i)
		sign := int(winding) * int(pole)
		t.coils = append(t.coils, sounder{element{name: c.Name, a: c.Start, b: c.Finish, sign: sign, hum: int(c.Winding)}, c.Use})
	}
	for _, c := range t.g.Caps {
		t.through(c, loom.ShortFarads, loom.NoCapacitor)
	}
	for _, r := range t.g.Resistors {
		t.through(r, loom.ShortOhms, loom.NoResistor)
	}
}

// through adds a part that a wanted sound goes through, named by its value.
func (t *task) through(two wiring.Two, short func(float64) string, unknown string) {
	if t.isThrough(two.Use) {
		t.coils = append(t.coils, sounder{element{name: valueName(two.Value.X, short, unknown), a: two.A, b: two.B, part: true, either: true}, two.Use})
	}
}

func valueName(x float64, short func(float64) string, unknown string) string {
	if x == 0 {
		return unknown
	}
	return short(x)
}

// customary are a coil's winding and pole; what nobody has told is taken as in
// ordinary pickups: wound alike, the poles of one pickup alternating. The answer
// says what it rests on.
func customary(g *wiring.Graph, coil int) (winding, pole part.Sign) {
	c := &g.Coils[coil]
	winding, pole = c.Winding, c.Pole
	if winding == 0 {
		winding = 1
	}
	if pole == 0 {
		pole = 1
		for k := coil - 1; k >= 0 && g.Coils[k].Use == c.Use; k-- {
			pole = -pole
		}
	}
	return winding, pole
}

// isThrough reports whether a wanted sound goes through a part's value.
func (t *task) isThrough(use int) bool {
	p := t.g.Loom.Uses[use].Part
	var value string
	switch {
	case len(p.Capacitors)+len(p.Resistors) != 1:
		return false
	case len(p.Capacitors) == 1:
		value = valueName(p.Capacitors[0].Value.X, loom.ShortFarads, loom.NoCapacitor)
	default:
		value = valueName(p.Resistors[0].Value.X, loom.ShortOhms, loom.NoResistor)
	}
	return slices.ContainsFunc(t.g.Loom.Sounds, func(s loom.Sound) bool { return namesValue(s.Hear, value) })
}

func namesValue(e sound.Expr, value string) bool {
	return e.Op == sound.Through && e.Name == value ||
		slices.ContainsFunc(e.Kids, func(k sound.Expr) bool { return namesValue(k, value) })
}

// involved lists the switches that wanted sounds name, and those that the file
// has soldered something to. The others are left alone: a contact that is there
// in every setting only costs joins.
func (t *task) involved() {
	want := map[int]bool{}
	for i := range t.g.Loom.Sounds {
		for _, at := range t.g.Loom.Sounds[i].With {
			want[t.switchOf(at)] = true
		}
	}
	for i := range t.g.Switches {
		s := &t.g.Switches[i]
		if s.Proved < 0 && (want[i] || t.touched(s)) {
			t.switches = append(t.switches, i)
		}
	}
}

// touched reports whether anything is soldered to a switch.
func (t *task) touched(s *wiring.Switch) bool {
	for _, pole := range s.Contacts {
		for _, groups := range pole {
			for _, g := range groups {
				for _, x := range g {
					if t.wires[x] > 0 {
						return true
					}
				}
			}
		}
	}
	return false
}

// switchOf is the graph's switch that a sound names.
func (t *task) switchOf(at loom.At) int {
	for i := range t.g.Switches {
		if t.g.Switches[i].Use == at.Use {
			return i + at.Switch
		}
	}
	return 0
}

// ask walks through the settings of the switches that take part.
func (t *task) ask() {
	if len(t.g.Loom.Sounds) == 0 {
		t.fail("wire-nothing", t.g.Loom.Doc.Text.Span(1, 1, 1), "sounds:\n  - {hear: bridge}", "no sound is wanted: say what should be heard")
		return
	}
	trees := t.trees()
	n := 1
	for _, i := range t.switches {
		if n *= len(t.g.Switches[i].Positions); n > maxSettings {
			t.fail("loom-limit", t.g.Loom.Uses[t.g.Switches[i].Use].Span, "", "the switches have more than %d settings together: find the wiring in parts", maxSettings)
			return
		}
	}
	for k := range n {
		at := make([]int, len(t.switches))
		for i := len(at) - 1; i >= 0; i-- {
			m := len(t.g.Switches[t.switches[i]].Positions)
			at[i], k = k%m, k/m
		}
		t.settings = append(t.settings, t.askOf(at, trees))
	}
}

// askOf finds the sound asked of a setting: the first whose positions hold.
func (t *task) askOf(at []int, trees []*tree) asked {
	for i := range t.g.Loom.Sounds {
		s := &t.g.Loom.Sounds[i]
		if t.covers(s.With, at) {
			if s.Hear.Op == sound.Any {
				break
			}
			return asked{at: at, sound: i, tree: trees[i]}
		}
	}
	return asked{at: at, sound: -1}
}

func (t *task) covers(with []loom.At, at []int) bool {
	for _, w := range with {
		i := slices.Index(t.switches, t.switchOf(w))
		if i >= 0 && at[i] != w.Position {
			return false
		}
	}
	return true
}

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
	}
	return out
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
