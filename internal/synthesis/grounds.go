package synthesis

import (
	"slices"

	"loomwright/internal/wiring"
)

// groundAll joins everything that belongs on ground: cases in a row, then
// shields, covers, plates and the string ground. Where a shield is also a coil
// end, that end is on ground.
func (t *task) groundAll() {
	t.hub = t.chooseHub()
	t.join(t.hub, t.g.Ground, "twisted")
	last := t.hub
	for _, x := range t.g.Grounds {
		if t.g.Terms[x].Kind == "case" && !t.grounded(x) && t.solderable(x) {
			t.join(x, last, "bare")
			last = x
		}
	}
	for _, x := range t.g.Grounds {
		if t.grounded(x) || slices.ContainsFunc(t.lifted, func(y int) bool { return t.piece(y) == t.piece(x) }) {
			continue
		}
		if t.isCoilEnd(x) {
			t.liftable = append(t.liftable, x)
		}
		if at := t.bestOf(x); at >= 0 {
			t.join(at, t.nearestGround(x), t.touch(x))
		}
	}
}

func (t *task) grounded(x int) bool { return t.piece(x) == t.piece(t.g.Ground) }

// chooseHub is the case of the first volume, else of any pot, else the output's
// ground.
func (t *task) chooseHub() int {
	stretches := slices.Clone(t.controls.each)
	if t.controls.whole != nil {
		stretches = append([]stretch{*t.controls.whole}, stretches...)
	}
	for _, st := range stretches {
		for _, f := range st.filled {
			if f.track >= 0 {
				return caseOf(t.g, f.use)
			}
		}
	}
	for i := range t.g.Tracks {
		return caseOf(t.g, t.g.Tracks[i].Use)
	}
	return t.g.Ground
}

// bestOf is the terminal of a piece of metal that a ground wire goes to: a lead
// before a tag before bare metal; −1 when none can be soldered.
func (t *task) bestOf(x int) int {
	best, rank := -1, 9
	for _, y := range t.members(t.piece(x)) {
		r := slices.Index([]string{"lead", "tag", "point", "lug", "pad", "case", "plate"}, t.g.Terms[y].Kind)
		if r >= 0 && r < rank && t.solderable(y) {
			best, rank = y, r
		}
	}
	return best
}

// nearestGround is the case of the pickup's own control, else the hub.
func (t *task) nearestGround(x int) int {
	for _, st := range t.controls.each {
		if st.pickup == t.g.Terms[x].Use && !st.section.Hung {
			return caseOf(t.g, st.filled[0].use)
		}
	}
	return t.hub
}

// isCoilEnd reports whether a piece of metal is also the end of a coil.
func (t *task) isCoilEnd(x int) bool {
	return slices.ContainsFunc(t.g.Coils, func(c wiring.Coil) bool {
		return t.piece(c.Start) == t.piece(x) || t.piece(c.Finish) == t.piece(x)
	})
}

// touch is the option of a run to a plate: the parts stand on it.
func (t *task) touch(x int) string {
	if use := t.g.Terms[x].Use; use >= 0 && t.g.Loom.Uses[use].Part.Class == "ground" && t.g.Terms[x].Kind == "plate" && t.g.Terms[t.hub].Kind == "case" {
		return "touching"
	}
	return ""
}
