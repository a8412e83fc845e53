package electrics

// islands are nets that hang together other than through ground.
type islands struct {
	ground  int
	forest  []int
	used    []bool // an element ends at the net
	earthed []bool // of a net: an element goes from it to ground
	counts  []bool // of a root: it matters to the output
}

func newIslands(nets, ground int) *islands {
	n := &islands{ground: ground, forest: make([]int, nets), used: make([]bool, nets), earthed: make([]bool, nets), counts: make([]bool, nets)}
	for i := range n.forest {
		n.forest[i] = i
	}
	return n
}

// join tells of an element between two nets.
func (n *islands) join(a, b int) {
	if a == b {
		return
	}
	n.used[a], n.used[b] = true, true
	switch n.ground {
	case a:
		n.earthed[b] = true
	case b:
		n.earthed[a] = true
	default:
		unite(n.forest, a, b)
	}
}

// count marks the island of a net; ground is none.
func (n *islands) count(net int) {
	if net != n.ground {
		n.counts[root(n.forest, net)] = true
	}
}

// touches reports whether one of the coils ends in an island that counts.
func (n *islands) touches(coils []int, ends [][2]int) bool {
	for _, k := range coils {
		for _, net := range ends[k] {
			if net != n.ground && n.counts[root(n.forest, net)] {
				return true
			}
		}
	}
	return false
}

// number gives nodes to the nets of the islands that count, −1 to ground, to all
// other nets, and to one net of each island that nothing ties to ground.
func (n *islands) number() []int {
	tied := make([]bool, len(n.forest)) // of a root
	for i, e := range n.earthed {
		if e {
			tied[root(n.forest, i)] = true
		}
	}
	out := make([]int, len(n.forest))
	nodes := 0
	for i := range out {
		out[i] = -1
		r := root(n.forest, i)
		switch {
		case i == n.ground || !n.used[i] || !n.counts[r]:
		case !tied[r]:
			tied[r] = true
		default:
			out[i] = nodes
			nodes++
		}
	}
	return out
}
