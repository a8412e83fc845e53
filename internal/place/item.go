package place

import (
	"math"

	"loomwright/internal/loom"
	"loomwright/internal/part"
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

// Crowded lugs are drawn larger than they are: those with neighbours nearer
// than crowded in their row and in their column, by as much as makes the block
// roomy; lugs amid others on all sides need the most room, pads with pins some.
const (
	crowded   = 6.7
	roomy     = 8.2
	roomiest  = 8.9
	boardPads = 1.6
)

// scaleOf is 1, or more for a part whose lugs stand in a dense block.
func (l *layout) scaleOf(u int) float64 {
	terms := l.g.Loom.Uses[u].Part.Terminals
	scale := 1.0
	for i := range terms {
		across, down, sides := neighbours(terms, i)
		if across >= crowded || down >= crowded {
			continue
		}
		room := roomy
		if sides == 4 {
			room = roomiest
		}
		scale = max(scale, room/math.Sqrt(across*down))
	}
	for _, t := range terms {
		if t.HasPin {
			scale = max(scale, boardPads)
		}
	}
	return math.Round(scale*20) / 20
}

// neighbours is how near the next terminals in a terminal's row and column are, and
// on how many sides of it there is one.
func neighbours(terms []part.Terminal, i int) (across, down float64, sides int) {
	across, down = crowded, crowded
	seen := [4]bool{}
	for k, o := range terms {
		dx, dy := o.At[0]-terms[i].At[0], o.At[1]-terms[i].At[1]
		switch {
		case k == i || o.Kind == "case":
		case abs(dy) < 0.1 && abs(dx) < crowded:
			across = min(across, abs(dx))
			seen[b2i(dx > 0)] = true
		case abs(dx) < 0.1 && abs(dy) < crowded:
			down = min(down, abs(dy))
			seen[2+b2i(dy > 0)] = true
		}
	}
	for _, s := range seen {
		sides += b2i(s)
	}
	return across, down, sides
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func abs(x float64) float64 { return max(x, -x) }

// Size of the sleeve over joined leads, mm.
const (
	sleeveLength = 12.0
	sleeveWidth  = 5.6
	sleevePitch  = slotPitch // of the leads that enter side by side
)

// sideTips is how many wires enter a sleeve at each long side, beside the two
// at each end.
const sideTips = 3

// sleeve makes the places at which wires enter a sleeve: two at one end, two at
// the other, then some at the sides.
func (f *form) sleeve(sides int) {
	half := f.box.Width() / 2
	tip := func(x, y float64, exit string) {
		f.tips = append(f.tips, Spot{At: scene.Pt(x, y), Exits: exitBits[exit]})
	}
	for _, y := range []float64{-sleevePitch / 2, sleevePitch / 2} {
		tip(-half, y, "left")
	}
	for _, y := range []float64{-sleevePitch / 2, sleevePitch / 2} {
		tip(half, y, "right")
	}
	for k := range sides {
		x := (float64(k) - float64(sides-1)/2) * 4
		tip(x, f.box.Max.Y, "down")
		tip(x, f.box.Min.Y, "up")
	}
}

// endsIn counts the wires that go into a splice.
func (l *layout) endsIn(splice int) int {
	n := 0
	for _, s := range l.strands {
		n += b2i(s.A.Splice == splice) + b2i(s.B.Splice == splice)
	}
	return n
}

func spliceItem(s, ends int) item {
	f := &form{scale: 1, cases: -1}
	box := scene.Box(-sleeveLength/2, -sleeveWidth/2, sleeveLength, sleeveWidth)
	f.shapes = []Shape{{Kind: "rect", Box: box, Round: 1.2, Fill: "dark"}}
	f.box = box
	if f.sleeve(sideTips * b2i(ends > 4)); ends <= 2 {
		f.tips = f.tips[:2]
	}
	return item{use: -1, splice: s, role: roleSmall, form: f, turns: []int{0, 1, 2, 3}}
}

// fanOf makes the slots of a pickup's leads: the library's column of places,
// as many as there are leads, around the mouth of the cable.
func (l *layout) fanOf(u int, f *form) *Fan {
	use := &l.g.Loom.Uses[u]
	leads := l.leadsOf(u)
	if len(use.Part.Coils) == 0 || len(leads) == 0 {
		return nil
	}
	var column []scene.Point
	for _, s := range f.spots {
		if s.Kind == "lead" {
			column = append(column, s.At)
		}
	}
	box := boxOf(column)
	fan := &Fan{Mouth: scene.Pt(box.Min.X-jacketTo, box.Center().Y), Leads: leads}
	top := fan.Mouth.Y - slotPitch*float64(len(leads)-1)/2
	for i := range leads {
		fan.Slots = append(fan.Slots, scene.Pt(box.Max.X, top+slotPitch*float64(i)))
	}
	return fan
}

// The fan of a cable: pitch of the slots, and how far the jacket ends before
// them (library/README.md), mm.
const (
	slotPitch = 3.0
	jacketTo  = 10.0
)

// leadsOf lists the terminals that a pickup's cable ends in.
func (l *layout) leadsOf(u int) []int {
	use := &l.g.Loom.Uses[u]
	var out []int
	if len(use.Leads) > 0 {
		for k, lead := range use.Leads {
			ref := loom.Ref{Use: u, Terminal: -1, Lead: k}
			if len(lead.Ends) > 0 {
				ref.Terminal = lead.Ends[0]
			}
			if t := l.g.Ref(ref); l.g.Terms[t].Kind == "lead" {
				out = append(out, t)
			}
		}
		return out
	}
	for i, t := range use.Part.Terminals {
		if t.Kind == "lead" {
			out = append(out, l.g.Term(u, i))
		}
	}
	return out
}
