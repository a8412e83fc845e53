package meter

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loomwright/internal/electrics"
	"loomwright/internal/setting"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Line is a reading in words: what to do, and what a right loom shows.
type Line struct {
	Key       string   `json:"key"` // Parse reads it
	Kind      Kind     `json:"kind"`
	Setting   string   `json:"setting"`
	Knobs     []string `json:"knobs,omitempty"` // that do not stand at 10: "volume=0"
	Red       string   `json:"red,omitempty"`
	Black     string   `json:"black,omitempty"`
	RedTerm   int      `json:"redTerm"` // terminal of the graph, for a drawing; −1
	BlackTerm int      `json:"blackTerm"`
	Coil      string   `json:"coil,omitempty"`
	Do        string   `json:"do"`
	Range     string   `json:"range,omitempty"`   // of the meter
	Shows     string   `json:"shows"`             // likeliest display or answer
	Lo        string   `json:"lo,omitempty"`      // least and most that a right loom shows
	Hi        string   `json:"hi,omitempty"`      //
	Answers   []string `json:"answers,omitempty"` // to choose from, where it is no number
	RulesOut  []string `json:"rulesOut,omitempty"`
}

// Line puts a reading in words, for the whole loom.
func (t *Table) Line(a *Ask) Line {
	g := t.Graph
	l := Line{Key: a.Key(g), Kind: a.Kind, Setting: setting.Name(g, a.At), Knobs: a.knobs(g), RedTerm: -1, BlackTerm: -1}
	if a.Kind == Ohms || a.Kind == Tap {
		l.Red, l.Black, l.RedTerm, l.BlackTerm = g.Terms[a.A].Name, g.Terms[a.B].Name, a.A, a.B
	}
	if a.Coil >= 0 {
		l.Coil = g.Coils[a.Coil].Name
	}
	t.right(&l, a)
	l.Do = a.do(g, l.Range)
	return l
}

// right fills in what a right loom shows.
func (t *Table) right(l *Line, a *Ask) {
	switch a.Kind {
	case Ohms:
		t.rightOhms(l, a)
	case Farads:
		s := t.Shown(a, 0)
		l.Lo, l.Hi = units.FormatFarads(units.Round(s.Lo, 2)), units.FormatFarads(units.Round(s.Hi, 2))
		l.Shows = units.FormatFarads(t.Graph.Caps[a.Cap].Value.X)
	default:
		l.Answers = a.Kind.Answers().Words()
		l.Shows = strings.Join(t.Shown(a, 0).May.Words(), " or ")
	}
}

func (t *Table) rightOhms(l *Line, a *Ask) {
	r := t.models[0].likely.DC(a.At, a.Turn).Ohms(a.A, a.B)
	m := t.Options.Meter
	r.Hi += slack
	most := r.Hi + max(m.Leads.Hi, m.Leads.Typical)
	shown := m.ShowsOn(r, m.Fitting(most*1.02))
	l.Range, l.Shows, l.Lo, l.Hi = shown.Range, withUnit(shown.Digits, shown.Unit), withUnit(shown.Lo, shown.Unit), withUnit(shown.Hi, shown.Unit)
	if shown.Digits == m.Over {
		l.Range = rangeOf(m.Ranges[len(m.Ranges)-1])
	}
}

func withUnit(digits, unit string) string {
	return strings.TrimSpace(digits + " " + unit)
}

func rangeOf(r electrics.Range) string {
	return units.FormatOhms(math.Round((r.Full+r.Count)/r.Count) * r.Count)
}

// do says what to do.
func (a *Ask) do(g *wiring.Graph, on string) string {
	stand := a.stands(g)
	switch a.Kind {
	case Ohms:
		return fmt.Sprintf("%s %s Read ohms on the %s range.", stand, a.probesWords(g), on)
	case Tap:
		return fmt.Sprintf("%s %s With the meter on its lowest volts range, touch steel (a screwdriver's tip) to the poles of %s: "+
			"which way does it move as the steel touches, up, down, or nothing?", stand, a.probesWords(g), g.Coils[a.Coil].Name)
	case Darkens:
		return fmt.Sprintf("%s Plug in at low volume, strum, and turn %s from 10 to 0: does the sound get darker, stay the same, "+
			"does it go silent (silences), or was it silent before?", stand, g.Knobs[a.Knob].Name)
	case Farads:
		return fmt.Sprintf("Unplug the amplifier, unsolder one lead of %s, and read its capacitance.", capName(g, a.Cap))
	}
	return fmt.Sprintf("Hold a small compass over the poles of %s: the needle's north end goes to a south pole, its south end to a "+
		"north pole. Which pole does this coil show, north or south?", g.Coils[a.Coil].Name)
}

// stands says where switches and knobs stand.
func (a *Ask) stands(g *wiring.Graph) string {
	var words []string
	for i := range g.Switches {
		s := &g.Switches[i]
		if s.Proved >= 0 {
			continue
		}
		p := s.Positions[a.At[i]]
		w := s.Name + " " + p.Name
		if p.Words != "" {
			w += " (" + p.Words + ")"
		}
		words = append(words, w)
	}
	return upper(strings.Join(append(words, a.turned(g)...), ", ")) + "."
}

// turned says where the knobs stand: each that is turned by name, the rest by
// name where there is one, all in a word where there are more.
func (a *Ask) turned(g *wiring.Graph) []string {
	if len(g.Knobs) == 0 {
		return []string{"nothing to turn"}
	}
	full := setting.FullUp(g)
	var off, rest []string
	for i, k := range g.Knobs {
		switch at := a.Turn[i]; {
		case at != full[i] && !(a.Kind == Darkens && i == a.Knob):
			off = append(off, k.Name+" at "+mark(at))
		case full[i] != 1:
			off = append(off, k.Name+" in its middle")
		default:
			rest = append(rest, k.Name+" at 10")
		}
	}
	switch {
	case len(rest) > 1 && len(off) > 0:
		rest = []string{"the other knobs at 10"}
	case len(rest) > 1:
		rest = []string{"knobs at 10"}
	}
	return append(off, rest...)
}

// mark is a turn as the figures round a knob have it.
func mark(turn float64) string { return strconv.FormatFloat(10*turn, 'g', 4, 64) }

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (a *Ask) probesWords(g *wiring.Graph) string {
	if a.A == g.Hot && a.B == g.Ground {
		return "Plug a cable into the output: red probe on its tip, black on its sleeve."
	}
	return fmt.Sprintf("Red probe on %s, black on %s.", Where(g, a.A), Where(g, a.B))
}

// Where is a terminal in plain words: its name, and how to find it, with the
// view that the words belong to.
func Where(g *wiring.Graph, t int) string {
	term := g.Terms[t]
	if term.Use < 0 || term.Terminal < 0 {
		return term.Name
	}
	p := g.Loom.Uses[term.Use].Part.Terminals[term.Terminal]
	switch {
	case term.Kind == "lead":
		return "the bare end of " + term.Name
	case p.Words == "":
		return term.Name
	case p.View == "":
		return fmt.Sprintf("%s (%s)", term.Name, p.Words)
	}
	return fmt.Sprintf("%s (%s, seen from the %s)", term.Name, p.Words, p.View)
}

// Preparations are what comes before any reading (common practice, no source).
func Preparations(o Options) []string {
	o = o.with()
	return []string{
		"Unplug the guitar from the amplifier: an ohmmeter drives its own current, and an amplifier is mains equipment.",
		fmt.Sprintf("Hold the probes together: a meter with a zero key is zeroed now; else note the 0.2 to 0.5 Ω of the leads. %q is an open circuit.", o.Meter.Over),
		fmt.Sprintf("A range that is too small shows %q as well: turn to a larger one. Write OL when the largest shows no path either; "+
			"if you stop before that, write the range with it, as in OL on 20k.", o.Meter.Over),
		"Keep fingers off both probe tips: a hand is about a megohm.",
		"To read at the output, plug in an instrument cable and probe its free plug.",
	}
}
