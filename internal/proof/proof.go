// Package proof says, for every setting of a loom, what is heard at its output
// and what is wrong: from the graph alone, by search and reduction, with no
// code shared with the search for a wiring.
package proof

import (
	"sync"

	"loomwright/internal/diag"
	"loomwright/internal/setting"
	"loomwright/internal/sound"
	"loomwright/internal/wiring"
)

// Output is the state of the output in one setting.
type Output string

// The states. Held: no coil, but a pot's track or a resistor holds hot to
// ground. Open: hot hangs in the air.
const (
	Sounding Output = "sounding"
	Shorted  Output = "shorted"
	Held     Output = "held"
	Open     Output = "open"
)

// Verdict answers a question about phase or hum.
type Verdict string

// The verdicts.
const (
	InPhase    Verdict = "in phase"
	OutOfPhase Verdict = "out of phase"
	OneCoil    Verdict = "one coil"
	Cancels    Verdict = "cancels"
	Partly     Verdict = "partly"
	Adds       Verdict = "adds"
	CannotTell Verdict = "cannot tell"
	Nothing    Verdict = ""
)

// Row is one setting proved.
type Row struct {
	Setting  setting.Setting `json:"-"`
	Name     string          `json:"name"`
	Output   Output          `json:"output"`
	Sound    sound.Expr      `json:"sound"`
	Heard    string          `json:"heard"`            // the sound in words, coil by coil
	Short    string          `json:"short"`            // the same, whole pickups by their names
	Unsure   bool            `json:"unsure,omitempty"` // depends on leads that nobody has told apart; Sound, coil states and LiveRuns are then one of several, Knobs what holds in all
	Phase    Verdict         `json:"phase"`
	Hum      Verdict         `json:"hum"`
	Off      []string        `json:"off,omitempty"`      // coils that are not heard and quiet
	Shorted  []string        `json:"shorted,omitempty"`  // coils with both ends on one net
	Hanging  []string        `json:"hanging,omitempty"`  // coils hanging on hot: aerials
	Knobs    []KnobAct       `json:"knobs,omitempty"`    // knobs that act
	Travel   []Passage       `json:"travel,omitempty"`   // to each neighbouring setting
	Wanted   *Wanted         `json:"wanted,omitempty"`   // nil: nothing is asked of this setting
	LiveRuns []int           `json:"liveRuns,omitempty"` // runs that carry the sound, in file order from 0
}

// Wanted is what the loom file asks of a setting, and whether it holds.
type Wanted struct {
	Sound  string `json:"sound"`
	Met    Answer `json:"met"`
	Why    string `json:"why,omitempty"`
	expr   sound.Expr
	sound  int // index in the loom's sounds
	flip   int // +1 as wanted, −1 upside down, 0 no sign to tell
	silent bool
	hums   bool // the sound is met and its hum is not
}

// Answer is yes, no or cannot tell.
type Answer string

// The answers.
const (
	Yes    Answer = "yes"
	No     Answer = "no"
	Unsure Answer = "cannot tell"
)

// Report is a loom proved.
type Report struct {
	Rows     []Row     `json:"rows"`
	Findings diag.List `json:"findings"`
}

// prover holds what all settings share.
type prover struct {
	g           *wiring.Graph
	base        *setting.Base
	full        setting.Turn
	rows        []Row
	networks    []*network    // one per row, all knobs up
	pickups     []sound.Named // whole pickups of several coils, for short names
	readings    [][][2]int    // what the unknown leads can be; at least one, perhaps empty
	leads       [][2]int      // the one that networks are drawn with: the first, if nobody says otherwise
	allReadings bool
	grounds     []grounded // what groundStates has found

	// Storage for networks that nobody keeps.
	spare  [2]network
	search search
	edges  []edge
	pairs  [][2]int
	turn   setting.Turn
	list   diag.List
}

// Begun is a proof of which the rows are there; what is wrong is looked for when
// somebody asks.
type Begun struct {
	Rows []Row
	find func() diag.List
}

// Findings are what is wrong, sorted; they include what the loom's wanted sounds
// miss. They are looked for once.
func (b Begun) Findings() diag.List {
	if b.find == nil {
		return nil
	}
	return b.find()
}

// Begin walks a loom through all its settings.
func Begin(g *wiring.Graph) Begun {
	if g.Hot < 0 {
		return Begun{}
	}
	if refused, ok := tooMany(g); !ok {
		return Begun{find: func() diag.List { return refused }}
	}
	p := newProver(g)
	p.walk()
	p.want()
	return Begun{Rows: p.rows, find: sync.OnceValue(func() diag.List {
		if len(g.Runs) == 0 {
			return p.unwired()
		}
		p.find()
		return p.list.Sorted()
	})}
}

// Prove is Begin and Findings in one.
func Prove(g *wiring.Graph) Report {
	b := Begin(g)
	return Report{Rows: b.Rows, Findings: b.Findings()}
}

func newProver(g *wiring.Graph) *prover {
	readings, all := wiring.Readings(g)
	return &prover{g: g, base: setting.NewBase(g), full: setting.FullUp(g), readings: readings, leads: readings[0], allReadings: all, pickups: pickupsOf(g)}
}

// pickupsOf lists the pickups whose full sound is more than one coil.
func pickupsOf(g *wiring.Graph) []sound.Named {
	var out []sound.Named
	for i := range g.Loom.Uses {
		if u := &g.Loom.Uses[i]; len(u.Part.Coils) > 1 {
			out = append(out, sound.Named{Name: u.Name, Full: g.Loom.FullSound(u.Name)})
		}
	}
	return out
}

// up is the network of a setting with all knobs up.
func (p *prover) up(s setting.Setting) *network {
	return p.draw(new(network), p.base.Contacts(s.At), p.full, p.leads)
}

// moved is up with one knob moved, in storage that the next call with the same
// number uses again.
func (p *prover) moved(s setting.Setting, knob int, turn float64, number int) *network {
	p.turn = append(p.turn[:0], p.full...)
	p.turn[knob] = turn
	return p.draw(&p.spare[number], p.base.Contacts(s.At), p.turn, p.leads)
}

// walk fills a row for every setting.
func (p *prover) walk() {
	for s := range setting.All(p.g) {
		n := p.up(s)
		p.networks = append(p.networks, n)
		p.rows = append(p.rows, p.row(s, n))
	}
	p.travel()
}

func (p *prover) row(s setting.Setting, n *network) Row {
	r := Row{Setting: s, Name: s.Name, Output: n.output(), Sound: n.heard()}
	r.Heard, r.Short = r.Sound.String(), r.Sound.Collapse(p.pickups).Canon().String()
	r.Phase, r.Hum = phase(r.Sound), n.hum()
	if p.dependsOnLeads(s, r.Heard) {
		r.Unsure, r.Heard, r.Phase, r.Hum = true, "depends on which lead is which", CannotTell, CannotTell
		r.Short = r.Heard
	}
	p.coilStates(&r, n)
	if r.Unsure {
		r.Knobs = p.surely(s)
	} else {
		r.Knobs = p.knobs(s, n)
	}
	r.LiveRuns = p.liveRuns(s, n)
	return r
}

// coilStates sorts the coils that are not heard.
func (p *prover) coilStates(r *Row, n *network) {
	live, hanging := n.liveCoils(), n.hanging()
	for i := range p.g.Coils {
		c := &p.g.Coils[i]
		switch {
		case live[i]:
		case n.nets.Of[c.Start] == n.nets.Of[c.Finish]:
			r.Shorted = append(r.Shorted, c.Name)
		case hanging[i]:
			r.Hanging = append(r.Hanging, c.Name)
		default:
			r.Off = append(r.Off, c.Name)
		}
	}
}

// liveRuns lists the soldered runs on the way of the sound: those on a simple
// path from hot to ground through heard coils and what is in their way.
func (p *prover) liveRuns(s setting.Setting, n *network) []int {
	if n.output() != Sounding {
		return nil
	}
	var edges []edge
	var run []int
	add := func(a, b, r int) {
		edges = append(edges, edge{a, b})
		run = append(run, r)
	}
	for _, l := range p.g.Links {
		add(l.A, l.B, l.Run)
	}
	for group := range p.base.Contacts(s.At) {
		for _, t := range group[1:] {
			add(group[0], t, -1)
		}
	}
	for _, e := range append(setting.Ends(p.g, p.full), p.readings[0]...) {
		add(e[0], e[1], -1)
	}
	p.pathElements(n, add)
	add(p.g.Hot, p.g.Ground, -1)
	var out []int
	seen := map[int]bool{}
	for i, in := range blockOf(len(p.g.Terms), edges, len(edges)-1) {
		if in && run[i] >= 0 && !seen[run[i]] {
			seen[run[i]] = true
			out = append(out, run[i])
		}
	}
	return out
}

// pathElements adds the heard coils and the parts in their way, by terminals.
func (p *prover) pathElements(n *network, add func(a, b, run int)) {
	for _, e := range n.way() {
		switch e.kind {
		case coil:
			add(p.g.Coils[e.index].Start, p.g.Coils[e.index].Finish, -1)
		case capacitor:
			add(p.g.Caps[e.index].A, p.g.Caps[e.index].B, -1)
		case resistor:
			add(p.g.Resistors[e.index].A, p.g.Resistors[e.index].B, -1)
		case track:
			add(p.g.Tracks[e.index].CW, p.g.Tracks[e.index].Wiper, -1)
			add(p.g.Tracks[e.index].Wiper, p.g.Tracks[e.index].CCW, -1)
		}
	}
}
