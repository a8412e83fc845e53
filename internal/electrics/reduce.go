package electrics

// edge is a network between two nets while series and parallel ones are being
// put together.
type edge struct {
	a, b int
	net  lump
}

// reduce puts the resistors between two nets together into one network of
// series and parallel parts; it reports false when they are a mesh. Parts that
// hardly matter to the reading are left out.
func (d *DC) reduce(a, b int) (lump, bool) {
	var edges []edge
	for i := range d.parts {
		r := &d.parts[i]
		n := lump{name: r.label(d.m.tracks), ohms: r.ohms.Typical, track: -1}
		if r.track >= 0 {
			n.track = r.track
		}
		edges = append(edges, edge{r.a, r.b, n})
	}
	for again := true; again; {
		edges, again = d.parallel(edges)
		for net := range d.nets.Count {
			if net == a || net == b {
				continue
			}
			var changed bool
			edges, changed = d.series(edges, net)
			again = again || changed
		}
	}
	var found []lump
	for _, e := range edges {
		if e.a == a && e.b == b || e.a == b && e.b == a {
			found = append(found, e.net)
		} else if d.reaches(e.a, a) {
			return lump{}, false
		}
	}
	if len(found) != 1 {
		return lump{}, false
	}
	return trim(found[0], 1), true
}

// reaches reports whether direct current gets from one net to another.
func (d *DC) reaches(from, to int) bool {
	return from == to || d.node[from] >= 0 && d.node[to] >= 0 && d.at(nominal).Ohms(d.node[from], d.node[to]) < 1e18
}

// parallel puts edges between the same two nets together, and drops loops.
func (d *DC) parallel(edges []edge) ([]edge, bool) {
	at := map[[2]int]int{}
	var out []edge
	for _, e := range edges {
		if e.a == e.b {
			continue
		}
		key := [2]int{min(e.a, e.b), max(e.a, e.b)}
		if i, ok := at[key]; ok {
			out[i].net = beside(out[i].net, e.net)
			continue
		}
		at[key] = len(out)
		out = append(out, e)
	}
	return out, len(out) != len(edges)
}

func beside(x, y lump) lump {
	out := lump{ohms: x.ohms * y.ohms / max(x.ohms+y.ohms, tinyOhms), track: -1}
	for _, n := range []lump{x, y} {
		if len(n.kids) > 0 && !n.row {
			out.kids = append(out.kids, n.kids...)
		} else {
			out.kids = append(out.kids, n)
		}
	}
	return out
}

// series joins the two edges that meet at a net where nothing else does, and
// drops an edge that ends there.
func (d *DC) series(edges []edge, at int) ([]edge, bool) {
	var here []int
	for i, e := range edges {
		if e.a == at || e.b == at {
			here = append(here, i)
		}
	}
	if len(here) == 0 || len(here) > 2 {
		return edges, false
	}
	if len(here) == 1 {
		return append(edges[:here[0]:here[0]], edges[here[0]+1:]...), true
	}
	x, y := edges[here[0]], edges[here[1]]
	joined := edge{x.a + x.b - at, y.a + y.b - at, d.inRow(x.net, y.net)}
	out := append(edges[:here[1]:here[1]], edges[here[1]+1:]...)
	out[here[0]] = joined
	return out, true
}

// inRow puts two networks in series; the two halves of a track are a track.
func (d *DC) inRow(x, y lump) lump {
	if x.track >= 0 && x.track == y.track {
		return lump{name: d.m.tracks[x.track].name + " track", ohms: x.ohms + y.ohms, track: -1}
	}
	out := lump{ohms: x.ohms + y.ohms, track: -1, row: true}
	for _, n := range []lump{x, y} {
		if n.row {
			out.kids = append(out.kids, n.kids...)
		} else {
			out.kids = append(out.kids, n)
		}
	}
	return out
}

// trim leaves out what hardly matters: in a row the small, side by side the
// large. share is what the network has of the whole.
func trim(n lump, share float64) lump {
	if len(n.kids) == 0 {
		return n
	}
	out := n
	out.kids = nil
	for _, k := range n.kids {
		part := share * k.ohms / max(n.ohms, tinyOhms)
		if !n.row {
			part = share * n.ohms / max(k.ohms, tinyOhms)
		}
		if part >= leastShare {
			out.kids = append(out.kids, trim(k, part))
		}
	}
	if len(out.kids) == 1 {
		return out.kids[0]
	}
	return out
}
