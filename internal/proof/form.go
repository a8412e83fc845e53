package proof

import (
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/sound"
)

// form is what lies between two nets: a tree of elements in series and
// parallel. Order is that of a coil's leads: + when its start faces the hot
// side, 0 when that is open.
type form struct {
	op      sound.Op // Name, Series, Parallel, Through, Mesh
	element int      // Name, Through
	order   int      // Name
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
// with a coil is a load, and is left out.
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
		if f.hasCoil() {
			coils = append(coils, f)
		}
	}
	if len(coils) == 0 {
		return forms
	}
	return coils
}

func (f *form) hasCoil() bool {
	return f.op == sound.Name || slices.ContainsFunc(f.kids, (*form).hasCoil)
}

// branch is a form between two nets, from the hot side a to the ground side b.
type branch struct {
	edge
	form *form
}

// branches lists elements as branches.
func (n *network) branches(keep []bool) []branch {
	var out []branch
	for i, e := range n.elements {
		if !keep[i] {
			continue
		}
		f := &form{op: sound.Through, element: i}
		if e.kind == coil {
			f = &form{op: sound.Name, element: i, order: 1}
		}
		out = append(out, branch{e.edge, f})
	}
	return out
}

// valueText is how a part in the path is printed: in one word.
func (n *network) valueText(e element) string {
	text := func(x float64, short func(float64) string, unknown string) string {
		if x == 0 {
			return unknown
		}
		return short(x)
	}
	x := n.value(e)
	switch e.kind {
	case capacitor:
		return text(x, loom.ShortFarads, loom.NoCapacitor)
	case resistor:
		return text(x, loom.ShortOhms, loom.NoResistor)
	}
	return text(x, loom.ShortOhms, loom.NoTrack)
}

// value is the ohms or farads that a part in the path is stated to have; 0 is
// unknown.
func (n *network) value(e element) float64 {
	switch e.kind {
	case capacitor:
		return n.g.Caps[e.index].Value.X
	case resistor:
		return n.g.Resistors[e.index].Value.X
	case track:
		return n.g.Tracks[e.index].Value.Ohms.X
	}
	return 0
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

// mergeSeries joins the two branches at every net that has no others. All lie on
// ways from hot to ground, so that no two come back to where they start.
func (n *network) mergeSeries(bs []branch) []branch {
	at, count := make([][2]int, n.nets.Count), make([]int, n.nets.Count)
	for i, b := range bs {
		for _, net := range [2]int{b.a, b.b} {
			if count[net] < 2 {
				at[net][count[net]] = i
			}
			count[net]++
		}
	}
	for net, c := range count {
		if c != 2 || net == n.hot || net == n.ground {
			continue
		}
		i, k := at[net][0], at[net][1]
		merged := bs[i].into(net).series(bs[k].outOf(net))
		bs[i], bs[k].form = merged, nil
		if far := &at[merged.b]; far[0] == k {
			far[0] = i
		} else if far[1] == k {
			far[1] = i
		}
	}
	return slices.DeleteFunc(bs, func(b branch) bool { return b.form == nil })
}

// into is a branch turned to end at a net, outOf to start there.
func (b branch) into(net int) branch {
	if b.b != net {
		b = branch{edge{b.b, b.a}, b.form.flip()}
	}
	return b
}

func (b branch) outOf(net int) branch {
	if b.a != net {
		b = branch{edge{b.b, b.a}, b.form.flip()}
	}
	return b
}

func (b branch) series(next branch) branch {
	return branch{edge{b.a, next.b}, join(sound.Series, b.form, next.form)}
}

// heard is what sounds: the form of the way, each coil with its sign, which is
// lead order × winding × pole.
func (n *network) heard() sound.Expr {
	if f := n.reduce(); f != nil {
		return n.sound(f).Canon()
	}
	return sound.Expr{Op: sound.Silent}
}

func (n *network) sound(f *form) sound.Expr {
	switch f.op {
	case sound.Name:
		c := &n.g.Coils[n.elements[f.element].index]
		sign := int(c.Winding) * int(c.Pole) * f.order
		e := sound.Coil(c.Name, sign < 0)
		e.Unsure = sign == 0
		return e
	case sound.Through:
		return sound.Expr{Op: sound.Through, Name: n.valueText(n.elements[f.element])}
	}
	kids := make([]sound.Expr, len(f.kids))
	for i, k := range f.kids {
		kids[i] = n.sound(k)
	}
	return sound.In(f.op, kids...)
}
