package synthesis

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
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
