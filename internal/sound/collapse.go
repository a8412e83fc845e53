package sound

import "slices"

// Named is a sound that has a name of its own: a pickup's customary full sound.
type Named struct {
	Name string
	Full Expr
}

// Collapse writes whole named sounds by their name: "bridge.north series
// bridge.south series neck" becomes "bridge series neck". It is for reading;
// the sound stays the same when the names are spelled out again.
func (e Expr) Collapse(names []Named) Expr {
	out := e
	out.Kids = nil
	for _, k := range e.Kids {
		out.Kids = append(out.Kids, k.Collapse(names))
	}
	for _, n := range names {
		out = out.collapse(n)
	}
	return out
}

// collapse replaces one named sound: the whole expression, or some of its kids.
func (e Expr) collapse(n Named) Expr {
	if n.Full.Op != e.Op || len(e.Kids) == 0 {
		return e
	}
	for _, reversed := range []bool{false, true} {
		full := n.Full
		if reversed {
			full = full.Reverse()
		}
		if rest, ok := without(e.Kids, full.Kids); ok {
			return In(e.Op, append(rest, Coil(n.Name, reversed))...)
		}
	}
	return e
}

// without takes some kids out of others; false when one is not there.
func without(kids, out []Expr) ([]Expr, bool) {
	rest := slices.Clone(kids)
	for _, o := range out {
		i := slices.IndexFunc(rest, func(k Expr) bool { return Equal(k, o) })
		if i < 0 {
			return nil, false
		}
		rest = slices.Delete(rest, i, i+1)
	}
	return rest, true
}
