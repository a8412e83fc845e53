package drawing

import (
	"loomwright/internal/loom"
	"loomwright/internal/place"
	"loomwright/internal/route"
	"loomwright/internal/scene"
)

// board is a plan as the router sees it.
type board struct {
	d      *Drawing
	board  route.Board
	wires  []route.Wire
	strand []int       // of each wire; −1: a lead that is not joined
	lead   []int       // terminal of a lead that is not joined
	zone   map[int]int // by terminal
	fan    map[int]int // by part
	wireOf map[int]int // by strand
	links  map[int][]scene.Point
}

func newBoard(d *Drawing) *board {
	b := &board{d: d, zone: map[int]int{}, fan: map[int]int{}, wireOf: map[int]int{}, links: map[int][]scene.Point{}}
	b.board.Box = d.Plan.Box
	for i := range d.Plan.Parts {
		b.part(i)
	}
	for t := range d.Plan.Spots {
		b.spot(t)
	}
	for i := range d.Plan.Strands {
		if s := &d.Plan.Strands[i]; s.Core < 0 && !d.twisted(s) && !d.marked(i) {
			b.strandWire(i)
		}
	}
	for i := range d.Plan.Strands {
		switch s := &d.Plan.Strands[i]; {
		case s.Core >= 0:
			b.tailWire(i, s.Core, s.Far, s.A)
		case d.twisted(s):
			b.tailWire(i, s.Pair, false, s.A)
			b.tailWire(i, s.Pair, true, s.B)
		}
	}
	b.freeLeads()
	b.placeMarks()
	b.keep()
	return b
}

// part adds a part's bodies, its name, its case and its cable's end.
func (b *board) part(i int) {
	p := &b.d.Plan.Parts[i]
	for _, s := range p.Shapes {
		if s.IsBody() {
			b.board.Bodies = append(b.board.Bodies, route.Body{Part: i, Box: s.Box, Round: s.Kind == "circle"})
		}
	}
	for _, n := range p.Name {
		b.board.Labels = append(b.board.Labels, route.Label{Box: n.Box(), Hard: !n.Soft})
	}
	if p.Case != nil {
		b.zone[p.Case.Term] = len(b.board.Zones)
		z := route.Zone{Part: i, Box: p.Case.Box, Round: p.Case.Round, Holes: p.Case.Holes, Exits: route.Dirs(p.Case.Exits)}
		for _, n := range p.Name {
			z.Holes = append(z.Holes, n.Box())
		}
		for t := range b.d.Plan.Spots {
			if s := &b.d.Plan.Spots[t]; s.Part == i && len(s.Words.Lines) > 0 {
				z.Holes = append(z.Holes, s.Words.Box())
			}
		}
		b.board.Zones = append(b.board.Zones, z)
		b.board.Lines = append(b.board.Lines, p.Case.Hints()...)
	}
	if p.Fan != nil {
		b.fan[i] = len(b.board.Fans)
		b.board.Fans = append(b.board.Fans, route.Fan{Mouth: p.Fan.Mouth, Slots: p.Fan.Slots, Out: route.Dir(p.Fan.Out)})
		b.board.Bodies = append(b.board.Bodies, route.Body{Part: i, Box: fanBox(p.Fan)})
	}
}

// fanBox is where leads fan out, short of their slots.
func fanBox(f *place.Fan) scene.Rect {
	box := scene.Rect{Min: f.Mouth, Max: f.Mouth}
	back := route.Dir(f.Out).Vector().Mul(-1.4)
	for _, s := range f.Slots {
		s = s.Add(back)
		box.Min = scene.Pt(min(box.Min.X, s.X), min(box.Min.Y, s.Y))
		box.Max = scene.Pt(max(box.Max.X, s.X), max(box.Max.Y, s.Y))
	}
	return box
}

// spot adds a terminal's metal and its label.
func (b *board) spot(t int) {
	s := &b.d.Plan.Spots[t]
	if s.Part < 0 || s.InFan || s.InCase || b.d.Plan.Parts[s.Part].Sleeve() {
		return
	}
	b.board.Lugs = append(b.board.Lugs, route.Lug{Term: t, Tip: s.At, Far: s.Far})
	if s.HasPin {
		b.board.Lugs = append(b.board.Lugs, route.Lug{Term: t, Tip: s.Pin, Far: s.Pin})
	}
	if len(s.Words.Lines) > 0 {
		b.board.Labels = append(b.board.Labels, route.Label{Box: s.Words.Box().Grow(-labelGive)})
	}
}

// labelGive is how far a lane may run into the room of a lug's name before it
// costs, mm: the name can move a little.
const labelGive = 0.6

// strandWire adds a strand's wire.
func (b *board) strandWire(i int) {
	s := &b.d.Plan.Strands[i]
	if at, ok := b.link(s); ok {
		b.linkWire(i, at)
		return
	}
	w := route.Wire{A: b.end(s.A), B: b.end(s.B)}
	if w.A.Part == w.B.Part {
		b.jumper(&w)
	}
	b.wireOf[i] = len(b.wires)
	b.wires, b.strand, b.lead = append(b.wires, w), append(b.strand, i), append(b.lead, -1)
}

// jumper lets a wire between two terminals of one part run over the part, and
// leave lugs that are seen from their end in any direction.
func (b *board) jumper(w *route.Wire) {
	for _, e := range []*route.End{&w.A, &w.B} {
		e.Over = true
		if e.Kind != route.AtTerm || len(e.Tips) != 1 {
			continue
		}
		s := &b.d.Plan.Spots[e.Term]
		if s.Inside {
			e.Tips[0].Exits = route.All
			continue
		}
		for q := range route.Dir(4) {
			if v, in := q.Vector(), s.Far.Sub(s.At); v.X*in.X+v.Y*in.Y <= 0.1 {
				e.Tips[0].Dear |= route.Of(q)
			}
		}
	}
}

// end is one end of a strand for the router.
func (b *board) end(e place.End) route.End {
	if e.Splice >= 0 {
		return b.spliceEnd(e.Splice)
	}
	s := &b.d.Plan.Spots[e.Term]
	out := route.End{Kind: route.AtTerm, Term: e.Term, Part: s.Part, Over: s.Inside}
	switch {
	case s.InFan:
		out.Kind, out.Index = route.InFan, b.fan[s.Part]
	case s.InCase:
		out.Kind, out.Index, out.Over = route.InZone, b.zone[e.Term], true
	case b.d.Plan.Parts[s.Part].Sleeve():
		out.Tips, out.Over = tipsOf(&b.d.Plan.Parts[s.Part]), true
	default:
		out.Tips = []route.Tip{{At: s.At, Exits: route.Dirs(s.Exits), Lead: s.Kind == "lead"}}
		if s.Inside && s.Kind == "lug" {
			out.Tips[0].Dear = route.All
		}
	}
	return out
}

// tipsOf are the places at which wires enter a sleeve.
func tipsOf(p *place.Part) []route.Tip {
	var out []route.Tip
	for _, t := range p.Tips {
		out = append(out, route.Tip{At: t.At, Exits: route.Dirs(t.Exits)})
	}
	return out
}

// spliceEnd is a sleeve: wires enter it at both ends.
func (b *board) spliceEnd(splice int) route.End {
	for i := range b.d.Plan.Parts {
		p := &b.d.Plan.Parts[i]
		if p.Splice != splice || p.Use >= 0 {
			continue
		}
		return route.End{Kind: route.AtTerm, Term: len(b.d.Graph.Terms) + splice, Part: i, Over: true, Tips: tipsOf(p)}
	}
	return route.End{Kind: route.Nowhere}
}

// leastPair is how far apart the ends of a pair are at least for its twist to
// be drawn, mm.
const leastPair = 14

// twisted reports whether a strand is drawn around the one that it pairs with.
func (d *Drawing) twisted(s *place.Strand) bool {
	if s.Pair < 0 {
		return false
	}
	first := &d.Plan.Strands[s.Pair]
	a, b := d.Plan.Spots[first.A.Term].At, d.Plan.Spots[first.B.Term].At
	return abs(a.X-b.X)+abs(a.Y-b.Y) >= leastPair
}

// tailWire adds the end of a screen, or of the second wire of a pair: from the
// cable to where it is soldered.
func (b *board) tailWire(i, core int, far bool, to place.End) {
	on, ok := b.wireOf[core]
	if !ok {
		return
	}
	w := route.Wire{A: route.End{Kind: route.OnWire, Index: on, Far: far, Part: -1}, B: b.end(to)}
	b.wires, b.strand, b.lead = append(b.wires, w), append(b.strand, i), append(b.lead, -1)
}

// freeLeads adds the leads of cables that are joined to nothing.
func (b *board) freeLeads() {
	joined := map[int]bool{}
	for _, s := range b.d.Plan.Strands {
		if s.Lead >= 0 {
			joined[s.Lead] = true
		}
	}
	for i := range b.d.Plan.Parts {
		p := &b.d.Plan.Parts[i]
		if p.Fan == nil {
			continue
		}
		for _, t := range p.Fan.Leads {
			if !joined[t] {
				w := route.Wire{A: route.End{Kind: route.InFan, Index: b.fan[i], Term: t, Part: i}, B: route.End{Kind: route.Nowhere, Part: -1}}
				b.wires, b.strand, b.lead = append(b.wires, w), append(b.strand, -1), append(b.lead, t)
			}
		}
	}
}

// marked reports whether a strand is drawn as ground marks.
func (d *Drawing) marked(strand int) bool {
	if d.Options.Grounds != AsMarks {
		return false
	}
	s := &d.Plan.Strands[strand]
	if s.Lead >= 0 || s.Core >= 0 || s.Wire.Twisted || s.A.Splice >= 0 || s.B.Splice >= 0 || s.Wire.Kind == loom.Screened {
		return false
	}
	a, b := &d.Plan.Spots[s.A.Term], &d.Plan.Spots[s.B.Term]
	return a.Part != b.Part && d.onGround(s.A.Term) && d.onGround(s.B.Term)
}
