package place

import (
	"loomwright/internal/loom"
	"loomwright/internal/scene"
	"loomwright/internal/wiring"
)

// role is where in the guitar a part belongs.
type role int

const (
	rolePickup role = iota
	roleSwitch
	rolePot
	roleSmall // hangs on its leads between others: capacitor, resistor, splice
	roleOut
	roleGround
	roleGroundwork // a plate that parts only touch: it is drawn as what they sit on
)

// item is a part that gets a place.
type item struct {
	use, splice int // one of them −1
	role        role
	form        *form
	fan         *Fan // in the form's coordinates
	turns       []int
	at          scene.Point
	turn        int
	fixed       bool
	kept        bool // by an earlier drawing, not by the loom file
	name        string
}

// layout is the table that a plan is laid out on.
type layout struct {
	g       *wiring.Graph
	strands []Strand
	splices []Splice
	items   []item
	links   []link
	left    bool

	template template // by which it is arranged
	worth    float64  // its total when it was ranked last
}

// link is a strand as seen while parts are moved: two ends, each an item and a
// place on it.
type link struct {
	a, b linkEnd
}

type linkEnd struct {
	item  int
	at    scene.Point // from the item's centre, not turned
	exits Exits
	rim   float64 // of a case: how far from at a joint is, toward the other end
}

func newLayout(g *wiring.Graph) *layout {
	l := &layout{g: g, left: g.Loom.Left}
	l.strands, l.splices = strandsOf(g)
	for u := range g.Loom.Uses {
		l.items = append(l.items, l.itemOf(u))
	}
	for s := range l.splices {
		l.items = append(l.items, spliceItem(s, l.endsIn(s)))
	}
	l.findLinks()
	return l
}

func (l *layout) itemOf(u int) item {
	use := &l.g.Loom.Uses[u]
	it := item{use: u, splice: -1, role: roleOf(use), name: use.Name}
	if it.role == roleGround && l.onlyTouched(u) {
		it.role, it.form, it.turns = roleGroundwork, &form{scale: 1, cases: -1}, []int{0}
		return it
	}
	it.form = newForm(use.Part, l.scaleOf(u))
	it.fan = l.fanOf(u, it.form)
	it.turns = turnsOf(use, it.role, l.left)
	it.turn = it.turns[0]
	return it
}

// onlyTouched reports whether nothing is soldered to a part, and some parts
// touch it.
func (l *layout) onlyTouched(u int) bool {
	touched := false
	for _, r := range l.g.Runs {
		if l.g.Terms[r.A].Use != u && l.g.Terms[r.B].Use != u {
			continue
		}
		if r.Wire.Kind != loom.Touching {
			return false
		}
		touched = true
	}
	return touched
}

func roleOf(use *loom.Use) role {
	p := use.Part
	switch {
	case p.Output != nil:
		return roleOut
	case len(p.Coils) > 0:
		return rolePickup
	case p.Class == "ground":
		return roleGround
	case len(p.Tracks) > 0:
		return rolePot
	case len(p.Switches) > 0:
		return roleSwitch
	case len(p.Terminals) <= 3:
		return roleSmall
	}
	return roleSwitch
}

// turnsOf lists how a part may be turned, the usual way first. A switch whose
// file says "left" and "upper" stays as its file draws it; what points toward
// the neck is turned about in a left-handed guitar.
func turnsOf(use *loom.Use, r role, left bool) []int {
	half := 0
	if left {
		half = 2
	}
	switch r {
	case rolePot:
		return []int{0, 2, 1, 3}
	case roleSmall, roleGround:
		return []int{0, 1, 2, 3}
	case roleSwitch:
		if towardNeck(use) {
			return []int{half}
		}
		return []int{0}
	case roleOut:
		return []int{half, 1, 3}
	}
	return []int{half}
}

// towardNeck reports whether a switch has positions that are named after the
// ends of the strings.
func towardNeck(use *loom.Use) bool {
	for _, s := range use.Part.Switches {
		if s.Position("neck") >= 0 || s.Position("bridge") >= 0 {
			return true
		}
	}
	return false
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func abs(x float64) float64 { return max(x, -x) }
