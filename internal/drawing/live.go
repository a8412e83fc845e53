package drawing

import (
	"math"
	"slices"

	"loomwright/internal/place"
	"loomwright/internal/scene"
	"loomwright/internal/setting"
)

// flow is a strand that carries the sound in the setting that is shown: +1
// from its A end to its B end, −1 back, 0 where no way can be told.
type flow int

// findFlows says which strands are live and which way the sound's current goes
// in them: from the coils to the tip of the jack, and from its sleeve back. It
// drives a current from sleeve to tip through coils, resistors and capacitors
// of 1 each, and live runs of 1 each, with the setting's contacts closed and all
// knobs up, and reads its direction in every run.
func (d *Drawing) findFlows() {
	o := &d.Options
	if o.Setting == nil || d.Graph.Hot < 0 {
		return
	}
	d.flows = map[int]flow{}
	n := d.newNetwork()
	volts := n.solve()
	for i := range d.Plan.Strands {
		s := &d.Plan.Strands[i]
		if !slices.Contains(o.LiveRuns, s.Run) {
			continue
		}
		a, b := d.strandLink(s)
		switch v := volts[n.of[a]] - volts[n.of[b]]; {
		case math.Abs(v) < 1e-9:
			d.flows[i] = 0
		case v > 0:
			d.flows[i] = 1
		default:
			d.flows[i] = -1
		}
		if s.Core >= 0 && d.flows[i] == 0 {
			delete(d.flows, i) // a braid that only screens
		}
	}
}

// strandLink is the terminals that a strand joins, in the strand's direction.
func (d *Drawing) strandLink(s *place.Strand) (a, b int) {
	r := &d.Graph.Runs[s.Run]
	switch {
	case s.Core >= 0:
		return r.Braid, s.A.Term
	case s.A.Term == r.B, s.B.Term == r.A && s.B.Splice < 0, s.Lead >= 0 && s.Lead == r.B:
		return r.B, r.A
	}
	return r.A, r.B
}

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

// Live underlay and arrows, mm.
const (
	arrowPitch  = 24.0
	arrowFirst  = 9.0
	arrowLength = 2.7
	arrowWidth  = 2.9
)

// paintLive is the light under the live wires, and the closed contacts of the
// setting that carry the sound.
func (d *Drawing) paintLive() scene.Group {
	g := scene.Group{Class: "live"}
	for i := range d.Wires {
		w := &d.Wires[i]
		if _, live := d.flows[w.Strand]; live {
			g.Items = append(g.Items, scene.Path{Outline: w.Outline, Stroke: pen(liveInk, liveWidth)})
		}
	}
	for _, c := range d.liveContacts() {
		g.Items = append(g.Items, scene.Path{Outline: scene.Segment(c[0], c[1]), Stroke: pen(liveInk, liveWidth*0.7)},
			scene.Path{Outline: scene.Segment(c[0], c[1]), Stroke: scene.Stroke{Color: liveDark, Width: 0.5, Dash: []float64{1.2, 0.8}}})
	}
	return g
}

// liveContacts are the pairs of lugs that a switch joins in the setting and
// that live wires end on.
func (d *Drawing) liveContacts() [][2]scene.Point {
	lit := map[int]bool{}
	for i := range d.flows {
		s := &d.Plan.Strands[i]
		lit[s.A.Term], lit[s.B.Term] = true, true
	}
	var out [][2]scene.Point
	for i := range d.Graph.Switches {
		for _, pole := range d.Graph.Switches[i].Contacts {
			for _, group := range pole[d.Options.Setting.At[i]] {
				var at []scene.Point
				for _, t := range group {
					if lit[t] {
						at = append(at, d.Plan.Spots[t].At)
					}
				}
				for k := 1; k < len(at); k++ {
					out = append(out, [2]scene.Point{at[0], at[k]})
				}
			}
		}
	}
	return out
}

// paintArrows shows which way the sound's current goes, clear of tags and
// crossings.
func (d *Drawing) paintArrows() scene.Group {
	g := scene.Group{Class: "arrows"}
	for i := range d.Wires {
		w := &d.Wires[i]
		if f := d.flows[w.Strand]; f != 0 && w.Strand >= 0 {
			g.Items = append(g.Items, d.arrowsOn(i, f)...)
		}
	}
	return g
}

func (d *Drawing) arrowsOn(i int, f flow) []scene.Item {
	var out []scene.Item
	next := arrowFirst
	w := &d.Wires[i]
	w.eachPlace(0, w.Length, false, func(at scene.Point, _ bool, dist float64) {
		if dist < next || !d.clearForArrow(i, at) {
			return
		}
		next = dist + arrowPitch
		heading := w.headingAt(at)
		if f < 0 {
			heading += 180
		}
		tip := at.Add(scene.Toward(heading).Mul(arrowLength / 2))
		out = append(out, scene.Path{Class: "arrow", Outline: scene.Arrowhead(tip, heading, arrowLength, arrowWidth), Fill: liveDark,
			Stroke: scene.Stroke{Color: paper, Width: 0.3, Join: scene.RoundJoin}})
	})
	return out
}

// headingAt is a lane's heading at a place on it, in degrees.
func (w *Wire) headingAt(at scene.Point) float64 {
	for k := 1; k < len(w.Points); k++ {
		if pointSegment(at, w.Points[k-1], w.Points[k]) < 1e-6 {
			return w.Points[k].Sub(w.Points[k-1]).Heading()
		}
	}
	return 0
}

func (d *Drawing) clearForArrow(i int, at scene.Point) bool {
	box := around(at, 1.7)
	for k := range d.Tags {
		if d.Tags[k].Box().Overlaps(box) {
			return false
		}
	}
	for _, c := range d.Crossings {
		if c.At.Dist(at) < 3 {
			return false
		}
	}
	for k, p := range d.Wires[i].Points {
		if p.Dist(at) < 2.6 && k < len(d.Wires[i].Points) {
			return false
		}
	}
	return true
}
