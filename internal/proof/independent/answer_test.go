package independent_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// settings lists every position of all switches, the last moving fastest.
func (w *world) settings() [][]int {
	out := [][]int{nil}
	for _, s := range w.switches {
		var next [][]int
		for _, at := range out {
			for p := range s.positions {
				if s.proved < 0 || s.proved == p {
					next = append(next, append(slices.Clone(at), p))
				}
			}
		}
		out = next
	}
	return out
}

func (w *world) settingName(at []int) string {
	var words []string
	for i, s := range w.switches {
		if s.proved < 0 {
			words = append(words, s.name+" "+s.positions[at[i]])
		}
	}
	if len(words) == 0 {
		return "as wired"
	}
	return strings.Join(words, ", ")
}

// reading is one way in which the unknown leads can be coil ends, with what is
// then one piece of metal whatever the switches do.
type reading struct {
	number int
	pairs  [][2]int
	piece  []int // of each terminal
	count  int
}

// readings lists what the unknown leads can be, no two of them one end.
func (w *world) readings() []reading {
	var out []reading
	solid := slices.Concat(w.metal, w.wires, w.braids)
	var choose func(i int, so [][2]int)
	choose = func(i int, so [][2]int) {
		if i == len(w.unknown) {
			piece, count := flood(len(w.names), slices.Concat(solid, so))
			out = append(out, reading{len(out), slices.Clone(so), piece, count})
			return
		}
		for _, end := range w.unknown[i].may {
			if !slices.ContainsFunc(so, func(p [2]int) bool { return p[1] == end }) {
				choose(i+1, append(so, [2]int{w.unknown[i].lead, end}))
			}
		}
	}
	choose(0, nil)
	return out
}

// inTheWay marks the parts other than coils that the sound goes through: those
// on which it depends, with some choice of the others there, whether all heard
// coils are heard. The rest only load. ok is false where there are too many to
// try.
func (c *circuit) inTheWay(d draw, heard []bool) (way map[element]bool, ok bool) {
	way = map[element]bool{}
	hears := func(sub *circuit) bool { return slices.Equal(sub.heard(d), heard) }
	if hears(c.with(func(element) bool { return false })) {
		return way, true
	}
	var some []element
	for _, e := range c.els {
		if e.kind != 'c' && c.carries(e) {
			some = append(some, e)
		}
	}
	if len(some) > 9 {
		return way, false
	}
	with := make([]bool, 1<<len(some))
	for mask := range with {
		with[mask] = hears(c.with(func(e element) bool { i := slices.Index(some, e); return i >= 0 && mask>>i&1 == 1 }))
	}
	for i, e := range some {
		for mask := range with {
			if mask>>i&1 == 0 && with[mask] != with[mask|1<<i] {
				way[e] = true
			}
		}
	}
	return way, true
}

// with keeps the coils, and the other elements that keep says.
func (c *circuit) with(keep func(element) bool) *circuit {
	out := *c
	out.els = nil
	for _, e := range c.els {
		if e.kind == 'c' || keep(e) {
			out.els = append(out.els, e)
		}
	}
	return &out
}

// twoWays reports, for each coil, whether impedances decide which way round it
// is heard: then nobody can tell its phase from the wiring alone.
func (c *circuit) twoWays(rng *rand.Rand) []bool {
	out := make([]bool, len(c.w.coils))
	seen := make([]int, len(c.w.coils))
	for range 60 {
		d := c.w.random(rng)
		for _, zs := range d {
			for i := range zs {
				zs[i] = complex(math.Pow(10, 6*rng.Float64()-3), 0)
			}
		}
		r, ok := c.measure(d)
		if !ok {
			return out
		}
		for i, s := range r.share {
			switch v := real(s); {
			case math.Abs(v) < 1e-7:
			case seen[i] == 0:
				seen[i] = int(math.Copysign(1, v))
			case float64(seen[i])*v < 0:
				out[i] = true
			}
		}
	}
	return out
}

// coilStates sorts the coils that are not heard: shorted, hanging or off.
func (c *circuit) coilStates(heard []bool) map[string]string {
	out := map[string]string{}
	carrying := make([]bool, c.nets)
	for _, e := range c.els {
		if c.carries(e) {
			carrying[e.a], carrying[e.b] = true, true
		}
	}
	carrying[c.hot] = true
	carrying[c.gnd] = false
	for i, k := range c.w.coils {
		switch {
		case heard[i]:
			out[k.name] = "heard"
		case c.piece[k.start] == c.piece[k.finish]:
			out[k.name] = "shorted"
		case c.hot != c.gnd && c.hangs(i, carrying):
			out[k.name] = "hanging"
		default:
			out[k.name] = "off"
		}
	}
	return out
}

// hangs reports whether a coil that is not heard has a way to a net that
// carries signal, not over ground, and its ends no way to each other.
func (c *circuit) hangs(coil int, carrying []bool) bool {
	var pairs, dead [][2]int
	for _, e := range c.els {
		if e.a != c.gnd && e.b != c.gnd {
			pairs = append(pairs, [2]int{e.a, e.b})
		}
		if !(e.kind == 'c' && e.of == coil) && !c.carries(e) {
			dead = append(dead, [2]int{e.a, e.b})
		}
	}
	ends := []int{c.net(c.w.coils[coil].start), c.net(c.w.coils[coil].finish)}
	if piece, _ := flood(c.nets, dead); piece[ends[0]] == piece[ends[1]] {
		return false
	}
	piece, _ := flood(c.nets, pairs)
	for net, on := range carrying {
		for _, end := range ends {
			if on && end != c.gnd && piece[net] == piece[end] {
				return true
			}
		}
	}
	return false
}
