package synthesis

import (
	"slices"

	"loomwright/internal/part"
)

// puzzle is what is searched: which nodes are to be soldered together so that
// every setting sounds as wished. A node is one piece of metal: a terminal, or
// several that are joined already.
type puzzle struct {
	nodes    []node
	elements []element
	switches []selector
	always   [][]int // groups of nodes that are joined in every setting (a volume at 10)
	ports    []port
	loads    []load
	settings []setpoint
	wishes   []wish
	fixed    bool // the common polarity may not be turned over
	hanging  bool // a silent coil may touch the sound with one end
	held     bool // a track holds hot to ground: it never hangs in the air
	limited  bool // no net may be crowded
	byShape  bool // encode every sound by its structure
}

// The first two nodes are hot and ground.
const (
	hot    = 0
	ground = 1
)

// node is one piece of metal.
type node struct {
	role    role
	several bool  // lugs of switches joined already: it carries even when nothing more is soldered to it
	sealed  bool  // nothing can be soldered to it
	alone   bool  // one terminal
	parts   []int // parts of the loom with switches that have a terminal in it
	lugs    int   // lugs and pads in it
	spare   int   // wires that those lugs can still take; −1: any number (a case)
}

// role orders the nodes: ports first, then commons, then throws.
type role int

const (
	portNode role = iota
	commonNode
	throwNode
)

// element is a coil, or a part that the sound goes through. A coil's a is its
// start.
type element struct {
	name string
	a, b int
	sign int // winding × pole; a part has 0: either way round
	hum  int // winding; 0 unknown

	part   bool // a capacitor or a resistor, no coil
	either bool // it may lie either way round: a part, or a pickup searched elsewhere
}

// selector is one switch.
type selector struct {
	positions int
	closed    [][][]int // position → groups of nodes
	poles     []pole
	travel    part.Travel
	around    bool
	plain     bool // every node of it is a single lug that may move
}

// pole is one pole as the rules see it.
type pole struct {
	common  int
	throws  []int
	when    [][]int // throw → positions in which it is closed
	regular bool    // every group of the pole holds the common
	table   string  // equal tables are equal texts
}

// port is a pickup's own pot between in and out. The pickup's hot end must be
// at in, and with the pot cut nothing else may be there.
type port struct {
	in, out  int
	elements []int
}

// load is a tone that the switches hang on hot while a pickup is heard, and
// leave alone while it is not.
type load struct {
	node     int
	elements []int
}

// setpoint is one position of every switch, and what is asked of it.
type setpoint struct {
	at   []int
	wish int // or nothing, anything
}

// wish is a sound to be heard.
type wish struct {
	tree   *tree // nil: silent
	open   bool  // silent without shorting hot
	source int   // sound of the loom
	humOf  bool  // hum is to cancel, which some of its ways may do
	never  bool  // hum is to cancel, and in this phase it cannot
	free   bool  // phase is free
}

// tree is a sound in the puzzle's elements.
type tree struct {
	series  bool
	element int // of a leaf
	sign    int // of a leaf: ±1 as wished
	kids    []*tree
}

func (t *tree) leaf() bool { return len(t.kids) == 0 }

// elements lists the elements of a sound.
func (t *tree) elements() []int {
	if t == nil {
		return nil
	}
	if t.leaf() {
		return []int{t.element}
	}
	var out []int
	for _, k := range t.kids {
		out = append(out, k.elements()...)
	}
	return out
}

// leaves visits the leaves of a sound.
func (t *tree) leaves(visit func(*tree)) {
	if t.leaf() {
		visit(t)
	}
	for _, k := range t.kids {
		k.leaves(visit)
	}
}

// contacts returns the groups of nodes that are closed in a setting.
func (p *puzzle) contacts(at []int) [][]int {
	var out [][]int
	for i, s := range p.switches {
		out = append(out, s.closed[at[i]]...)
	}
	return append(out, p.always...)
}

// coilNodes lists hot, ground and the ends of all elements.
func (p *puzzle) coilNodes() []int {
	out := []int{hot, ground}
	for _, x := range p.elements {
		for _, n := range []int{x.a, x.b} {
			if !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
	}
	return out
}

// lugNodes lists the nodes that belong to switches and are no ports.
func (p *puzzle) lugNodes() []int {
	var out []int
	for i, n := range p.nodes {
		if n.role != portNode {
			out = append(out, i)
		}
	}
	return out
}

// movable reports whether a node is one lug that a solution may leave alone.
func (p *puzzle) movable(n int) bool {
	return p.nodes[n].role != portNode && !p.nodes[n].several
}

// mates returns, for every node, the nodes it can meet through contacts.
func (p *puzzle) mates() [][]int {
	out := make([][]int, len(p.nodes))
	add := func(groups [][]int) {
		for _, group := range joined(groups) {
			for _, x := range group {
				for _, y := range group {
					if x != y && !slices.Contains(out[x], y) {
						out[x] = append(out[x], y)
					}
				}
			}
		}
	}
	for _, s := range p.switches {
		for _, groups := range s.closed {
			add(groups)
		}
	}
	add(p.always)
	return out
}

// joined merges groups that share a node.
func joined(groups [][]int) [][]int {
	var out [][]int
	for _, g := range groups {
		merged := slices.Clone(g)
		out = slices.DeleteFunc(out, func(o []int) bool {
			meets := slices.ContainsFunc(o, func(x int) bool { return slices.Contains(merged, x) })
			if meets {
				merged = append(merged, o...)
			}
			return meets
		})
		slices.Sort(merged)
		out = append(out, slices.Compact(merged))
	}
	return out
}
