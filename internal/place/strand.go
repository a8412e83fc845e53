package place

import (
	"loomwright/internal/loom"
	"loomwright/internal/wiring"
)

// End is one end of a strand: a terminal of the graph, or a splice.
type End struct {
	Term   int
	Splice int // −1: none
}

// Strand is one piece of wire as it is soldered. A run between two leads is two
// strands into one splice; a second run from a lead starts where that lead is
// soldered.
type Strand struct {
	Run  int // of the graph; −1: a lead that is not joined
	A, B End
	Lead int // terminal whose own lead it is; −1: wire from the reel
	Wire loom.Wire
	// Braid strands: the screen of Core's run, from its A or its B end (Far).
	Core int // strand; −1
	Far  bool
	// Pair is the earlier strand that this one is twisted around, end by end; −1.
	Pair int
}

// Splice is leads joined under a sleeve.
type Splice struct{ Leads []int }

type strands struct {
	g      *wiring.Graph
	out    []Strand
	splice []Splice
	of     map[int]int // splice of a lead
	where  map[int]End // where a lead is soldered
}

// strandsOf turns runs into pieces of wire.
func strandsOf(g *wiring.Graph) ([]Strand, []Splice) {
	s := &strands{g: g, of: map[int]int{}, where: map[int]End{}}
	s.findSplices()
	for i := range g.Runs {
		s.run(i)
	}
	s.pairTwisted()
	return s.out, s.splice
}

func (s *strands) lead(t int) bool { return s.g.Terms[t].Kind == "lead" }

// findSplices puts leads that runs join to one another into one splice.
func (s *strands) findSplices() {
	for _, r := range s.g.Runs {
		if !s.lead(r.A) || !s.lead(r.B) {
			continue
		}
		a, inA := s.of[r.A]
		b, inB := s.of[r.B]
		switch {
		case !inA && !inB:
			a = len(s.splice)
			s.splice = append(s.splice, Splice{[]int{r.A, r.B}})
			s.of[r.A], s.of[r.B] = a, a
		case !inA:
			s.join(b, r.A)
		case !inB:
			s.join(a, r.B)
		case a != b:
			for _, t := range s.splice[b].Leads {
				s.join(a, t)
			}
			s.splice[b].Leads = nil
		}
	}
	s.dropEmpty()
}

func (s *strands) join(splice, lead int) {
	s.of[lead] = splice
	s.splice[splice].Leads = append(s.splice[splice].Leads, lead)
}

func (s *strands) dropEmpty() {
	var kept []Splice
	for _, p := range s.splice {
		if len(p.Leads) > 0 {
			for _, t := range p.Leads {
				s.of[t] = len(kept)
			}
			kept = append(kept, p)
		}
	}
	s.splice = kept
}

func (s *strands) run(i int) {
	r := &s.g.Runs[i]
	if r.Wire.Kind == loom.Touching {
		return
	}
	a, b := r.A, r.B
	switch {
	case s.lead(a) && s.lead(b):
		s.intoSplice(i, a)
		s.intoSplice(i, b)
	case s.lead(a):
		s.fromLead(i, a, b)
	case s.lead(b):
		s.fromLead(i, b, a)
	default:
		s.add(Strand{Run: i, A: End{a, -1}, B: End{b, -1}, Lead: -1, Wire: r.Wire, Core: -1})
		s.braid(i)
	}
}

func (s *strands) add(x Strand) {
	x.Pair = -1
	s.out = append(s.out, x)
}

// pairTwisted pairs twisted wires between the same two parts, in file order.
func (s *strands) pairTwisted() {
	open := map[[2]int]int{}
	for i := range s.out {
		x := &s.out[i]
		if !x.Wire.Twisted || x.Lead >= 0 || x.Core >= 0 || x.A.Splice >= 0 || x.B.Splice >= 0 {
			continue
		}
		a, b := s.g.Terms[x.A.Term].Use, s.g.Terms[x.B.Term].Use
		key := [2]int{min(a, b), max(a, b)}
		first, found := open[key]
		if !found {
			open[key] = i
			continue
		}
		delete(open, key)
		x.Pair = first
		if a != s.g.Terms[s.out[first].A.Term].Use {
			x.A, x.B = x.B, x.A
		}
	}
}

func (s *strands) intoSplice(run, lead int) {
	if _, done := s.where[lead]; done {
		return
	}
	to := End{-1, s.of[lead]}
	s.where[lead] = to
	s.add(Strand{Run: run, A: End{lead, -1}, B: to, Lead: lead, Wire: s.g.Runs[run].Wire, Core: -1})
}

// fromLead solders a lead to a terminal; a lead that is in a splice, or
// soldered already, is reached by a wire from there.
func (s *strands) fromLead(run, lead, to int) {
	wire := s.g.Runs[run].Wire
	if at, inSplice := s.of[lead]; inSplice {
		s.intoSplice(run, lead)
		s.add(Strand{Run: run, A: End{-1, at}, B: End{to, -1}, Lead: -1, Wire: wire, Core: -1})
		return
	}
	if at, done := s.where[lead]; done {
		if at.Term != to {
			s.add(Strand{Run: run, A: at, B: End{to, -1}, Lead: -1, Wire: wire, Core: -1})
		}
		return
	}
	s.where[lead] = End{to, -1}
	s.add(Strand{Run: run, A: End{lead, -1}, B: End{to, -1}, Lead: lead, Wire: wire, Core: -1})
	s.braid(run)
}

// braid adds the ends of a screened run's screen, each at the end of the cable
// whose part it goes to.
func (s *strands) braid(run int) {
	r := &s.g.Runs[run]
	if r.Braid < 0 {
		return
	}
	core := len(s.out) - 1
	first := true
	for _, l := range s.g.Links {
		if l.Run != run || l.A != r.Braid {
			continue
		}
		far := !first
		near, there := s.g.Terms[s.out[core].A.Term].Use, s.g.Terms[s.out[core].B.Term].Use
		if u := s.g.Terms[l.B].Use; near != there && (u == near || u == there) {
			far = u == there
		}
		s.add(Strand{Run: run, A: End{l.B, -1}, B: End{-1, -1}, Lead: -1, Wire: loom.Wire{Kind: loom.Bare}, Core: core, Far: far})
		first = false
	}
}
