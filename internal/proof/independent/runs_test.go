package independent_test

import (
	"math"
	"math/rand/v2"
	"slices"
)

// A conductor is anything that current can take between two terminals; run is
// the soldered run it is, or -1.
type conductor struct{ a, b, run int }

// liveRuns lists the runs that carry current when one is sent from hot to
// ground through metal and the given elements, all with resistances at random.
func (w *world) liveRuns(groups [][]int, reading [][2]int, keep map[[2]int]bool, rng *rand.Rand) []int {
	var all []conductor
	add := func(run int, pairs ...[2]int) {
		for _, p := range pairs {
			if p[0] != p[1] {
				all = append(all, conductor{p[0], p[1], run})
			}
		}
	}
	add(-1, w.metal...)
	add(-1, reading...)
	for i, p := range w.wires {
		add(i, p)
	}
	for i, p := range w.braids {
		add(w.braidOf[i], p)
	}
	for _, g := range groups {
		for i := 1; i < len(g); i++ {
			add(-1, [2]int{g[0], g[i]})
		}
	}
	turn := w.fullUp()
	for _, p := range w.pots {
		if x := p.wiperAt(turn[p.knob]); x == 1 {
			add(-1, [2]int{p.wiper, p.cw})
		} else if x == 0 {
			add(-1, [2]int{p.wiper, p.ccw})
		}
	}
	for p := range keep {
		add(-1, p)
	}
	current := w.send(all, rng)
	var out []int
	for i, c := range all {
		if c.run >= 0 && math.Abs(current[i]) > small && !slices.Contains(out, c.run) {
			out = append(out, c.run)
		}
	}
	slices.Sort(out)
	return out
}

// send solves the nodal equations for 1 A from hot to ground.
func (w *world) send(all []conductor, rng *rand.Rand) []float64 {
	g := make([]float64, len(all))
	row := map[int]int{}
	for grown, seen := true, map[int]bool{w.hot: true}; grown; {
		grown = false
		for _, c := range all {
			if seen[c.a] != seen[c.b] {
				seen[c.a], seen[c.b], grown = true, true, true
			}
		}
		for t := range seen {
			if _, ok := row[t]; !ok && t != w.gnd {
				row[t] = len(row)
			}
		}
	}
	m := make([][]complex128, len(row))
	for i := range m {
		m[i] = make([]complex128, len(row)+1)
	}
	for i, c := range all {
		g[i] = 0.3 + rng.Float64()
		for _, e := range [2][2]int{{c.a, c.b}, {c.b, c.a}} {
			if r, ok := row[e[0]]; ok {
				m[r][r] += complex(g[i], 0)
				if k, ok := row[e[1]]; ok {
					m[r][k] -= complex(g[i], 0)
				}
			}
		}
	}
	m[row[w.hot]][len(row)] = 1
	gauss(m, len(row))
	v := func(t int) float64 {
		if r, ok := row[t]; ok {
			return real(m[r][len(row)])
		}
		return 0
	}
	out := make([]float64, len(all))
	for i, c := range all {
		if _, here := row[c.a]; here || c.a == w.gnd {
			out[i] = g[i] * (v(c.a) - v(c.b))
		}
	}
	return out
}

// ends lists the terminals of what the sound goes through.
func (c *circuit) ends(heard []bool, way map[element]bool) map[[2]int]bool {
	out := map[[2]int]bool{}
	for i, h := range heard {
		if h {
			out[[2]int{c.w.coils[i].start, c.w.coils[i].finish}] = true
		}
	}
	for e := range way {
		switch e.kind {
		case 'f':
			out[[2]int{c.w.caps[e.of].a, c.w.caps[e.of].b}] = true
		case 'r':
			out[[2]int{c.w.ress[e.of].a, c.w.ress[e.of].b}] = true
		case 't':
			p := c.w.pots[e.of]
			out[[2]int{p.cw, p.wiper}], out[[2]int{p.wiper, p.ccw}] = true, true
		}
	}
	return out
}
