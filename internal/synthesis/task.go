package synthesis

import (
	"fmt"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/setting"
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
	t.wayOut()
	if t.list.HasErrors() {
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

// wayOut checks that with all pots at 10 the sound comes from the switches to
// the output, and is not shorted on its way.
func (t *task) wayOut() {
	atTen := t.atTen()
	at := t.g.Loom.Uses[t.g.Terms[t.g.Hot].Use].Span
	ground := atTen.piece(t.g.Ground)
	shorted := func(m module) bool { return atTen.piece(m.in) == ground || atTen.piece(m.out) == ground }
	switch {
	case atTen.piece(t.g.Hot) == ground || atTen.piece(t.hot) == ground || slices.ContainsFunc(t.modules, shorted) || slices.ContainsFunc(t.hung, shorted):
		t.fail("wire-short", at, "", "hot and ground are joined already")
	case atTen.piece(t.g.Hot) != atTen.piece(t.hot):
		t.fail("scheme-unfit", at, "", "the joins of the file keep the sound from the output")
	}
	for _, c := range t.g.Coils {
		for _, x := range []int{c.Start, c.Finish} {
			if y := t.control(x); y >= 0 {
				t.fail("scheme-unfit", at, "", "%s is joined to %s: what a pot, capacitor or resistor does there the search does not know", t.g.Terms[x].Name, t.g.Terms[y].Name)
				return
			}
		}
	}
}

// control finds a terminal of a pot's track, a capacitor or a resistor in a piece
// of metal that is no place where sound is meant to come or go; −1 when there is
// none.
func (t *task) control(x int) int {
	piece := t.piece(x)
	for _, way := range append([]module{{in: t.hot, out: t.g.Hot}, {in: t.g.Ground, out: t.g.Ground}}, slices.Concat(t.modules, t.hung)...) {
		if t.piece(way.in) == piece || t.piece(way.out) == piece {
			return -1
		}
	}
	for i := range t.g.Tracks {
		for _, y := range []int{t.g.Tracks[i].CW, t.g.Tracks[i].Wiper, t.g.Tracks[i].CCW} {
			if t.piece(y) == piece {
				return y
			}
		}
	}
	for _, two := range slices.Concat(t.g.Caps, t.g.Resistors) {
		for _, y := range []int{two.A, two.B} {
			if t.piece(y) == piece && !t.isThrough(two.Use) {
				return y
			}
		}
	}
	return -1
}

// atTen is the task with all pots at 10, blends in the middle.
func (t *task) atTen() *task {
	out := *t
	out.forest = slices.Clone(t.forest)
	for _, e := range setting.Ends(t.g, setting.FullUp(t.g)) {
		out.union(e[0], e[1])
	}
	return &out
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

// join solders two terminals unless they are one piece already. One that must
// stay free, or has no lead, is an error: controls and grounds need it.
func (t *task) join(a, b int, options string) {
	if t.piece(a) == t.piece(b) {
		return
	}
	for _, x := range []int{a, b} {
		if !t.solderable(x) {
			t.fail("scheme-unfit", t.g.Loom.Uses[t.g.Terms[x].Use].Span, "", "%s must be joined for the controls or the grounds, and must stay free or has no lead", t.g.Terms[x].Name)
			return
		}
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
