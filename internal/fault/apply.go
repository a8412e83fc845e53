package fault

import (
	"slices"

	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Apply returns the graph with a fault in it; the healthy graph is not changed.
// Terminals keep their index; what is inside a fault (the loose end of an open
// joint) comes after them.
func Apply(g *wiring.Graph, f Fault) *wiring.Graph {
	out := *g
	do[f.Kind](&out, f)
	return &out
}

// ApplyAll applies several faults one after the other.
func ApplyAll(g *wiring.Graph, faults ...Fault) *wiring.Graph {
	for _, f := range faults {
		g = Apply(g, f)
	}
	return g
}

// do changes a shallow copy of a graph; each function clones what it changes.
var do = map[Kind]func(*wiring.Graph, Fault){
	JointOpen: func(g *wiring.Graph, f Fault) { cutEnd(g, f, loose(g, "the open joint")) },
	JointResistive: func(g *wiring.Graph, f Fault) {
		end := loose(g, "the bad joint")
		cutEnd(g, f, end)
		resistor(g, end, f.Term, "the bad joint")
	},
	WireMissing:    dropRun,
	NoStringGround: dropRun,
	Bridge:         func(g *wiring.Graph, f Fault) { link(g, f.Term, f.To) },
	LeadToMetal:    func(g *wiring.Graph, f Fault) { link(g, f.Term, f.To) },
	LeadsSwapped:   swapEnds,
	WiresSwapped:   swapEnds,
	JackSwapped:    func(g *wiring.Graph, f Fault) { exchange(g, g.Hot, g.Ground) },
	WireNextDoor: func(g *wiring.Graph, f Fault) {
		editCore(g, f.Run, func(l wiring.Link) wiring.Link { return replace(l, f.Term, f.To) })
	},
	PotEndsSwapped: func(g *wiring.Graph, f Fault) { exchange(g, g.Tracks[f.Track].CW, g.Tracks[f.Track].CCW) },
	CoilOpen: func(g *wiring.Graph, f Fault) {
		end := loose(g, "the break inside "+g.Coils[f.Coil].Name)
		coil(g, f, func(c *wiring.Coil) { c.Finish = end })
	},
	CoilShorted: func(g *wiring.Graph, f Fault) { coil(g, f, shortTurns) },
	CoilReversed: func(g *wiring.Graph, f Fault) {
		coil(g, f, func(c *wiring.Coil) { c.Start, c.Finish = c.Finish, c.Start })
	},
	MagnetReversed: func(g *wiring.Graph, f Fault) { coil(g, f, func(c *wiring.Coil) { c.Pole = -c.Pole }) },
	TrackOpen: func(g *wiring.Graph, f Fault) {
		end := loose(g, "the break in a track")
		track(g, f, func(t *wiring.Track) {
			if f.AtCW {
				t.CW = end
			} else {
				t.CCW = end
			}
		})
	},
	WiperOpen: func(g *wiring.Graph, f Fault) {
		end := loose(g, "the lifted wiper")
		track(g, f, func(t *wiring.Track) { t.Wiper = end })
	},
	TrackWrong: func(g *wiring.Graph, f Fault) {
		track(g, f, func(t *wiring.Track) { t.Value.Ohms.X *= f.Factor; t.Value.Ohms.Text = "" })
	},
	TaperWrong:     func(g *wiring.Graph, f Fault) { track(g, f, otherTaper) },
	CapacitorShort: func(g *wiring.Graph, f Fault) { link(g, g.Caps[f.Cap].A, g.Caps[f.Cap].B) },
	CapacitorOpen: func(g *wiring.Graph, f Fault) {
		end := loose(g, "the break in a capacitor")
		capacitor(g, f, func(c *wiring.Two) { c.B = end })
	},
	CapacitorWrong: func(g *wiring.Graph, f Fault) {
		capacitor(g, f, func(c *wiring.Two) { c.Value.X *= f.Factor; c.Value.Text = "" })
	},
	ContactOpen:  func(g *wiring.Graph, f Fault) { contact(g, f, -1) },
	ContactBad:   badContact,
	SwitchUpside: upsideDown,
}

// loose adds a terminal that touches nothing.
func loose(g *wiring.Graph, name string) int {
	g.Terms = append(slices.Clip(g.Terms), wiring.Term{Name: name, Use: -1, Terminal: -1, Kind: "inside"})
	return len(g.Terms) - 1
}

func link(g *wiring.Graph, a, b int) {
	g.Links = append(slices.Clip(g.Links), wiring.Link{A: a, B: b, Run: -1})
}

// coil, track and capacitor edit one element.
func coil(g *wiring.Graph, f Fault, edit func(*wiring.Coil)) {
	g.Coils = slices.Clone(g.Coils)
	edit(&g.Coils[f.Coil])
}

func track(g *wiring.Graph, f Fault, edit func(*wiring.Track)) {
	g.Tracks = slices.Clone(g.Tracks)
	edit(&g.Tracks[f.Track])
}

func capacitor(g *wiring.Graph, f Fault, edit func(*wiring.Two)) {
	g.Caps = slices.Clone(g.Caps)
	edit(&g.Caps[f.Cap])
}

// A bad joint or contact has from 1 kΩ, which begins to be heard, to 220 kΩ
// (judgement, no source).
const (
	badOhms = 15e3
	badLow  = 1e3
	badHigh = 220e3
)

func resistor(g *wiring.Graph, a, b int, name string) {
	r := wiring.Two{Use: -1, A: a, B: b}
	r.Name = name
	r.Value.X, r.Value.TolLow, r.Value.Tol = badOhms, 1-badLow/badOhms, badHigh/badOhms-1
	g.Resistors = append(slices.Clip(g.Resistors), r)
}

// Shorted turns leave from half to four fifths of a coil's ohms (judgement),
// and of inductance about the square of that.
const (
	shortedLow, shorted, shortedHigh = 0.5, 0.65, 0.8
)

func shortTurns(c *wiring.Coil) {
	c.Ohms = scaled(c.Ohms, shortedLow, shorted, shortedHigh)
	c.Henries = scaled(c.Henries, shortedLow*shortedLow, shorted*shorted, shortedHigh*shortedHigh)
}

func scaled(r part.Range, lo, typical, hi float64) part.Range {
	if r.Lo == 0 && r.Hi == 0 {
		r.Lo, r.Hi = r.Typical, r.Typical
	}
	return part.Range{Typical: r.Typical * typical, Lo: r.Lo * lo, Hi: r.Hi * hi, Known: r.Known}
}

// otherTaper puts a linear track for an audio one, and an audio one for a
// linear one.
func otherTaper(t *wiring.Track) {
	t.Value.Half, t.Table = 0, nil
	if t.Value.Taper == units.Linear {
		t.Value.Taper = units.Audio
	} else {
		t.Value.Taper = units.Linear
	}
}

// upsideDown turns the order of a switch's positions round.
func upsideDown(g *wiring.Graph, f Fault) {
	g.Switches = slices.Clone(g.Switches)
	s := &g.Switches[f.Switch]
	s.Contacts = slices.Clone(s.Contacts)
	for i, pole := range s.Contacts {
		turned := slices.Clone(pole)
		slices.Reverse(turned)
		s.Contacts[i] = turned
	}
}

// badContact puts a resistance between a throw and what it meets.
func badContact(g *wiring.Graph, f Fault) {
	end := loose(g, "the bad contact")
	contact(g, f, end)
	resistor(g, end, f.Term, "the bad contact")
}

// contact takes a terminal out of all groups of a pole; another takes its place
// unless it is −1.
func contact(g *wiring.Graph, f Fault, instead int) {
	g.Switches = slices.Clone(g.Switches)
	s := &g.Switches[f.Switch]
	s.Contacts = slices.Clone(s.Contacts)
	s.Contacts[f.Pole] = slices.Clone(s.Contacts[f.Pole])
	for at, groups := range s.Contacts[f.Pole] {
		out := make([][]int, len(groups))
		for i, group := range groups {
			out[i] = without(group, f.Term, instead)
		}
		s.Contacts[f.Pole][at] = out
	}
}

func without(group []int, term, instead int) []int {
	var out []int
	for _, t := range group {
		switch {
		case t != term:
			out = append(out, t)
		case instead >= 0:
			out = append(out, instead)
		}
	}
	if len(out) == 0 {
		return group[:1] // a group of one joins nothing
	}
	return out
}

// BadAt returns a graph whose bad joints and contacts have the least (end 0) or
// the most (end 1) that they can have; false where it has none.
func BadAt(g *wiring.Graph, end float64) (*wiring.Graph, bool) {
	out := *g
	out.Resistors = slices.Clone(g.Resistors)
	found := false
	for i := range out.Resistors {
		if r := &out.Resistors[i]; r.Use < 0 {
			r.Value.X, r.Value.TolLow, r.Value.Tol = badLow+end*(badHigh-badLow), 0, 1e-9
			found = true
		}
	}
	return &out, found
}
