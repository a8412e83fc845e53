package route

import "fmt"

var Debug bool

func (r *router) debugConflicts() {
	if !Debug {
		return
	}
	for w := range r.wires {
		s := &r.state[w]
		if !s.routed {
			fmt.Println("unrouted", w, r.wires[w].A.Term, r.wires[w].B.Term, len(r.ports(w, &r.wires[w].A, false)), len(r.ports(w, &r.wires[w].B, true)))
			continue
		}
		r.put(w, -1)
		last := len(s.nodes) - 1
		for k := 0; k < last; k++ {
			d := r.heading(s.nodes[k], s.nodes[k+1])
			_, e, _, _ := r.grid.step(s.nodes[k], d)
			if r.crowd[e] > 0 {
				fmt.Println(w, "crowd", r.grid.at(s.nodes[k]), d, "use", r.use[e], k, last)
			}
			if k == 0 {
				continue
			}
			in, at := r.heading(s.nodes[k-1], s.nodes[k]), s.nodes[k]
			if in != d {
				if r.through[0][at]+r.through[1][at]+r.stops[at] > 0 {
					fmt.Println(w, "bend on node", r.grid.at(at))
				}
			} else if r.stops[at] > 0 {
				fmt.Println(w, "pass over stop", r.grid.at(at))
			}
		}
		for i, p := range []*port{&s.a, &s.b} {
			for _, e := range p.near {
				if r.use[e] > 0 {
					fmt.Println(w, "slant", *p.from)
				}
			}
			if p.joint && r.jointTaken(w, [2]*End{&r.wires[w].A, &r.wires[w].B}[i].Index, r.grid.at(p.node)) {
				fmt.Println(w, "joint", r.grid.at(p.node))
			}
			if p.alone && r.stops[p.node] > 0 {
				fmt.Println(w, "tip", r.grid.at(p.node))
			}
		}
		r.put(w, 1)
	}
}

func (r *router) debugZones() {
	if !Debug {
		return
	}
	for i, z := range r.zones {
		seen := map[int32]bool{}
		for _, p := range z {
			if !seen[p.node] {
				seen[p.node] = true
				c := r.board.Zones[i].Box.Center()
				fmt.Printf(" (%.1f %.1f)", r.grid.at(p.node).X-c.X, r.grid.at(p.node).Y-c.Y)
			}
		}
		fmt.Println(" zone", i, len(seen), r.board.Zones[i].Exits, len(r.board.Zones[i].Holes))
	}
}
