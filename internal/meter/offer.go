package meter

import (
	"slices"

	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Access is where probes can go.
type Access string

// The accesses: the jack, the strings and covers, with the guitar closed; every
// terminal, with the cavity open.
const (
	Outside Access = "outside"
	Open    Access = "cavity open"
)

// Options say what readings are offered and how they are taken. The zero value
// is an open cavity, an ordinary meter and all kinds of reading.
type Options struct {
	Access    Access
	Meter     *electrics.Meter // nil: electrics.Plain
	Electrics electrics.Options
	Priors    map[fault.Kind]float64 // nil: fault.Priors
	Without   []Kind                 // kinds of reading not to offer
	NoMidTurn bool                   // offer no reading with a knob at 5
	JackOnly  bool                   // outside: not the strings, nor covers
	Idle      bool                   // faults that lead nowhere count too
}

func (o Options) with() Options {
	if o.Access == "" {
		o.Access = Open
	}
	if o.Meter == nil {
		m := electrics.Plain()
		o.Meter = &m
	}
	if o.Priors == nil {
		o.Priors = fault.Priors()
	}
	return o
}

// offer collects the readings that can be taken, easiest first: at the jack,
// then inside, then with an iron.
type offer struct {
	g     *wiring.Graph
	o     Options
	m     *models // of the whole loom
	asks  []Ask
	seen  map[string]bool
	wired []bool
}

// Offered lists the readings that can be taken on a loom; none where a Table
// cannot be made either.
func Offered(g *wiring.Graph, o Options) []Ask {
	g, list := known(g, o.with().Electrics)
	if list.HasErrors() {
		return nil
	}
	m, _ := newModels(g, o.with().Electrics)
	f := &offer{g: g, o: o.with(), m: m, seen: map[string]bool{}, wired: wired(g)}
	f.jack()
	f.metal()
	f.knobs()
	f.tones()
	f.compasses()
	if f.o.Access == Open {
		f.inside()
		f.capacitors()
	}
	return f.asks
}

// wired marks the terminals that a run is soldered to.
func wired(g *wiring.Graph) []bool {
	out := make([]bool, len(g.Terms))
	for _, l := range g.Links {
		if l.Run >= 0 {
			out[l.A], out[l.B] = true, true
		}
	}
	return out
}

func (f *offer) add(a Ask) {
	if slices.Contains(f.o.Without, a.Kind) {
		return
	}
	if k := a.Key(f.g); !f.seen[k] {
		f.seen[k] = true
		f.asks = append(f.asks, a)
	}
}

func (f *offer) ask(k Kind, at []int, turn setting.Turn) Ask {
	return Ask{Kind: k, At: at, Turn: turn, A: -1, B: -1, Coil: -1, Knob: -1, Cap: -1}
}

func (f *offer) ohms(at []int, turn setting.Turn, a, b int) {
	if a == b || f.g.Terms[a].Use < 0 || f.g.Terms[b].Use < 0 {
		return // the same, or inside a part
	}
	ask := f.ask(Ohms, at, turn)
	ask.A, ask.B = a, b
	f.add(ask)
}

// hasJack reports whether the output is wired: a half-built loom's may not be.
func (f *offer) hasJack() bool {
	return f.g.Hot >= 0 && f.wired[f.g.Hot] && f.wired[f.g.Ground]
}

// jack: tip to sleeve in every setting, and the coils that move the meter there.
func (f *offer) jack() {
	if !f.hasJack() {
		return
	}
	full := setting.FullUp(f.g)
	for s := range setting.All(f.g) {
		f.ohms(s.At, full, f.g.Hot, f.g.Ground)
	}
	for s := range setting.All(f.g) {
		f.taps(s.At, full, f.g.Hot, f.g.Ground)
	}
}

// taps offers every coil that moves the meter between two terminals of the
// whole loom, and one that must not.
func (f *offer) taps(at []int, turn setting.Turn, a, b int) {
	ask := f.ask(Tap, at, turn)
	ask.A, ask.B = a, b
	s := f.m.at(&ask)
	for i := range f.g.Coils {
		if s.tap(i, a, b)&Still == 0 {
			ask.Coil = i
			f.add(ask)
		}
	}
}

// metal: what can be touched from outside and belongs on ground.
func (f *offer) metal() {
	if !f.hasJack() || f.o.JackOnly {
		return
	}
	for _, t := range f.g.Grounds {
		if u := f.g.Terms[t].Use; u >= 0 && f.touchable(t) {
			f.ohms(setting.Nth(f.g, 0).At, setting.FullUp(f.g), t, f.g.Ground)
		}
	}
}

// touchable metal is the strings, a pickup's cover, a plate of the guitar.
func (f *offer) touchable(t int) bool {
	term := f.g.Terms[t]
	use := &f.g.Loom.Uses[term.Use]
	switch {
	case term.Terminal < 0:
		return false
	case use.Part.Class == "ground":
		return f.wired[t] || f.o.Access == Open
	}
	return use.Part.Terminals[term.Terminal].Name == "cover"
}

// knobs: the jack with each knob at 0 and at 5, in settings where that matters
// on the whole loom; a knob that never does, in the first.
func (f *offer) knobs() {
	if !f.hasJack() {
		return
	}
	full := setting.FullUp(f.g)
	for k := range f.g.Knobs {
		at := f.matters(k, full)
		if len(at) == 0 {
			at = []setting.Setting{setting.Nth(f.g, 0)}
		}
		for _, s := range at {
			for _, mark := range f.marks(k) {
				f.ohms(s.At, full.With(k, mark), f.g.Hot, f.g.Ground)
			}
		}
	}
}

// marks are the turns of a knob worth a reading besides the usual one.
func (f *offer) marks(k int) []float64 {
	marks := []float64{0}
	if !f.o.NoMidTurn {
		marks = append(marks, 0.5)
	}
	if setting.FullUp(f.g)[k] == 0.5 {
		marks = []float64{0, 1}
	}
	return marks
}

// matters finds the first and the last setting in which a knob at 0 changes the
// reading at the jack.
func (f *offer) matters(k int, full setting.Turn) []setting.Setting {
	var out []setting.Setting
	for s := range setting.All(f.g) {
		ask := f.ask(Ohms, s.At, full)
		up := f.m.at(&ask).ohms(f.o.Meter, f.g.Hot, f.g.Ground)
		ask.Turn = full.With(k, 0)
		if down := f.m.at(&ask).ohms(f.o.Meter, f.g.Hot, f.g.Ground); !up.Fits(down) {
			out = append(out, s)
		}
	}
	if len(out) > 2 {
		return []setting.Setting{out[0], out[len(out)-1]}
	}
	return out
}

// tones: knobs that darken the sound of the whole loom, in the first setting
// where each does.
func (f *offer) tones() {
	if !f.hasJack() || slices.Contains(f.o.Without, Darkens) || len(f.g.Coils) == 0 {
		return
	}
	full := setting.FullUp(f.g)
	for k := range f.g.Knobs {
		for s := range setting.All(f.g) {
			ask := f.ask(Darkens, s.At, full)
			ask.Knob = k
			if f.m.darkens(&ask) == Darker {
				f.add(ask)
				break
			}
		}
	}
}

func (f *offer) compasses() {
	for i := range f.g.Coils {
		if f.g.Coils[i].Pole != 0 && f.wired[f.g.Coils[i].Start] {
			ask := f.ask(Compass, setting.Nth(f.g, 0).At, setting.FullUp(f.g))
			ask.Coil = i
			f.add(ask)
		}
	}
}

func (f *offer) capacitors() {
	for i := range f.g.Caps {
		if c := &f.g.Caps[i]; f.wired[c.A] || f.wired[c.B] {
			ask := f.ask(Farads, setting.Nth(f.g, 0).At, setting.FullUp(f.g))
			ask.Cap = i
			f.add(ask)
		}
	}
}
