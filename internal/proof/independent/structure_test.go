package independent_test

import (
	"fmt"
	"math/cmplx"
	"slices"
	"sort"

	"loomwright/internal/proof"
)

// sound holds the printed sound against measurements.
func (o *opinions) sound(v view, groups [][]int, heard []bool, r *proof.Row) {
	name, c := v.name, v.c
	e := parseSound(r.Heard)
	var mine, theirs []string
	for i, h := range heard {
		if h {
			mine = append(mine, o.w.coils[i].name)
		}
	}
	for _, leaf := range e.leaves() {
		theirs = append(theirs, leaf.name)
	}
	sort.Strings(mine)
	sort.Strings(theirs)
	if !slices.Equal(mine, theirs) {
		o.disagree(name, "coils heard", mine, r.Heard)
		return
	}
	way, known := c.inTheWay(o.draws[0], heard)
	if !known {
		return
	}
	if o.settings%8 == 0 && v.output == "sounding" {
		o.runs++
		mine := o.w.liveRuns(groups, o.rs[0].pairs, c.ends(heard, way), o.rng)
		if !slices.Equal(mine, r.LiveRuns) {
			o.disagree(name, "runs that carry the sound", mine, r.LiveRuns)
		}
	}
	bare := c.with(func(e element) bool { return way[e] })
	two := make([]bool, len(heard))
	if e.op == "mesh" {
		o.meshes++
		two = bare.twoWays(o.rng)
		o.mesh(name, bare, e, two, r)
	} else if e.op != "silent" {
		o.structures++
		o.structure(name, bare, e, way, r)
	}
	o.verdicts(name, bare, two, r)
}

func (o *opinions) verdicts(name string, c *circuit, two []bool, r *proof.Row) {
	var rs []response
	for range 3 {
		m, _ := c.measure(o.w.alike(o.rng))
		rs = append(rs, m)
	}
	same(o, name, "phase of "+r.Heard, o.w.phase(rs[0], two), string(r.Phase))
	if !slices.Contains(two, true) { // else hum depends on ohms, and proof takes coils as alike
		same(o, name, "hum of "+r.Heard, o.w.hum(rs), string(r.Hum))
	}
}

// structure holds the printed form against impedance and shares at two draws.
func (o *opinions) structure(name string, c *circuit, e expr, way map[element]bool, r *proof.Row) {
	byName := map[string]element{}
	var mine []string
	for el := range way {
		mine = append(mine, o.valueOf(el))
		byName[o.valueOf(el)] = el
	}
	theirs := e.values()
	sort.Strings(mine)
	sort.Strings(theirs)
	if !slices.Equal(mine, theirs) {
		o.disagree(name, "parts in the way", mine, r.Heard)
		return
	}
	for _, d := range o.draws {
		d = o.tied(d)
		m, _ := c.measure(d)
		z, share := e.electric(func(leaf expr) complex128 {
			if leaf.op == "through" {
				el := byName[leaf.name]
				return d[el.kind][el.of]
			}
			i := slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })
			return d['c'][i]
		})
		if cmplx.Abs(z-m.z) > 1e-7*(1+cmplx.Abs(z)) {
			o.disagree(name, "impedance of "+r.Heard, m.z, z)
			return
		}
		o.shares(name, e, m, share, r)
	}
}

// tied is a draw with tracks of one value alike: they cannot be told apart in
// the text.
func (o *opinions) tied(d draw) draw {
	d = d.without(func(byte, int) bool { return false })
	for i, p := range o.w.pots {
		d['t'][i] = d['t'][slices.IndexFunc(o.w.pots, func(q pot) bool { return q.ohms == p.ohms })]
	}
	return d
}

func (o *opinions) shares(name string, e expr, m response, share map[string]complex128, r *proof.Row) {
	for _, leaf := range e.leaves() {
		i := slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })
		k := o.w.coils[i]
		w := complex(float64(k.winding*k.pole), 0)
		same(o, name, "phase known of "+k.name+" in "+r.Heard, w != 0, leaf.sign != 0)
		got := m.share[i] * w
		if w == 0 {
			got = complex(cmplx.Abs(m.share[i]), 0)
			share[leaf.name] = complex(cmplx.Abs(share[leaf.name]), 0)
		}
		if cmplx.Abs(got-share[leaf.name]) > 1e-7 {
			o.disagree(name, "share of "+k.name+" in "+r.Heard, got, share[leaf.name])
		}
	}
}

// valueOf writes the value of a part in the way as proof prints it.
func (o *opinions) valueOf(e element) string {
	switch e.kind {
	case 'f':
		return fmt.Sprintf("%.6gn", o.w.caps[e.of].value*1e9)
	case 'r':
		return fmt.Sprintf("%.6gk", o.w.ress[e.of].value/1e3)
	}
	return fmt.Sprintf("%.6gk", o.w.pots[e.of].ohms/1e3)
}

// mesh checks that a mesh is one, and the signs in it.
func (o *opinions) mesh(name string, c *circuit, e expr, two []bool, r *proof.Row) {
	if !c.bridged() {
		o.disagree(name, "structure", "series-parallel", r.Heard)
		return
	}
	m, _ := c.measure(o.w.alike(o.rng))
	for _, leaf := range e.leaves() {
		i := slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })
		g := o.w.coils[i].winding * o.w.coils[i].pole
		switch {
		case two[i]:
			g = 0
		case real(m.share[i]) < 0:
			g = -g
		}
		same(o, name, "sign of "+leaf.name+" in "+r.Heard, g, leaf.sign)
	}
}

// bridged reports whether some element is passed in both directions on the
// ways from hot to ground: just then the network is not series-parallel
// (Duffin, J. Math. Anal. Appl. 10, 1965).
func (c *circuit) bridged() bool {
	forward, back := map[element]bool{}, map[element]bool{}
	var walk func(net int, seen uint64, way []element, from []int) bool
	walk = func(net int, seen uint64, way []element, from []int) bool {
		if net == c.gnd {
			for i, e := range way {
				if from[i] == e.a {
					forward[e] = true
				} else {
					back[e] = true
				}
				if forward[e] && back[e] {
					return true
				}
			}
			return false
		}
		for _, e := range c.els {
			to := e.a + e.b - net
			if (e.a == net || e.b == net) && seen>>to&1 == 0 &&
				walk(to, seen|1<<to, append(way[:len(way):len(way)], e), append(from[:len(from):len(from)], net)) {
				return true
			}
		}
		return false
	}
	return walk(c.hot, 1<<c.hot, nil, nil)
}
