package sat_test

import "slices"

// A wiring problem: coils with two leads each, one switch whose poles have a
// common and one throw per setting, and for every setting the sound that the
// coils must make between hot and ground. Which terminals to join? The encoding
// asks, for each pair of terminals, whether they are in one net; contracts the
// closed contacts setting by setting; and counts the wires.
type wiring struct {
	coils, poles int
	sounds       []sound // one a setting
	plain        bool    // without symmetry, dominance and counting bounds
}

// sound is one coil, or several in series or in parallel.
type sound struct {
	coil   int
	series bool
	parts  []sound
}

func coil(c int) sound              { return sound{coil: c} }
func series(parts ...sound) sound   { return sound{series: true, parts: parts} }
func parallel(parts ...sound) sound { return sound{parts: parts} }

func (w sound) coils() []int {
	if len(w.parts) == 0 {
		return []int{w.coil}
	}
	var out []int
	for _, p := range w.parts {
		out = append(out, p.coils()...)
	}
	return out
}

// Terminals: hot, ground, two leads a coil, the commons, then throw by throw
// those of every pole.
const (
	hot    = 0
	ground = 1
)

func start(coil int) int            { return 2 + 2*coil }
func (w wiring) ports() int         { return 2 + 2*w.coils }
func (w wiring) common(p int) int   { return w.ports() + p }
func (w wiring) throw(p, k int) int { return w.ports() + w.poles*(k+1) + p }
func (w wiring) terminals() int     { return w.ports() + w.poles*(len(w.sounds)+1) }
func (w wiring) activePorts(s int) []int {
	out := []int{hot, ground}
	for _, c := range w.sounds[s].coils() {
		out = append(out, start(c), start(c)+1)
	}
	return out
}

// realisations returns the ways to make a sound between two nodes: each gives
// every lead a node. Nodes 0 and 1 are hot and ground.
func (w sound) realisations(top, bottom int, fresh *int) []map[int]int {
	if len(w.parts) == 0 {
		return []map[int]int{{start(w.coil): top, start(w.coil) + 1: bottom}}
	}
	if !w.series {
		return combine(w.parts, func(int) (int, int) { return top, bottom }, fresh)
	}
	var out []map[int]int
	first := *fresh
	*fresh += len(w.parts) - 1
	for _, order := range permutations(len(w.parts)) {
		nodes := func(part int) (int, int) {
			i, from, to := slices.Index(order, part), top, bottom
			if i > 0 {
				from = first + i - 1
			}
			if i < len(order)-1 {
				to = first + i
			}
			return from, to
		}
		out = append(out, combine(w.parts, nodes, fresh)...)
	}
	return out
}

func combine(parts []sound, nodes func(part int) (int, int), fresh *int) []map[int]int {
	out := []map[int]int{{}}
	for i, p := range parts {
		top, bottom := nodes(i)
		var next []map[int]int
		for _, m := range p.realisations(top, bottom, fresh) {
			for _, old := range out {
				next = append(next, union(old, m))
			}
		}
		out = next
	}
	return out
}

func union(a, b map[int]int) map[int]int {
	out := map[int]int{}
	for k, v := range a {
		out[k] = v
	}
	for k, v := range b {
		out[k] = v
	}
	return out
}

func permutations(n int) [][]int {
	if n == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for _, p := range permutations(n - 1) {
		for i := 0; i < n; i++ {
			out = append(out, slices.Insert(slices.Clone(p), i, n-1))
		}
	}
	return out
}

// Problems of known size: four coils a, b, c, d on a switch of four poles and
// five throws, in three difficulties; six coils on four poles and six throws.
func wiringProblems() map[string]wiring {
	a, b, c, d, x, y := coil(0), coil(1), coil(2), coil(3), coil(4), coil(5)
	return map[string]wiring{
		"easy": {coils: 4, poles: 4, sounds: []sound{
			series(a, b), a, parallel(a, d), c, series(c, d)}},
		"medium": {coils: 4, poles: 4, sounds: []sound{
			series(a, b), parallel(a, b), parallel(a, d), parallel(series(a, b), series(c, d)), series(c, d)}},
		"hard": {coils: 4, poles: 4, sounds: []sound{
			series(a, b), parallel(a, d), parallel(series(a, b), series(c, d)), parallel(b, c), series(c, d)}},
		"six": {coils: 6, poles: 4, sounds: []sound{
			series(a, b), parallel(series(a, b), series(c, d)), series(c, d),
			parallel(series(c, d), series(x, y)), series(x, y), parallel(series(a, b), series(x, y))}},
	}
}
