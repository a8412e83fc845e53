package build

import (
	"cmp"
	"math"
	"slices"

	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// sort puts what is seated first, what would be in the way last, keeps a part's
// work together, and puts inner terminals before outer ones.
func (o *order) sort(todo []piece) {
	slices.SortStableFunc(todo, func(a, b piece) int {
		ra, rb := &o.g.Runs[a.run], &o.g.Runs[b.run]
		return cmp.Or(cmp.Compare(o.reach(ra), o.reach(rb)), cmp.Compare(o.part(ra), o.part(rb)),
			cmp.Compare(o.depth(ra), o.depth(rb)), cmp.Compare(a.run, b.run))
	})
}

// reach ranks runs to cases by how much they are in the way of the next: seated
// metal, a lug to its own case, case to case, all else.
func (o *order) reach(r *wiring.Run) int {
	a, b := onCase(o.g, r.A), onCase(o.g, r.B)
	switch {
	case r.Wire.Kind == loom.Touching:
		return 0
	case (a || b) && o.g.Terms[r.A].Use == o.g.Terms[r.B].Use:
		return 1
	case a && b:
		return 2
	}
	return 3
}

// part is the use that a run's work belongs to: the pickup whose lead it is,
// else the later of its parts.
func (o *order) part(r *wiring.Run) int {
	for _, t := range []int{r.A, r.B} {
		if is(o.g, t, "pickup") {
			return o.g.Terms[t].Use
		}
	}
	return max(o.g.Terms[r.A].Use, o.g.Terms[r.B].Use)
}

// depth is how far a run's outer end lies from its part's centre, in mm.
func (o *order) depth(r *wiring.Run) float64 {
	d := 0.0
	for _, t := range []int{r.A, r.B} {
		if u, i := use(o.g, t), o.g.Terms[t].Terminal; u != nil && i >= 0 && !o.own(t) {
			at := u.Part.Terminals[i].At
			d = max(d, math.Hypot(at[0], at[1]))
		}
	}
	return d
}
