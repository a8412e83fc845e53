package meter

import (
	"sync"

	"loomwright/internal/diag"
	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Table says what every offered reading can show for every case: the whole loom
// and each thing that can be wrong with it. It is safe for concurrent use.
type Table struct {
	Graph    *wiring.Graph
	Options  Options
	Cases    []fault.Case // the first is the whole loom
	Harmless []fault.Harmless
	Asks     []Ask // offered, easiest first; no two tell the same
	columns  []Column
	index    map[string]int // place in Asks, by key
	models   []*models
	mu       sync.Mutex
	heard    map[hearing]Shown // what listening told, by ask and circuit
}

// Column is what one reading can show: Outcomes[Of[case]].
type Column struct {
	Of       []uint16
	Outcomes []Shown
}

// Shown is what a reading can show for a case.
func (c *Column) Shown(i int) Shown { return c.Outcomes[c.Of[i]] }

// hearing is an ask that is heard, and the number of a circuit.
type hearing struct {
	ask     string
	circuit int
}

// NewTable works out all readings of a loom. It is nil where that cannot be, for
// reasons in the list.
func NewTable(g *wiring.Graph, o Options) (*Table, diag.List) {
	o = o.with()
	g, list := known(g, o.Electrics)
	if g == nil {
		return nil, list
	}
	return newTable(g, o, fault.ListWith(g, o.Priors), Offered(g, o)), nil
}

// NewTableOf is NewTable for given faults and readings.
func NewTableOf(g *wiring.Graph, o Options, faults []fault.Fault, asks []Ask) (*Table, diag.List) {
	o = o.with()
	g, list := known(g, o.Electrics)
	if g == nil {
		return nil, list
	}
	return newTable(g, o, faults, asks), nil
}

func newTable(g *wiring.Graph, o Options, faults []fault.Fault, asks []Ask) *Table {
	t := &Table{Graph: g, Options: o, heard: map[hearing]Shown{}, index: map[string]int{}}
	sort := fault.Cases
	if o.Idle {
		sort = fault.CasesIdle
	}
	t.Cases, t.Harmless = sort(g, t.sane(faults))
	for i := range t.Cases {
		m, _ := newModels(t.Cases[i].Graph, o.Electrics)
		t.models = append(t.models, m)
	}
	t.fill(asks)
	return t
}

// sane leaves out faults that give a part a value beyond what any can have.
func (t *Table) sane(faults []fault.Fault) []fault.Fault {
	var out []fault.Fault
	for _, f := range faults {
		if _, ok := newModels(fault.Apply(t.Graph, f), t.Options.Electrics); ok {
			out = append(out, f)
		}
	}
	return out
}

// fill works out the columns state by state, so that each circuit is solved
// once, and keeps one ask of those that tell the same.
func (t *Table) fill(asks []Ask) {
	columns := make([]Column, len(asks))
	byState := map[state][]int{}
	var order []state
	for i := range asks {
		s := stateOf(t.Graph, &asks[i])
		if byState[s] == nil {
			order = append(order, s)
		}
		byState[s] = append(byState[s], i)
	}
	for _, s := range order {
		t.fillState(s, asks, byState[s], columns)
	}
	seen := map[string]bool{}
	for i := range asks {
		k := columns[i].key()
		if asks[i].Kind == Darkens || !seen[k] {
			seen[k] = asks[i].Kind != Darkens
			t.index[asks[i].Key(t.Graph)] = len(t.Asks)
			t.Asks, t.columns = append(t.Asks, asks[i]), append(t.columns, columns[i])
		}
	}
}

// key is the same for columns that tell the same of every case.
func (c *Column) key() string {
	out := make([]byte, 0, 2*len(c.Of)+24*len(c.Outcomes))
	for _, o := range c.Of {
		out = append(out, byte(o), byte(o>>8))
	}
	for _, o := range c.Outcomes {
		out = appendShown(out, o)
	}
	return string(out)
}

// fillState works out the columns of asks at one state.
func (t *Table) fillState(s state, asks []Ask, at []int, columns []Column) {
	builders := make([]columnBuilder, len(at))
	numbers := map[int][]uint16{} // outcome of each ask, by circuit
	for c := range t.Cases {
		circuit := t.Cases[c].Circuits[s.setting]
		row, ok := numbers[circuit]
		if !ok {
			row = t.row(c, asks, at, builders)
			numbers[circuit] = row
		}
		for k, i := range at {
			columns[i].Of = append(columns[i].Of, row[k])
		}
	}
	for k, i := range at {
		columns[i].Outcomes = builders[k].outcomes
	}
}

// row is what one case shows at one state.
func (t *Table) row(c int, asks []Ask, at []int, builders []columnBuilder) []uint16 {
	out := make([]uint16, len(at))
	solved := t.models[c].at(&asks[at[0]])
	for k, i := range at {
		var s Shown
		if asks[i].Kind != Darkens {
			s = t.models[c].shown(&asks[i], t.Options.Meter, solved)
		}
		out[k] = builders[k].number(s)
	}
	return out
}

// shown is what an ask can show, solved at its state already or not. What is
// heard is costly.
func (m *models) shown(a *Ask, meter *electrics.Meter, s *solved) Shown {
	if s == nil && (a.Kind == Ohms || a.Kind == Tap) {
		s = m.at(a)
	}
	switch a.Kind {
	case Ohms:
		return s.ohms(meter, a.A, a.B)
	case Tap:
		return Shown{May: s.tap(a.Coil, a.A, a.B)}
	case Compass:
		return Shown{May: m.compass(a.Coil)}
	case Farads:
		return m.farads(a.Cap)
	}
	return Shown{May: m.darkens(a)}
}

// columnBuilder numbers the outcomes of a column. Most cases show what the
// first one shows.
type columnBuilder struct {
	outcomes []Shown
	numbers  map[Shown]uint16
}

func (b *columnBuilder) number(s Shown) uint16 {
	for i := range min(len(b.outcomes), 4) {
		if b.outcomes[i] == s {
			return uint16(i)
		}
	}
	if n, ok := b.numbers[s]; ok {
		return n
	}
	if b.numbers == nil {
		b.numbers = map[Shown]uint16{}
	}
	n := uint16(len(b.outcomes))
	b.numbers[s] = n
	b.outcomes = append(b.outcomes, s)
	return n
}

// Column is what an offered reading can show. Those that are heard are worked
// out when first asked for, and only for some cases: use Shown for them.
func (t *Table) Column(ask int) *Column { return &t.columns[ask] }

// Shown is what any reading can show for a case.
func (t *Table) Shown(a *Ask, c int) Shown {
	if a.Kind != Darkens {
		return t.models[c].shown(a, t.Options.Meter, nil)
	}
	key := hearing{a.Key(t.Graph), t.Cases[c].Circuits[setting.Index(t.Graph, a.At)]}
	t.mu.Lock()
	defer t.mu.Unlock()
	s, ok := t.heard[key]
	if !ok {
		s = t.models[c].shown(a, t.Options.Meter, nil)
		t.heard[key] = s
	}
	return s
}

// Find returns the place of an ask in Asks, or −1.
func (t *Table) Find(a *Ask) int {
	if i, ok := t.index[a.Key(t.Graph)]; ok {
		return i
	}
	return -1
}

// Model is the electrical model of a case.
func (t *Table) Model(c int) *electrics.Model { return t.models[c].likely }

// Circuit is one loom, whole or not, by itself.
type Circuit struct {
	m *models
	o Options
}

// NewCircuit is a loom to take readings on; false when it has a value that no
// part can have.
func NewCircuit(g *wiring.Graph, o Options) (*Circuit, bool) {
	o = o.with()
	m, ok := newModels(g, o.Electrics)
	return &Circuit{m, o}, ok
}

// Shown is what a reading can show.
func (c *Circuit) Shown(a *Ask) Shown { return c.m.shown(a, c.o.Meter, nil) }
