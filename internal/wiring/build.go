package wiring

import (
	"fmt"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/units"
)

// Build makes the graph of a whole loom.
func Build(l *loom.Loom) (*Graph, diag.List) { return Half(l, nil) }

// Half makes the graph of a loom in which only some runs are soldered:
// soldered(i) tells of run i, counted in file order; nil is all of them. Runs
// that are not soldered keep their index and join nothing.
func Half(l *loom.Loom, soldered func(run int) bool) (*Graph, diag.List) {
	g := &Graph{Loom: l, Hot: -1, Ground: -1}
	for u := range l.Uses {
		g.terms(u)
	}
	var list diag.List
	for u := range l.Uses {
		g.elements(u)
		g.output(u, &list)
	}
	for j := range l.Joins {
		g.join(j, soldered)
	}
	if g.Hot < 0 {
		list.Add(diag.Diagnostic{Code: "output-missing", Severity: diag.Error, Span: lastUse(l),
			Message: "the loom has no output: add a jack, or output tails", Hint: "jack: {is: jack/mono}"})
	}
	return g, list
}

// terms adds a use's terminals, and its leads of unknown end.
func (g *Graph) terms(u int) {
	use := &g.Loom.Uses[u]
	g.first = append(g.first, len(g.Terms))
	g.leads = append(g.leads, map[string]int{})
	for i, t := range use.Part.Terminals {
		g.Terms = append(g.Terms, Term{Name: use.Name + "." + t.Name, Use: u, Terminal: i, Kind: t.Kind})
	}
	for _, lead := range use.Leads {
		g.lead(u, lead)
	}
}

// lead renames the terminal that a lead is, ties the ends of a tied one, and
// adds a terminal for one of unknown end.
func (g *Graph) lead(u int, lead loom.Lead) {
	name := g.Loom.Uses[u].Name + "." + lead.Name
	if len(lead.Ends) == 0 {
		at := len(g.Terms)
		g.Terms = append(g.Terms, Term{Name: name, Use: u, Terminal: -1, Kind: "lead"})
		g.leads[u][lead.Name] = at
		g.Unknown = append(g.Unknown, Unknown{Term: at, May: g.all(u, lead.May)})
		return
	}
	at := g.Term(u, lead.Ends[0])
	g.leads[u][lead.Name] = at
	if t := &g.Terms[at]; t.Other == "" {
		t.Name, t.Other = name, t.Name
	}
	for _, end := range lead.Ends[1:] {
		g.Links = append(g.Links, Link{at, g.Term(u, end), -1})
	}
	if len(lead.May) > 0 {
		g.Unknown = append(g.Unknown, Unknown{Term: at, May: g.all(u, lead.May)})
	}
}

// all turns terminals of a use into terminals of the graph.
func (g *Graph) all(u int, terminals []int) []int {
	out := make([]int, len(terminals))
	for i, t := range terminals {
		out[i] = g.Term(u, t)
	}
	return out
}

// tie links a group of terminals of a use inside the part.
func (g *Graph) tie(u int, group []int) {
	for i := 1; i < len(group); i++ {
		g.Links = append(g.Links, Link{g.Term(u, group[0]), g.Term(u, group[i]), -1})
	}
}

// elements adds what a use has between its terminals.
func (g *Graph) elements(u int) {
	use := &g.Loom.Uses[u]
	p := use.Part
	for _, group := range p.Ties {
		g.tie(u, group)
	}
	for _, group := range use.Inside {
		g.tie(u, group)
	}
	firstCoil := len(g.Coils)
	for _, c := range p.Coils {
		g.Coils = append(g.Coils, Coil{Coil: c, Name: loom.CoilName(use.Name, p, c.Name), Use: u,
			Start: g.Term(u, c.Start), Finish: g.Term(u, c.Finish)})
	}
	for _, c := range p.Couplings {
		g.Couplings = append(g.Couplings, Coupling{firstCoil + c.A, firstCoil + c.B, c.K})
	}
	for _, c := range p.Capacitors {
		g.Caps = append(g.Caps, Two{c, u, g.Term(u, c.A), g.Term(u, c.B)})
	}
	for _, c := range p.Resistors {
		g.Resistors = append(g.Resistors, Two{c, u, g.Term(u, c.A), g.Term(u, c.B)})
	}
	g.tracks(u)
	g.switches(u)
	g.Grounds = append(g.Grounds, g.all(u, p.Grounds)...)
}

func (g *Graph) tracks(u int) {
	use := &g.Loom.Uses[u]
	knobs := map[string]int{}
	for _, k := range use.Part.Knobs() {
		name := use.Name
		if k != "" {
			name = fmt.Sprintf("%s.%s", use.Name, k)
		}
		knobs[k] = len(g.Knobs)
		g.Knobs = append(g.Knobs, Knob{name, u})
	}
	for _, t := range use.Part.Tracks {
		cut := 1.0
		if g.Loom.EndsSwapped {
			t, cut = mirrored(t), 0
		}
		g.Tracks = append(g.Tracks, Track{Track: t, Use: u, CW: g.Term(u, t.CW), Wiper: g.Term(u, t.Wiper),
			CCW: g.Term(u, t.CCW), Knob: knobs[t.Knob], Cut: cut})
	}
}

// mirrored is a track that is turned the other way round: what it does at 10 it
// did at 0.
func mirrored(t part.Track) part.Track {
	t.CW, t.CCW = t.CCW, t.CW
	switch t.Law {
	case part.FirstHalf:
		t.Law = part.SecondHalf
	case part.SecondHalf:
		t.Law = part.FirstHalf
	}
	switch t.Value.Taper {
	case units.Audio:
		t.Value.Taper = units.ReverseAudio
	case units.ReverseAudio:
		t.Value.Taper = units.Audio
	}
	t.Table = slices.Clone(t.Table)
	slices.Reverse(t.Table)
	for i := range t.Table {
		t.Table[i] = 1 - t.Table[i]
	}
	return t
}

func (g *Graph) switches(u int) {
	use := &g.Loom.Uses[u]
	for i := range use.Part.Switches {
		s := &use.Part.Switches[i]
		out := Switch{Name: loom.SwitchName(use, s), Use: u, Positions: s.Positions, Travel: s.Travel,
			Skew: s.Skew, Around: s.Around, Proved: s.Proved}
		for _, p := range s.Poles {
			table := make([][][]int, len(p.Contacts))
			for pos, groups := range p.Contacts {
				for _, group := range groups {
					table[pos] = append(table[pos], g.all(u, group))
				}
			}
			out.Contacts = append(out.Contacts, table)
		}
		g.Switches = append(g.Switches, out)
	}
}

func (g *Graph) output(u int, list *diag.List) {
	use := &g.Loom.Uses[u]
	if use.Part.Output == nil {
		return
	}
	if g.Hot >= 0 {
		list.Add(diag.Diagnostic{Code: "output-twice", Severity: diag.Error, Span: use.Span,
			Message: fmt.Sprintf("%s is a second output: one loom is proved with one output", use.Name)})
		return
	}
	g.Hot, g.Ground = g.Term(u, use.Part.Output.Hot), g.Term(u, use.Part.Output.Ground)
}

func (g *Graph) join(j int, soldered func(int) bool) {
	for _, r := range g.Loom.Joins[j].Runs {
		i := len(g.Runs)
		run := Run{A: g.Ref(r.A), B: g.Ref(r.B), Join: j, Wire: r.Wire, Braid: -1, Span: r.A.Span}
		run.Span.End = r.B.Span.End
		done := soldered == nil || soldered(i)
		if done {
			g.Links = append(g.Links, Link{run.A, run.B, i})
		}
		if r.Wire.Kind == loom.Screened {
			run.Braid = g.braid(i, r.Braid, done)
		}
		g.Runs = append(g.Runs, run)
	}
}

// braid adds the screen of a run as a terminal of its own, soldered at one end
// or at both.
func (g *Graph) braid(run int, b *loom.Braid, done bool) int {
	at := len(g.Terms)
	g.Terms = append(g.Terms, Term{Name: fmt.Sprintf("the braid of run %d", run+1), Use: -1, Terminal: -1, Kind: "braid"})
	g.Grounds = append(g.Grounds, at)
	if b == nil || !done {
		return at
	}
	g.Links = append(g.Links, Link{at, g.Ref(b.A), run})
	if b.B != nil {
		g.Links = append(g.Links, Link{at, g.Ref(*b.B), run})
	}
	return at
}

// lastUse is where the last part is named: where another would be added.
func lastUse(l *loom.Loom) diag.Span {
	if n := len(l.Uses); n > 0 {
		return l.Uses[n-1].Span
	}
	return l.Doc.Text.Span(1, 1, 1)
}
