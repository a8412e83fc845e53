package diagnosis

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/meter"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Symptom is what a player notices. With and Knob narrow it down: a setting in
// words, the name of a knob or of a switch.
type Symptom struct {
	Kind string `json:"kind"`
	With string `json:"with,omitempty"`
	Knob string `json:"knob,omitempty"`
}

// symptom is one kind: its words, what narrows it down, and how likely it is to
// be noticed with a case.
type symptom struct {
	kind   string
	says   string
	about  string // "setting", "knob", "switch" or ""
	chance func(e *ear) float64
}

// Likelihoods of notice are judgements, no source: clear is for what the
// figures bear out, rare for what they do not.
const (
	clear = 0.9
	maybe = 0.4
	rare  = 0.02
	fuss  = 0.2 // how readily a right loom is complained of
)

// symptoms are all kinds, in the order of help.
var symptoms = []symptom{
	{"dead", "no sound", "setting", func(e *ear) float64 { return step(e.lost(), 10, 30) }},
	{"weak", "much weaker than it should be", "setting", func(e *ear) float64 {
		return min(step(e.lost(), 1, 4), 1.02-step(e.lost(), 25, 40))
	}},
	{"thin", "thin and hollow, no bass", "setting", func(e *ear) float64 { return step(e.bassLost(), 3, 8) }},
	{"muffled", "dark, no treble", "setting", func(e *ear) float64 { return step(e.trebleLost(), 1.5, 5) }},
	{"hums", "hums more than it should", "setting", func(e *ear) float64 { return max(step(e.humMore(), 2, 6), e.bareMetal()) }},
	{"buzz", "buzzes all the time", "", func(e *ear) float64 { return e.bareMetal() }},
	{"touch stops", "buzz that stops when the strings are touched", "", func(e *ear) float64 {
		return e.strings(0.6, rare, rare)
	}},
	{"touch worsens", "buzz that gets worse when the strings are touched", "", func(e *ear) float64 {
		return e.strings(rare, 0.3, clear)
	}},
	{"touch nothing", "touching the strings changes nothing about the buzz", "", func(e *ear) float64 {
		return e.strings(0.2, 0.7, rare)
	}},
	{"volume backwards", "a volume works backwards", "knob", func(e *ear) float64 { return step(e.turned(electricLevel), 3, 10) }},
	{"volume does nothing", "a volume does nothing", "knob", func(e *ear) float64 { return 1 - step(math.Abs(e.turned(electricLevel)), 1, 6) }},
	{"tone does nothing", "a tone does nothing", "knob", func(e *ear) float64 { return 1 - step(math.Abs(e.turned(electricBrightness)), 1, 5) }},
	{"crackle", "crackles when it is turned", "knob", func(e *ear) float64 { return e.kinds(crackles) }},
	{"pops", "pops when it is switched", "switch", func(e *ear) float64 { return e.kinds(popping) }},
	{"intermittent", "comes and goes", "", func(e *ear) float64 { return e.kinds(comesAndGoes) }},
}

// SymptomHelp lists the kinds of symptom with what each means and what may
// narrow it down.
func SymptomHelp() [][3]string {
	var out [][3]string
	for _, s := range symptoms {
		out = append(out, [3]string{s.kind, s.says, s.about})
	}
	return out
}

// ParseSymptom reads "thin: toggle middle", "crackle: volume", "buzz".
func ParseSymptom(g *wiring.Graph, text string) (Symptom, error) {
	kind, about, _ := strings.Cut(text, ":")
	s := Symptom{Kind: strings.TrimSpace(kind)}
	about = strings.TrimSpace(about)
	at := slices.IndexFunc(symptoms, func(k symptom) bool { return k.kind == s.Kind })
	if at < 0 {
		var names []string
		for _, k := range symptoms {
			names = append(names, k.kind)
		}
		return s, fmt.Errorf("no symptom is called %q: there is %s", s.Kind, strings.Join(names, ", "))
	}
	if symptoms[at].about == "setting" {
		s.With = about
	} else {
		s.Knob = about
	}
	_, err := newEar(g, s)
	return s, err
}

// ear is a symptom in the settings and at the knobs that it is about, with one
// case to judge.
type ear struct {
	s        Symptom
	settings []setting.Setting
	knobs    []int
	t        *meter.Table
	c        int
	known    map[heard]electrics.Row
}

// heard is a circuit with its knobs somewhere.
type heard struct {
	circuit int
	turn    string
}

func newEar(g *wiring.Graph, s Symptom) (*ear, error) {
	e := &ear{s: s}
	var err error
	if e.settings, err = setting.Match(g, s.With); err != nil {
		return nil, err
	}
	for i := range g.Knobs {
		if s.Knob == "" || g.Knobs[i].Name == s.Knob {
			e.knobs = append(e.knobs, i)
		}
	}
	known := s.Knob == "" || len(e.knobs) > 0 ||
		slices.ContainsFunc(g.Switches, func(w wiring.Switch) bool { return w.Name == s.Knob })
	if !known {
		return nil, fmt.Errorf("this loom has no knob or switch %q", s.Knob)
	}
	if s.With == "" && len(e.settings) > fewSettings {
		e.settings = e.settings[:fewSettings]
	}
	return e, nil
}

// fewSettings bounds the settings that a symptom of no stated one is heard in.
const fewSettings = 4

// feel takes a symptom into account.
func (b *belief) feel(s Symptom) error {
	at := slices.IndexFunc(symptoms, func(k symptom) bool { return k.kind == s.Kind })
	if at < 0 {
		return fmt.Errorf("no symptom is called %q", s.Kind)
	}
	e, err := newEar(b.t.Graph, s)
	if err != nil {
		return err
	}
	e.t, e.known = b.t, map[heard]electrics.Row{}
	for _, c := range b.left() {
		e.c = c
		b.p[c] *= min(max(symptoms[at].chance(e), rare), 1)
		if c == 0 {
			b.p[c] *= fuss
		}
	}
	b.normalise()
	return nil
}

// step is how likely something is noticed: rarely below lo, clearly above hi.
func step(x, lo, hi float64) float64 {
	switch {
	case x >= hi:
		return clear
	case x <= lo:
		return rare
	}
	return maybe
}

// rows are the figures of the case and of the whole loom in the settings meant.
func (e *ear) rows(turn setting.Turn) (whole, faulty []electrics.Row) {
	for _, s := range e.settings {
		whole = append(whole, e.row(0, s, turn))
		faulty = append(faulty, e.row(e.c, s, turn))
	}
	return whole, faulty
}

func (e *ear) row(c int, s setting.Setting, turn setting.Turn) electrics.Row {
	key := heard{e.t.Cases[c].Circuits[s.Index], fmt.Sprint(turn)}
	r, ok := e.known[key]
	if !ok {
		r = e.t.Model(c).Table([]setting.Setting{s}, turn, -1)[0]
		e.known[key] = r
	}
	return r
}

// most is the largest of a figure over the settings meant.
func (e *ear) most(figure func(whole, faulty *electrics.Row) float64) float64 {
	whole, faulty := e.rows(setting.FullUp(e.t.Graph))
	out := math.Inf(-1)
	for i := range whole {
		if whole[i].Output == electrics.Sounding {
			out = max(out, figure(&whole[i], &faulty[i]))
		}
	}
	return out
}

func (e *ear) lost() float64 {
	return e.most(func(w, f *electrics.Row) float64 { return w.Level - f.Level })
}

func (e *ear) bassLost() float64 {
	return e.most(func(w, f *electrics.Row) float64 {
		if f.Level < w.Level-25 {
			return 0 // that is silence
		}
		return w.Low - f.Low
	})
}

func (e *ear) trebleLost() float64 {
	return e.most(func(w, f *electrics.Row) float64 { return w.Brightness - f.Brightness })
}

func (e *ear) humMore() float64 {
	return e.most(func(w, f *electrics.Row) float64 {
		if f.Output == electrics.Open {
			return 20 // the cable picks it up
		}
		return f.Hum.Index - w.Hum.Index
	})
}

// turned is how much a figure grows as the knobs meant go from 10 to 0: the
// largest change over settings where the knob acts on the whole loom.
func (e *ear) turned(figure func(*electrics.Row) float64) float64 {
	full := setting.FullUp(e.t.Graph)
	_, up := e.rows(full)
	out := 0.0
	for _, k := range e.knobs {
		whole, down := e.rows(full.With(k, 0))
		wholeUp, _ := e.rows(full)
		for i := range up {
			acts := math.Abs(figure(&whole[i])-figure(&wholeUp[i])) > 3
			if d := figure(&down[i]) - figure(&up[i]); acts && math.Abs(d) > math.Abs(out) {
				out = d
			}
		}
	}
	return out
}

func electricLevel(r *electrics.Row) float64      { return r.Level }
func electricBrightness(r *electrics.Row) float64 { return r.Brightness }

// bareMetal is likely where metal that belongs on ground is not, or hot is on
// the sleeve.
func (e *ear) bareMetal() float64 {
	g := e.t.Cases[e.c].Graph
	nets := e.t.Model(e.c).Base().Nets(e.settings[0].At)
	for _, t := range g.Grounds {
		if nets.Of[t] != nets.Of[g.Ground] {
			return 0.7
		}
	}
	return rare
}

// strings chooses by where the strings are: on ground, on nothing, on hot.
func (e *ear) strings(ground, nothing, hot float64) float64 {
	g := e.t.Cases[e.c].Graph
	nets := e.t.Model(e.c).Base().Nets(e.settings[0].At)
	for t := range g.Terms {
		u := g.Terms[t].Use
		if u < 0 || g.Loom.Uses[u].Part.ID != "ground/string" {
			continue
		}
		switch nets.Of[t] {
		case nets.Of[g.Ground]:
			return ground
		case nets.Of[g.Hot]:
			return hot
		}
		return nothing
	}
	return nothing
}

// How likely kinds of fault are felt in some way (judgements).
var (
	crackles     = map[fault.Kind]float64{fault.WiperOpen: 0.7, fault.TrackOpen: 0.7, fault.JointResistive: 0.3, fault.JointOpen: 0.2}
	popping      = map[fault.Kind]float64{fault.ContactOpen: 0.5, fault.ContactBad: 0.6, fault.JointOpen: 0.3, fault.WireMissing: 0.3}
	comesAndGoes = map[fault.Kind]float64{fault.JointOpen: 0.6, fault.JointResistive: 0.7, fault.ContactOpen: 0.4, fault.ContactBad: 0.6,
		fault.WiperOpen: 0.4, fault.CoilOpen: 0.2, fault.LeadToMetal: 0.3}
)

// kinds is the mean over the case's faults, of those on the part that is meant.
func (e *ear) kinds(of map[fault.Kind]float64) float64 {
	sum, weight := 0.0, 0.0
	for i := range e.t.Cases[e.c].Faults {
		f := &e.t.Cases[e.c].Faults[i]
		x := of[f.Kind]
		if e.s.Knob != "" && !e.on(f) {
			x = rare
		}
		sum, weight = sum+f.Prior*x, weight+f.Prior
	}
	if weight == 0 {
		return rare
	}
	return sum / weight
}

// on reports whether a fault sits on what a symptom names: the lugs of a knob's
// tracks, or the contacts of a switch.
func (e *ear) on(f *fault.Fault) bool {
	g := e.t.Graph
	var of []int
	for i := range g.Tracks {
		if t := &g.Tracks[i]; e.s.Kind == "crackle" && g.Knobs[t.Knob].Name == e.s.Knob {
			of = append(of, t.CW, t.Wiper, t.CCW)
		}
	}
	for i := range g.Switches {
		for _, p := range meter.Contacts(&g.Switches[i]) {
			if e.s.Kind != "crackle" && g.Switches[i].Name == e.s.Knob {
				of = append(of, p[0], p[1])
			}
		}
	}
	terms, _ := f.Places(g)
	return slices.ContainsFunc(terms, func(t int) bool { return slices.Contains(of, t) })
}
