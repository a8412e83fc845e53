package schematic

import (
	"cmp"
	"slices"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// kind of a symbol.
type kind int

const (
	coilSymbol kind = iota
	poleSymbol
	potSymbol
	capacitorSymbol
	resistorSymbol
	jackSymbol
)

// netlist is what a diagram shows: symbols, each pin on a net.
type netlist struct {
	g       *wiring.Graph
	nets    setting.Nets
	symbols []*symbol
	hot     int   // net
	ground  int   // net
	far     []int // per net: symbols between it and hot
	unused  []string
}

// whole lists the symbols of a loom, switches as contacts standing at a setting.
func whole(g *wiring.Graph, at []int) *netlist {
	n := &netlist{g: g, nets: setting.NewBase(g).NetsOf(nil)}
	n.elements()
	for i := range g.Switches {
		n.poles(i, at[i])
	}
	return n.finish()
}

// only lists the symbols of a setting, whose closed contacts are wire.
func only(g *wiring.Graph, at []int) *netlist {
	n := &netlist{g: g, nets: setting.NewBase(g).Nets(at)}
	n.elements()
	return n.finish()
}

func (n *netlist) elements() {
	for i := range n.g.Coils {
		n.add(n.coil(i))
	}
	for i := range n.g.Tracks {
		n.add(n.pot(i))
	}
	for i := range n.g.Caps {
		n.add(n.two(capacitorSymbol, &n.g.Caps[i]))
	}
	for i := range n.g.Resistors {
		n.add(n.two(resistorSymbol, &n.g.Resistors[i]))
	}
}

func (n *netlist) add(s *symbol) { n.symbols = append(n.symbols, s) }

// finish adds the output, gives every pin its net and drops what joins nothing.
func (n *netlist) finish() *netlist {
	n.hot, n.ground = n.nets.Of[n.g.Hot], n.nets.Of[n.g.Ground]
	n.add(n.jack())
	for _, s := range n.symbols {
		for i := range s.pins {
			s.pins[i].net = n.nets.Of[s.pins[i].term]
		}
	}
	n.dropUnused()
	n.orient()
	return n
}

// orient turns what is upright so that the end that is nearer to hot is on top,
// and puts the coils of a pickup in that order.
func (n *netlist) orient() {
	n.far = n.fromHot()
	for _, s := range n.symbols {
		if s.kind == coilSymbol || s.kind == capacitorSymbol || s.kind == resistorSymbol {
			if n.far[s.pins[0].net] > n.far[s.pins[1].net] {
				s.turn()
			}
		}
	}
	slices.SortStableFunc(n.symbols, func(a, b *symbol) int {
		if a.kind != coilSymbol || b.kind != coilSymbol {
			return cmp.Compare(a.kind, b.kind)
		}
		return cmp.Or(cmp.Compare(a.use, b.use), cmp.Compare(n.far[a.pins[0].net], n.far[b.pins[0].net]))
	})
	for i := 1; i < len(n.symbols); i++ {
		n.meet(n.symbols[i-1], n.symbols[i])
	}
}

// meet turns two coils of a pickup that share a net so that they meet there,
// unless one would then stand on hot with its ground up.
func (n *netlist) meet(a, b *symbol) {
	if a.kind != coilSymbol || b.kind != coilSymbol || a.use != b.use {
		return
	}
	for _, net := range []int{a.pins[0].net, a.pins[1].net} {
		if net == n.ground || !b.touches([]int{net}) {
			continue
		}
		if a.pins[1].net != net && a.pins[1].net != n.ground {
			a.turn()
		}
		if b.pins[0].net != net && b.pins[0].net != n.ground {
			b.turn()
		}
		return
	}
}

// fromHot is how many symbols lie between hot and each net; ground is far.
func (n *netlist) fromHot() []int {
	const unreached = 1 << 20
	far := make([]int, n.nets.Count)
	for i := range far {
		far[i] = unreached
	}
	far[n.ground], far[n.hot] = 2*unreached, 0
	todo := []int{n.hot}
	for len(todo) > 0 {
		net := todo[0]
		todo = todo[1:]
		for _, s := range n.symbols {
			if !slices.ContainsFunc(s.pins, func(p pin) bool { return p.net == net }) {
				continue
			}
			for _, p := range s.pins {
				if far[p.net] == unreached {
					far[p.net] = far[net] + 1
					todo = append(todo, p.net)
				}
			}
		}
	}
	return far
}

// dropUnused leaves out symbols that reach nothing: unused poles and gangs.
func (n *netlist) dropUnused() {
	for {
		count := n.pinsOfNets()
		kept := n.symbols[:0:0]
		for _, s := range n.symbols {
			if s.kind == jackSymbol || s.reaches(n, count) {
				kept = append(kept, s)
			} else {
				n.unused = append(n.unused, s.title)
			}
		}
		if len(kept) == len(n.symbols) {
			return
		}
		n.symbols = kept
	}
}

// reaches reports whether a symbol has pins on two nets of which something else
// knows.
func (s *symbol) reaches(n *netlist, count map[int]int) bool {
	nets := map[int]bool{}
	own := map[int]int{}
	for _, p := range s.pins {
		own[p.net]++
	}
	for _, p := range s.pins {
		if p.net == n.ground || count[p.net] > own[p.net] {
			nets[p.net] = true
		}
	}
	return len(nets) >= 2
}

func (n *netlist) pinsOfNets() map[int]int {
	count := map[int]int{}
	for _, s := range n.symbols {
		for _, p := range s.pins {
			count[p.net]++
		}
	}
	return count
}
