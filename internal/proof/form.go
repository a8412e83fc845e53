package proof

import (
	"loomwright/internal/sound"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// form is what lies between two nets: a tree of coils in series and parallel.
// Sign is the order of the coil's leads, + when its start faces the hot side.
type form struct {
	op      sound.Op // Name, Series, Parallel, Through, Mesh
	coil    int
	order   int // Name: +1, −1
	through string
	kids    []*form
}

// flip turns a form end for end.
func (f *form) flip() *form {
	out := *f
	out.order = -f.order
	out.kids = nil
	for _, k := range f.kids {
		out.kids = append(out.kids, k.flip())
	}
	return &out
}

// join puts forms in series or in parallel. A branch without a coil beside one
// with a coil is a load: it takes level and brightness, and is no part of what
// is heard.
func join(op sound.Op, forms ...*form) *form {
	if op == sound.Parallel {
		forms = withoutLoads(forms)
	}
	if len(forms) == 1 {
		return forms[0]
	}
	out := &form{op: op}
	for _, f := range forms {
		if f.op == op {
			out.kids = append(out.kids, f.kids...)
		} else {
			out.kids = append(out.kids, f)
		}
	}
	return out
}

func withoutLoads(forms []*form) []*form {
	var coils []*form
	for _, f := range forms {
		if f.coils() > 0 {
			coils = append(coils, f)
		}
	}
	if len(coils) == 0 {
		return forms
	}
	return coils
}

// branch is a form between two nets, from the hot side a to the ground side b.
type branch struct {
	edge
	form *form
}

// reduce turns the live part of a network into one form between hot and ground;
// a network that is not series-parallel is a Mesh of its coils. nil: nothing
// with a coil is live.
func (n *network) reduce() *form {
	if n.output() != Sounding {
		return nil
	}
	f := n.shrink(n.branches(func(element) bool { return true }))
	if f == nil {
		f = n.shrink(n.branches(n.withoutLoads()))
	}
	if f == nil || f.coils() != count(n.liveCoils()) {
		f = n.mesh()
	}
	return f
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

// coils counts the coils of a form.
func (f *form) coils() int {
	if f.op == sound.Name {
		return 1
	}
	n := 0
	for _, k := range f.kids {
		n += k.coils()
	}
	return n
}

// branches lists the live elements as branches.
func (n *network) branches(keep func(element) bool) []branch {
	var out []branch
	for i, e := range n.elements {
		if n.live[i] && keep(e) {
			out = append(out, branch{e.edge, n.leaf(e)})
		}
	}
	return out
}

func (n *network) leaf(e element) *form {
	if e.kind == coil {
		return &form{op: sound.Name, coil: e.index, order: 1}
	}
	return &form{op: sound.Through, through: n.valueText(e)}
}

// valueText is how a part in the path is printed.
func (n *network) valueText(e element) string {
	text := func(v units.Value, format func(float64) string, unknown string) string {
		switch {
		case v.Text != "":
			return v.Text
		case v.X == 0:
			return unknown
		}
		return format(v.X)
	}
	switch e.kind {
	case capacitor:
		return text(n.g.Caps[e.index].Value, units.FormatFarads, "a-capacitor")
	case resistor:
		return text(n.g.Resistors[e.index].Value, units.FormatOhms, "a-resistor")
	}
	return text(n.g.Tracks[e.index].Value.Ohms, units.FormatOhms, "a-pot-track")
}

// withoutLoads keeps coils, and as few other elements as all heard coils need to
// be heard: what is left out only loads.
func (n *network) withoutLoads() func(element) bool {
	needed := map[element]bool{}
	want := n.liveCoils()
	rest := n
	for i, e := range n.elements {
		if e.kind == coil || !n.live[i] {
			continue
		}
		if less := rest.without(e); less.hears(want) {
			rest = less
		} else {
			needed[e] = true
		}
	}
	return func(e element) bool { return e.kind == coil || needed[e] }
}

// without is the network with one element cut.
func (n *network) without(cut element) *network {
	out := *n
	out.elements = nil
	for _, e := range n.elements {
		if e != cut {
			out.elements = append(out.elements, e)
		}
	}
	out.findLive()
	return &out
}

func (n *network) hears(coils []bool) bool {
	got := n.liveCoils()
	for i := range coils {
		if coils[i] && !got[i] {
			return false
		}
	}
	return true
}

// shrink replaces series and parallel pairs by one branch until one is left
// between hot and ground; nil when it gets stuck.
func (n *network) shrink(bs []branch) *form {
	for {
		before := len(bs)
		bs = n.mergeParallel(bs)
		bs = n.mergeSeries(bs)
		if len(bs) == 1 && len(bs) == before {
			break
		}
		if len(bs) == before {
			return nil
		}
	}
	b := bs[0]
	if b.a == n.ground {
		return b.form.flip()
	}
	return b.form
}

// mergeParallel joins branches between the same two nets.
func (n *network) mergeParallel(bs []branch) []branch {
	var out []branch
	for i, b := range bs {
		if b.form == nil {
			continue
		}
		forms := []*form{b.form}
		for k := i + 1; k < len(bs); k++ {
			c := bs[k]
			switch {
			case c.form == nil:
			case c.edge == b.edge:
				forms = append(forms, c.form)
				bs[k].form = nil
			case c.a == b.b && c.b == b.a:
				forms = append(forms, c.form.flip())
				bs[k].form = nil
			}
		}
		out = append(out, branch{b.edge, join(sound.Parallel, forms...)})
	}
	return out
}

// mergeSeries joins the two branches at one net that has no others.
func (n *network) mergeSeries(bs []branch) []branch {
	for net := range n.nets.Count {
		if net == n.hot || net == n.ground {
			continue
		}
		at, count := [2]int{}, 0
		for i, b := range bs {
			if b.a == net || b.b == net {
				if count < 2 {
					at[count] = i
				}
				count++
			}
		}
		if count == 1 { // a dead end, left when a load was cut off
			return append(bs[:at[0]:at[0]], bs[at[0]+1:]...)
		}
		if count == 2 {
			return seriesAt(bs, net, at[0], at[1])
		}
	}
	return bs
}

func seriesAt(bs []branch, net, i, k int) []branch {
	one, two := bs[i], bs[k]
	if one.b != net {
		one.edge, one.form = edge{one.b, one.a}, one.form.flip()
	}
	if two.a != net {
		two.edge, two.form = edge{two.b, two.a}, two.form.flip()
	}
	out := append(bs[:k:k], bs[k+1:]...)
	out[i] = branch{edge{one.a, two.b}, join(sound.Series, one.form, two.form)}
	return out
}

// mesh is the form of a network that is not series-parallel: its coils, each
// with the sign of its share at the output when all coils are alike.
func (n *network) mesh() *form {
	out := &form{op: sound.Mesh}
	for index, gain := range n.gains() {
		if gain == 0 {
			continue
		}
		leaf := &form{op: sound.Name, coil: index, order: 1}
		if gain < 0 {
			leaf.order = -1
		}
		out.kids = append(out.kids, leaf)
	}
	return out
}

// heard turns a form into a sound with signs: a coil counts lead order ×
// winding × pole.
func (f *form) heard(g *wiring.Graph) sound.Expr {
	switch f.op {
	case sound.Name:
		c := &g.Coils[f.coil]
		sign := int(c.Winding) * int(c.Pole) * f.order
		e := sound.Coil(c.Name, sign < 0)
		e.Unsure = sign == 0
		return e
	case sound.Through:
		return sound.Expr{Op: sound.Through, Name: f.through}
	}
	kids := make([]sound.Expr, len(f.kids))
	for i, k := range f.kids {
		kids[i] = k.heard(g)
	}
	return sound.In(f.op, kids...)
}
