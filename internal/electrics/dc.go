package electrics

import (
	"math"
	"sync"

	"loomwright/internal/linear"
	"loomwright/internal/part"
	"loomwright/internal/setting"
)

// tinyOhms stands for no resistance at all where a resistor may have none.
const tinyOhms = 1e-9

// resistor is one resistance between two nets, with bounds.
type resistor struct {
	name  string
	a, b  int
	ohms  part.Range
	coil  int // index, or −1
	track int // index, or −1
	upper bool
}

// corner is one assignment of values to all resistors.
type corner int

const (
	nominal corner = iota
	allLow
	allHigh
)

// DC is one setting at one turn of the knobs, as direct current sees it: no
// cable, no amplifier, capacitors open.
type DC struct {
	m     *Model
	nets  setting.Nets
	node  []int // of each net; −1: no resistor touches it
	nodes int
	parts []resistor
	plan  func() *linear.Network
	once  [3]sync.Once
	table [3]*linear.Resistances
}

// DC merges the nets of a setting and lists the resistors between them.
func (m *Model) DC(at []int, turn setting.Turn) *DC { return m.DCOf(m.base.Nets(at), turn) }

// DCOf is DC for any nets of the graph: a switch in mid-travel, say.
func (m *Model) DCOf(nets setting.Nets, turn setting.Turn) *DC {
	d := &DC{m: m, nets: nets, node: make([]int, nets.Count)}
	for i := range m.coils {
		c := &m.coils[i]
		d.add(resistor{name: c.name, a: c.start, b: c.finish, ohms: m.warm(c.ohms), coil: i, track: -1})
	}
	for i := range m.tracks {
		t := &m.tracks[i]
		upper, lower := t.halves(turn[t.knob])
		d.add(resistor{name: t.name, a: t.cw, b: t.wiper, ohms: upper, coil: -1, track: i, upper: true})
		d.add(resistor{name: t.name, a: t.ccw, b: t.wiper, ohms: lower, coil: -1, track: i})
	}
	for _, t := range m.resistors {
		d.add(resistor{name: t.name, a: t.a, b: t.b, ohms: t.value, coil: -1, track: -1})
	}
	d.number()
	d.plan = sync.OnceValue(d.network)
	return d
}

// warm is a coil's resistance at the temperatures of the room. What is stated
// holds at 20 °C.
func (m *Model) warm(r part.Range) part.Range {
	room := m.opts.Room
	r.Typical, r.Lo, r.Hi = r.Typical*copper(room.Typical), r.Lo*copper(room.Lo), r.Hi*copper(room.Hi)
	return r
}

func (d *DC) add(r resistor) {
	r.a, r.b = d.nets.Of[r.a], d.nets.Of[r.b]
	if r.a != r.b && !math.IsInf(r.ohms.Typical, 1) {
		d.parts = append(d.parts, r)
	}
}

// number gives dense numbers to the nets that resistors touch.
func (d *DC) number() {
	for i := range d.node {
		d.node[i] = -1
	}
	for _, r := range d.parts {
		for _, net := range []int{r.a, r.b} {
			if d.node[net] < 0 {
				d.node[net] = d.nodes
				d.nodes++
			}
		}
	}
}

// at returns the table of resistances at one corner.
func (d *DC) at(c corner) *linear.Resistances {
	d.once[c].Do(func() {
		siemens := make([]float64, len(d.parts))
		for i, r := range d.parts {
			ohms := [3]float64{r.ohms.Typical, r.ohms.Lo, r.ohms.Hi}[c]
			siemens[i] = 1 / max(ohms, tinyOhms)
		}
		d.table[c] = d.plan().Resistances(siemens)
	})
	return d.table[c]
}

// network is which nets the resistors join; it serves for all corners.
func (d *DC) network() *linear.Network {
	ends := make([][2]int, len(d.parts))
	for i, r := range d.parts {
		ends[i] = [2]int{d.node[r.a], d.node[r.b]}
	}
	return linear.NewNetwork(d.nodes, ends)
}

// between is the resistance between two nets at one corner; +Inf when open.
func (d *DC) between(c corner, a, b int) float64 {
	switch {
	case a == b:
		return 0
	case d.node[a] < 0 || d.node[b] < 0:
		return math.Inf(1)
	}
	return d.at(c).Ohms(d.node[a], d.node[b])
}

// Tap is the voltage between two terminals, a over b, that one volt of EMF in a
// coil (start over finish) shows on a meter that draws no current: −1…1. Its
// sign is the way the meter moves when steel touches the coil, for a coil of
// one winding and pole.
func (d *DC) Tap(coil, a, b int) float64 {
	for _, r := range d.parts {
		if r.coil != coil {
			continue
		}
		na, nb := d.node[d.nets.Of[a]], d.node[d.nets.Of[b]]
		if na < 0 || nb < 0 {
			return 0
		}
		// by reciprocity: what 1 A through the probes does at the coil
		return d.at(nominal).Transfer(na, nb, d.node[r.a], d.node[r.b]) / max(r.ohms.Typical, tinyOhms)
	}
	return 0
}

// share is the part of a reading between two nets that a resistor accounts for:
// its power over the whole, and also the relative change of the reading for one
// of the resistor. All shares add up to one.
func (d *DC) share(r *resistor, a, b int) float64 {
	t := d.at(nominal)
	v := t.Transfer(d.node[a], d.node[b], d.node[r.a], d.node[r.b])
	return v * v / max(r.ohms.Typical, tinyOhms) / t.Ohms(d.node[a], d.node[b])
}
