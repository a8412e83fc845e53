package independent_test

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
)

// element is a coil, half a track, a capacitor or a resistor between two nets.
type element struct {
	kind byte // c coil, t track, f capacitor, r resistor
	of   int  // number of its kind
	a, b int  // nets; a is the start of a coil
	part float64
}

// circuit is the world in one setting and turn of the knobs. Only pieces of
// metal that an element or the output touches are nets.
type circuit struct {
	w        *world
	piece    []int // of each terminal
	netOf    []int // net of each piece; -1: none
	nets     int
	els      []element
	hot, gnd int
}

// fullUp is every knob at 10 and every blend in its middle.
func (w *world) fullUp() []float64 {
	turn := make([]float64, len(w.knobs))
	for i := range turn {
		turn[i] = 1
	}
	for _, p := range w.pots {
		if p.law == "first half" || p.law == "second half" {
			turn[p.knob] = 0.5
		}
	}
	return turn
}

// wiperAt is how far a wiper is from ccw.
func (p pot) wiperAt(turn float64) float64 {
	switch p.law {
	case "first half":
		return math.Min(1, 2*turn)
	case "second half":
		return math.Max(0, 2*turn-1)
	}
	return turn
}

// contacts lists what the switches join in a setting.
func (w *world) contacts(at []int) [][]int {
	var out [][]int
	for i, s := range w.switches {
		for _, pole := range s.poles {
			out = append(out, pole[at[i]]...)
		}
	}
	return out
}

// graph lists what switches and pots join, as pairs of pieces of metal.
func (w *world) graph(groups [][]int, turn []float64, r reading) [][2]int {
	all := make([][2]int, 0, 40)
	for _, g := range groups {
		for i := 1; i < len(g); i++ {
			all = append(all, [2]int{r.piece[g[i-1]], r.piece[g[i]]})
		}
	}
	for _, p := range w.pots {
		switch p.wiperAt(turn[p.knob]) {
		case 0:
			all = append(all, [2]int{r.piece[p.wiper], r.piece[p.ccw]})
		case 1:
			all = append(all, [2]int{r.piece[p.wiper], r.piece[p.cw]})
		}
	}
	return all
}

// flood numbers the pieces that pairs of n things fall into.
func flood(n int, pairs [][2]int) ([]int, int) {
	ints := make([]int, 2*len(pairs)+3*n)
	next, head, piece, queue := ints[:2*len(pairs)], ints[2*len(pairs):][:n], ints[2*len(pairs)+n:][:n:n], ints[2*len(pairs)+2*n:][:0]
	for i := range n {
		head[i], piece[i] = -1, -1
	}
	for i, p := range pairs {
		next[2*i], head[p[0]] = head[p[0]], 2*i
		next[2*i+1], head[p[1]] = head[p[1]], 2*i+1
	}
	count := 0
	for i := range piece {
		if piece[i] >= 0 {
			continue
		}
		piece[i] = count
		for queue = append(queue, i); len(queue) > 0; {
			at := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			for e := head[at]; e >= 0; e = next[e] {
				if to := pairs[e/2][1-e%2]; piece[to] < 0 {
					piece[to] = count
					queue = append(queue, to)
				}
			}
		}
		count++
	}
	return piece, count
}

// circuit draws the elements between the pieces of metal.
func (w *world) circuit(groups [][]int, turn []float64, r reading) *circuit {
	c := &circuit{w: w, piece: make([]int, len(w.names))}
	piece, pieces := flood(r.count, w.graph(groups, turn, r))
	for t := range c.piece {
		c.piece[t] = piece[r.piece[t]]
	}
	c.netOf = make([]int, pieces)
	for i := range c.netOf {
		c.netOf[i] = -1
	}
	c.hot, c.gnd = c.net(w.hot), c.net(w.gnd)
	for i, k := range w.coils {
		c.add('c', i, k.start, k.finish, 1)
	}
	for i, p := range w.pots {
		switch x := p.wiperAt(turn[p.knob]); {
		case turn[p.knob] == p.cutAt:
		case x == 0 || x == 1:
			c.add('t', i, p.cw, p.ccw, 1)
		default:
			c.add('t', i, p.cw, p.wiper, 1-x)
			c.add('t', i, p.wiper, p.ccw, x)
		}
	}
	for i, t := range w.caps {
		c.add('f', i, t.a, t.b, 1)
	}
	for i, t := range w.ress {
		c.add('r', i, t.a, t.b, 1)
	}
	return c
}

// net numbers the piece of metal that a terminal belongs to.
func (c *circuit) net(terminal int) int {
	p := c.piece[terminal]
	if c.netOf[p] < 0 {
		c.netOf[p] = c.nets
		c.nets++
	}
	return c.netOf[p]
}

func (c *circuit) add(kind byte, of, a, b int, part float64) {
	if c.piece[a] != c.piece[b] {
		c.els = append(c.els, element{kind, of, c.net(a), c.net(b), part})
	}
}

// draw is one choice of impedances, by kind and number; zero opens an element.
type draw map[byte][]complex128

// random draws impedances with a positive real part. Capacitors and resistors
// of one value are alike.
func (w *world) random(rng *rand.Rand) draw {
	one := func() complex128 { return complex(0.3+rng.Float64(), rng.Float64()-0.5) }
	d := draw{'c': make([]complex128, len(w.coils)), 't': make([]complex128, len(w.pots)),
		'f': make([]complex128, len(w.caps)), 'r': make([]complex128, len(w.ress))}
	for _, k := range []byte("ctfr") {
		for i := range d[k] {
			d[k][i] = one()
		}
	}
	return d
}

// without opens elements of a draw.
func (d draw) without(open func(kind byte, of int) bool) draw {
	out := draw{}
	for k, zs := range d {
		out[k] = append([]complex128(nil), zs...)
		for i := range zs {
			if open(k, i) {
				out[k][i] = 0
			}
		}
	}
	return out
}

// response is what can be measured at the output: the impedance, and the share
// of each coil's EMF there (+ at its start).
type response struct {
	z     complex128
	share []complex128
}

// measure solves the nodal equations for a current into hot and for each
// coil's EMF in turn. ok is false where hot and ground do not hang together.
func (c *circuit) measure(d draw) (r response, ok bool) {
	r.share = make([]complex128, len(c.w.coils))
	if c.hot == c.gnd {
		return r, false
	}
	row, n := c.nodes(d)
	if row[c.gnd] != -2 {
		return r, false
	}
	width := n + 1 + len(c.w.coils)
	m := make([][]complex128, n)
	cells := make([]complex128, n*width)
	for i := range m {
		m[i] = cells[i*width : (i+1)*width]
	}
	for _, e := range c.els {
		c.stamp(m, row, n, e, d)
	}
	m[row[c.hot]][n] = 1
	gauss(m, n)
	r.z = m[row[c.hot]][n]
	copy(r.share, m[row[c.hot]][n+1:])
	return r, true
}

// nodes numbers the nets that hang together with hot; ground is -2, nets that
// do not hang together with hot are -1.
func (c *circuit) nodes(d draw) ([]int, int) {
	row := make([]int, c.nets)
	for i := range row {
		row[i] = -1
	}
	row[c.hot] = 0
	n := 1
	for grown := true; grown; {
		grown = false
		for _, e := range c.els {
			if d[e.kind][e.of] == 0 {
				continue
			}
			for _, way := range [2][2]int{{e.a, e.b}, {e.b, e.a}} {
				if row[way[0]] == -1 || row[way[1]] != -1 {
					continue
				}
				grown = true
				if way[1] == c.gnd {
					row[way[1]] = -2
					continue
				}
				row[way[1]] = n
				n++
			}
		}
	}
	return row, n
}

func (c *circuit) stamp(m [][]complex128, row []int, n int, e element, d draw) {
	z := d[e.kind][e.of]
	if z == 0 || row[e.a] == -1 {
		return
	}
	y := 1 / (z * complex(e.part, 0))
	a, b := row[e.a], row[e.b]
	if a >= 0 {
		m[a][a] += y
	}
	if b >= 0 {
		m[b][b] += y
	}
	if a >= 0 && b >= 0 {
		m[a][b] -= y
		m[b][a] -= y
	}
	if e.kind != 'c' {
		return
	}
	if a >= 0 {
		m[a][n+1+e.of] += y
	}
	if b >= 0 {
		m[b][n+1+e.of] -= y
	}
}

// gauss reduces the first n columns to the identity (Gauss and Jordan).
func gauss(m [][]complex128, n int) {
	for c := range n {
		best := c
		for r := c; r < n; r++ {
			if cmplx.Abs(m[r][c]) > cmplx.Abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		inv := 1 / m[c][c]
		for k := c; k < len(m[c]); k++ {
			m[c][k] *= inv
		}
		for r := range n {
			if f := m[r][c]; r != c && f != 0 {
				for k := c; k < len(m[c]); k++ {
					m[r][k] -= f * m[c][k]
				}
			}
		}
	}
}

const small = 1e-9

// heard marks the coils that have a share at the output with a draw.
func (c *circuit) heard(d draw) []bool {
	r, _ := c.measure(d)
	out := make([]bool, len(r.share))
	for i, s := range r.share {
		out[i] = cmplx.Abs(s) > small
	}
	return out
}

// carries reports whether an element can carry current between hot and
// ground: no single net parts its two ends from both (Menger 1927). open
// elements are left out.
func (c *circuit) carries(e element) bool {
	if c.hot == c.gnd {
		return false
	}
	for cut := -1; cut < c.nets; cut++ {
		if !c.reaches(e, cut) {
			return false
		}
	}
	return true
}

// reaches reports whether an end of e gets to hot or ground around a cut net,
// without e itself.
func (c *circuit) reaches(e element, cut int) bool {
	var seen uint64
	mark := func(n int) {
		if n != cut {
			seen |= 1 << n
		}
	}
	mark(e.a)
	mark(e.b)
	goal := uint64(1)<<c.hot | uint64(1)<<c.gnd
	for before := uint64(0); before != seen; {
		before = seen
		if seen&goal != 0 {
			return true
		}
		for _, o := range c.els {
			if o == e {
				continue
			}
			if seen&(1<<o.a) != 0 {
				mark(o.b)
			}
			if seen&(1<<o.b) != 0 {
				mark(o.a)
			}
		}
	}
	return seen&goal != 0
}

// output is the state of the output: shorted, sounding, held or open.
func (c *circuit) output() string {
	if c.hot == c.gnd {
		return "shorted"
	}
	state := "open"
	for _, e := range c.els {
		switch {
		case e.kind == 'f' || state == "held" && e.kind != 'c' || !c.carries(e):
		case e.kind == 'c':
			return "sounding"
		default:
			state = "held"
		}
	}
	return state
}
