package schematic

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/part"
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
	title    string
	lines    []string // under the title
	pins     []pin
	min, max gp
	origin   gp
	flipped  bool // left and right are swapped
	throws   []throw
	ends     [2]string // of a pot or a coil: words at its top and its bottom end
	dotTop   bool      // of a coil: its start is on top
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
	s := &symbol{kind: potSymbol, use: t.Use, title: n.g.Loom.Uses[t.Use].Name}
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
	s.min, s.max = gp{0, -3}, gp{max(9, textUnits(s.title, titleSize, scene.Bold)), 5}
	return s
}

// poles draws the poles of a switch: each as one common with its throws, or as
// single contacts where it has no common.
func (n *netlist) poles(sw, at int) {
	s := &n.g.Switches[sw]
	for i, contacts := range s.Contacts {
		name := s.Name
		if len(s.Contacts) > 1 {
			name += " " + n.poleName(s, i)
		}
		for _, p := range split(contacts) {
			n.add(n.pole(s, name, p, at))
		}
	}
}

func (n *netlist) poleName(s *wiring.Switch, i int) string {
	for k := range n.g.Loom.Uses[s.Use].Part.Switches {
		ps := &n.g.Loom.Uses[s.Use].Part.Switches[k]
		if len(ps.Poles) == len(s.Contacts) && samePositions(ps.Positions, s.Positions) {
			return ps.Poles[i].Name
		}
	}
	return strconv.Itoa(i + 1)
}

func samePositions(a, b []part.Position) bool { return slices.Equal(a, b) }

// fan is a common with its throws: closed[throw] lists the positions in which
// the two meet.
type fan struct {
	common int
	throws []int
	closed [][]int
}

// split makes fans of a pole's contact table: one around a terminal that is in
// every group, else one for each pair that meets.
func split(contacts [][][]int) []fan {
	var terms []int
	for _, groups := range contacts {
		for _, g := range groups {
			for _, t := range g {
				if !slices.Contains(terms, t) {
					terms = append(terms, t)
				}
			}
		}
	}
	for _, common := range terms {
		if inEvery(common, contacts) {
			return []fan{around(common, terms, contacts)}
		}
	}
	return pairs(contacts)
}

func inEvery(term int, contacts [][][]int) bool {
	for _, groups := range contacts {
		for _, g := range groups {
			if !slices.Contains(g, term) {
				return false
			}
		}
	}
	return true
}

func around(common int, terms []int, contacts [][][]int) fan {
	f := fan{common: common}
	for _, t := range terms {
		if t == common {
			continue
		}
		f.throws = append(f.throws, t)
		f.closed = append(f.closed, meetings(common, t, contacts))
	}
	return f
}

func meetings(a, b int, contacts [][][]int) []int {
	var out []int
	for pos, groups := range contacts {
		for _, g := range groups {
			if slices.Contains(g, a) && slices.Contains(g, b) {
				out = append(out, pos)
				break
			}
		}
	}
	return out
}

// pairs makes a contact of each two neighbours in a group.
func pairs(contacts [][][]int) []fan {
	var out []fan
	seen := map[[2]int]bool{}
	for _, groups := range contacts {
		for _, g := range groups {
			for i := 1; i < len(g); i++ {
				pair := [2]int{min(g[i-1], g[i]), max(g[i-1], g[i])}
				if !seen[pair] {
					seen[pair] = true
					out = append(out, fan{pair[0], []int{pair[1]}, [][]int{meetings(pair[0], pair[1], contacts)}})
				}
			}
		}
	}
	return out
}

// pole draws a fan: throws on the left, the common on the right.
func (n *netlist) pole(sw *wiring.Switch, name string, f fan, at int) *symbol {
	s := &symbol{kind: poleSymbol, use: sw.Use, title: name}
	wide := 0
	for i, t := range f.throws {
		label := lugWords(n.g, t) + positionsText(f.closed[i], len(sw.Positions))
		s.throws = append(s.throws, throw{label, slices.Contains(f.closed[i], at)})
		wide = max(wide, textUnits(label, pinSize, scene.Regular))
	}
	stub := max(2, wide, textUnits(name, titleSize, scene.Bold)-6)
	height := 2 * (len(f.throws) - 1)
	for i, t := range f.throws {
		s.pins = append(s.pins, pin{term: t, at: gp{0, 2 * i}, out: left})
	}
	width := stub + 6
	s.pins = append(s.pins, pin{term: f.common, at: gp{width, height / 2}, out: right})
	s.min, s.max = gp{0, -3}, gp{width, height + 1}
	return s
}

// positionsText lists the positions in which a throw meets its common, counted
// from 1.
func positionsText(closed []int, all int) string {
	if len(closed) == 0 || all < 2 {
		return ""
	}
	nums := make([]string, len(closed))
	for i, p := range closed {
		nums[i] = fmt.Sprint(p + 1)
	}
	return " (" + strings.Join(nums, " ") + ")"
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
