package proof

import (
	"iter"
	"slices"

	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// kind of an element between two nets.
type kind int

const (
	coil kind = iota
	track
	capacitor
	resistor
)

// element is one coil, track (or half of one), capacitor or resistor between
// two nets. For a coil, a is the net of its start.
type element struct {
	edge
	kind  kind
	index int // in the graph's list of that kind
}

// network is the loom in one setting and turn: elements between merged nets.
type network struct {
	g           *wiring.Graph
	nets        setting.Nets
	elements    []element
	hot, ground int       // nets; equal when hot is shorted
	live        []bool    // per element: on a simple path from hot to ground
	through     []element // what findWay has found
	form        *form
}

// draw puts the elements between nets, leaving out what is shorted, and finds
// which of them matter at the output. The network's storage is used again.
func (p *prover) draw(n *network, groups iter.Seq[[]int], turn setting.Turn, leads [][2]int) *network {
	p.pairs = append(setting.AppendEnds(p.pairs[:0], p.g, turn), leads...)
	n.nets.Refill(p.base, groups, p.pairs)
	n.g, n.hot, n.ground = p.g, n.nets.Of[p.g.Hot], n.nets.Of[p.g.Ground]
	n.elements, n.through, n.form = n.elements[:0], nil, nil
	for i := range n.g.Coils {
		n.add(coil, i, n.g.Coils[i].Start, n.g.Coils[i].Finish)
	}
	for i := range n.g.Tracks {
		n.track(i, turn)
	}
	for i := range n.g.Caps {
		n.add(capacitor, i, n.g.Caps[i].A, n.g.Caps[i].B)
	}
	for i := range n.g.Resistors {
		n.add(resistor, i, n.g.Resistors[i].A, n.g.Resistors[i].B)
	}
	p.findLive(n)
	return n
}

func (n *network) add(k kind, index, a, b int) {
	if a, b := n.nets.Of[a], n.nets.Of[b]; a != b {
		n.elements = append(n.elements, element{edge{a, b}, k, index})
	}
}

// track adds a whole track with its wiper at an end, or its two halves. A
// no-load pot's track is cut at one end of the turn.
func (n *network) track(i int, turn setting.Turn) {
	t := &n.g.Tracks[i]
	at := setting.Travelled(&t.Track, turn[t.Knob])
	switch {
	case at == t.Cut && t.NoLoad:
	case at == 0 || at == 1:
		n.add(track, i, t.CW, t.CCW)
	default:
		n.add(track, i, t.CW, t.Wiper)
		n.add(track, i, t.Wiper, t.CCW)
	}
}

// findLive marks the elements on simple paths from hot to ground.
func (p *prover) findLive(n *network) {
	if n.hot == n.ground {
		n.live = slices.Grow(n.live[:0], len(n.elements))[:len(n.elements)]
		clear(n.live)
		return
	}
	p.edges = p.edges[:0]
	for _, e := range n.elements {
		p.edges = append(p.edges, e.edge)
	}
	p.edges = append(p.edges, edge{n.hot, n.ground})
	n.live = p.search.block(n.nets.Count, p.edges, len(n.elements), n.live)[:len(n.elements)]
}

// output says what hot is: shorted to ground, without any coil, or sounding.
func (n *network) output() Output {
	switch {
	case n.hot == n.ground:
		return Shorted
	case n.anyLive(coil):
		return Sounding
	case n.anyLive(track), n.anyLive(resistor):
		return Held
	}
	return Open
}

func (n *network) anyLive(k kind) bool {
	for i, e := range n.elements {
		if n.live[i] && e.kind == k {
			return true
		}
	}
	return false
}

// liveCoils marks the coils of the graph that are heard.
func (n *network) liveCoils() []bool {
	out := make([]bool, len(n.g.Coils))
	for i, e := range n.elements {
		if e.kind == coil && n.live[i] {
			out[e.index] = true
		}
	}
	return out
}

func count(marks []bool) int {
	n := 0
	for _, m := range marks {
		if m {
			n++
		}
	}
	return n
}

// hanging marks the coils that are not heard and hang with one end on a net
// that carries signal: aerials. A coil that hangs on ground, or on nothing, is
// quiet, and so is one whose other end leads back to the same net: it is
// shorted through what is there.
func (n *network) hanging() []bool {
	out := make([]bool, len(n.g.Coils))
	if n.hot == n.ground {
		return out
	}
	signal := make([]bool, n.nets.Count)
	for i, e := range n.elements {
		if n.live[i] {
			signal[e.a], signal[e.b] = true, true
		}
	}
	signal[n.hot] = true
	signal[n.ground] = false
	piece := n.deadPieces(-1)
	touches, quiet := make([]bool, n.nets.Count), make([]bool, n.nets.Count)
	for net, on := range signal {
		touches[piece.find(net)] = touches[piece.find(net)] || on
	}
	quiet[piece.find(n.ground)] = true
	for i, e := range n.elements {
		if e.kind == coil && !n.live[i] {
			p := piece.find(e.a)
			out[e.index] = touches[p] && !quiet[p] && !n.loops(i)
		}
	}
	return out
}

// deadPieces joins nets over the elements that are not live, one left out.
func (n *network) deadPieces(but int) forest {
	f := make(forest, n.nets.Count)
	for i := range f {
		f[i] = i
	}
	for i, e := range n.elements {
		if !n.live[i] && i != but {
			f[f.find(e.a)] = f.find(e.b)
		}
	}
	return f
}

// loops reports whether the two ends of a dead element meet through other dead
// elements.
func (n *network) loops(element int) bool {
	f := n.deadPieces(element)
	return f.find(n.elements[element].a) == f.find(n.elements[element].b)
}

// forest is disjoint sets of nets.
type forest []int

func (f forest) find(i int) int {
	for f[i] != i {
		f[i] = f[f[i]]
		i = f[i]
	}
	return i
}

// isBlend reports whether a knob turns a blend.
func isBlend(g *wiring.Graph, knob int) bool {
	for i := range g.Tracks {
		if g.Tracks[i].Knob == knob && g.Tracks[i].Law != part.WholeTurn {
			return true
		}
	}
	return false
}
