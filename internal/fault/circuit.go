package fault

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"slices"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// describer numbers circuits so that equal numbers are equal circuits.
type describer struct {
	terms    int // terminals that can be probed: those of the whole graph
	settings []setting.Setting
	numbers  map[string]int
	works    [][]byte // of the whole graph, by setting; made when first needed
	buf      []byte
}

func newDescriber(g *wiring.Graph) *describer {
	return &describer{terms: len(g.Terms), settings: slices.Collect(setting.All(g)), numbers: map[string]int{}}
}

// circuits numbers the circuit of every setting, as probes can tell it.
func (d *describer) circuits(g *wiring.Graph) []int {
	out := make([]int, len(d.settings))
	base, elements := setting.NewBase(g), elementsOf(g)
	for i, s := range d.settings {
		c := circuit{g, base.Nets(s.At), elements}
		d.buf = c.probed(d.buf[:0], d.terms)
		n, ok := d.numbers[string(d.buf)]
		if !ok {
			n = len(d.numbers)
			d.numbers[string(d.buf)] = n
		}
		out[i] = n
	}
	return out
}

// worksAlike reports whether a faulted graph works as the whole one does in
// every setting.
func (d *describer) worksAlike(whole, faulted *wiring.Graph) bool {
	if d.works == nil {
		d.works = make([][]byte, len(d.settings))
		d.working(whole, func(i int, text []byte) bool { d.works[i] = text; return true })
	}
	alike := true
	d.working(faulted, func(i int, text []byte) bool {
		alike = bytes.Equal(d.works[i], text)
		return alike
	})
	return alike
}

// working describes how a graph works, setting by setting, until told to stop.
func (d *describer) working(g *wiring.Graph, each func(i int, text []byte) bool) {
	base, elements := setting.NewBase(g), elementsOf(g)
	for i, s := range d.settings {
		c := circuit{g, base.Nets(s.At), elements}
		if !each(i, c.working()) {
			return
		}
	}
}

// element is what lies between two or three terminals; value tells it from
// another one between the same.
type element struct {
	terms []int
	value []byte
	coil  bool
}

// elementsOf lists the elements of a graph. A track has three terminals.
func elementsOf(g *wiring.Graph) []element {
	var out []element
	for i := range g.Coils {
		k := &g.Coils[i]
		v := floats(float64(k.Winding), float64(k.Pole), k.Ohms.Lo, k.Ohms.Hi, k.Henries.Typical)
		out = append(out, element{[]int{k.Start, k.Finish}, named('L', i, v), true})
	}
	for i := range g.Tracks {
		t := &g.Tracks[i]
		v := floats(t.Value.Ohms.X, t.Value.Half, float64(len(t.Table)))
		v = append(named('T', i, v), t.Value.Taper...)
		out = append(out, element{[]int{t.CW, t.Wiper, t.CCW}, v, false})
	}
	for i := range g.Caps {
		v := named('C', i, floats(g.Caps[i].Value.X))
		out = append(out, element{[]int{g.Caps[i].A, g.Caps[i].B}, v, false})
	}
	for i := range g.Resistors {
		v := append([]byte{'R'}, floats(g.Resistors[i].Value.X)...)
		out = append(out, element{[]int{g.Resistors[i].A, g.Resistors[i].B}, v, false})
	}
	return out
}

// circuit is a graph in one setting.
type circuit struct {
	g        *wiring.Graph
	nets     setting.Nets
	elements []element
}

// named is the value of the element of some kind with an index.
func named(kind byte, i int, value []byte) []byte {
	return append(binary.AppendUvarint([]byte{kind}, uint64(i)), value...)
}

func floats(xs ...float64) []byte {
	var out []byte
	for _, x := range xs {
		out = binary.LittleEndian.AppendUint64(out, math.Float64bits(x))
	}
	return out
}

// probed describes all that probes on the first terms terminals can tell: which
// of them are one net, and what lies between the nets. What hangs inside a
// fault by one end is nothing.
func (c *circuit) probed(buf []byte, terms int) []byte {
	known := make([]int, c.nets.Count) // 1 + number of a net that is reached
	count := 0
	see := func(net int) uint64 {
		if known[net] == 0 {
			count++
			known[net] = count
		}
		return uint64(known[net])
	}
	for t := range terms {
		buf = binary.AppendUvarint(buf, see(c.nets.Of[t]))
	}
	ends := c.ends()
	hangs := func(t int) bool { return known[c.nets.Of[t]] == 0 && ends[c.nets.Of[t]] < 2 }
	for _, e := range c.elements {
		buf = append(buf, e.value...)
		a, b := e.terms[0], e.terms[1]
		switch {
		case len(e.terms) == 3:
			buf = binary.AppendUvarint(buf, see(c.nets.Of[a]))
			buf = binary.AppendUvarint(buf, see(c.nets.Of[b]))
			buf = binary.AppendUvarint(buf, see(c.nets.Of[e.terms[2]]))
		case hangs(a) || hangs(b):
			buf = append(buf, '-')
		default:
			p, q := see(c.nets.Of[a]), see(c.nets.Of[b])
			if !e.coil {
				p, q = min(p, q), max(p, q)
			}
			buf = binary.AppendUvarint(binary.AppendUvarint(buf, p), q)
		}
	}
	return buf
}

// ends counts how many elements end on each net.
func (c *circuit) ends() []int {
	out := make([]int, c.nets.Count)
	for _, e := range c.elements {
		for _, t := range e.terms {
			out[c.nets.Of[t]]++
		}
	}
	return out
}

// working describes what can be heard: which ends of elements meet each other,
// hot, ground and the metal that belongs on ground. Tracks are two halves; what
// leads nowhere is left out, except a coil, which is an aerial.
func (c *circuit) working() []byte {
	w := &work{count: c.nets.Count, labels: make([][]byte, c.nets.Count), fixed: make([]bool, c.nets.Count)}
	mark := func(t int, label string) {
		if t >= 0 {
			n := c.nets.Of[t]
			w.fixed[n] = true
			w.labels[n] = append(append(w.labels[n], label...), ';')
		}
	}
	mark(c.g.Hot, "hot")
	mark(c.g.Ground, "ground")
	for _, t := range c.g.Grounds {
		mark(t, fmt.Sprintf("metal%d", t))
	}
	for _, e := range c.elements {
		a, b := c.nets.Of[e.terms[0]], c.nets.Of[e.terms[1]]
		if len(e.terms) == 2 {
			w.two(e.value, a, b, e.coil)
			continue
		}
		w.two(append(slices.Clone(e.value), "up"...), a, b, false)
		w.two(append(slices.Clone(e.value), "down"...), b, c.nets.Of[e.terms[2]], false)
	}
	return w.text()
}

// work is a circuit of two-ended parts being trimmed.
type work struct {
	count  int
	labels [][]byte
	fixed  []bool
	parts  []branch
}

// branch is one part between two nets.
type branch struct {
	nets  [2]int
	value []byte
	coil  bool
}

func (w *work) two(value []byte, a, b int, coil bool) {
	if a != b || coil {
		w.parts = append(w.parts, branch{[2]int{a, b}, value, coil})
	}
}

// trim leaves out elements that lead nowhere, again and again.
func (w *work) trim() {
	for {
		ends := make([]int, w.count)
		for _, p := range w.parts {
			ends[p.nets[0]]++
			ends[p.nets[1]]++
		}
		before := len(w.parts)
		w.parts = slices.DeleteFunc(w.parts, func(p branch) bool {
			dead := func(n int) bool { return ends[n] < 2 && !w.fixed[n] }
			return !p.coil && (dead(p.nets[0]) || dead(p.nets[1]))
		})
		if len(w.parts) == before {
			return
		}
	}
}

// text puts the nets in words, in an order that does not depend on numbering.
func (w *work) text() []byte {
	w.trim()
	for _, p := range w.parts {
		for k, n := range p.nets {
			side := byte('0')
			if p.coil {
				side += byte(k)
			}
			w.labels[n] = append(append(append(w.labels[n], p.value...), side), ';')
		}
	}
	var lines []string
	for _, l := range w.labels {
		if len(l) > 0 {
			lines = append(lines, string(l))
		}
	}
	slices.Sort(lines)
	var out []byte
	for _, l := range lines {
		out = append(append(out, l...), '\n')
	}
	return out
}
