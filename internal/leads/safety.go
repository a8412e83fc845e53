package leads

import "slices"

// safety asks what no lead's place hangs on but what would show damage or an
// unusual pickup: every coil's own ohms, that coils are apart from one another
// and from the shield, that the shield is one with the baseplate. It is asked
// once the leads are known, of sound pickups; of others, what is not yet known.
func (w *wizard) safety(guesses []guess, step *Step) bool {
	g := &guesses[0]
	for _, k := range w.checks(g) {
		if w.known(guesses, k.ask) || slices.Contains(w.s.Skip, k.key(&w.s.Pickup)) {
			continue
		}
		step.Question = w.question(k.ask, k.why, true)
		return true
	}
	return false
}

type check struct {
	ask
	why string
}

// known reports whether a question was answered in substance: it was asked
// itself, or between probes of the same metal.
func (w *wizard) known(guesses []guess, k ask) bool {
	if w.asked(k) {
		return true
	}
	for i := range guesses {
		g := &guesses[i]
		same := slices.ContainsFunc(w.answers, func(a answered) bool {
			return a.kind == ohms && (g.node[a.a] == g.node[k.a] && g.node[a.b] == g.node[k.b] || g.node[a.a] == g.node[k.b] && g.node[a.b] == g.node[k.a])
		})
		if !same {
			return false
		}
	}
	return true
}

// checks lists the safety readings for leads placed as a guess has them.
func (w *wizard) checks(g *guess) []check {
	var out []check
	first := make([]int, len(w.d.coils)) // a lead of each coil
	for i, c := range w.d.coils {
		up, down := w.lead(g, c.up), w.lead(g, c.down)
		first[i] = up
		if up < 0 {
			first[i] = down
		}
		if up >= 0 && down >= 0 {
			out = append(out, check{ask{kind: ohms, a: min(up, down), b: max(up, down)}, "the ohms of every coil belong in the notes, and coils of one pickup are alike"})
		}
	}
	for i, a := range first {
		for _, b := range first[i+1:] {
			if a >= 0 && b >= 0 && a != b && !w.together(g, a, b) {
				out = append(out, check{ask{kind: ohms, a: min(a, b), b: max(a, b)}, "two coils must be apart from one another"})
			}
		}
	}
	return append(out, w.shieldChecks(g, first)...)
}

func (w *wizard) shieldChecks(g *guess, first []int) []check {
	var out []check
	p := &w.s.Pickup
	shield := slices.Index(p.probes(), p.Bare)
	at := slices.Index(p.probes(), plate)
	if p.Bare == "" {
		shield = w.lead(g, w.d.shield())
	}
	if shield < 0 {
		shield = at // a lead may be its braid
	}
	if shield < 0 {
		return nil
	}
	seen := []int{}
	for _, a := range first {
		if a >= 0 && a != shield && !slices.Contains(seen, a) && !slices.ContainsFunc(seen, func(b int) bool { return w.together(g, a, b) }) {
			seen = append(seen, a)
			out = append(out, check{ask{kind: ohms, a: min(a, shield), b: max(a, shield)}, "shield and baseplate must be apart from every coil, or they are one with a coil end"})
		}
	}
	if at >= 0 && at != shield {
		out = append(out, check{ask{kind: ohms, a: shield, b: at}, "the shield grounds the baseplate and cover"})
	}
	return out
}

// lead is the probe that is on a node, or −1.
func (w *wizard) lead(g *guess, node int) int {
	for i := range w.s.Pickup.Leads {
		if g.node[i] == node {
			return i
		}
	}
	return -1
}

// together reports whether two leads are on one winding.
func (w *wizard) together(g *guess, a, b int) bool {
	_, ok := w.d.between(g, g.node[a], g.node[b])
	return ok
}
