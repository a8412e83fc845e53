package drawing

import (
	"slices"

	"loomwright/internal/setting"
)

// network is the live part of a loom as resistors of 1 between nets.
type network struct {
	of    []int // net of each terminal
	count int
	edges [][2]int
	weak  [][2]int // of 1000: the tracks of pots
	drive [2]int   // nets of sleeve and tip
}

func (d *Drawing) newNetwork() *network {
	g := d.Graph
	var groups [][]int
	for _, l := range g.Links {
		if l.Run < 0 {
			groups = append(groups, []int{l.A, l.B})
		}
	}
	for i := range g.Switches {
		for _, pole := range g.Switches[i].Contacts {
			groups = append(groups, pole[d.Options.Setting.At[i]]...)
		}
	}
	n := &network{}
	n.of, n.count = merge(len(g.Terms), groups, setting.Ends(g, setting.FullUp(g)))
	for _, l := range g.Links {
		if l.Run >= 0 && slices.Contains(d.Options.LiveRuns, l.Run) {
			n.edge(l.A, l.B)
		}
	}
	for _, c := range g.Coils {
		n.edge(c.Start, c.Finish)
	}
	for _, c := range append(slices.Clone(g.Caps), g.Resistors...) {
		n.edge(c.A, c.B)
	}
	for _, t := range g.Tracks {
		n.weak = append(n.weak, [2]int{n.of[t.CW], n.of[t.Wiper]}, [2]int{n.of[t.Wiper], n.of[t.CCW]})
	}
	n.drive = [2]int{n.of[g.Ground], n.of[g.Hot]}
	return n
}

func (n *network) edge(a, b int) { n.edges = append(n.edges, [2]int{n.of[a], n.of[b]}) }

// merge gives terminals that groups and pairs join one number.
func merge(terms int, groups [][]int, pairs [][2]int) (of []int, count int) {
	root := make([]int, terms)
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	for _, p := range pairs {
		groups = append(groups, []int{p[0], p[1]})
	}
	for _, group := range groups {
		for _, t := range group[1:] {
			a, b := find(group[0]), find(t)
			root[max(a, b)] = min(a, b)
		}
	}
	of = make([]int, terms)
	for i := range of {
		if find(i) == i {
			of[i] = count
			count++
		} else {
			of[i] = of[find(i)]
		}
	}
	return of, count
}

// solve is the voltage of each net with a current of 1 driven in at the sleeve
// and out at the tip; nets on their own are held by a very weak tie.
func (n *network) solve() []float64 {
	m := make([][]float64, n.count)
	for i := range m {
		m[i] = make([]float64, n.count+1)
		m[i][i] = 1e-9
	}
	add := func(e [2]int, g float64) {
		m[e[0]][e[0]] += g
		m[e[1]][e[1]] += g
		m[e[0]][e[1]] -= g
		m[e[1]][e[0]] -= g
	}
	for _, e := range n.edges {
		add(e, 1)
	}
	for _, e := range n.weak {
		add(e, 1e-3)
	}
	m[n.drive[0]][n.count]++
	m[n.drive[1]][n.count]--
	return eliminate(m)
}

// eliminate solves a diagonally dominant system in place (Gauss); the last
// column is the right side.
func eliminate(m [][]float64) []float64 {
	n := len(m)
	for k := range n {
		for i := k + 1; i < n; i++ {
			f := m[i][k] / m[k][k]
			if f == 0 {
				continue
			}
			for j := k; j <= n; j++ {
				m[i][j] -= f * m[k][j]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = m[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= m[i][j] * x[j]
		}
		x[i] /= m[i][i]
	}
	return x
}
