package electrics

import (
	"math"
	"math/rand/v2"
	"slices"

	"loomwright/internal/part"
)

// kind is a kind of value that varies.
type kind int

const (
	inductance kind = iota
	capacitance
	loss
	other
)

// unknown is one value of the model that is not known exactly. Values
// with the same key vary together: what nobody knows of two coils of one pickup
// is the same for both.
type unknown struct {
	kind kind
	key  [3]int // part, kind, 1 + index for values that vary by themselves
	r    part.Range
	set  func(m *Model, x float64)
}

// unknowns lists what varies: typical ranges where nothing is stated, and
// tolerances where something is.
func (m *Model) unknowns() []unknown {
	var out []unknown
	add := func(k kind, use, index int, r part.Range, set func(m *Model, x float64)) {
		if r.Hi > r.Lo && !math.IsInf(r.Hi, 1) {
			key := [3]int{use, int(k), 0}
			if r.Known || k == other {
				key[2] = 1 + index
			}
			out = append(out, unknown{k, key, r, set})
		}
	}
	for i := range m.coils {
		c := &m.coils[i]
		add(inductance, c.use, i, c.henries, func(m *Model, x float64) { m.coils[i].henries.Typical = x })
		add(capacitance, c.use, i, c.farads, func(m *Model, x float64) { m.coils[i].farads.Typical = x })
		if c.eddyPart != 0 {
			add(loss, c.use, i, c.eddy, func(m *Model, x float64) { m.coils[i].eddy.Typical = x })
		}
		add(other, c.use, len(out), c.ohms, func(m *Model, x float64) { m.coils[i].ohms.Typical = x })
	}
	for i := range m.tracks {
		t := &m.tracks[i]
		add(other, -1, len(out), t.ohms, func(m *Model, x float64) { m.tracks[i].ohms.Typical = x })
		add(other, -1, len(out), t.taper.half, func(m *Model, x float64) { m.tracks[i].taper.half.Typical = x })
	}
	for i := range m.caps {
		add(other, -1, len(out), m.caps[i].value, func(m *Model, x float64) { m.caps[i].value.Typical = x })
	}
	for i := range m.resistors {
		add(other, -1, len(out), m.resistors[i].value, func(m *Model, x float64) { m.resistors[i].value.Typical = x })
	}
	return out
}

// corners are drawn before the sample: all inductances and capacitances low or
// high, with losses heavy or light.
var corners = [4][3]float64{{0, 0, 0}, {0, 0, 1}, {1, 1, 0}, {1, 1, 1}}

// variants are models with other values, the same ones every time: four corners
// and a Latin hypercube (McKay, Beckman and Conover 1979) of opts.Samples draws.
func (m *Model) variants() []*Model {
	list := m.unknowns()
	if len(list) == 0 {
		return nil
	}
	strata := map[[3]int][]int{}
	random := rand.New(rand.NewPCG(m.opts.Seed, 0))
	for _, u := range list {
		if strata[u.key] == nil {
			strata[u.key] = random.Perm(m.opts.Samples)
		}
	}
	var out []*Model
	for n := range len(corners) + m.opts.Samples {
		v := m.copied()
		for _, u := range list {
			at := 0.5
			switch s := n - len(corners); {
			case s >= 0:
				at = (float64(strata[u.key][s]) + 0.5) / float64(m.opts.Samples)
			case u.kind != other:
				at = corners[n][u.kind]
			}
			u.set(v, between(u.r, at))
		}
		v.ac = newResponse(v)
		out = append(out, v)
	}
	return out
}

// copied is a model whose values can be changed.
func (m *Model) copied() *Model {
	v := *m
	v.coils, v.tracks = slices.Clone(m.coils), slices.Clone(m.tracks)
	v.caps, v.resistors = slices.Clone(m.caps), slices.Clone(m.resistors)
	return &v
}

// between goes from the low to the high end of a range by equal ratios.
func between(r part.Range, at float64) float64 {
	if r.Lo <= 0 {
		return r.Lo + at*(r.Hi-r.Lo)
	}
	return r.Lo * math.Pow(r.Hi/r.Lo, at)
}
