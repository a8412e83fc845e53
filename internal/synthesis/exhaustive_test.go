package synthesis

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/loom"
	"loomwright/internal/sat"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// brute knows a small loom by its graph alone: every piece of metal is a dot, and
// all ways to join dots are tried. It shares no code with the encoding: what is
// heard is found by reducing the network of coils, as in a book.
type brute struct {
	g    *wiring.Graph
	dots []int   // terminals that may be joined
	of   []int   // terminal → dot, −1: none
	at   [][]int // setting → position of each switch
	want []string
	free []bool
	any  []bool
}

func newBrute(l *loom.Loom) *brute {
	g, _ := wiring.Build(l)
	b := &brute{g: g, of: make([]int, len(g.Terms))}
	for i := range b.of {
		b.of[i] = -1
	}
	add := func(x int) {
		if b.of[x] < 0 {
			b.of[x] = len(b.dots)
			b.dots = append(b.dots, x)
		}
	}
	add(g.Hot)
	add(g.Ground)
	for _, c := range g.Coils {
		add(c.Start)
		add(c.Finish)
	}
	for _, s := range g.Switches {
		for _, pole := range s.Contacts {
			for _, groups := range pole {
				for _, group := range groups {
					for _, x := range group {
						add(x)
					}
				}
			}
		}
	}
	b.settings()
	return b
}

func (b *brute) settings() {
	b.at = [][]int{nil}
	for i := range b.g.Switches {
		var next [][]int
		for _, at := range b.at {
			for p := range b.g.Switches[i].Positions {
				next = append(next, append(slices.Clone(at), p))
			}
		}
		b.at = next
	}
	for _, at := range b.at {
		want, free, any := "", false, true
		for _, s := range slices.Backward(b.g.Loom.Sounds) {
			holds := true
			for _, w := range s.With {
				holds = holds && at[w.Use-b.firstSwitchUse()] == w.Position
			}
			if holds && s.Hear.Op != sound.Any {
				want, free, any = s.Hear.Canon().String(), s.FreePhase, false
			}
		}
		b.want, b.free, b.any = append(b.want, want), append(b.free, free), append(b.any, any)
	}
}

func (b *brute) firstSwitchUse() int { return b.g.Switches[0].Use }

// fewest tries all partitions of the dots with fewer joins than a limit and
// returns the fewest that meet all wishes; the limit when none does.
func (b *brute) fewest(limit int) int {
	net := make([]int, len(b.dots))
	best := limit
	var grow func(i, blocks, joins int)
	grow = func(i, blocks, joins int) {
		if joins >= best {
			return
		}
		if i == len(net) {
			if b.meets(net) {
				best = joins
			}
			return
		}
		for k := range blocks {
			if net[i] = k; i > 1 || k != net[0] { // never hot with ground
				grow(i+1, blocks, joins+1)
			}
		}
		net[i] = blocks
		grow(i+1, blocks+1, joins)
	}
	grow(0, 0, 0)
	return best
}

// meets holds a partition against every setting, in one of the two polarities.
func (b *brute) meets(net []int) bool {
	up, down := true, true
	for i := range b.at {
		heard := b.heard(net, b.at[i])
		switch {
		case b.any[i]:
			if heard == "short" {
				return false
			}
			continue
		case b.want[i] == "silent":
			if heard != "silent" && heard != "short" {
				return false
			}
			continue
		case b.free[i]:
			if !sameUnsigned(heard, b.want[i]) {
				return false
			}
			continue
		}
		up = up && heard == b.want[i]
		down = down && heard == reversedText(b.want[i])
		if !up && !down {
			return false
		}
	}
	return true
}

func sameUnsigned(heard, want string) bool {
	plain := func(s string) string {
		if e, _, err := sound.Parse(s); err == nil {
			return e.Unsigned().Canon().String()
		}
		return s
	}
	return plain(heard) == plain(want)
}

func reversedText(s string) string {
	if e, _, err := sound.Parse(s); err == nil {
		return e.Reverse().Canon().String()
	}
	return s
}

// line is a coil or a bundle of coils between two nets.
type line struct {
	a, b int
	e    sound.Expr
}

// heard reduces the coils between the merged nets: shorted ones drop out, then
// dead ends, then lines side by side and in a row become one. "hanging" when a
// coil that is not heard touches the sound away from ground.
func (b *brute) heard(net []int, at []int) string {
	merged := slices.Clone(net)
	join := func(x, y int) {
		from, to := merged[x], merged[y]
		for i := range merged {
			if merged[i] == from {
				merged[i] = to
			}
		}
	}
	for i, s := range b.g.Switches {
		for _, pole := range s.Contacts {
			for _, group := range pole[at[i]] {
				for _, x := range group[1:] {
					join(b.of[group[0]], b.of[x])
				}
			}
		}
	}
	h, gnd := merged[0], merged[1]
	if h == gnd {
		return "short"
	}
	var lines []line
	for _, c := range b.g.Coils {
		from, to := merged[b.of[c.Start]], merged[b.of[c.Finish]]
		if from != to {
			lines = append(lines, line{from, to, sound.Coil(c.Name, int(c.Winding)*int(c.Pole) < 0)})
		}
	}
	all := slices.Clone(lines)
	lines = reduceLines(lines, h, gnd)
	if len(lines) == 0 {
		if touches(all, nil, h, gnd) {
			return "hanging"
		}
		return "silent"
	}
	if len(lines) > 1 || !spans(lines[0], h, gnd) {
		return "mesh"
	}
	e := lines[0].e
	if lines[0].a == gnd {
		e = e.Reverse()
	}
	if touches(all, e.Leaves(), h, gnd) {
		return "hanging"
	}
	return e.Canon().String()
}

func spans(l line, h, gnd int) bool { return l.a == h && l.b == gnd || l.a == gnd && l.b == h }

// touches reports whether a coil that is not among the heard ones has an end on
// hot, or on a net of a heard coil other than ground.
func touches(all []line, heard []sound.Expr, h, gnd int) bool {
	isHeard := func(l line) bool {
		return slices.ContainsFunc(heard, func(e sound.Expr) bool { return e.Name == l.e.Name })
	}
	live := map[int]bool{h: true}
	for _, l := range all {
		if isHeard(l) {
			live[l.a], live[l.b] = true, true
		}
	}
	live[gnd] = false
	return slices.ContainsFunc(all, func(l line) bool { return !isHeard(l) && (live[l.a] || live[l.b]) })
}

// reduceLines removes dead ends and merges lines until nothing changes.
func reduceLines(lines []line, h, gnd int) []line {
	for {
		if i := deadEnd(lines, h, gnd); i >= 0 {
			lines = slices.Delete(slices.Clone(lines), i, i+1)
			continue
		}
		merged, ok := mergeOnce(lines, h, gnd)
		if !ok {
			return lines
		}
		lines = merged
	}
}

func degree(lines []line, n int) int {
	d := 0
	for _, l := range lines {
		if l.a == n || l.b == n {
			d++
		}
	}
	return d
}

func deadEnd(lines []line, h, gnd int) int {
	return slices.IndexFunc(lines, func(l line) bool {
		return l.a == l.b || l.a != h && l.a != gnd && degree(lines, l.a) == 1 || l.b != h && l.b != gnd && degree(lines, l.b) == 1
	})
}

func mergeOnce(lines []line, h, gnd int) ([]line, bool) {
	for i, x := range lines {
		for k, y := range lines[:i] {
			rest := slices.Delete(slices.Clone(lines), i, i+1)
			rest = slices.Delete(rest, k, k+1)
			if x.a == y.b && x.b == y.a {
				y = line{y.b, y.a, y.e.Reverse()}
			}
			if x.a == y.a && x.b == y.b {
				return append(rest, line{x.a, x.b, sound.In(sound.Parallel, x.e, y.e)}), true
			}
			for _, turnX := range []bool{false, true} {
				for _, turnY := range []bool{false, true} {
					p, q := turned(x, turnX), turned(y, turnY)
					if p.b == q.a && p.b != h && p.b != gnd && degree(lines, p.b) == 2 {
						return append(rest, line{p.a, q.b, sound.In(sound.Series, p.e, q.e)}), true
					}
				}
			}
		}
	}
	return nil, false
}

func turned(l line, turn bool) line {
	if !turn {
		return l
	}
	return line{l.b, l.a, l.e.Reverse()}
}

// small are looms with few enough dots for all partitions.
var small = []instance{
	{"series or one, spdt", coilsLoom(2, "switch/spdt-on-on", "a series b", "a"), 5},
	{"one or series, spst", coilsLoom(2, "switch/spst", "a", "a series b"), 5},
	{"one or the other, spdt", coilsLoom(2, "switch/spdt-on-on", "a", "b"), 5},
	{"series or parallel, spdt: impossible", coilsLoom(2, "switch/spdt-on-on", "a series b", "a parallel b"), -1},
	{"one, both, other, leaf toggle", coilsLoom(2, "switch/toggle-3way", "a", "a parallel b", "b"), 5},
	{"one, silent, other, on-off-on", coilsLoom(2, "switch/spdt-on-off-on", "a", "silent", "b"), 5},
	{"one or silent, spdt", coilsLoom(1, "switch/spdt-on-on", "a", "silent"), 3},
	{"one coil turned round, dpdt", coilsLoom(1, "switch/dpdt-on-on", "a", "reversed a"), 6},
	{"three sounds of two coils, 3-way lever", coilsLoom(2, "switch/lever-3way", "a", "b", "a series b"), 0},
	{"three sounds of two coils, rotary", coilsLoom(2, "switch/rotary-1p3", "a parallel b", "b", "a"), -1},
}

// TestExhaustive holds the search against all ways to join small looms.
func TestExhaustive(t *testing.T) {
	for _, c := range append(small, smallRandom()...) {
		t.Run(c.name, func(t *testing.T) {
			l := read(t, "small", c.text)
			b := newBrute(l)
			p := wholePuzzle(t, c.text)
			out := encode(p, allRules().settle(p), sat.Options{}).minimise(&effort{left: 1 << 40}, nil)
			limit := bruteLimit(len(b.dots))
			found := b.fewest(limit)
			switch {
			case out.status == sat.Unsat && found < limit:
				t.Errorf("refuted, yet %d joins do\n%s", found, c.text)
			case out.status == sat.Sat && out.joins < limit && found != out.joins:
				t.Errorf("%d joins found, %d by trying all\n%s", out.joins, found, c.text)
			case out.status == sat.Sat && out.joins >= limit && found != limit:
				t.Errorf("%d joins found, %d by trying all\n%s", out.joins, found, c.text)
			case c.joins > 0 && out.joins != c.joins, c.joins < 0 && out.status != sat.Unsat:
				t.Errorf("%v, %d joins, expected %d", out.status, out.joins, c.joins)
			}
		})
	}
}

// bruteLimit keeps the partitions that are tried below a few millions: all of
// them up to eleven dots.
func bruteLimit(dots int) int {
	if dots <= 11 {
		return dots
	}
	return 7
}

// smallRandom are random wishes on small switches.
func smallRandom() []instance {
	var out []instance
	for seed := uint64(0); len(out) < exhaustiveLooms; seed++ {
		d := newDice(seed + 1000)
		d.coils = []string{"a", "b"}
		kind := []string{"switch/spst", "switch/spdt-on-on", "switch/spdt-on-off-on", "switch/toggle-3way"}[d.IntN(4)]
		p, _ := lib.Part(kind)
		var sounds []string
		for range p.Switches[0].Positions {
			text := d.sound()
			if d.IntN(5) == 0 {
				text += ", phase: free"
			}
			sounds = append(sounds, text)
		}
		out = append(out, instance{fmt.Sprintf("random %d on %s, %s", seed, kind, strings.Join(sounds, "; ")), coilsLoom(2, kind, sounds...), 0})
	}
	return out
}

// exhaustiveLooms is how many random looms are tried in all ways.
var exhaustiveLooms = 60
