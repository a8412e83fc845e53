package schematic

import (
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/loom"
	"loomwright/internal/scene"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// unit is the grid of the diagrams in mm; symbols and wires keep to it.
const unit = 2.5

// gp is a point of the grid.
type gp struct{ x, y int }

func (p gp) add(q gp) gp { return gp{p.x + q.x, p.y + q.y} }

func (p gp) mm() scene.Point { return scene.Pt(float64(p.x)*unit, float64(p.y)*unit) }

// The directions in which a wire leaves a pin.
var (
	right = gp{1, 0}
	down  = gp{0, 1}
	left  = gp{-1, 0}
	up    = gp{0, -1}
)

// pin is where a wire meets a symbol.
type pin struct {
	term int
	net  int
	at   gp // from the symbol's origin
	out  gp
}

// symbol is one element of a diagram. Its box, in grid points from the origin,
// holds its body and its words: no wire goes through it but to its pins.
type symbol struct {
	kind     kind
	use      int
	sw       int // of a pole: its switch in the graph
	knob     int // of a pot: its knob in the graph
	title    string
	lines    []string // under the title
	pins     []pin
	min, max gp
	origin   gp
	flipped  bool // left and right are swapped
	throws   []throw
	ends     [2]string // of a pot or a coil: words at its top and its bottom end
	dotTop   bool      // of a coil: its start is on top
	screened bool      // of a jack: the wire to its tip
	braided  bool      // of a jack: that screen is soldered to its sleeve
	column   int
}

// throw is one throw of a pole: its words and whether it is closed.
type throw struct {
	label  string
	closed bool
}

// textUnits is how many grid units a text takes.
func textUnits(s string, size float64, style scene.Style) int {
	return int(scene.TextWidth(s, size, style)/unit + 0.999)
}

// Sizes of words in mm.
const (
	titleSize = 2.5
	valueSize = 2.2
	pinSize   = 1.9
)

// wide is the widest of a symbol's words, in units.
func (s *symbol) wide() int {
	w := textUnits(s.title, titleSize, scene.Bold)
	for _, l := range s.lines {
		w = max(w, textUnits(l, valueSize, scene.Regular))
	}
	return w
}

// pinWords is a terminal as it is called at its part: "orange", "cw", "a.1".
func pinWords(g *wiring.Graph, term int) string {
	_, name, _ := strings.Cut(g.Terms[term].Name, ".")
	return name
}

// coil draws a coil upright.
func (n *netlist) coil(i int) *symbol {
	c := &n.g.Coils[i]
	s := &symbol{kind: coilSymbol, use: c.Use, title: strings.ReplaceAll(c.Name, ".", " "), dotTop: true}
	if c.Ohms.Known {
		s.lines = append(s.lines, units.FormatOhms(units.Round(c.Ohms.Typical, 3)))
	}
	s.ends = [2]string{lastWord(pinWords(n.g, c.Start)), lastWord(pinWords(n.g, c.Finish))}
	s.pins = []pin{{term: c.Start, out: up}, {term: c.Finish, at: gp{0, 5}, out: down}}
	ends := max(textUnits(s.ends[0], pinSize, scene.Regular), textUnits(s.ends[1], pinSize, scene.Regular))
	s.min, s.max = gp{-1 - s.wide(), 0}, gp{max(1, ends), 5}
	return s
}

// pot draws a track upright, full up on top, its wiper to the right.
func (n *netlist) pot(i int) *symbol {
	t := &n.g.Tracks[i]
	s := &symbol{kind: potSymbol, use: t.Use, knob: t.Knob, title: n.g.Loom.Uses[t.Use].Name}
	if len(n.g.Loom.Uses[t.Use].Part.Tracks) > 1 {
		s.title += " " + t.Name
	}
	if t.Value.Ohms.X > 0 {
		s.lines = append(s.lines, units.FormatOhms(t.Value.Ohms.X))
	}
	if t.Value.Taper != "" {
		s.lines = append(s.lines, string(t.Value.Taper))
	}
	s.ends = [2]string{lastWord(pinWords(n.g, t.CW)), lastWord(pinWords(n.g, t.CCW))}
	s.pins = []pin{{term: t.CW, out: up}, {term: t.CCW, at: gp{0, 6}, out: down}, {term: t.Wiper, at: gp{3, 3}, out: right}}
	s.min, s.max = gp{-1 - max(s.wide(), 2), 0}, gp{3, 6}
	return s
}

// lugWords is a lug's name without that of its pole, where it is a word.
func lugWords(g *wiring.Graph, term int) string {
	name := pinWords(g, term)
	last := lastWord(name)
	if _, err := strconv.Atoi(last); err == nil {
		return name
	}
	return last
}

func lastWord(name string) string { return name[strings.LastIndexByte(name, '.')+1:] }

// two draws a capacitor or a resistor upright.
func (n *netlist) two(k kind, e *wiring.Two) *symbol {
	s := &symbol{kind: k, use: e.Use, title: n.g.Loom.Uses[e.Use].Name}
	format, height := units.FormatFarads, 3
	if k == resistorSymbol {
		format, height = units.FormatOhms, 5
	}
	if e.Value.X > 0 {
		s.lines = []string{format(e.Value.X)}
	}
	s.pins = []pin{{term: e.A, out: up}, {term: e.B, at: gp{0, height}, out: down}}
	s.min, s.max = gp{-1, 0}, gp{1 + s.wide(), height}
	return s
}

// jack is the output: hot and ground.
func (n *netlist) jack() *symbol {
	g := n.g
	s := &symbol{kind: jackSymbol, use: g.Terms[g.Hot].Use, title: g.Loom.Uses[g.Terms[g.Hot].Use].Name}
	s.ends = [2]string{pinWords(g, g.Hot), pinWords(g, g.Ground)}
	s.pins = []pin{{term: g.Hot, out: left}, {term: g.Ground, at: gp{0, 4}, out: left}}
	s.screen(g)
	s.min, s.max = gp{0, -3}, gp{max(9, textUnits(s.title, titleSize, scene.Bold)), 5}
	return s
}

// screen notes whether the wire to a jack's tip is a screened one.
func (s *symbol) screen(g *wiring.Graph) {
	for i := range g.Runs {
		r := &g.Runs[i]
		if r.Wire.Kind != loom.Screened || r.A != g.Hot && r.B != g.Hot {
			continue
		}
		s.screened = true
		s.braided = r.Braid >= 0 && slices.ContainsFunc(g.Links, func(l wiring.Link) bool {
			return l.A == r.Braid && l.B == g.Ground || l.B == r.Braid && l.A == g.Ground
		})
	}
}

// pivot is twice the line about which a symbol is flipped.
func (s *symbol) pivot() int {
	switch s.kind {
	case poleSymbol:
		return s.pins[len(s.pins)-1].at.x
	case jackSymbol:
		return s.max.x
	}
	return 0
}

// at is the place of a pin in the diagram.
func (s *symbol) at(i int) gp {
	p := s.pins[i].at
	if s.flipped {
		p.x = s.pivot() - p.x
	}
	return p.add(s.origin)
}

// out is the direction in which a wire leaves a pin.
func (s *symbol) out(i int) gp {
	d := s.pins[i].out
	if s.flipped {
		d.x = -d.x
	}
	return d
}

// box is the symbol's box in the diagram.
func (s *symbol) box() (lo, hi gp) {
	lo, hi = s.min, s.max
	if s.flipped {
		lo.x, hi.x = s.pivot()-hi.x, s.pivot()-lo.x
	}
	return lo.add(s.origin), hi.add(s.origin)
}

// turn swaps top and bottom of a coil, a capacitor or a resistor.
func (s *symbol) turn() {
	s.pins[0].term, s.pins[1].term = s.pins[1].term, s.pins[0].term
	s.pins[0].net, s.pins[1].net = s.pins[1].net, s.pins[0].net
	s.ends[0], s.ends[1] = s.ends[1], s.ends[0]
	s.dotTop = !s.dotTop
}
